"""From the shape of a page to the rectangles of its panels.

Tiers and gutters together are exactly as high as the live area, places and gutters exactly as wide;
a stack shares out its own place in the same way. On right-to-left pages all is mirrored, so that
the first panel stands right. A panel that bleeds runs on to the bleed's edge on every side where it
meets the live area's; what is left on the trimmed page is the panel that readers see. An inset
stands one gutter inside the corner that holds it.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from letterfit.errors import PageError
from letterfit.geometry import Insets, Rect
from letterfit.paper.model import PlannedPanel, Tier
from letterfit.paper.shapes import Cell, InsetShape, PageShape, PanelShape, TierShape
from letterfit.paper.sheet import Paper

LEAST_SIDE_MM = 5.0
"""A panel with a shorter side is a slip of the plan: no line of type goes in."""

AT_EDGE = 1e-6
"""In mm: a panel that comes so near to the live area's edge meets it."""

Laid = tuple[Rect, PanelShape]


def lay_page(
    shape: PageShape, paper: Paper, *, reading: str = "ltr"
) -> tuple[tuple[Tier, ...], tuple[PlannedPanel, ...]]:
    """The tiers of a shape in the live area of a paper, and what is special of their panels.

    Args:
        shape: Relative heights and widths.
        paper: The paper, two pages wide for a spread.
        reading: "ltr" or "rtl".

    Returns:
        The tiers from top to bottom, their panels in reading order, an inset after the panel that
        holds it; and those panels that bleed, hold insets or are insets.

    Raises:
        PageError: When a panel would be under 5 mm a side, or two insets would overlap.

    >>> from letterfit.paper.notation import parse_tiers
    >>> tiers, _ = lay_page(parse_tiers("2/2"), Paper.named("us-comic"))
    >>> [tier.height_mm for tier in tiers]
    [112.8, 112.8]
    """
    if reading not in ("ltr", "rtl"):
        raise PageError(f"no reading direction is called {reading!r}", advice="give ltr or rtl")
    live, tiers = paper.live, []
    special: list[PlannedPanel] = []
    count = 0
    for number, (box, places) in enumerate(_rows(shape.tiers, live, paper.gutter_mm), start=1):
        panels: list[Rect] = []
        for rect, panel in places:
            _check_sides(number, rect)
            seen = rect if reading == "ltr" else mirrored(rect, live)
            own, told = lay_panel(seen, panel, paper, first=count + len(panels), tier=number)
            panels += own
            special += told
        tiers.append(Tier(tuple(panels), box=box))
        count += len(panels)
    return tuple(tiers), tuple(special)


def lay_cell(cell: Cell, box: Rect, *, gutter_mm: float) -> Iterator[Laid]:
    """The panels of one place of a tier, in reading order.

    Args:
        cell: What stands there.
        box: The place, mm.
        gutter_mm: Between panels, mm.

    >>> from letterfit.paper.notation import parse_tiers
    >>> stack = parse_tiers("1:(1/1)").tiers[0].cells[1]
    >>> [rect.height for rect, _ in lay_cell(stack, Rect(0, 0, 40, 82), gutter_mm=2)]
    [40.0, 40.0]
    """
    if isinstance(cell, PanelShape):
        yield box, cell
        return
    for _, places in _rows(cell.tiers, box, gutter_mm):
        yield from places


def _rows(
    tiers: Sequence[TierShape], box: Rect, gutter: float
) -> Iterator[tuple[Rect, list[Laid]]]:
    """Each tier's own box, and its panels."""
    rows = _shared(box.y, box.height, [t.height for t in tiers], gutter=gutter, what="high")
    for (top, height), tier in zip(rows, tiers, strict=True):
        row: list[Laid] = []
        columns = _shared(box.x, box.width, tier.widths, gutter=gutter, what="wide")
        for (left, width), (_, cell) in zip(columns, tier.places, strict=True):
            row += lay_cell(cell, Rect(left, top, width, height), gutter_mm=gutter)
        yield Rect(box.x, top, box.width, height), row


