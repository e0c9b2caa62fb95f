"""Two readers of a page, written apart: highest first, and the recursive X-Y cut.

Each takes boxes and returns the order in which it would read them. A layout's reading order is
certain only where both return the script's order; where they differ (a stack of two beside one
tall box, say) human readers differ too: about two in three take the stack first (Cohn, Frontiers
in Psychology 2013, 4:186).
"""

from collections.abc import Callable, Sequence

from letterfit.geometry import Rect
from letterfit.place.model import Reading

LEVEL = 0.1
"""Tops that differ by less than this share of the lower box's height look level to the eye."""

TOUCH = 1e-9
"""Boxes whose sides meet, in mm up to rounding, can still be cut apart."""

EVEN = 1e-6
"""Tops that differ by less, in mm, differ by rounding only."""

Edges = Callable[[Rect], tuple[float, float]]


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
    facing = [_facing(box, reading) for box in boxes]
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
    facing = [_facing(box, reading) for box in boxes]
    left = sorted(range(len(facing)), key=lambda i: (facing[i].y, facing[i].centre.x, i))
    order = []
    while left:
        high = facing[left[0]]
        level = [i for i in left if facing[i].y - high.y < LEVEL * facing[i].height]
        taken = min(level or left[:1], key=lambda i: (facing[i].centre.x, facing[i].y, i))
        left.remove(taken)
        order.append(taken)
    return tuple(order)


def _facing(box: Rect, reading: Reading) -> Rect:
    """The box as a left-to-right reader of the mirrored page sees it."""
    return box if reading == "ltr" else Rect(-box.right, box.y, box.width, box.height)


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
