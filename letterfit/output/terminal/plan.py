"""Laid pages for the terminal: page by page the tiers, and each panel's size."""

from collections.abc import Sequence
from itertools import islice

from letterfit.counting import counted
from letterfit.output.plain import plain
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.paper.notation import write_tiers
from letterfit.paper.shapes import PageShape
from letterfit.report.laid import LaidPage

COLUMNS = (
    Column(head="tier"),
    Column(head="from top", right=True),
    Column(head="high", right=True),
    Column(head="panels, wide x high", wraps=True),
)

PLANS = {
    "script": "the script's own line",
    "page": "the plan's entry for this page",
    "all": "the plan's entry for all pages",
    "default": "the default grid",
}

FOOTNOTE = (
    "All in mm, from the top of the trimmed page; ~ bleeds, [ ] is set into the panel before it. "
    "Margins, bleed and gutter that nobody stated are common practice; the printer's own "
    "specification decides."
)


def page_plans_to_text(pages: Sequence[LaidPage], *, width: int = 80, colour: bool = False) -> str:
    """Laid pages as terminal text.

    Args:
        pages: What `plan_script` returned.
        width: Cells in a line.
        colour: Whether to colour with escape codes.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> page_plans_to_text([]).splitlines()[0]
    'There is no page.'
    """
    sheet = Sheet(width=width, colour=colour)
    if not pages:
        sheet.line("There is no page.")
    for page in pages:
        _write_page(sheet, page)
    sheet.line(Cell(FOOTNOTE, "quiet"))
    return sheet.text()


def _write_page(sheet: Sheet, page: LaidPage) -> None:
    plan = page.plan
    wide, high = plan.paper.trim
    label = Cell(f"PAGE {plain(page.label)}", "strong")
    size = f"{plain(plan.paper.name)}, {wide:.1f} x {high:.1f} mm"
    if plan.shape is None:
        sheet.line(label, f"  {size} · no panels", indent=2)
        sheet.line()
        return
    told = f"{counted(len(plan.panels), 'panel')} by {PLANS.get(plan.source, plan.source)}"
    sheet.line(label, f"  {size} · {told}", indent=2)
    sheet.table(COLUMNS, _rows(page))
    sheet.line(f"  {plan_line(plan.shape)}", indent=4)
    for finding in plan.findings:
        sheet.line(Cell(f"  ! {plain(finding.message)}", "doubt"), indent=4)
    sheet.line()


def plan_line(shape: PageShape) -> str:
    """The line of a script that states a page's tiers."""
    return f"TIERS: {write_tiers(shape)}"


def _rows(page: LaidPage) -> list[list[Cell | str]]:
    special = {one.index: one for one in page.plan.special}
    panels = iter(enumerate(page.plan.panels))
    rows: list[list[Cell | str]] = []
    for number, tier in enumerate(page.plan.tiers, start=1):
        sizes = []
        for index, rect in islice(panels, len(tier.panels)):
            own = special.get(index)
            size = f"{rect.width:.1f}x{rect.height:.1f}"
            if own is not None:
                size = f"[{size}]" if own.host is not None else size
                size += "~" if own.bleed is not None else ""
            sizes.append(size)
        top = tier.box.y if tier.box else min(rect.y for rect in tier.panels)
        rows.append([str(number), f"{top:.1f}", f"{tier.height_mm:.1f}", "  ".join(sizes)])
    return rows
