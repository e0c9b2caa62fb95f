"""Measures of planned and drawn pages: tiers, insets, doubts, and two pages together."""

from dataclasses import replace

import pytest

import letterfit as lf
from letterfit.geometry import Rect
from letterfit.report.measured_drawing import measure_drawing
from letterfit.report.measured_plan import first_difference
from letterfit.report.measures import all_words
from letterfit.report.tiers import host_of, tiers_of

ROOT = '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="150mm" viewBox="0 0 100 150">'
PANEL = '<rect class="panel" x="5" y="5" width="90" height="140"/>'


def page(inside: str) -> lf.PageMeasures:
    """What a page of 100 x 150 mm measures."""
    return lf.measure_page(lf.parse_drawn_page(f"{ROOT}{inside}</svg>".encode()))


def balloon(x: float, y: float, width: float = 24, height: float = 12) -> str:
    """A caption at a place."""
    return f'<rect class="balloon" x="{x}" y="{y}" width="{width}" height="{height}"/>'


def test_tiers_are_cut_where_a_level_line_meets_no_panel() -> None:
    """A stack beside a tall panel is one tier (Nagy and Seth 1984)."""
    tall, upper, lower = Rect(0, 0, 40, 60), Rect(45, 0, 40, 28), Rect(45, 32, 40, 28)
    below = Rect(0, 65, 85, 30)
    assert tiers_of([below, lower, upper, tall]) == ((3, 2, 1), (0,))
    assert tiers_of([below, lower, upper, tall], reading="rtl")[0] == (2, 1, 3)


def test_borders_that_meet_are_cut_apart() -> None:
    """Panels without a gutter, drawn by hand: an overlap of half a millimetre."""
    assert tiers_of([Rect(0, 0, 90, 50.4), Rect(0, 50, 90, 50)]) == ((0,), (1,))


def test_an_inset_reads_after_its_host_and_takes_its_area() -> None:
    """It is named a panel by itself, inside another."""
    inset = '<rect id="panel-2" x="60" y="100" width="30" height="40"/>'
    host = '<rect id="panel-1" x="5" y="5" width="90" height="140"/>'
    assert host_of(1, [Rect(5, 5, 90, 140), Rect(60, 100, 30, 40)]) == 0
    both = page(inset + host + balloon(62, 102))
    assert [panel.name for panel in both.panels] == ["panel-1", "panel-2"]
    assert both.panels[0].area_mm2 == pytest.approx(90 * 140 - 30 * 40)
    assert both.panels[0].coverage == pytest.approx(0)
    assert both.panels[1].coverage == pytest.approx(24 * 12 / (30 * 40))
    assert both.panels[0].figure_height_mm == pytest.approx(140)


def test_readers_who_differ_make_a_doubt() -> None:
    """A stack of two beside one tall balloon (Cohn 2013): the X-Y cut takes the stack first."""
    stack = balloon(8, 10) + balloon(8, 40) + balloon(60, 12, height=60)
    (panel,) = page(PANEL + stack).panels
    assert panel.order == "doubtful"
    assert panel.doubt == (2, 3)
    (clear,) = page(PANEL + balloon(8, 10) + balloon(60, 40)).panels
    assert (clear.order, clear.doubt) == ("certain", None)


def test_a_hundredth_of_a_millimetre_makes_no_doubt() -> None:
    """Tops just level to the eye, as rounding may leave them."""
    level = 0.1 * 12
    pair = balloon(60, 20) + balloon(8, 20 + level + 0.004)
    (panel,) = page(PANEL + pair).panels
    assert panel.order == "certain"


def test_what_overlaps_counts_once_and_what_leaves_the_panel_does_not() -> None:
    """Two balloons that share 100 mm2, one of them half outside."""
    pair = balloon(5, 20, 20, 20) + balloon(15, 30, 20, 20) + balloon(-10, 60, 30, 10)
    (panel,) = page(PANEL + pair).panels
    assert panel.coverage == pytest.approx((400 + 400 - 100 + 15 * 10) / (90 * 140))


