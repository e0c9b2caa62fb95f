"""Units, transforms, view boxes and styles, by the worked examples and tables of the standards."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.existing.lengths import length, number, numbers, unit_of
from letterfit.existing.markup import Node
from letterfit.existing.naming import kind_of, name_of
from letterfit.existing.sheet import drawn_sheet
from letterfit.existing.styles import Style, parse_sheet, style_of
from letterfit.existing.transforms import Transform, parse_transform
from letterfit.existing.viewports import Frame, fitted, view_box


@pytest.mark.parametrize(
    ("text", "px"),
    [("1in", 96), ("2.54cm", 96), ("25.4mm", 96), ("101.6q", 96), ("6pc", 96), ("72pt", 96)],
)
def test_an_inch_is_96_px_in_every_unit(text: str, px: float) -> None:
    """The table of absolute lengths: CSS Values and Units 4, section 6.2."""
    assert length(text) == pytest.approx(px)
    assert length(text.upper()) == pytest.approx(px)


def test_percentages_and_ems_are_of_what_they_are_of() -> None:
    """SVG 2, section 8.9: of the viewport; an em of the font size; of the diagonal over root 2."""
    assert length("50%", whole=300) == 150
    assert length("1.5em", em=8) == 12
    assert length("2ex", em=8) == 8
    assert Frame(0, 0, 300, 400).diagonal == pytest.approx(math.hypot(300, 400) / math.sqrt(2))


@pytest.mark.parametrize("text", ["", "mm", "1 2", "nan", "inf", "1e999", "1e12mm", "--4", None])
def test_what_is_no_length_is_none(text: str | None) -> None:
    """Broken numbers, and those that no page has."""
    assert length(text) is None
    assert number(text) is None or text == ""


def test_number_lists_are_parted_by_commas_spaces_and_signs() -> None:
    """SVG 2, section 9.3.9, the grammar's own kind of examples."""
    assert numbers("100-200") == [100, -200]
    assert numbers("0.6.5") == [0.6, 0.5]
    assert numbers("1e2,.5\n-3") == [100, 0.5, -3]
    assert numbers("1,two") is None
    assert unit_of("5 furlongs") == "furlongs"


@pytest.mark.parametrize(
    ("text", "point", "moved"),
    [
        # SVG 1.1, section 7.5, "NewCoordSys": translate(50,50) takes the new origin to (50,50).
        ("translate(50,50)", (0, 0), (50, 50)),
        # 7.5, "RotateScale": translate(50,30) rotate(30): x' = cos 30 x - sin 30 y + 50.
        ("translate(50,30) rotate(30)", (20, 0), (67.320508, 40)),
        # 7.5: translate(200,40) scale(1.5).
        ("translate(200,40) scale(1.5)", (20, 10), (230, 55)),
        # 7.5, "Skew": skewX(30): x' = x + tan 30 y; skewY(30): y' = y + tan 30 x.
        ("translate(30,30) skewX(30)", (0, 30), (47.320508, 60)),
        ("translate(200,30) skewY(30)", (50, 0), (250, 58.867513)),
        # 7.4, nested: translate(50,90), rotate(-45), translate(130,160) as one list; the
        # specification's own matrix is (.707 -.707 .707 .707 255.03 111.21).
        ("translate(50,90) rotate(-45) translate(130,160)", (0, 0), (255.060966, 111.213203)),
        # 7.6: rotate(a, cx, cy) is translate(cx, cy) rotate(a) translate(-cx, -cy).
        ("rotate(90 10 20)", (15, 20), (10, 25)),
        ("matrix(1 2 3 4 5 6)", (1, 1), (9, 12)),
        ("scale(2),rotate(90)\n translate(1)", (0, 0), (0, 2)),
    ],
)
def test_transforms_move_points_as_the_specification_does(
    text: str, point: tuple[float, float], moved: tuple[float, float]
) -> None:
    """The worked examples of SVG 1.1 (second edition), sections 7.4 to 7.6."""
    transform = parse_transform(text)
    assert transform is not None
    assert transform.point(*point) == pytest.approx(moved, abs=1e-5)


def test_the_nested_examples_matrix_is_the_specifications() -> None:
    """SVG 1.1, section 7.5: .707 -.707 .707 .707 and 255.03 111.21, printed to three digits."""
    one = parse_transform("translate(50,90) rotate(-45) translate(130,160)")
    assert one is not None
    assert (one.a, one.b, one.c, one.d) == pytest.approx((0.707, -0.707, 0.707, 0.707), abs=5e-4)
    assert (one.e, one.f) == pytest.approx((255.03, 111.21), abs=0.05)


@pytest.mark.parametrize(
    "text", ["tilt(4)", "rotate(1 2)", "matrix(1 2)", "scale(", "scale(1e9) scale(1e9)", "x"]
)
def test_broken_transforms_are_none(text: str) -> None:
    """As for renderers, the element is then in error."""
    assert parse_transform(text) is None


@given(st.lists(st.floats(-5, 5), min_size=6, max_size=6))
def test_composing_is_doing_one_after_the_other(values: list[float]) -> None:
    """For any two transforms and a point."""
    first, then = Transform(*values), Transform(*reversed(values))
    both = then.after(first).point(3, -2)
    assert both == pytest.approx(then.point(*first.point(3, -2)), abs=1e-9)


