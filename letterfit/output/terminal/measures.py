"""What pages measure, for the terminal: one page, or two side by side at 80 columns."""

from collections.abc import Iterator, Sequence

from letterfit.counting import counted, does
from letterfit.findings import Finding
from letterfit.output.plain import one_line
from letterfit.output.terminal.marks import finding_mark, finding_told
from letterfit.output.terminal.sheet import Cell, Column, Sheet
from letterfit.report.comparing import PageComparison
from letterfit.report.measures import PageMeasures, PanelMeasures, TierMeasures

MOST_FINDINGS = 8
"""Findings told of a page; the rest are counted."""

GRAVEST = ("error", "warning", "note")

FOOTNOTE = (
    "Covered: the share under balloons, captions and tails. Figure room: the tallest 1:3 box on "
    "the panel's floor clear of balloons. Limits are common practice and advice; the printer's own "
    "specification decides."
)

PAGE_COLUMNS = (
    Column(),
    Column(head="panel"),
    Column(head="name", wraps=True),
    Column(head="size, mm"),
    Column(head="balloons", right=True),
    Column(head="words", right=True),
    Column(head="covered", right=True),
    Column(head="figure room", right=True),
    Column(head="order"),
)

TIER_COLUMNS = (
    Column(head="tier", right=True),
    Column(head="panels A", right=True),
    Column(head="B", right=True),
    Column(head="height A", right=True),
    Column(head="B", right=True),
    Column(head="B-A", right=True),
    Column(head="figure room A", right=True),
    Column(head="B", right=True),
    Column(head="B-A", right=True),
)

PANEL_COLUMNS = (
    Column(head="A B"),
    Column(head="#", right=True),
    Column(head="size A", right=True),
    Column(head="B", right=True),
    Column(head="words A", right=True),
    Column(head="B", right=True),
    Column(head="cover A", right=True),
    Column(head="B", right=True),
    Column(head="B-A", right=True),
    Column(head="room A", right=True),
    Column(head="B", right=True),
    Column(head="B-A", right=True),
)


def measures_to_text(page: PageMeasures, *, width: int = 80, colour: bool = False) -> str:
    r"""What a page measures as terminal text.

    Args:
        page: Its measures.
        width: Cells in a line.
        colour: Whether to colour with escape codes; nothing is said by colour alone.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0], source="gate.txt")
    >>> measures_to_text(page).splitlines()[0]
    '✓ gate.txt, page 1: fits.'
    """
    sheet = Sheet(width=width, colour=colour)
    sheet.line(_verdict(page), indent=2)
    sheet.line(Cell(_headline(page), "quiet"), indent=2)
    told = _told(page)
    if told:
        sheet.line(Cell(told, "quiet"), indent=2)
    sheet.line()
    sheet.table(PAGE_COLUMNS, [_row(panel) for panel in page.panels])
    heights = ", ".join(f"{tier.height_mm:.1f}" for tier in page.tiers)
    sheet.line(f"  Tiers: {heights} mm high", indent=2)
    sheet.line()
    for line in _findings(page.findings, ""):
        sheet.line(*line, indent=4)
    sheet.line(Cell(FOOTNOTE, "quiet"))
    return sheet.text()


def comparison_to_text(comparison: PageComparison, *, width: int = 80, colour: bool = False) -> str:
    r"""Two pages side by side as terminal text.

    Args:
        comparison: The two pages.
        width: Cells in a line.
        colour: Whether to colour with escape codes; nothing is said by colour alone.

    Returns:
        Lines of at most `width` cells, a line feed at the end.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> page = lf.measure_page(lf.preflight(script).pages[0], source="gate.txt")
    >>> comparison_to_text(lf.compare_pages(page, page)).splitlines()[0]
    'A  ✓ gate.txt, page 1: fits.'
    """
    sheet = Sheet(width=width, colour=colour)
    pages = (("A", comparison.first), ("B", comparison.second))
    for letter, page in pages:
        sheet.line(Cell(letter, "strong"), "  ", _verdict(page), indent=3)
        sheet.line(Cell(f"   {_headline(page)}", "quiet"), indent=3)
    sheet.line()
    sheet.table(
        TIER_COLUMNS,
        [_tier_row(number, pair) for number, pair in enumerate(comparison.tiers, start=1)],
    )
    sheet.line()
    sheet.table(
        PANEL_COLUMNS,
        [_panel_row(number, pair) for number, pair in enumerate(comparison.panels, start=1)],
    )
    sheet.line()
    for letter, page in pages:
        for line in _findings(page.findings, f"{letter}  "):
            sheet.line(*line, indent=7)
    panels = "Panels are matched by their places in reading order; sizes and room in mm. "
    sheet.line(Cell(panels + FOOTNOTE, "quiet"))
    return sheet.text()


