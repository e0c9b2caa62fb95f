"""Tiers and reading order of panels that are only seen: the recursive X-Y cut.

The page is cut across wherever a level line meets no panel; what stands between two cuts is a tier
(Nagy and Seth, Hierarchical representation of optically scanned documents, ICPR 1984). Panels that
overlap a little are cut apart all the same.
"""

from collections.abc import Iterator, Sequence

from letterfit.geometry import Rect
from letterfit.place.model import Reading
from letterfit.place.order import reading_order

INSET_MM = 0.5
"""How far a panel may stick out of another and still be set into it."""

OVERLAP_MM = 1.0
"""Panels that overlap by less stand beside each other: borders meet, hands are not exact."""


def tiers_of(boxes: Sequence[Rect], *, reading: Reading = "ltr") -> tuple[tuple[int, ...], ...]:
    """The tiers of a page from top to bottom, panels in reading order, insets after their hosts.

    Args:
        boxes: The boxes round the panels, in any order.
        reading: "ltr" or "rtl".

    Returns:
        The numbers of the boxes, tier by tier; all of them, once each.

    >>> tiers_of([Rect(0, 50, 90, 40), Rect(50, 0, 40, 45), Rect(0, 0, 45, 45)])
    ((2, 1), (0,))
    """
    smaller = [_shrunk(box) for box in boxes]
    hosts = [host_of(k, boxes) for k in range(len(boxes))]
    rows: list[list[int]] = []
    bottom = float("-inf")
    own = [k for k, host in enumerate(hosts) if host is None]
    for number in sorted(own, key=lambda k: smaller[k].y):
        if smaller[number].y >= bottom:
            rows.append([])
        rows[-1].append(number)
        bottom = max(bottom, smaller[number].bottom)

    def read(numbers: Sequence[int]) -> Iterator[int]:
        for k in reading_order([smaller[n] for n in numbers], reading=reading):
            yield numbers[k]
            yield from read([n for n, host in enumerate(hosts) if host == numbers[k]])

    return tuple(tuple(read(sorted(row))) for row in rows)


def host_of(number: int, boxes: Sequence[Rect]) -> int | None:
    """The smallest panel that a panel is set into; None for those that are no insets.

    Args:
        number: Which panel.
        boxes: The boxes round all panels.

    >>> host_of(1, [Rect(0, 0, 90, 90), Rect(50, 50, 20, 20)])
    0
    """
    box = boxes[number]
    round_it = [
        (other.area_mm2, k)
        for k, other in enumerate(boxes)
        if other.holds(box, tolerance=INSET_MM) and (other.area_mm2, -k) > (box.area_mm2, -number)
    ]
    return min(round_it)[1] if round_it else None


def _shrunk(box: Rect) -> Rect:
    return box.inset(min(OVERLAP_MM / 2, box.width / 4, box.height / 4))