@pytest.mark.parametrize(("height", "told"), [(46, []), (47, ["coverage"])])
def test_a_panel_covered_by_more_than_a_third_is_told(height: float, told: list[str]) -> None:
    """A caption as wide as a panel of 140 mm, a third of whose height is 46.67 mm."""
    inside = PANEL + balloon(5, 5, 90, height)
    measures = measure_drawing(lf.parse_drawn_page(f"{ROOT}{inside}</svg>".encode()))
    assert [finding.code for finding in measures.findings] == told


def test_words_that_nobody_says_are_not_known() -> None:
    """Lettering as outlines without a label: no number of words, but its ink counts."""
    ink = '<g class="lettering"><path d="M10 12h18v4h-18z"/></g>'
    (panel,) = page(PANEL + balloon(8, 10) + ink).panels
    assert panel.words is None
    assert panel.balloons[0].clearance_mm == pytest.approx(2)
    assert all_words([]) == 0


def test_a_layer_of_outlines_for_many_balloons_is_shared_out() -> None:
    """Each piece belongs to the balloon that contains its middle; the last to none."""
    layer = '<g id="text"><path d="M10 12h18v4h-18z"/><path d="M60 52h18v4h-18z"/>'
    layer += '<path d="M60 100h18v4h-18z"/></g>'
    (panel,) = page(PANEL + balloon(8, 10) + balloon(58, 50) + layer).panels
    assert [len(b.name) > 0 and b.clearance_mm for b in panel.balloons] == pytest.approx([2, 2])
    assert panel.effects == 1
    assert panel.effects_share == pytest.approx(18 * 4 / (90 * 140))


def test_a_tail_of_its_own_covers_but_takes_no_figure_room() -> None:
    """A wedge in the balloons' group that lies across the outline."""
    tail = '<path class="balloon" d="M15 20h6l-4 80z"/>'
    text = '<text x="12" y="17" font-size="3">HOLD.</text>'
    (bare,) = page(PANEL + balloon(8, 10) + text).panels
    (panel,) = page(PANEL + balloon(8, 10) + tail + text).panels
    assert panel.coverage > bare.coverage
    assert panel.figure_height_mm == pytest.approx(bare.figure_height_mm)
    assert len(panel.balloons) == 1


def test_comparing_matches_panels_by_order() -> None:
    """A page with a panel more has it beside nothing."""
    one = page(PANEL)
    two = page(PANEL.replace('height="140"', 'height="60"') + PANEL.replace('y="5"', 'y="75"'))
    both = lf.compare_pages(one, two)
    assert [(a is None, b is None) for a, b in both.panels] == [(False, False), (True, False)]
    assert len(both.tiers) == 2
    assert both.fits
    assert not lf.compare_pages(
        one, replace(two, panels=(replace(two.panels[0], placed=False),))
    ).fits


def test_a_planned_page_keeps_the_reports_figures() -> None:
    """Nothing is measured twice."""
    script = lf.parse_script("PAGE 1\n\nPanel 1. The gate.\n\nWENNA: Lock's shut!\n")
    report = lf.preflight(script)
    planned = lf.measure_page(report.pages[0], source="gate.txt")
    panel = report.pages[0].panels[0]
    assert planned.panels[0].coverage == panel.coverage
    assert planned.panels[0].figure_height_mm == panel.figure_height_mm
    assert planned.words == 2
    assert planned.origin == "planned"
    assert first_difference((0, 1), (0, 1)) is None


def test_impossible_numbers_are_refused() -> None:
    """An air under 0, an aspect of nothing."""
    drawn = lf.parse_drawn_page(f"{ROOT}{PANEL}</svg>".encode())
    with pytest.raises(lf.PageError):
        lf.measure_page(drawn, air_mm=-1)
    with pytest.raises(lf.PageError):
        lf.measure_page(drawn, figure_aspect=float("nan"))
