"""The report's figures as CSV: a row for each panel, to be sorted and summed in a spreadsheet.

There is one kind of row, since sums and filters go wrong over two; what stands in a panel's
balloons is in the JSON. Cells that a spreadsheet would take for a date or shorten are avoided: a
panel is its page and its number in two columns, not "1.10", and a spread is "4–5" with a dash, not
"4-5".
"""

from collections.abc import Iterator

from letterfit.output import numbers
from letterfit.output.csv_text import Cell, csv_text
from letterfit.output.framing import framing
from letterfit.output.panel_state import State, findings_of, state_of
from letterfit.output.plain import one_line
from letterfit.report.model import (
    FigureRemedy,
    PageReport,
    PanelOverflow,
    PanelReport,
    ScriptReport,
)

COLUMNS = (
    "page",
    "tier",
    "panel",
    "line",
    "x_mm",
    "y_mm",
    "width_mm",
    "height_mm",
    "fits",
    "words",
    "balloons",
    "coverage_percent",
    "effects_percent",
    "figure_height_mm",
    "figure_share_percent",
    "framing",
    "reading_order",
    "cut_words",
    "needed_height_mm",
    "needed_width_mm",
    "needed_size_pt",
    "steady_height_mm",
    "steady_cut_words",
    "steady_tier_mm",
    "steady_width_mm",
    "found",
)

FITS: dict[State, str] = {"fits": "yes", "doubt": "against advice", "fails": "no"}


def to_csv(report: ScriptReport) -> str:
    r"""The report's figures as CSV (RFC 4180), a row for each panel, safe in a spreadsheet.

    Args:
        report: The whole report.

    Returns:
        A row of column names, with units, and a row for each panel in script order; commas, CR LF
        after each row. Lengths to 0.001 mm, percents to 0.1. "fits" is yes, no, or against advice;
        "cut_words", "needed_height_mm", "needed_width_mm" and "needed_size_pt" are what would each
        let a panel be placed that is not; those that begin with steady, what would each keep the
        page's steady distance. What there is none of is an empty cell. A cell of words that begins
        as a formula does has an apostrophe before it. The same report gives the same characters.

    >>> import letterfit as lf
    >>> report = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n"))
    >>> names, row = lf.to_csv(report).splitlines()
    >>> dict(zip(names.split(","), row.split(",")))["words"]
    '1'
    """
    return csv_text(COLUMNS, (row for page in report.pages for row in _rows(page, report)))


def _rows(page: PageReport, report: ScriptReport) -> Iterator[tuple[Cell, ...]]:
    tiers = (n for n, tier in enumerate(page.plan.tiers, start=1) for _ in tier.panels)
    for tier, panel in zip(tiers, page.panels, strict=True):
        found = findings_of(panel, page.findings)
        yield (
            _undated(page.label),
            tier,
            _undated(panel.id.removeprefix(f"{page.label}.")),
            panel.line,
            *numbers.rect(panel.rect),
            FITS[state_of(panel, found)],
            panel.words,
            len(panel.balloons),
            numbers.percent(panel.coverage),
            numbers.percent(panel.effects_share),
            *_placed(panel, whole=report.limits.whole_figure),
            *_overflow(panel.overflow),
            *_steadied(panel.steadied),
            " ".join(dict.fromkeys(one_line(finding.message) for finding in found)),
        )


def _undated(name: str) -> str:
    """A name of two numbers that no spreadsheet takes for a day of a month."""
    return name.replace("-", "–")


def _placed(panel: PanelReport, *, whole: float) -> tuple[Cell, ...]:
    """What only a panel has that is placed."""
    if panel.verdict != "placed":
        return (None,) * 4
    return (
        numbers.mm(panel.figure_height_mm),
        numbers.percent(panel.figure_share),
        framing(panel.figure_share, whole=whole),
        "certain" if panel.reading_certain else "in doubt",
    )


def _overflow(overflow: PanelOverflow | None) -> tuple[Cell, ...]:
    if overflow is None:
        return (None,) * 4
    return (
        overflow.words,
        None if overflow.height_mm is None else numbers.mm(overflow.height_mm),
        None if overflow.width_mm is None else numbers.mm(overflow.width_mm),
        numbers.points_down_or_none(overflow.size_pt),
    )


def _steadied(remedy: FigureRemedy | None) -> tuple[Cell, ...]:
    if remedy is None:
        return (None,) * 4
    return (
        numbers.mm(remedy.height_mm),
        remedy.words,
        None if remedy.tier_mm is None else numbers.mm(remedy.tier_mm),
        None if remedy.panel_mm is None else numbers.mm(remedy.panel_mm),
    )
