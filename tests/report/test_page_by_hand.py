"""A page of two tiers and four panels, every figure of its report worked out by hand.

The box font (tests/box_font.py) has advances of 0.6 em for capitals, 0.3 em for I and the space;
ink begins and ends 0.05 em inside the advance and capitals are 0.7 em high. Dialogue is set at
10.5 pt, captions half a point smaller: at 10 pt 1 em = 10 x 25.4 / 72 = 3.527778 mm. The leading is
1.2 em, and there is 1 mm of air round the ink: a caption of one line is 0.7 em + 2 mm = 4.469444 mm
high, one of two lines 0.7 + 1.2 em + 2 mm = 8.702778 mm.

The live area is 80 x 120 mm, gutters 4 mm: two tiers of (120 - 4) / 2 = 58 mm. The first has one
panel of 80 mm, the second (80 - 2 x 4 = 72 mm to share out as 19:38:15) panels of 19, 38 and 15 mm.
"""

import pytest

import letterfit as lf
from letterfit.geometry import MM_PER_PT, Rect
from letterfit.report.model import PageReport
from letterfit.report.pace import Typical, page_pace
from tests.box_font import box_font

SCRIPT = lf.parse_script(
    "PAGE 1\nTIERS: 1 / 19:38:15\n\n"
    "Panel 1. The gate.\n\nCAPTION: Lock Nine\n\n"
    "Panel 2. The bank.\n\nCAPTION: Mud bank\n\n"
    "Panel 3. The hut.\n\nCAPTION: Noon\n\nCAPTION: Mud\n\n"
    "Panel 4. A gull.\n"
)
LETTERING = lf.Lettering(
    typeface=lf.open_typeface(box_font()), size_pt=10.5, leading=1.2, air_mm=1.0
)
PAPER = lf.Paper(trim=(100, 140), live=Rect(10, 10, 80, 120), gutter_mm=4)
REPORT = lf.preflight(SCRIPT, lettering=LETTERING, paper=PAPER, aside_pt=0.5, check=True)
EM = 10 * MM_PER_PT

ONE_LINE, TWO_LINES = 0.7 * EM + 2, 1.9 * EM + 2
SIZES = {
    # L O C K: 4 x 0.6; space 0.3; N I N E: 3 x 0.6 + 0.3: 4.8 em, ink 4.7 em = 16.580556 mm.
    "LOCK NINE": (4.7 * EM + 2, ONE_LINE),
    # In one line 1.8 + 0.3 + 2.4 - 0.1 = 4.4 em = 15.5 mm and 2 mm of air: over the 19 - 2 x 1.5 =
    # 16 mm between the margins. In two the longer is BANK: 4 x 0.6 - 0.1 = 2.3 em = 8.113889 mm.
    "MUD BANK": (2.3 * EM + 2, TWO_LINES),
    "NOON": (2.3 * EM + 2, ONE_LINE),
    # 3 x 0.6 - 0.1 = 1.7 em = 5.997222 mm.
    "MUD": (1.7 * EM + 2, ONE_LINE),
}
"""Width and height of each caption's box, mm."""

IN_MM = {
    "LOCK NINE": (18.580556, 4.469444),
    "MUD BANK": (10.113889, 8.702778),
    "NOON": (10.113889, 4.469444),
    "MUD": (7.997222, 4.469444),
}

PANELS = (Rect(10, 10, 80, 58), Rect(10, 72, 19, 58), Rect(33, 72, 38, 58), Rect(75, 72, 15, 58))
CAPTIONS = (("LOCK NINE",), ("MUD BANK",), ("NOON", "MUD"), ())

COVERED = (
    # 18.580556 x 4.469444 = 83.044762 of 80 x 58 = 4640 mm2
    0.01789758,
    # 10.113889 x 8.702778 = 88.018927 of 19 x 58 = 1102 mm2
    0.07987199,
    # 10.113889 x 4.469444 + 7.997222 x 4.469444 = 45.203464 + 35.743140 = 80.946605 of
    # 38 x 58 = 2204 mm2
    0.03672713,
    0.0,
)

FIGURES = (
    # As high as the panel, 58 / 3 = 19.33 mm wide: 80 - 1.5 - 18.58 = 59.9 mm are free beside.
    58.0,
    # Beside the caption 19 - 1.5 - 10.11 = 7.39 mm, a figure of 22.2 mm; under it
    # 58 - 1.5 - 8.702778 = 47.797222 mm, and a figure as high is 15.9 mm wide.
    47.797222,
    # MUD stands under NOON: 38 - 1.5 - 10.11 = 26.4 mm are free beside, over 19.33.
    58.0,
    # Silent, 15 mm wide: 3 x 15.
    45.0,
)


