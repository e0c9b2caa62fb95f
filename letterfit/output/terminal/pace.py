"""The table of pace: words page by page against the limit, as numbers and as a bar."""

from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.model import PageReport, ScriptReport

BAR_CELLS = 20
"""Length of the bar of a page that is just at the limit."""

COLUMNS = (
    Column(head="page"),
    Column(head="words", right=True),
    Column(head="against the limit"),
    Column(head="panels", right=True),
    Column(head="balloons", right=True),
    Column(head="words each", right=True),
    Column(head="figure", right=True),
)


def write_pace(sheet: Sheet, report: ScriptReport) -> None:
    """A line for each page: words, panels, balloons, words in a balloon, the common figure."""
    limits = report.limits
    sheet.line(
        Cell("PACE", "strong"),
        f"  advice: {limits.words_per_page} words a page, {limits.words_per_panel} a panel, "
        f"{limits.words_per_balloon} a balloon",
        indent=6,
    )
    sheet.table(COLUMNS, [_row(page, report) for page in report.pages])


def _row(page: PageReport, report: ScriptReport) -> list[Cell | str]:
    limit = report.limits.words_per_page * page.plan.paper.pages
    balloons = sum(len(panel.balloons) for panel in page.panels)
    over = page.words > limit
    return [
        page.label,
        Cell(str(page.words), "doubt" if over else ""),
        Cell(bar(page.words / limit) + (" !" if over else ""), "doubt" if over else "quiet"),
        str(len(page.panels)),
        str(balloons),
        f"{page.words / balloons:.1f}" if balloons else "-",
        f"{page.figure_height_mm:.0f} mm" if page.fits and page.panels else "-",
    ]


def bar(share: float) -> str:
    """A bar that is full at the limit; what goes over it is drawn heavier, up to a quarter more.

    >>> bar(0.25), bar(1.2)
    ('▪▪▪▪▪...............', '▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪▪■■■■')
    """
    cells = round(share * BAR_CELLS)
    inside = min(cells, BAR_CELLS)
    over = min(max(cells - BAR_CELLS, 0), BAR_CELLS // 4)
    return "▪" * inside + "." * (BAR_CELLS - inside) + "■" * over
