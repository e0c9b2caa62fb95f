"""The steady distance: which panels break it, and what would mend each, run again."""

from dataclasses import replace

import pytest

from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport, PanelReport
from letterfit.report.steadying import unsteady
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.report.test_page import panels

LONG = (
    "The tide turned an hour ago, and nobody has come to ask why the gate is shut, "
    "so I shall keep it shut until somebody does."
)
SCRIPT = parse_script(
    f"PAGE 1\n\nPanel 1.\nWENNA: Hold.\n\nPanel 2.\nWENNA: {LONG}\n\n"
    "Panel 3.\nWENNA: Hold.\n\nPanel 4.\n\n"
)
PAPER = Paper.named("a6")


def laid(plan: str, *, text: str = LONG) -> PageReport:
    """The four panels on an A6 page of that plan, the second with a text of its own."""
    page = replace(SCRIPT.pages[0], plan=plan)
    second = page.panels[1]
    (speech,) = second.elements
    second = replace(second, elements=(replace(speech, text=text),))
    page = replace(page, panels=(page.panels[0], second, *page.panels[2:]))
    return preflight(replace(SCRIPT, pages=(page,)), paper=PAPER).pages[0]


def low(page: PageReport) -> PanelReport:
    """The one panel that breaks the distance."""
    (panel,) = (panel for panel in page.panels if panel.steadied is not None)
    return panel


def test_a_panel_under_the_share_of_the_middle_one_breaks_the_distance() -> None:
    """By hand: three quarters of 40 mm are 30; of two middle ones the taller counts."""
    assert unsteady(panels([40, 41, 29.9, 40]), share=0.75) == {2: pytest.approx(30)}
    assert unsteady(panels([40, 41, 30, 40]), share=0.75) == {}
    assert unsteady(panels([20, 40]), share=0.75) == {0: pytest.approx(30)}
    assert unsteady(panels([20]), share=0.75) == unsteady((), share=0.75) == {}


def test_a_panel_that_is_not_placed_neither_sets_nor_breaks_the_distance() -> None:
    """Its overflow says more."""
    first, second, third = panels([40, 40, 0])
    assert unsteady((first, second, replace(third, verdict="impossible")), share=0.75) == {}


def test_what_is_told_makes_the_figure_stand_when_the_page_is_run_again() -> None:
    """As high a tier, or so many words fewer, as told: the panel keeps the same distance."""
    page = laid("2 / 2")
    panel = low(page)
    remedy = panel.steadied
    assert remedy is not None
    assert panel.id == "1.2"
    assert remedy.height_mm == pytest.approx(page.steady_height_mm)
    assert remedy.tier_mm is not None
    assert remedy.tier_mm > panel.rect.height
    rest = page.plan.paper.live.height - page.plan.paper.gutter_mm - remedy.tier_mm
    again = laid(f"2 @{remedy.tier_mm:.4f} / 2 @{rest:.4f}").panels[1]
    assert again.figure_height_mm >= remedy.height_mm - 0.01
    assert remedy.words is not None
    shorter = " ".join(LONG.split()[: -remedy.words])
    assert laid("2 / 2", text=shorter).panels[1].figure_height_mm >= remedy.height_mm - 0.01


def test_one_less_than_told_does_not_do() -> None:
    """A word fewer cut, a millimetre less of tier: the figure does not stand."""
    page = laid("2 / 2")
    remedy = low(page).steadied
    assert remedy is not None
    assert remedy.tier_mm is not None
    assert remedy.words is not None
    tier = remedy.tier_mm - 1
    rest = page.plan.paper.live.height - page.plan.paper.gutter_mm - tier
    again = laid(f"2 @{tier:.4f} / 2 @{rest:.4f}").panels[1]
    assert again.figure_height_mm < remedy.height_mm
    shorter = " ".join(LONG.split()[: 1 - remedy.words or None])
    assert laid("2 / 2", text=shorter).panels[1].figure_height_mm < remedy.height_mm


def test_a_silent_panel_too_low_is_told_its_height() -> None:
    """Without words there are none to cut: only its tier, or its width, can give it the figure."""
    panel = low(laid("3 / 1 @0.4", text="Hold."))
    assert panel.words == 0
    assert panel.steadied is not None
    assert panel.steadied.words is None
    assert panel.steadied.tier_mm == -(-panel.steadied.height_mm // 1)
    assert panel.steadied.panel_mm is None
