"""Polygons cut by half-planes: areas of tails outside their outlines and inside the panel.

Source: Sutherland and Hodgman, Reentrant polygon clipping, Comm. ACM 17(1), 1974. A concave subject
may come back with coincident edges, which add no area.
"""

from collections.abc import Iterable, Sequence

Corner = tuple[float, float]
HalfPlane = tuple[float, float, float]
"""(a, b, c): the points with a x + b y <= c."""


def area(corners: Sequence[Corner]) -> float:
    """The area of a simple polygon (shoelace formula), whichever way round it goes.

    >>> area([(0, 0), (4, 0), (4, 3)])
    6.0
    """
    total = 0.0
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        total += x0 * y1 - x1 * y0
    return abs(total) / 2


def clipped(corners: Sequence[Corner], planes: Iterable[HalfPlane]) -> list[Corner]:
    """The part of a polygon inside all half-planes.

    >>> clipped([(0, 0), (4, 0), (4, 3)], [(1, 0, 2)])
    [(2.0, 1.5), (0, 0), (2.0, 0.0)]
    """
    kept = list(corners)
    for plane in planes:
        kept = _cut(kept, plane)
    return kept


def _cut(corners: list[Corner], plane: HalfPlane) -> list[Corner]:
    a, b, c = plane
    over = [a * x + b * y - c for x, y in corners]
    result: list[Corner] = []
    for i, (x1, y1) in enumerate(corners):
        x0, y0 = corners[i - 1]
        before, here = over[i - 1], over[i]
        if (before > 0) != (here > 0):
            share = before / (before - here)
            result.append((x0 + share * (x1 - x0), y0 + share * (y1 - y0)))
        if here <= 0:
            result.append((x1, y1))
    return result