@pytest.mark.parametrize(
    ("keep", "corner", "scale"),
    [
        # SVG 2, section 8.6, the figure of preserveAspectRatio: a view box of 30 x 40 in viewports
        # of 50 x 30 (wide) and 30 x 60 (tall).
        ("xMinYMin meet", (0, 0), 0.75),
        ("xMidYMid meet", (13.75, 0), 0.75),
        ("xMaxYMax meet", (27.5, 0), 0.75),
        ("xMidYMin slice", (0, 0), 5 / 3),
        ("xMidYMid slice", (0, (30 - 200 / 3) / 2), 5 / 3),
        ("xMidYMax slice", (0, 30 - 200 / 3), 5 / 3),
        ("", (13.75, 0), 0.75),
    ],
)
def test_view_boxes_are_laid_in_their_viewports(
    keep: str, corner: tuple[float, float], scale: float
) -> None:
    """The alignments of SVG 2, section 8.6, in a viewport wider than the view box."""
    laid = fitted(Frame(0, 0, 30, 40), Frame(0, 0, 50, 30), keep)
    assert laid.point(0, 0) == pytest.approx(corner)
    assert (laid.a, laid.d) == pytest.approx((scale, scale))


def test_a_view_box_may_be_stretched() -> None:
    """preserveAspectRatio="none": SVG 2, section 8.2, the example of a viewBox 0 0 1500 1000."""
    laid = fitted(Frame(0, 0, 1500, 1000), Frame(0, 0, 300, 200), "none")
    assert (laid.a, laid.d) == pytest.approx((0.2, 0.2))
    wide = fitted(Frame(0, 0, 1500, 1000), Frame(0, 0, 150, 200), "none")
    assert (wide.a, wide.d) == pytest.approx((0.1, 0.2))
    assert view_box("0 0 -1 5") is None
    assert view_box("0 0 1") is None


@pytest.mark.parametrize(
    ("own", "trim", "noted"),
    [
        ({"width": "170mm", "height": "260mm"}, (170, 260), False),
        ({"width": "17cm", "viewBox": "0 0 340 520"}, (170, 260), True),
        ({"width": "481.889764pt", "height": "737.007874pt"}, (170, 260), False),
        ({"width": "642.519685", "height": "982.677165px"}, (170, 260), True),
        ({"viewBox": "0 0 642.519685 982.677165"}, (170, 260), True),
        ({"width": "100%", "height": "100%", "viewBox": "5 5 96 192"}, (25.4, 50.8), True),
    ],
)
def test_the_page_is_as_large_as_its_attributes_say(
    own: dict[str, str],
    trim: tuple[float, float],
    noted: bool,  # noqa: FBT001 - a case's answer
) -> None:
    """Units as they stand; px, and what is missing, at 96 to the inch, with a note."""
    sheet = drawn_sheet(Node("svg", own, 1))
    assert sheet.trim == pytest.approx(trim)
    assert bool(sheet.findings) == noted


def test_a_stated_trim_scales_the_drawing() -> None:
    """A page drawn in px for another resolution."""
    root = Node("svg", {"width": "1700", "height": "2600"}, 1)
    sheet = drawn_sheet(root, trim=(170, 260))
    assert sheet.to_mm.point(1700, 1300) == pytest.approx((170, 130))
    assert sheet.findings == ()


def test_styles_cascade() -> None:
    """Attributes, then style sheets by specificity, then the style attribute (SVG 2, 6.6)."""
    sheet = parse_sheet(
        "#gate{display:none} /* x */ .st1{fill:none} rect{fill:red} g rect{opacity:0}"
    )

    def style(**own: str) -> Style:
        names = {name.replace("_", "-"): value for name, value in own.items()}
        return style_of(Node("rect", names, 1), Style(), sheet=sheet)

    assert style().filled
    assert not style(**{"class": "st1"}).filled
    assert style(**{"class": "st1"}, style="fill:#fff").filled
    assert not style(id="gate").shown
    assert style(id="gate", style="display:inline").shown
    assert not style(opacity="0").shown
    assert not style(visibility="hidden").visible
    assert style(stroke="#000").stroked
    assert not style(stroke="#000", stroke_opacity="0").stroked
    assert style(font_size="12pt").font_size == pytest.approx(16)
    assert style(font_size="150%").font_size == pytest.approx(24)
    assert style(style="font: bold 9px/11px Sans").font_size == 9
    assert style(letter_spacing="0.5em").spacing == pytest.approx(8)


def test_hidden_in_hidden_stays_hidden_but_visibility_can_come_back() -> None:
    """display:none takes the subtree out; a visible child of a hidden group is drawn (CSS 2.2)."""
    hidden = style_of(Node("g", {"visibility": "hidden"}, 1), Style(), sheet={})
    assert style_of(Node("rect", {"visibility": "visible"}, 1), hidden, sheet={}).visible
    gone = style_of(Node("g", {"display": "none"}, 1), Style(), sheet={})
    assert not style_of(Node("rect", {"display": "inline"}, 1), gone, sheet={}).shown


@pytest.mark.parametrize(
    ("attributes", "kind"),
    [
        ({"id": "panel-1.3"}, "panel"),
        ({"label": "PANELS"}, "panel"),
        ({"id": "layer3", "label": "Speech balloons"}, "balloon"),
        ({"class": "balloon caption"}, "caption"),
        ({"id": "balloon-tails"}, "tail"),
        ({"id": "panel_text"}, "lettering"),
        ({"data-name": "CaptionBoxes"}, "caption"),
        ({"id": "captions_x0020_2"}, "caption"),
        ({"id": "panellist"}, None),
        ({"id": "context"}, None),
        ({"class": "label"}, "label"),
        ({}, None),
    ],
)
def test_names_say_what_things_are(attributes: dict[str, str], kind: str | None) -> None:
    """Words of ids, labels and classes, in any case, whole words only."""
    assert kind_of(attributes) == kind


def test_things_without_a_name_are_named_by_their_line() -> None:
    """A label is shown before an id."""
    assert name_of({"id": "g1", "label": "Panels"}, "g", 4) == "Panels"
    assert name_of({}, "rect", 4) == "rect, line 4"
