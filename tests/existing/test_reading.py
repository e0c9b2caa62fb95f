"""Reading pages: as different programs write them, and what nobody should have to read."""

import gzip
import math
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.existing import walk
from letterfit.existing.markup import MOST_DEPTH
from tests.existing import pages

TRIM = (170.0, 260.0)
MM_PAGE = pages.in_mm().encode()


def measured(data: bytes, trim: tuple[float, float] | None = None) -> lf.PageMeasures:
    """What a page measures."""
    return lf.measure_page(lf.parse_drawn_page(data, trim=trim))


@cache
def _measured_once(svg: str) -> lf.PageMeasures:
    """What a page measures that is asked about again and again."""
    return measured(svg.encode())


def codes(page: lf.DrawnPage) -> list[str]:
    """The codes of a page's findings."""
    return [finding.code for finding in page.findings]


def test_a_page_by_hand() -> None:
    """The panels, areas and tiers are those that were drawn; every balloon has its words."""
    page = measured(MM_PAGE)
    assert page.trim == pytest.approx(TRIM)
    assert [panel.area_mm2 for panel in page.panels] == pytest.approx(
        [72 * 110, 74 * 110, 150 * (113 + 121) / 2]
    )
    assert [panel.shape for panel in page.panels] == ["rectangle", "rectangle", "convex polygon"]
    assert [(tier.panels, round(tier.height_mm, 3)) for tier in page.tiers] == [(2, 110), (1, 121)]
    assert [panel.words for panel in page.panels] == [6, 3, 4]
    assert [panel.effects for panel in page.panels] == [0, 0, 1]
    assert page.panels[0].coverage == pytest.approx(math.pi * 18 * 9 / (72 * 110), rel=3e-4)
    assert page.panels[2].coverage == pytest.approx(60 * 9 / (150 * 117))
    # The widest box 1:3 right of the caption: 85 wide would be 255 high, so the roof decides,
    # and the floor, which falls to the left: 0.0533 a mm, 8 / 150.
    room = page.panels[2].figure_height_mm
    assert 113 < room < 121
    assert page.panels[2].doubt is None


@pytest.mark.parametrize("way", pages.PAGES)
def test_one_page_measures_the_same_however_it_is_written(way: str) -> None:
    """mm, px, pt, matrices, symbols: within 0.01 mm and a hundredth of a point of cover."""
    page, other = measured(MM_PAGE), measured(pages.PAGES[way]().encode(), TRIM)
    assert other.trim == pytest.approx(TRIM)
    assert len(page.panels) == len(other.panels) == 3
    for one, two in zip(page.panels, other.panels, strict=True):
        sides = (two.rect.x, two.rect.y, two.rect.width, two.rect.height)
        assert sides == pytest.approx(
            (one.rect.x, one.rect.y, one.rect.width, one.rect.height), abs=0.002
        )
        assert two.coverage == pytest.approx(one.coverage, abs=1e-4)
        assert two.figure_height_mm == pytest.approx(one.figure_height_mm, abs=0.01)
        assert (two.words, two.order, len(two.balloons)) == (
            one.words,
            one.order,
            len(one.balloons),
        )
        assert two.effects_share == pytest.approx(one.effects_share, abs=1e-4)
        assert [b.clearance_mm for b in two.balloons] == pytest.approx(
            [b.clearance_mm for b in one.balloons], abs=0.01
        )


def test_it_is_said_what_told_each_thing() -> None:
    """Layers tell by name; a page that names nothing is told by size and nesting."""
    named, bare = measured(MM_PAGE), measured(pages.in_pt().encode())
    assert {panel.told_by for panel in named.panels} == {"name"}
    assert {b.told_by for panel in named.panels for b in panel.balloons} == {"name"}
    assert {panel.told_by for panel in bare.panels} == {"geometry"}
    assert {b.told_by for panel in bare.panels for b in panel.balloons} == {"geometry"}