def _shared(
    start: float, length: float, ratios: Sequence[float], *, gutter: float, what: str
) -> list[tuple[float, float]]:
    """Start and length of each part of a length, in proportion, with gutters between."""
    room = length - gutter * (len(ratios) - 1)
    total = sum(ratios)
    if room <= 0:
        raise _slivers(0.0, what)
    parts, at = [], start
    for ratio in ratios:
        parts.append((at, room * ratio / total))
        at += room * ratio / total + gutter
    return parts


def _check_sides(tier: int, panel: Rect) -> None:
    for what, length in (("high", panel.height), ("wide", panel.width)):
        if length < LEAST_SIDE_MM:
            raise _slivers(length, what, tier=tier)


def _slivers(length: float, what: str, *, tier: int | None = None) -> PageError:
    where = "the plan" if tier is None else f"tier {tier}"
    return PageError(
        f"{where} has panels only {length:.1f} mm {what}",
        advice="give fewer panels, other ratios or a narrower gutter: a panel is at least "
        f"{LEAST_SIDE_MM:g} mm a side",
    )


def mirrored(panel: Rect, live: Rect) -> Rect:
    """A panel where a right-to-left page has it: from the other side of an area."""
    return Rect(live.x + live.right - panel.right, panel.y, panel.width, panel.height)


def lay_panel(
    rect: Rect, panel: PanelShape, paper: Paper, *, first: int, tier: int
) -> tuple[list[Rect], list[PlannedPanel]]:
    """A panel and its insets as readers see them, and what is special of them.

    Args:
        rect: The panel in the live area.
        panel: What the plan says of it.
        paper: Its paper.
        first: Its number on the page.
        tier: Its tier's number, for messages.
    """
    if panel == PanelShape():
        return [rect], []
    drawn = _bled(rect, paper) if panel.bleeds else rect
    seen = drawn.common(Rect(0, 0, *paper.trim)) or rect
    insets = [_inset(rect, inset, paper.gutter_mm, tier) for inset in panel.insets]
    if any(one.common(other) for one, other in combinations(insets, 2)):
        raise PageError(
            f"tier {tier} has insets over each other", advice="give them other corners or sizes"
        )
    numbers = tuple(range(first + 1, first + 1 + len(insets)))
    bleed = drawn if drawn != rect else None
    host = PlannedPanel(first, bleed=bleed, insets=numbers)
    return [seen, *insets], [host, *(PlannedPanel(number, host=first) for number in numbers)]


def _bled(rect: Rect, paper: Paper) -> Rect:
    """The panel run on to the bleed's edge wherever it meets the live area's."""
    live, (width, height), bleed = paper.live, paper.trim, paper.bleed
    return rect.inset(
        Insets(
            left=-(rect.x + bleed) if rect.x <= live.x + AT_EDGE else 0.0,
            top=-(rect.y + bleed) if rect.y <= live.y + AT_EDGE else 0.0,
            right=rect.right - width - bleed if rect.right >= live.right - AT_EDGE else 0.0,
            bottom=rect.bottom - height - bleed if rect.bottom >= live.bottom - AT_EDGE else 0.0,
        )
    )


def _inset(host: Rect, inset: InsetShape, gap: float, tier: int) -> Rect:
    """A panel in the corner of another, one gutter from its borders."""
    width, height = inset.width * host.width, inset.height * host.height
    if width + 2 * gap > host.width or height + 2 * gap > host.height:
        raise PageError(
            f"tier {tier} has an inset that leaves no gutter inside its panel",
            advice="give it smaller shares of the panel's sides",
        )
    side, end = inset.corner.split("-")
    left = host.x + gap if end == "left" else host.right - gap - width
    top = host.y + gap if side == "top" else host.bottom - gap - height
    rect = Rect(left, top, width, height)
    _check_sides(tier, rect)
    return rect
