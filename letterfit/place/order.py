"""Two readers of a page, written apart: highest first, and the recursive X-Y cut.

Each takes boxes and returns the order in which it would read them. A layout's reading order is
certain only where both return the script's order; where they differ (a stack of two beside one
tall box, say) human readers differ too: about two in three take the stack first (Cohn, Frontiers
in Psychology 2013, 4:186). They share no line of code, so that one fault cannot fool both.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise

from letterfit.geometry import Rect
from letterfit.place.model import PlacedOutline, Reading

LEVEL = 0.1
"""Tops that differ by less than this share of the lower box's height look level to the eye."""

TOUCH = 1e-9
"""Boxes whose sides meet, in mm up to rounding, can still be cut apart."""

EVEN = 1e-6
"""Tops that differ by less, in mm, differ by rounding only."""

SHRINK = 1e-6
"""Boxes are read smaller by this, in mm: boxes that touch up to rounding may be cut apart."""

Edges = Callable[[Rect], tuple[float, float]]


def reads_in_order(
    placed: Sequence[PlacedOutline], *, reading: Reading, panel: Rect | None = None
) -> bool:
    """Whether both readers take the balloons of a panel in the order of the script.

    Args:
        placed: The outlines at their places, in any order.
        reading: "ltr" or "rtl".
        panel: The panel, whose top border cuts what hangs over it; None takes each outline's word
            for how far that is.

    Returns:
        Whether both agree with the script: one goes by height, highest first, the other cuts the
        panel into rows and columns.

    Source: Nagy and Seth, Hierarchical representation of optically scanned documents, ICPR 1984
    (the recursive X-Y cut); human readers: Cohn, Frontiers in Psychology 2013, 4:186.

    >>> from dataclasses import replace
    >>> from letterfit import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> first = PlacedOutline(index=0, choice=0, outline=box, x_mm=10, y_mm=5)
    >>> reads_in_order((first, replace(first, index=1, y_mm=12)), reading="ltr")
    True
    >>> reads_in_order((first, replace(first, index=1, y_mm=0)), reading="ltr")
    False
    """
    boxes = reading_boxes(placed, panel=panel)
    script = tuple(range(len(boxes)))
    return all(
        reader(boxes, reading=reading) == script for reader in (reading_order, highest_first)
    )


def reading_boxes(
    placed: Sequence[PlacedOutline], *, panel: Rect | None = None
) -> tuple[Rect, ...]:
    """The boxes that readers are shown, in script order.

    Args:
        placed: The outlines at their places, in any order.
        panel: As `reads_in_order`.

    Returns:
        The box round each outline, a little smaller, cut where it hangs over the panel's top
        border. The boxes of a joined pair, which overlap, are parted in the middle of what they
        share, across the side on which they share less.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> upper = PlacedOutline(index=0, choice=0, outline=box, x_mm=5, y_mm=2)
    >>> lower = PlacedOutline(index=1, choice=0, outline=box, x_mm=6, y_mm=5, joined=True)
    >>> [round(side, 3) for box in reading_boxes((upper, lower)) for side in (box.y, box.bottom)]
    [0.0, 3.5, 3.5, 7.0]
    """
    items = sorted(placed, key=lambda item: item.index)
    boxes = [_inside(item, panel) for item in items]
    for i, (_, later) in enumerate(pairwise(items)):
        if later.joined:
            boxes[i], boxes[i + 1] = _parted(boxes[i], boxes[i + 1])
    return tuple(boxes)


def reading_order(boxes: Sequence[Rect], *, reading: Reading = "ltr") -> tuple[int, ...]:
    """The order of the recursive X-Y cut: rows first, then columns within a row, and so on.

    Args:
        boxes: The boxes, in any order.
        reading: "ltr" takes the left column first, "rtl" the right one.

    Returns:
        The indices of the boxes in reading order. Where no straight cut exists (a pinwheel,
        boxes that overlap), the highest comes first.

    Source: Nagy and Seth, Hierarchical representation of optically scanned documents, ICPR 1984.

    >>> reading_order([Rect(11, 0, 10, 10), Rect(0, 0, 10, 10), Rect(0, 11, 21, 5)])
    (1, 0, 2)
    """
    facing = [_mirrored(box) if reading == "rtl" else box for box in boxes]
    return tuple(_cut(facing, list(range(len(facing)))))