def test_the_pages_own_font_is_not_at_hand_and_that_is_said() -> None:
    """Live text is measured in the bundled face, or in the one that was given."""
    page = lf.parse_drawn_page(MM_PAGE)
    assert page.typeface == "Grandstander"
    assert "other-typeface" in codes(page)
    wide = lf.parse_drawn_page(MM_PAGE, lettering=lf.Lettering(typeface="Bangers"))
    assert wide.typeface == "Bangers"
    ink = [p.panels[0].balloons[0].lettering[0].box.width for p in (page, wide)]
    assert ink[0] != pytest.approx(ink[1], abs=0.1)


def test_text_that_leaves_its_balloon_is_a_fault() -> None:
    """The planted fault: letters twice as large reach out, and the page does not fit."""
    large = MM_PAGE.replace(b'font-size="2.8"', b'font-size="6"')
    page = measured(large)
    assert not page.fits
    assert {f.code for f in page.findings if f.severity == "error"} == {"lettering-outside"}
    fault = page.panels[0].faults[0]
    assert fault.outside_mm > 1
    assert fault.text.startswith("THE TIDE TURNED")


def test_the_air_is_held_against_what_is_asked() -> None:
    """A balloon whose letters keep 2 mm is close only where more is asked."""
    page = lf.parse_drawn_page(MM_PAGE)
    air = measured(MM_PAGE).panels[0].balloons[0].clearance_mm
    near = lf.measure_page(page, air_mm=air + 0.1)
    assert "lettering-close" in [f.code for f in near.findings if f.where == "1.1"]
    far = lf.measure_page(page, air_mm=air - 0.1)
    assert [f for f in far.findings if f.where == "1.1"] == []


def test_a_packed_page_is_unpacked() -> None:
    """An .svgz is the same page."""
    assert measured(gzip.compress(MM_PAGE)) == measured(MM_PAGE)


def test_a_page_without_panels_is_one_panel_and_that_is_said() -> None:
    """A balloon on an empty page."""
    page = lf.parse_drawn_page(
        f"<svg {pages.sheet(pages.MM, 'mm')}>{pages.balloons(pages.MM)}"
        f"{pages.words(pages.MM)}</svg>".encode()
    )
    assert codes(page)[-1] == "no-panels"
    (panel,) = page.panels
    assert (panel.rect.width, panel.rect.height) == pytest.approx(TRIM)
    assert len(panel.balloons) == 3


def test_panels_that_overlap_are_named() -> None:
    """Two panels that share a strip: a warning that says by how much."""
    two = pages.rect(pages.MM, (10, 10, 80, 90), 'class="panel"')
    two += pages.rect(pages.MM, (60, 20, 90, 90), 'class="panel"')
    page = lf.parse_drawn_page(f"<svg {pages.sheet(pages.MM, 'mm')}>{two}</svg>".encode())
    (finding,) = page.findings
    assert finding.code == "panels-overlap"
    assert "30.0 x 80.0 mm" in finding.message
    assert len(lf.measure_page(page).panels) == 2


ROOT = f"<svg {pages.sheet(pages.MM, 'mm')}>"
PANEL = '<rect class="panel" x="10" y="10" width="100" height="100"/>'


@pytest.mark.parametrize(
    ("inside", "named"),
    [
        ("<script>fetch('x')</script>", "script"),
        ("<foreignObject><p>HOLD</p></foreignObject>", "foreignObject"),
        ('<image href="http://example.org/x.png" width="90" height="90"/>', "image"),
        ('<use href="other.svg#a"/>', "use of another file"),
        ('<use xlink:href="#none"/>', "use of what is not there"),
        ('<g id="a"><use href="#a"/></g>', "use of itself"),
        ('<rect onclick="x()" width="20" height="20"/>', "event attribute"),
        ('<path d="M0 0 L oops"/>', "path that cannot be read"),
        ('<path d="M0 0 L 1e308 5 L 9 9 Z"/>', "path that cannot be read"),
        ('<g transform="tilt(4)"><rect width="50" height="50"/></g>', "broken transform"),
        ("<text><textPath>HOLD</textPath></text>", "textPath"),
    ],
)
def test_what_is_left_out_is_named(inside: str, named: str) -> None:
    """Scripts, foreign content, outside references and broken things: a note each, no more."""
    page = lf.parse_drawn_page(f"{ROOT}{PANEL}{inside}</svg>".encode(), source="lock.svg")
    notes = [f for f in page.findings if f.code == "drawing-not-read"]
    assert [note.message.split(" at line")[0] for note in notes] == [named]
    assert len(page.panels) == 1
    assert page.panels[0].covers == ()