def _verdict(page: PageMeasures) -> Cell:
    """The page's name and whether it fits."""
    name = one_line(page.source) or "the page"
    name = f"{name}, page {one_line(page.label)}" if page.label else name
    over = sum(not panel.placed for panel in page.panels)
    if over:
        panels = counted(len(page.panels), "panel")
        return Cell(f"✗ {name}: {over} of {panels} {does(over)} not fit.", "fails")
    if not page.fits:
        return Cell(f"✗ {name}: not all of the lettering can be set.", "fails")
    warned = sum(finding.severity == "warning" for finding in page.findings)
    if warned:
        return Cell(f"! {name}: fits; {counted(warned, 'thing')} to look at again.", "doubt")
    return Cell(f"✓ {name}: fits.", "fits")


def _headline(page: PageMeasures) -> str:
    wide, high = page.trim
    words = page.words
    parts = [
        page.origin,
        f"{wide:.1f} x {high:.1f} mm",
        f"{counted(len(page.tiers), 'tier')}, {counted(len(page.panels), 'panel')}",
        "words drawn as outlines" if words is None else counted(words, "word"),
        f"{page.coverage:.0%} covered",
        f"figure {page.figure_height_mm:.0f} mm",
        "" if page.reading == "ltr" else "read right to left",
    ]
    return " · ".join(part for part in parts if part)


def _told(page: PageMeasures) -> str:
    """What told panels and balloons apart."""
    if page.origin == "planned":
        return ""
    by = {
        "panels": {panel.told_by for panel in page.panels},
        "balloons": {b.told_by for panel in page.panels for b in panel.balloons},
    }
    ways = {"name": "by their names", "geometry": "by size and nesting"}
    said = [
        f"{what} told {' and '.join(ways[way] for way in ('name', 'geometry') if way in found)}"
        for what, found in by.items()
        if found
    ]
    return "; ".join(said).capitalize()


def _row(panel: PanelMeasures) -> list[Cell | str]:
    order = "certain" if panel.order == "certain" else ""
    if panel.doubt:
        order = "doubt: {} or {}".format(*panel.doubt)
    return [
        _mark(panel),
        one_line(panel.id),
        one_line(panel.name),
        _size(panel),
        str(len(panel.balloons)),
        _words(panel),
        f"{panel.coverage:.1%}",
        f"{panel.figure_height_mm:.1f} mm {panel.figure_share:4.0%}",
        order,
    ]


def _tier_row(number: int, pair: tuple[TierMeasures | None, TierMeasures | None]) -> list[str]:
    one, two = pair
    shown = [["-", "-", "-"] if t is None else _tier(t) for t in pair]
    apart = ["", ""]
    if one is not None and two is not None:
        apart = [
            _apart(one.height_mm, two.height_mm, 1),
            _apart(one.figure_height_mm, two.figure_height_mm, 1),
        ]
    (panels, height, room), (others, other_height, other_room) = shown
    return [
        *(str(number), panels, others),
        *(height, other_height, apart[0]),
        *(room, other_room, apart[1]),
    ]


def _tier(tier: TierMeasures) -> list[str]:
    return [str(tier.panels), f"{tier.height_mm:.1f}", f"{tier.figure_height_mm:.1f}"]


def _panel_row(
    number: int, pair: tuple[PanelMeasures | None, PanelMeasures | None]
) -> list[Cell | str]:
    one, two = pair
    marks = " ".join("-" if panel is None else _mark(panel).text for panel in pair)
    sizes = ["-" if panel is None else _size(panel) for panel in pair]
    words = ["-" if panel is None else _words(panel) for panel in pair]
    covers = ["-" if panel is None else f"{panel.coverage:.0%}" for panel in pair]
    rooms = ["-" if panel is None else f"{panel.figure_height_mm:.0f}" for panel in pair]
    apart = ["", ""]
    if one is not None and two is not None:
        apart = [
            _apart(round(100 * one.coverage), round(100 * two.coverage), 0),
            _apart(round(one.figure_height_mm), round(two.figure_height_mm), 0),
        ]
    return [marks, str(number), *sizes, *words, *covers, apart[0], *rooms, apart[1]]


def _apart(one: float, two: float, digits: int) -> str:
    """The second less the first, as they are shown, with its sign; = where they are the same."""
    less = round(round(two, digits) - round(one, digits), digits)
    return f"{less:+.{digits}f}" if less else "="


def _size(panel: PanelMeasures) -> str:
    return f"{panel.rect.width:.0f}x{panel.rect.height:.0f}"


def _words(panel: PanelMeasures) -> str:
    return "?" if panel.words is None else str(panel.words)


def _mark(panel: PanelMeasures) -> Cell:
    if not panel.placed:
        return Cell("✗", "fails")
    doubtful = panel.doubt is not None or panel.faults
    return Cell("!", "doubt") if doubtful else Cell("✓", "fits")


def _findings(findings: Sequence[Finding], before: str) -> Iterator[tuple[Cell | str, ...]]:
    """The gravest findings a line each, and how many more there are."""
    ranked = sorted(findings, key=lambda finding: GRAVEST.index(finding.severity))
    for finding in ranked[:MOST_FINDINGS]:
        where = f"{one_line(finding.where)}  " if finding.where else ""
        yield finding_mark(finding, before=f"  {before}"), f" {where}{finding_told(finding)}"
    if len(ranked) > MOST_FINDINGS:
        yield (f"  {before}  and {len(ranked) - MOST_FINDINGS} more: see --json",)
    if ranked:
        yield ("",)