def highest_first(boxes: Sequence[Rect], *, reading: Reading = "ltr") -> tuple[int, ...]:
    """The order of a reader who always takes the highest box left, level ones from the side.

    Args:
        boxes: The boxes, in any order.
        reading: "ltr" takes the leftmost of level boxes first, "rtl" the rightmost.

    Returns:
        The indices of the boxes in reading order.

    >>> highest_first([Rect(11, 0.5, 10, 10), Rect(0, 0, 10, 10), Rect(0, 11, 21, 5)])
    (1, 0, 2)
    """
    sign = 1 if reading == "ltr" else -1
    keys = [(box.y, sign * (box.x + box.width / 2)) for box in boxes]
    left = sorted(range(len(boxes)), key=lambda i: (keys[i], i))
    order = []
    while left:
        high = keys[left[0]][0]
        level = [i for i in left if keys[i][0] - high < LEVEL * boxes[i].height]
        taken = min(level or left[:1], key=lambda i: (keys[i][1], keys[i][0], i))
        left.remove(taken)
        order.append(taken)
    return tuple(order)


def _inside(item: PlacedOutline, panel: Rect | None) -> Rect:
    """The box round an outline, a little smaller, less what hangs over the top border."""
    a, b = item.outline.half_width, item.outline.half_height
    a, b = a - min(SHRINK, a / 2), b - min(SHRINK, b / 2)
    top, bottom = item.y_mm - b, item.y_mm + b
    border = top + item.overhang_mm if panel is None else panel.y
    if top < border < bottom:
        top = border
    return Rect(item.x_mm - a, top, 2 * a, bottom - top)


def _parted(one: Rect, other: Rect) -> tuple[Rect, Rect]:
    """Two boxes less what they share: each keeps its own half of it."""
    shared = one.common(other)
    if shared is None:
        return one, other
    middle = shared.centre
    if shared.width < shared.height:
        if one.centre.x <= other.centre.x:
            return _sides(one, right=middle.x), _sides(other, left=middle.x)
        return _sides(one, left=middle.x), _sides(other, right=middle.x)
    if one.centre.y <= other.centre.y:
        return _sides(one, bottom=middle.y), _sides(other, top=middle.y)
    return _sides(one, top=middle.y), _sides(other, bottom=middle.y)


def _sides(
    box: Rect,
    *,
    left: float | None = None,
    top: float | None = None,
    right: float | None = None,
    bottom: float | None = None,
) -> Rect:
    """The box with some of its sides elsewhere."""
    x, y = box.x if left is None else left, box.y if top is None else top
    end = box.right if right is None else right
    foot = box.bottom if bottom is None else bottom
    return Rect(x, y, end - x, foot - y)


def _mirrored(box: Rect) -> Rect:
    """The box as a left-to-right reader of the mirrored page sees it."""
    return Rect(-box.right, box.y, box.width, box.height)


def _cut(boxes: Sequence[Rect], chosen: list[int]) -> list[int]:
    """The chosen boxes in order: cut in rows, else in columns, else taken from the top."""
    if len(chosen) < 2:
        return chosen
    for edges in (_rows, _columns):
        parts = _parts(boxes, chosen, edges)
        if len(parts) > 1:
            return [i for part in parts for i in _cut(boxes, part)]
    return _from_the_top(boxes, chosen)


def _from_the_top(boxes: Sequence[Rect], chosen: list[int]) -> list[int]:
    """The chosen boxes by their tops, those of one height from the left."""
    left, order = list(chosen), []
    while left:
        top = min(boxes[i].y for i in left)
        level = [i for i in left if boxes[i].y <= top + EVEN]
        order.append(min(level, key=lambda i: (boxes[i].centre.x, i)))
        left.remove(order[-1])
    return order


def _rows(box: Rect) -> tuple[float, float]:
    return box.y, box.bottom


def _columns(box: Rect) -> tuple[float, float]:
    return box.x, box.right


def _parts(boxes: Sequence[Rect], chosen: list[int], edges: Edges) -> list[list[int]]:
    """The chosen boxes cut wherever a straight line goes between their projections."""
    parts: list[list[int]] = []
    reach = 0.0
    for i in sorted(chosen, key=lambda i: (edges(boxes[i]), i)):
        start, end = edges(boxes[i])
        if parts and start < reach - TOUCH:
            parts[-1].append(i)
            reach = max(reach, end)
        else:
            parts.append([i])
            reach = end
    return parts