BOMB = "".join(
    f'<!ENTITY b{n} "{f"&b{n - 1};" * 10 if n else "HOLD"}">'  # each ten times the one before
    for n in range(12)
)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (f"<!DOCTYPE svg [{BOMB}]>{ROOT}<text>&b11;</text></svg>", "document type"),
        (f'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>{ROOT}&x;</svg>', "document"),
        (f"{ROOT}<text>&unknown;</text></svg>", "undefined entity"),
        (f"{ROOT}<g></svg>", "mismatched tag"),
        ("", "empty"),
        ("   \n", "empty"),
        ("PAGE ONE\n\nPanel 1.", "well-formed"),
        ("<html><body/></html>", "no SVG drawing"),
        (f"{ROOT}</svg>", "nothing on the page"),
        (f"<svg {pages.NS}>{PANEL}</svg>", "no size"),
        (f'<svg {pages.NS} width="0" height="nan">{PANEL}</svg>', "no size"),
        (f'<svg {pages.NS} width="1e308mm" height="9mm">{PANEL}</svg>', "no size"),
        (f'<svg {pages.NS} width="3mm" height="9mm">{PANEL}</svg>', "cannot be printed"),
        (f"{ROOT}{'<g>' * MOST_DEPTH}{'</g>' * MOST_DEPTH}</svg>", "deep"),
        ('<?xml version="1.0" encoding="klingon"?><svg/>', "encoding"),
    ],
)
def test_unusable_pages_are_told_in_one_line(data: str, told: str) -> None:
    """An error that names the file; nothing is expanded, fetched or run."""
    with pytest.raises(lf.DrawingError) as error:
        lf.parse_drawn_page(data.encode(), source="lock.svg")
    assert told in str(error.value)
    assert str(error.value).startswith("lock.svg")
    assert "\n" not in str(error.value)


