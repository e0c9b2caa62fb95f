"""The table of figures: how tall one stands page by page, tier by tier, and what breaks that."""

from collections.abc import Iterator

from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.model import PageReport, PanelReport, ScriptReport
from letterfit.report.page import figure_ways
from letterfit.report.panel_findings import one_of

LONG = 6
"""In a report of more pages than this only those are listed where something breaks the distance."""

MOST_TOLD = 3
"""So many panels of a page are told of, the lowest figures first; the rest are counted."""

COLUMNS = (
    Column(head="page"),
    Column(head="tier by tier, mm"),
    Column(head="steady", right=True),
    Column(head="holds less: what it would take", wraps=True),
)


def write_figures(sheet: Sheet, report: ScriptReport) -> None:
    """A line for each page: the figure every panel of a tier holds, and who breaks the distance."""
    placed = [page for page in report.pages if any(p.verdict == "placed" for p in page.panels)]
    pages = [page for page in placed if len(placed) <= LONG or any(_breaking(page))]
    if not pages:
        return
    sheet.line(
        Cell("FIGURES", "strong"),
        f"  steady: {report.limits.steady_share:.0%} of the page's middle panel "
        f"({report.limits.basis('steady_share')})",
        indent=9,
    )
    sheet.table(COLUMNS, [_row(page) for page in pages])
    sheet.line()


def _row(page: PageReport) -> list[Cell | str]:
    low = sorted(_breaking(page), key=lambda panel: panel.figure_height_mm)
    told = [_told(panel) for panel in low[:MOST_TOLD]]
    if len(low) > MOST_TOLD:
        told.append(f"and {len(low) - MOST_TOLD} more; letterfit tiers looks for another grid")
    return [
        page.label,
        " / ".join(_tiers(page)),
        f"{page.steady_height_mm:.0f} mm",
        "\n".join(told) or "none",
    ]


def _tiers(page: PageReport) -> Iterator[str]:
    """The figure that all panels of a tier hold; a dash where one of them is not placed."""
    for own, height in zip(page.tier_panels, page.tier_figure_heights_mm, strict=True):
        yield f"{height:.0f}" if all(panel.verdict == "placed" for panel in own) else "-"


def _breaking(page: PageReport) -> Iterator[PanelReport]:
    return (panel for panel in page.panels if panel.steadied is not None)


def _told(panel: PanelReport) -> str:
    assert panel.steadied is not None  # noqa: S101 - `_breaking` sees to it
    ways = figure_ways(panel.steadied)
    todo = one_of(ways) if ways else "Let the view move closer"
    return f"{panel.id}, {panel.figure_height_mm:.0f} mm: {todo[0].lower()}{todo[1:]}"
