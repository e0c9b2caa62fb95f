"""The wedges tried for one tail, and what each of them runs into.

A wedge's root stands on the outline, its axis is a quadratic Bezier to the tip. For the test it is
cut across into convex strips; a strip and a convex body are apart by at least the largest distance
that any sampled direction shows between them, so what is held clear is clear.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import Bools
from letterfit.place.model import PlacedOutline, Tail

WIDTH = 3.0
"""Width at the root in mm, from 2.5 to 4 (common practice, no source)."""

SLENDER = 0.35
"""Most width at the root over the outline's shorter side."""

CLEAR = 0.3
"""Least distance in mm between a tail and what it must not cross."""

TOUCH = 0.35
"""How far in mm the tip of a link stays off the outline it leads to: just over CLEAR."""

SQUARE = 0.5
"""Least sine of the angle between a tail's way and the outline where it starts."""

STATIONS = 9
"""Places along the axis between which the wedge counts as a convex strip."""

_TURN = np.arange(48) * (2 * math.pi / 48)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])
_ROUND = np.linspace(0, 2 * math.pi, 361)


@dataclass(frozen=True, slots=True, eq=False)
class Wedges:
    """Tails tried for one balloon.

    Args:
        first: Shape (n, 2): the first roots, mm.
        last: Shape (n, 2): the last roots.
        bend: Shape (n, 2): the bends.
        tip: Shape (n, 2): the tips.
        strips: Shape (n, STATIONS - 1, 4, 2): the corners of the convex strips.
    """

    first: Floats
    last: Floats
    bend: Floats
    tip: Floats
    strips: Floats

    def halves(self, index: int) -> list[Floats]:
        """The reaches of the hulls of one wedge's two halves."""
        middle = self.strips.shape[1] // 2
        parts = self.strips[index, :middle], self.strips[index, middle:]
        return [corners_reach(part.reshape(-1, 2)) for part in parts]

    def tail(self, index: int) -> Tail:
        """One of them as a value."""
        return Tail(
            root=(_point(self.first[index]), _point(self.last[index])),
            tip=_point(self.tip[index]),
            bend=_point(self.bend[index]),
        )


def wedges(
    item: PlacedOutline,
    target: Point,
    *,
    shares: Sequence[float],
    turns: Sequence[float],
    bends: Sequence[float],
) -> Wedges:
    """The wedges of every share, turn and bend, the ones of best taste first."""
    goal = np.array([target.x - item.x_mm, target.y - item.y_mm])
    grid = np.array(list(product(shares, turns, bends)))
    straight = math.atan2(goal[1], goal[0])
    middle, normal, roots = _roots(item.outline, straight + np.radians(grid[:, 1]), goal=goal)
    way = grid[:, :1] * (goal - middle)
    side = np.stack([-way[:, 1], way[:, 0]], axis=1)
    # The bend goes to the side the outline faces, so that the tail leaves it squarely.
    side *= np.where((side * normal).sum(axis=1) < 0, -1, 1)[:, None]
    centre = np.array([item.x_mm, item.y_mm])
    bend = centre + middle + way / 2 + grid[:, 2:] * side
    first, last, tip = centre + roots[0], centre + roots[1], centre + middle + way
    return Wedges(first, last, bend, tip, _strips(first, last, bend=bend, tip=tip))


def _roots(
    outline: Outline, directions: Floats, *, goal: Floats
) -> tuple[Floats, Floats, tuple[Floats, Floats]]:
    """Middles of the roots, outward normals there, and both roots, about the outline's centre."""
    turn, length, points = _outline_walk(outline)
    around = turn[0] + np.mod(directions - turn[0], 2 * math.pi)
    at = np.interp(around, turn, length)
    away = np.hypot(*(goal[:, None] - _along(points, length, at).T))
    shortest = 2 * min(outline.half_width, outline.half_height)
    half = np.minimum(min(WIDTH, SLENDER * shortest), np.maximum(0.45 * away, 1.0)) / 2
    first, last = _along(points, length, at - half), _along(points, length, at + half)
    chord = last - first
    normal = np.stack([chord[:, 1], -chord[:, 0]], axis=1)
    return (first + last) / 2, normal, (first, last)


@lru_cache(maxsize=1024)
def _outline_walk(outline: Outline) -> tuple[Floats, Floats, Floats]:
    """Points along an outline: angles about its centre, lengths from the first, and (x, y)."""
    points = outline.boundary(_ROUND)
    points = np.concatenate([points, points[:1]])
    turn = np.unwrap(np.arctan2(points[:, 1], points[:, 0]))
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    keep = np.concatenate([[True], np.diff(turn) > 1e-12])
    return turn[keep], length[keep], points[keep]