@pytest.mark.parametrize(
    "data",
    [
        b"\xff\xfe\x00\xd8",
        b"\x1f\x8b\x08broken",
        MM_PAGE[: len(MM_PAGE) // 2],
        MM_PAGE.replace(b"LOCK", b"\xe9\xff"),
        gzip.compress(b"<svg>" + b" " * 70_000_000),
    ],
)
def test_bytes_that_are_no_page_are_refused(data: bytes) -> None:
    """Broken encodings, cut files, files that unpack to more than there may be."""
    with pytest.raises(lf.DrawingError):
        lf.parse_drawn_page(data)


@pytest.mark.parametrize("trim", [(0.0, -1.0), (170.0, 0.0), (math.nan, 170.0), (math.inf, 260.0)])
def test_a_trim_that_is_no_page_is_refused(trim: tuple[float, float]) -> None:
    """Whatever the numbers are, they are told as a size that does not print."""
    with pytest.raises(lf.DrawingError, match="cannot be printed"):
        lf.parse_drawn_page(MM_PAGE, trim=trim)


def test_a_trim_of_other_proportions_is_refused() -> None:
    """A page as wide as high does not print on a tall sheet."""
    with pytest.raises(lf.DrawingError, match=r"0\.654 as wide as high"):
        lf.parse_drawn_page(MM_PAGE, trim=(200, 200))


def test_uses_that_multiply_are_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each group uses the one before it ten times: 10^9 ellipses are not drawn."""
    monkeypatch.setattr(walk, "MOST_VISITED", 3000)
    uses = [f'<use href="#g{n}"/>' * 10 for n in range(9)]
    groups = "".join(f'<g id="g{n}">{ten}</g>' for n, ten in enumerate(uses, start=1))
    first = '<ellipse id="g0" rx="1" ry="1"/>'
    with pytest.raises(lf.DrawingError, match="3,000"):
        lf.parse_drawn_page(f"{ROOT}<defs>{first}{groups}</defs><use href='#g9'/></svg>".encode())


def test_a_hundred_thousand_elements_of_artwork_are_passed_over() -> None:
    """Strokes and groups are counted for nothing; the panel is there."""
    strokes = f'<path d="M9 9h1v1z"/>{"<g/>" * 24}' * 4000
    page = lf.parse_drawn_page(f"{ROOT}{PANEL}{strokes}</svg>".encode())
    assert len(page.panels) == 1
    assert page.findings == ()


def test_thousands_of_shapes_as_large_as_panels_are_refused() -> None:
    """Artwork that cannot be told from panels: an error that says what to do."""
    many = "".join(f'<rect x="{n % 7}" width="90" height="9{n % 9}"/>' for n in range(500))
    with pytest.raises(lf.DrawingError, match="name the panels"):
        lf.parse_drawn_page(f"{ROOT}{many}</svg>".encode())


@settings(max_examples=40, deadline=None)
@given(
    places=st.lists(st.integers(0, len(MM_PAGE) - 1), max_size=6),
    values=st.lists(st.integers(0, 255), min_size=6, max_size=6),
    cut=st.integers(0, 300),
)
def test_mutated_pages_give_a_page_or_an_error(
    places: list[int], values: list[int], cut: int
) -> None:
    """Changed bytes and lost stretches: measures within their bounds, or an error of our own."""
    data = bytearray(MM_PAGE)
    for place, value in zip(places, values, strict=False):
        data[place] = value
    if places:
        del data[places[0] : places[0] + cut]
    try:
        page = measured(bytes(data))
    except lf.LetterfitError:
        return
    for panel in page.panels:
        assert 0 <= panel.coverage <= 1 + 1e-9
        assert 0 <= panel.figure_height_mm <= panel.rect.height + 1e-6


@settings(max_examples=12, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["translate", "rotate", "scale", "skewX"]),
            st.floats(-60, 60).filter(lambda v: abs(v) > 0.2),
        ),
        min_size=1,
        max_size=5,
    )
)
def test_transforms_that_cancel_out_change_nothing(steps: list[tuple[str, float]]) -> None:
    """Any transforms, then their opposites in the other order: the same measures."""
    undo = {"scale": lambda v: 1 / v}
    there = " ".join(f"{name}({value!r})" for name, value in steps)
    back = " ".join(
        f"{name}({undo.get(name, lambda v: -v)(value)!r})" for name, value in reversed(steps)
    )
    layer = f'<g class="panels">{pages.panels(pages.MM)}</g>'
    layer += f'<g class="balloons">{pages.balloons(pages.MM)}</g>'
    plain = _measured_once(f"{ROOT}{layer}</svg>")
    moved = measured(
        f'{ROOT}<g transform="{there}"><g transform="{back}">{layer}</g></g></svg>'.encode()
    )
    for one, two in zip(plain.panels, moved.panels, strict=True):
        assert two.coverage == pytest.approx(one.coverage, abs=1e-5)
        assert two.figure_height_mm == pytest.approx(one.figure_height_mm, abs=1e-3)


def test_the_same_bytes_give_the_same_measures() -> None:
    """Nothing but the file decides."""
    once, again = measured(MM_PAGE), measured(MM_PAGE)
    assert once == again


def test_a_file_is_read_by_its_name(tmp_path: Path) -> None:
    """The source is the name as given; a missing file is the system's error."""
    file = tmp_path / "lock.svg"
    file.write_bytes(MM_PAGE)
    page = lf.read_drawn_page(file)
    assert page.source == str(file)
    assert lf.measure_page(page).panels == measured(MM_PAGE).panels
    with pytest.raises(FileNotFoundError):
        lf.read_drawn_page(tmp_path / "none.svg")
    with pytest.raises(lf.DrawingError, match="NUL"):
        lf.read_drawn_page("a\0b")


def test_tiers_come_from_top_to_bottom() -> None:
    """However the file orders them."""
    rows = [pages.rect(pages.MM, (10, top, 150, 50), 'class="panel"') for top in (130, 10, 70)]
    page = measured(f"{ROOT}{''.join(rows)}</svg>".encode())
    tops = [panel.rect.y for panel in page.panels]
    assert all(one < two for one, two in pairwise(tops))
    assert len(page.tiers) == 3
