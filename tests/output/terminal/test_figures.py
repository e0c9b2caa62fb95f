"""The section on figures: what every tier holds, who breaks the distance, what it would take."""

from dataclasses import replace

from letterfit.geometry import Rect
from letterfit.output.terminal.report import to_text
from letterfit.report.model import FigureRemedy, PageReport, PanelReport, ScriptReport
from tests.output import reports


def section(report: ScriptReport, *, width: int = 80) -> str:
    """What stands from FIGURES to the pace."""
    text = to_text(report, width=width)
    return text[text.index("FIGURES  ") : text.index("PACE  ")] if "FIGURES" in text else ""


def panel(number: int, figure: float, *, remedy: FigureRemedy | None = None) -> PanelReport:
    """A panel that holds a figure, and perhaps should hold a taller one."""
    rect = Rect(8, 16 + 60 * (number - 1), 100, 55)
    plain = reports.panel(f"1.{number}", rect)
    return replace(plain, figure_height_mm=figure, steadied=remedy)


def low(number: int, figure: float) -> PanelReport:
    """A panel that breaks the distance."""
    return panel(number, figure, remedy=FigureRemedy(height_mm=40, words=number, tier_mm=58))


def test_every_tier_and_the_steady_height_are_told() -> None:
    """By hand: tiers of 40, 44 and 50 mm; three quarters of the middle one are 33 mm."""
    told = section(reports.report(reports.page(1, panel(1, 40), panel(2, 44), panel(3, 50))))
    assert "40 / 44 / 50" in told
    assert "33 mm" in told
    assert "none" in told
    assert "75% of the page's middle panel (common practice)" in told


def test_a_panel_that_breaks_it_says_what_it_would_take() -> None:
    """The panel, what it holds, and each way out."""
    told = section(reports.report(reports.page(1, panel(1, 50), low(2, 20))), width=160)
    assert "1.2, 20 mm: cut 2 words, or make the tier 58 mm high" in told


def test_one_without_a_way_out_moves_closer() -> None:
    """Where nothing was found the view has to move."""
    bare = panel(2, 20, remedy=FigureRemedy(height_mm=40))
    told = section(reports.report(reports.page(1, panel(1, 50), bare)), width=160)
    assert "1.2, 20 mm: let the view move closer" in told


def test_of_many_the_lowest_are_told_and_the_rest_counted() -> None:
    """Three of five, the lowest figures first."""
    lows = [low(number, 30 - number) for number in range(1, 6)]
    told = section(reports.report(reports.page(1, *lows)), width=160)
    assert [told.index(f"1.{n}, ") for n in (5, 4, 3)] == sorted(
        told.index(f"1.{n}, ") for n in (5, 4, 3)
    )
    assert "1.2, " not in told
    assert "and 2 more" in told


def test_a_tier_with_a_panel_that_is_not_placed_has_no_figure() -> None:
    """A dash: 0 mm would be a claim."""
    fails = replace(panel(1, 0), verdict="impossible")
    assert "- / 44" in section(reports.report(reports.page(1, fails, panel(2, 44))))


def test_long_reports_list_only_pages_where_something_breaks() -> None:
    """Seven pages of which one breaks the distance: one row. None does: no section."""
    calm = [reports.page(number, panel(1, 40)) for number in range(1, 8)]
    assert section(reports.report(*calm)) == ""
    broken: list[PageReport] = [*calm[:6], reports.page(7, panel(1, 40), low(2, 20))]
    told = section(reports.report(*broken))
    assert [line.split()[0] for line in told.splitlines()[2:-1]] == ["7", "mm"]
    assert max(map(len, told.splitlines())) <= 80
