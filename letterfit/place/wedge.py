"""The wedge of a tail as a region: what the renderer fills, and everything else measures.

The axis is the quadratic Bezier from the middle M of the root over the bend B to the tip T. The
wedge's two sides are the axis shifted by +- r (1 - s), r half the vector between the roots: again
quadratic Beziers, from each root M +- r, over B +- r / 2, to the tip. A straight wedge is the
triangle of the roots and the tip. Filled together with its outline, the wedge hides the stretch of
outline between the roots.
"""

from letterfit.geometry import Point
from letterfit.place.model import Tail

STRIPS = 32
"""Chords on each side of a bent wedge's polygon."""


def tail_polygon(tail: Tail, n: int = STRIPS) -> tuple[Point, ...]:
    """The wedge as a polygon: from the first root along its side to the tip and back.

    Args:
        tail: The tail.
        n: Chords on each side of a bent wedge; a straight one needs only one.

    Returns:
        2 n + 1 corners, or the triangle of a straight wedge.

    >>> tail_polygon(Tail(root=(Point(0, 0), Point(2, 0)), tip=Point(1, 5)))
    (Point(x=0, y=0), Point(x=1, y=5), Point(x=2, y=0))
    """
    first, last = tail.root
    if tail.bend is None:
        return first, tail.tip, last
    shares = [i / n for i in range(n)]
    there = [_on_side(tail, s, side=-1) for s in shares]
    back = [_on_side(tail, s, side=1) for s in reversed(shares)]
    return (*there, tail.tip, *back)


def _on_side(tail: Tail, share: float, *, side: int) -> Point:
    """A point of the side that starts at the first (-1) or the last root (1)."""
    first, last = tail.root
    bend = tail.bend or tail.tip
    start, middle, end = (1 - share) ** 2, 2 * share * (1 - share), share**2
    reach = side * (1 - share) / 2
    return Point(
        start * (first.x + last.x) / 2
        + middle * bend.x
        + end * tail.tip.x
        + reach * (last.x - first.x),
        start * (first.y + last.y) / 2
        + middle * bend.y
        + end * tail.tip.y
        + reach * (last.y - first.y),
    )
