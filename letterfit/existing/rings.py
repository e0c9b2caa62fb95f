"""Polygons by their corners: area, what lies inside, how far off points are, the hull."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats

Flags = npt.NDArray[np.bool_]

BLOCK = 1_000_000
"""Pairs of a point and a side that are looked at together."""


def signed_area(ring: Floats) -> float:
    """The area in mm2 of a simple polygon, over 0 where its corners run clockwise on the page.

    >>> signed_area(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 2.0]]))
    4.0
    """
    x, y = (ring - ring[0]).T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum() / 2)


def largest(rings: Sequence[Floats]) -> Floats:
    """The polygon of the largest area; of several the first."""
    return max(rings, key=lambda ring: abs(signed_area(ring)))


def is_inside(points: Floats, rings: Sequence[Floats], *, even_odd: bool = False) -> Flags:
    """Which points lie inside some polygons, by the winding number (or its parity).

    Args:
        points: Shape (n, 2).
        rings: The corners of each polygon, shape (m, 2).
        even_odd: Whether the even-odd rule holds; else the nonzero rule.

    Source: Hormann and Agathos, The point in polygon problem for arbitrary polygons, Computational
    Geometry 20 (2001).

    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> is_inside(np.array([[1.0, 1.0], [3.0, 1.0]]), [square]).tolist()
    [True, False]
    """
    turns = np.zeros(len(points), dtype=np.int64)
    for ring in rings:
        step = max(1, BLOCK // len(ring))
        for at in range(0, len(points), step):
            turns[at : at + step] += _turns(points[at : at + step], ring)
    result: Flags = turns % 2 == 1 if even_odd else turns != 0
    return result


def _turns(points: Floats, ring: Floats) -> npt.NDArray[np.int64]:
    start, end = ring, np.roll(ring, -1, axis=0)
    x, y = points[:, :1], points[:, 1:]
    up, down = (start[:, 1] <= y) & (end[:, 1] > y), (start[:, 1] > y) & (end[:, 1] <= y)
    side = (end[:, 0] - start[:, 0]) * (y - start[:, 1]) - (x - start[:, 0]) * (
        end[:, 1] - start[:, 1]
    )
    result: npt.NDArray[np.int64] = (up & (side > 0)).sum(axis=1) - (down & (side < 0)).sum(axis=1)
    return result


def crosses(one: Floats, other: Sequence[Floats]) -> bool:
    """Whether some corners of a polygon lie inside others, and some outside."""
    inside = is_inside(one, other)
    return bool(inside.any() and not inside.all())


def distances(points: Floats, ring: Floats) -> Floats:
    """The distance in mm from each point to the nearest side of a polygon.

    >>> square = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> distances(np.array([[1.0, 0.5], [4.0, 1.0]]), square).tolist()
    [0.5, 2.0]
    """
    along = np.roll(ring, -1, axis=0) - ring
    square = np.maximum((along**2).sum(axis=1), 1e-300)
    found = np.empty(len(points))
    step = max(1, BLOCK // len(ring))
    for at in range(0, len(points), step):
        off = points[at : at + step, None] - ring
        share = np.clip((off * along).sum(axis=2) / square, 0.0, 1.0)
        found[at : at + step] = np.hypot(*np.moveaxis(off - share[..., None] * along, -1, 0)).min(
            axis=1
        )
    return found


def hull(points: Floats) -> Floats:
    """The corners of the convex hull (Andrew's monotone chain, 1979).

    >>> hull(np.array([[0.0, 0.0], [4.0, 0.0], [1.0, 1.0], [0.0, 4.0]])).tolist()
    [[0.0, 0.0], [4.0, 0.0], [0.0, 4.0]]
    """
    ordered = sorted(set(map(tuple, points.tolist())))
    if len(ordered) < 3:
        return np.array(ordered)
    halves = [_half(ordered), _half(ordered[::-1])]
    return np.array([*halves[0][:-1], *halves[1][:-1]])


def _half(ordered: Sequence[tuple[float, ...]]) -> list[tuple[float, ...]]:
    kept: list[tuple[float, ...]] = []
    for x, y in ordered:
        while len(kept) > 1:
            (a, b), (c, d) = kept[-2:]
            if (c - a) * (y - b) - (d - b) * (x - a) > 0:
                break
            kept.pop()
        kept.append((x, y))
    return kept


def is_convex(ring: Floats, *, slack: float = 1e-6) -> bool:
    """Whether a polygon is its own hull, up to a share of its area.

    >>> is_convex(np.array([[0.0, 0.0], [4.0, 0.0], [1.0, 1.0], [0.0, 4.0]]))
    False
    """
    area = abs(signed_area(hull(ring)))
    return area - abs(signed_area(ring)) <= slack * area


def clipped(ring: Floats, box: tuple[float, float, float, float]) -> Floats:
    """The part of a polygon inside a box (left, top, right, bottom); no corners where none is.

    Source: Sutherland and Hodgman, Reentrant polygon clipping, CACM 17 (1974). Parts of a polygon
    that is not convex stay joined along the box's sides.

    >>> clipped(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]]), (1, 1, 9, 9)).tolist()
    [[4.0, 1.0], [4.0, 4.0], [1.0, 4.0], [1.0, 1.0]]
    """
    left, top, right, bottom = box
    for axis, sign, edge in ((0, 1, left), (1, 1, top), (0, -1, right), (1, -1, bottom)):
        if len(ring):
            ring = _cut(ring, axis, sign, edge)
    return ring


def _cut(ring: Floats, axis: int, sign: int, edge: float) -> Floats:
    """The part of a polygon on one side of a level or upright line."""
    depth = sign * (ring[:, axis] - edge)
    if (depth >= 0).all():
        return ring
    kept: list[Floats] = []
    for here, there, d, e in zip(
        ring, np.roll(ring, -1, axis=0), depth, np.roll(depth, -1), strict=True
    ):
        if d >= 0:
            kept.append(here)
        if (d >= 0) != (e >= 0):
            crossing = here + (there - here) * (d / (d - e))
            crossing[axis] = edge
            kept.append(crossing)
    return np.array(kept).reshape(-1, 2)
