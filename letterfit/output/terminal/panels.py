"""The table of panels: a line for each that matters, one line for a run of those that are fine."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from letterfit.counting import counted, does
from letterfit.findings import Finding
from letterfit.output.framing import framing
from letterfit.output.panel_state import State, findings_of, states_of
from letterfit.output.terminal.sheet import Cell, Column, Sheet, Tone
from letterfit.report.limits import Limits
from letterfit.report.model import PageReport, PanelReport, ScriptReport

LONG = 6
"""A report of more pages than this has one table, where panels that fit share a line."""

ROOMY = 0.5
"""A panel is roomy when lettering takes at most this share of the limit."""

MARKS: dict[State, str] = {"fits": "✓", "doubt": "!", "fails": "✗"}

AGAINST = {
    "reading-order": "order",
    "reading-doubt": "order",
    "coverage": "crowded",
    "tail-crosses": "tails",
    "panel-words": "wordy",
    "balloon-words": "wordy",
}
"""What speaks against a panel that fits in one word, by the finding's code; the gravest first."""

COLUMNS = (
    Column(head="panel"),
    Column(head="line", right=True),
    Column(head="words", right=True),
    Column(head="covered", right=True),
    Column(head="figure room", right=True),
    Column(head="framing"),
    Column(head="order"),
    Column(head="verdict", wraps=True),
)


def write_panels(sheet: Sheet, report: ScriptReport) -> None:
    """Every page with its own table; a long report as one table of what needs a look."""
    if len(report.pages) > LONG:
        sheet.line(Cell("PANELS", "strong"), "  a run of panels that fit shares a line")
        sheet.table(COLUMNS, list(_rows(report.pages, limits=report.limits, long=True)))
        sheet.line()
        return
    for page in report.pages:
        write_page(sheet, page, report.limits)
        sheet.line()


def write_page(sheet: Sheet, page: PageReport, limits: Limits) -> None:
    """One page with its table."""
    _heading(sheet, page)
    if page.panels:
        sheet.table(COLUMNS, list(_rows([page], limits=limits, long=False)))


def _heading(sheet: Sheet, page: PageReport) -> None:
    sheet.line(Cell(f"PAGE {page.label}", "strong"), "  ", page_verdict(page), indent=2)


def page_verdict(page: PageReport) -> Cell:
    """How a page stands, in a line."""
    states = list(states_of(page).values())
    failing = states.count("fails")
    count = counted(len(states), "panel")
    if not states:
        return Cell("no panels", "doubt")
    if not failing:
        height = f"{page.figure_height_mm:.0f} mm"
        return Cell(f"{count}, all fit; a figure of {height} stands clear in every panel")
    if len(states) == failing == 1:
        return Cell("its one panel does not fit", "fails")
    return Cell(f"{failing} of {count} {does(failing)} not fit", "fails")


def _rows(pages: Sequence[PageReport], *, limits: Limits, long: bool) -> Iterator[list[Cell | str]]:
    states = {name: state for page in pages for name, state in states_of(page).items()}
    findings = [finding for page in pages for finding in page.findings]

    def dull(panel: PanelReport) -> bool:
        return states[panel.id] == "fits" and (long or _is_roomy(panel, limits))

    for quiet, run in groupby((p for page in pages for p in page.panels), key=dull):
        panels = list(run)
        if quiet and len(panels) > 1:
            yield _shared_row(
                panels, roomy=all(_is_roomy(p, limits) for p in panels), limits=limits
            )
        else:
            for panel in panels:
                yield _row(panel, findings, state=states[panel.id], limits=limits)


def _is_roomy(panel: PanelReport, limits: Limits) -> bool:
    return panel.coverage <= ROOMY * limits.coverage and panel.figure_share >= limits.whole_figure


def _row(
    panel: PanelReport, findings: Sequence[Finding], *, state: State, limits: Limits
) -> list[Cell | str]:
    placed = panel.verdict == "placed"
    codes = [f.code for f in findings_of(panel, findings) if f.severity != "note"]
    tone: Tone = "" if state == "fits" else state
    crowded: Tone = "doubt" if panel.coverage > limits.coverage else ""
    order = "certain" if panel.reading_certain else "in doubt"
    return [
        Cell(panel.id, tone),
        str(panel.line),
        str(panel.words) if panel.words else "-",
        Cell(f"{panel.coverage:.0%}", crowded),
        _figure(panel.figure_height_mm, panel.figure_share) if placed else "-",
        framing(panel.figure_share, whole=limits.whole_figure) if placed else "-",
        Cell(order, "" if panel.reading_certain else "doubt") if placed else "-",
        Cell(f"{MARKS[state]} {_verdict(panel, codes, limits)}", state),
    ]


def _verdict(panel: PanelReport, codes: Sequence[str], limits: Limits) -> str:
    if panel.verdict != "placed":
        return "overflows" if panel.verdict == "impossible" else "unplaced"
    if codes:
        return next((word for code, word in AGAINST.items() if code in codes), "look again")
    if not panel.words:
        return "silent"
    return "roomy" if _is_roomy(panel, limits) else "fits"


def _shared_row(panels: Sequence[PanelReport], *, roomy: bool, limits: Limits) -> list[Cell | str]:
    """One line for a run of panels that are fine: the least and the most of each figure."""
    least = min(panel.figure_share for panel in panels)
    lowest = min(panel.figure_height_mm for panel in panels)
    words = sorted(panel.words for panel in panels)
    covered = max(panel.coverage for panel in panels)
    return [
        f"{panels[0].id} to {panels[-1].id}",
        str(panels[0].line),
        f"{words[0]}-{words[-1]}" if words[0] != words[-1] else str(words[0] or "-"),
        _most(covered),
        f"≥{_figure(lowest, least)}",
        framing(least, whole=limits.whole_figure),
        "certain",
        Cell(f"✓ {len(panels)} {'roomy' if roomy else 'fit'}", "fits"),
    ]


def _figure(height: float, share: float) -> str:
    return f"{height:.0f} mm {share:>4.0%}"


def _most(covered: float) -> str:
    """The greatest share of a run of panels, so that no panel of it is denied or overstated."""
    if 0 < covered < 0.005:
        return "<1%"
    return f"≤{covered:.0%}" if covered else "0%"
