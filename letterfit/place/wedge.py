"""The wedge of a tail as a region: what the renderer fills, and everything else measures.

The axis is the quadratic Bezier from the middle M of the root over the bend B to the tip T. The
wedge's two sides are the axis shifted by +- r (1 - s), r half the vector between the roots: again
quadratic Beziers, from each root M +- r, over B +- r / 2, to the tip (r (1 - s) is linear
in s: its control point lies half way). A straight wedge is the
triangle of the roots and the tip. Filled together with its outline, the wedge hides the stretch of
outline between the roots.
"""

from letterfit.geometry import Point
from letterfit.place.model import Tail

STRIPS = 16
"""Chords on each side of a bent wedge's polygon: off the curve by its bow over 4 STRIPS squared."""

BOLT = (((0.52, -1.0), (0.45, -0.5)), ((0.45, 1.0), (0.55, 0.1)))
"""Corners of a bolt on its way to the tip and back: how far along, and how far beside the axis."""

Curve = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


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
    left, right = side_curves(tail)
    there = [_along(left, i / n) for i in range(n)]
    back = [_along(right, i / n) for i in range(n - 1, -1, -1)]
    return (*there, tail.tip, *back)


def side_curves(tail: Tail) -> tuple[Curve, Curve]:
    """The wedge's two sides as quadratic Beziers: start, control point and end, each (x, y) mm."""
    first, last = tail.root
    tip = (tail.tip.x, tail.tip.y)
    x, y = (first.x + last.x) / 2, (first.y + last.y) / 2
    bend = tail.bend or Point((x + tip[0]) / 2, (y + tip[1]) / 2)
    across, down = (last.x - first.x) / 4, (last.y - first.y) / 4
    return (
        ((first.x, first.y), (bend.x - across, bend.y - down), tip),
        ((last.x, last.y), (bend.x + across, bend.y + down), tip),
    )


def bolt_polygon(tail: Tail) -> tuple[Point, ...]:
    """The jagged tail of a machine's voice: a bolt inside the wedge, from root to root.

    Args:
        tail: The tail.

    Returns:
        Seven corners: the first root, out to the left side and back in, the tip, the same on the
        right, the last root.

    >>> bolt = bolt_polygon(Tail(root=(Point(0, 0), Point(4, 0)), tip=Point(2, 10)))
    >>> bolt[0], bolt[3], len(bolt)
    (Point(x=0, y=0), Point(x=2.0, y=10.0), 7)
    """
    first, last = tail.root
    left, right = side_curves(tail)
    there, back = (tuple(_across(left, right, *corner) for corner in side) for side in BOLT)
    tip = Point(*map(float, left[2]))
    return (first, *there, tip, *back, last)


def _across(left: Curve, right: Curve, along: float, beside: float) -> Point:
    """A point of the wedge: so far along it, and beside its axis from -1 to 1 on its sides."""
    one, two = _along(left, along), _along(right, along)
    share = (1 + beside) / 2
    return Point(one.x + share * (two.x - one.x), one.y + share * (two.y - one.y))


def wedge_area(tail: Tail) -> float:
    """The wedge's area in mm2, exact where its sides do not cross.

    By Green's theorem: half the integral of x dy - y dx along a quadratic Bezier P, Q, R is
    (P x Q + Q x R) / 3 + (P x R) / 6.

    >>> wedge_area(Tail(root=(Point(0, 0), Point(2, 0)), tip=Point(1, 5)))
    5.0
    """
    left, right = side_curves(tail)
    first, last = tail.root
    chord = (last.x * first.y - last.y * first.x) / 2
    return abs(_swept(left) - _swept(right) + chord)


def _swept(curve: Curve) -> float:
    (px, py), (qx, qy), (rx, ry) = curve
    ends = px * qy - py * qx + qx * ry - qy * rx
    return ends / 3 + (px * ry - py * rx) / 6


def _along(curve: Curve, share: float) -> Point:
    start, middle, end = (1 - share) ** 2, 2 * share * (1 - share), share**2
    (x0, y0), (x1, y1), (x2, y2) = curve
    return Point(
        start * x0 + middle * x1 + end * x2,
        start * y0 + middle * y1 + end * y2,
    )