def page() -> PageReport:
    """The page."""
    return REPORT.pages[0]


def test_panels_stand_where_the_ratios_put_them() -> None:
    """Tiers of 58 mm; widths of 80, and of 19, 38 and 15 mm, with gutters of 4 mm."""
    for panel, wanted in zip(page().panels, PANELS, strict=True):
        assert sides(panel.rect) == pytest.approx(sides(wanted))
    assert [tier.height_mm for tier in page().plan.tiers] == pytest.approx([58, 58])


def sides(rect: Rect) -> tuple[float, float, float, float]:
    """Left, top, width and height."""
    return rect.x, rect.y, rect.width, rect.height


def test_captions_are_as_wide_as_their_letters() -> None:
    """Each box is its ink and 1 mm of air all round; the arithmetic stands beside each."""
    for panel, texts in zip(page().panels, CAPTIONS, strict=True):
        assert len(panel.balloons) == len(texts)
        for balloon, text in zip(panel.balloons, texts, strict=True):
            outline = balloon.fitted.outline
            assert " ".join(line.text for line in balloon.fitted.lines) == text
            assert (balloon.kind, outline.kind) == ("caption", "caption")
            size = (2 * outline.half_width, 2 * outline.half_height)
            assert size == pytest.approx(SIZES[text])
            assert size == pytest.approx(IN_MM[text], abs=1e-6)


def test_the_first_caption_of_a_panel_stands_in_its_corner() -> None:
    """1.5 mm from the left and from the top, where the trade puts place and time."""
    for panel in page().panels[:3]:
        first = panel.balloons[0]
        outline, rect = first.fitted.outline, panel.rect
        assert first.x_mm == pytest.approx(rect.x + 1.5 + outline.half_width)
        assert first.y_mm == pytest.approx(rect.y + 1.5 + outline.half_height)


def test_coverage_is_area_over_area() -> None:
    """1.790 %, 7.987 %, 3.673 % and nothing."""
    for panel, share, texts in zip(page().panels, COVERED, CAPTIONS, strict=True):
        area = sum(SIZES[text][0] * SIZES[text][1] for text in texts)
        assert panel.coverage == pytest.approx(area / (panel.rect.width * panel.rect.height))
        assert panel.coverage == pytest.approx(share, abs=1e-7)


def test_figures_stand_beside_or_under_the_captions() -> None:
    """58, 47.797, 58 and 45 mm; tiers hold 58 and 45 mm, the page 45 mm, set by the last panel."""
    held = [panel.figure_height_mm for panel in page().panels]
    assert held == pytest.approx(FIGURES, abs=1e-6)
    assert page().tier_figure_heights_mm == pytest.approx((58, 45))
    assert page().figure_height_mm == pytest.approx(45)
    lowest = page().lowest_panel
    assert lowest is not None
    assert lowest.id == "1.4"


def test_the_steady_height_is_three_quarters_of_the_middle_one() -> None:
    """Of 45, 47.797, 58 and 58 the upper middle is 58: 43.5 mm, which every panel holds."""
    assert page().steady_height_mm == pytest.approx(0.75 * 58)
    assert all(panel.steadied is None for panel in page().panels)
    assert (page().fits, REPORT.all_findings) == (True, ())


def test_words_and_pace_are_counted() -> None:
    """Words 2, 2, 2 and 0 in panels, 2, 2, 1 and 1 in captions, 2 and 4 in tiers."""
    assert [panel.words for panel in page().panels] == [2, 2, 2, 0]
    assert page().words == 6
    pace = page_pace(page())
    assert (pace.panels, pace.words, pace.balloons, pace.silent_panels) == (4, 6, 4, 1)
    # The middle of 2, 2, 1, 1 is 1.5; of 2, 2, 2, 0 it is 2; of 2, 4 it is 3.
    assert pace.words_per_balloon == Typical(median=1.5, most=2)
    assert pace.words_per_panel == Typical(median=2, most=2)
    assert pace.words_per_tier == Typical(median=3, most=4)
    # Captions in panels 1, 1, 2, 0; panels in tiers 1, 3.
    assert pace.balloons_per_panel == Typical(median=1, most=2)
    assert pace.panels_per_tier == Typical(median=2, most=3)
    assert [tier.words for tier in pace.tiers] == [2, 4]
    assert [tier.silent_panels for tier in pace.tiers] == [0, 1]
    # (83.044762 + 88.018927 + 80.946605) / (4640 + 1102 + 2204 + 870) mm2 = 252.010294 / 8816
    assert pace.mean_coverage == pytest.approx(0.02858556, abs=1e-7)
