"""Tier advice for the terminal: page by page what changes, and what it gives."""

from collections.abc import Sequence

from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.paper.notation import write_tiers
from letterfit.report.model import PageReport
from letterfit.tiers.model import TierAdvice

COLUMNS = (
    Column(head="tier"),
    Column(head="high before", right=True),
    Column(head="after", right=True),
    Column(head="panels wide before", wraps=True),
    Column(head="after", wraps=True),
    Column(head="figure before", right=True),
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
    goal = f"a figure of {one.figure_mm:.1f} mm in every panel"
    if one.outcome == "kept":
        sheet.line(label, "  ", Cell(f"✓ {goal} as it is; nothing to change", "fits"), indent=2)
    elif one.outcome == "not found":
        sheet.line(label, "  ", Cell(f"✗ {goal}: no grid found", "fails"), indent=2)
        sheet.line(f"  {one.reason[:1].upper()}{one.reason[1:]}.", indent=2)
        if one.tallest_mm is not None:
            sheet.line(
                f"  → A figure of {one.tallest_mm:g} mm can be had in every panel.", indent=4
            )
    else:
        sheet.line(
            label, "  ", Cell(f"! {goal}: {one.change:.1%} of the page moves", "doubt"), indent=2
        )
        sheet.table(COLUMNS, _rows(one))
        assert one.plan.shape is not None  # noqa: S101 - an advised plan has one
        line = one.before.typed.plan_line if one.before.typed else None
        where = "" if line is None else f"  in the script, line {line}: "
        sheet.line(f"{where or '  '}TIERS: {write_tiers(one.plan.shape)}", indent=4)
    sheet.line()


def _rows(one: TierAdvice) -> list[list[Cell | str]]:
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
    panels = iter(page.panels)
    told = []
    for tier, figure in zip(page.plan.tiers, page.tier_figure_heights_mm, strict=True):
        own = [panel for _, panel in zip(tier.panels, panels, strict=False)]
        widths = " ".join(f"{panel.rect.width:.1f}" for panel in own)
        placed = all(panel.verdict == "placed" for panel in own)
        told.append((f"{tier.height_mm:.1f}", widths, f"{figure:.1f}" if placed else "-"))
    return told
