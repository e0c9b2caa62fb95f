"""Tier advice for the terminal: page by page what changes, and what it gives."""

from collections.abc import Sequence

from letterfit.output.terminal.plan import plan_line
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.model import PageReport
from letterfit.tiers.model import TierAdvice

COLUMNS = (
    Column(head="tier"),
    Column(head="high", right=True),
    Column(head="after", right=True),
    Column(head="panels wide", wraps=True),
    Column(head="after", wraps=True),
    Column(head="figure", right=True),
    Column(head="after", right=True),
)

FOOTNOTE = (
    "All in mm. Every plan advised was run again: its figures are those of the page as preflight "
    "reports it. The change is the share of the page that passes from one panel to another; the "
    "least found, placing being a search. Limits are common practice and advice."
)


def tiers_to_text(advice: Sequence[TierAdvice], *, width: int = 80, colour: bool = False) -> str:
    """Tier advice as terminal text.

    Args:
        advice: What `tier_advice` returned, page by page.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> tiers_to_text([]).splitlines()[0]
    'There is no page with panels.'
    """
    sheet = Sheet(width=width, colour=colour)
    if not advice:
        sheet.line("There is no page with panels.")
    for one in advice:
        _write_page(sheet, one)
    sheet.line(Cell(FOOTNOTE, "quiet"))
    return sheet.text()


def _write_page(sheet: Sheet, one: TierAdvice) -> None:
    label = Cell(f"PAGE {one.before.label}", "strong")
    sheet.line(label, "  ", outcome_told(one), indent=2)
    if one.outcome == "not found":
        reason, *ways = in_the_way(one)
        sheet.line(f"  {reason}", indent=2)
        for way in ways:
            sheet.line(f"  {way}", indent=4)
    elif one.outcome == "advised":
        sheet.table(COLUMNS, advice_rows(one))
        line = one.before.typed.plan_line if one.before.typed else None
        where = "" if line is None else f"  in the script, line {line}: "
        sheet.line(f"{where or '  '}{tiers_line(one)}", indent=4)
    sheet.line()


def outcome_told(one: TierAdvice) -> Cell:
    """What was asked for, and what came of it."""
    goal = f"a figure of {one.figure_mm:.1f} mm in every panel"
    if one.outcome == "kept":
        return Cell(f"✓ {goal} as it is; nothing to change", "fits")
    if one.outcome == "not found":
        return Cell(f"✗ {goal}: no grid found", "fails")
    return Cell(f"! {goal}: {one.change:.1%} of the page moves", "doubt")


def in_the_way(one: TierAdvice) -> list[str]:
    """Why no grid was found, and what can be had."""
    told = [f"{one.reason[:1].upper()}{one.reason[1:]}."]
    if one.tallest_mm is not None:
        told.append(f"→ A figure of {one.tallest_mm:g} mm can be had in every panel.")
    return told


def tiers_line(one: TierAdvice) -> str:
    """The line to type into the script for a plan that is advised."""
    assert one.plan.shape is not None  # noqa: S101 - an advised plan has one
    return plan_line(one.plan.shape)


def advice_rows(one: TierAdvice) -> list[list[Cell | str]]:
    """Each tier as it was and as it is to be."""
    rows: list[list[Cell | str]] = []
    for number, (old, new) in enumerate(zip(_tiers(one.before), _tiers(one.after), strict=True), 1):
        changed = old[0] != new[0]
        wider = old[1] != new[1]
        rows.append(
            [
                str(number),
                old[0],
                Cell(new[0] if changed else "=", "doubt" if changed else "quiet"),
                old[1],
                Cell(new[1] if wider else "=", "doubt" if wider else "quiet"),
                old[2],
                new[2],
            ]
        )
    return rows


def _tiers(page: PageReport) -> list[tuple[str, str, str]]:
    """Height, widths and figure of each tier, as shown."""
    told = []
    each = zip(page.plan.tiers, page.tier_panels, page.tier_figure_heights_mm, strict=True)
    for tier, own, figure in each:
        widths = " ".join(f"{panel.rect.width:.1f}" for panel in own)
        placed = all(panel.verdict == "placed" for panel in own)
        told.append((f"{tier.height_mm:.1f}", widths, f"{figure:.1f}" if placed else "-"))
    return told