def _along(points: Floats, length: Floats, at: Floats) -> Floats:
    """The points at the given lengths along a closed line."""
    at = np.mod(at, length[-1])
    return np.stack([np.interp(at, length, points[:, c]) for c in (0, 1)], axis=1)


def _strips(first: Floats, last: Floats, *, bend: Floats, tip: Floats) -> Floats:
    s = np.linspace(0, 1, STATIONS)[:, None]
    middle, reach = ((first + last) / 2)[:, None], ((last - first) / 2)[:, None] * (1 - s)
    axis = (1 - s) ** 2 * middle + 2 * s * (1 - s) * bend[:, None] + s**2 * tip[:, None]
    sides = np.stack([axis - reach, axis + reach], axis=2)
    return np.concatenate([sides[:, :-1], sides[:, 1:]], axis=2)


def hits(panel: Rect, tried: Wedges, *, reaches: Sequence[Floats]) -> Floats:
    """What is met, and leaving the panel or the outline badly: how many faults each wedge has.

    Leaving the panel and leaving the outline at too flat an angle count as one each.
    """
    return _outside(panel, tried).astype(np.float64) + met(tried, reaches=reaches)


def met(tried: Wedges, *, reaches: Sequence[Floats]) -> Floats:
    """How many convex bodies, by their `reach`, each wedge comes too close to."""
    low = (tried.strips @ _UNITS).min(axis=2)
    count = np.zeros(len(low))
    for reach in reaches:
        count += ((low - reach).max(axis=2) < CLEAR).any(axis=1)
    return count


def outline_reach(item: PlacedOutline) -> Floats:
    """The support function of an outline at its place, in the directions sampled."""
    result: Floats = item.outline.support(_TURN) + np.array([item.x_mm, item.y_mm]) @ _UNITS
    return result


def ellipse_reach(box: Rect) -> Floats:
    """The support function of the ellipse in a box, in the directions sampled."""
    a, b = box.width / 2, box.height / 2
    grown = np.hypot(a * _UNITS[0], b * _UNITS[1])
    result: Floats = grown + np.array([box.centre.x, box.centre.y]) @ _UNITS
    return result


def box_reach(box: Rect) -> Floats:
    """The support function of a box, in the directions sampled."""
    xs, ys = (box.x, box.right), (box.y, box.bottom)
    return corners_reach(np.array(list(product(xs, ys))))


def corners_reach(corners: Floats) -> Floats:
    """The support function of the convex hull of points (n, 2), in the directions sampled."""
    result: Floats = (corners @ _UNITS).max(axis=0)
    return result


def nearest_point(item: PlacedOutline, to: PlacedOutline | Point) -> Point:
    """The point just off another outline nearest to this one; of this one nearest to a point."""
    if isinstance(to, Point):
        own = _outline_walk(item.outline)[2] + np.array([item.x_mm, item.y_mm])
        return _point(own[int(np.hypot(own[:, 0] - to.x, own[:, 1] - to.y).argmin())])
    points = _outline_walk(to.outline)[2] + np.array([to.x_mm, to.y_mm])
    away = (points @ _UNITS - outline_reach(item)).max(axis=1)
    x, y = points[int(away.argmin())]
    off = TOUCH / max(math.hypot(item.x_mm - x, item.y_mm - y), TOUCH)
    return Point(float(x + off * (item.x_mm - x)), float(y + off * (item.y_mm - y)))


def _outside(panel: Rect, tried: Wedges) -> Floats:
    """Whether a wedge leaves the panel, or leaves its outline at too flat an angle."""
    xs, ys = tried.strips[..., 0], tried.strips[..., 1]
    beyond = (xs < panel.x - 1e-9) | (xs > panel.right + 1e-9)
    beyond |= (ys < panel.y - 1e-9) | (ys > panel.bottom + 1e-9)
    middle = (tried.first + tried.last) / 2
    flat = _flat(tried, tried.tip - middle) | _flat(tried, tried.bend - middle)
    result: Floats = beyond.any(axis=(1, 2)).astype(np.float64) + flat
    return result


def _flat(tried: Wedges, way: Floats) -> Bools:
    """Whether a way leaves the outline at less than SQUARE of a right angle's sine."""
    chord = tried.last - tried.first
    across = chord[:, 1] * way[:, 0] - chord[:, 0] * way[:, 1]
    result: Bools = across < SQUARE * np.hypot(*chord.T) * np.hypot(*way.T)
    return result


def _point(pair: Floats) -> Point:
    return Point(float(pair[0]), float(pair[1]))
