"""Figure room in a panel of any shape: the tallest upright box that stands on its floor, clear.

Between two neighbouring corners or crossings of sides, the panel's floor and the lowest thing over
it (the panel's own ceiling, a balloon) are straight. A box of width w that starts at s stands on
the highest floor between s and s + w and reaches up to the lowest thing there; what it has is the
least of a few straight functions of s, so its greatest height is at an end or where two of them
cross. A box of a lesser height goes in wherever a taller one does: the height is found by halving.
For rectangular panels and convex balloons it is `letterfit.place.figure.figure_room`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from letterfit.errors import DrawingError
from letterfit.existing.rings import hull
from letterfit.existing.union import CROSSED_SIDES, MOST_PLACES, crossings
from letterfit.outline import Floats

Ints = npt.NDArray[np.intp]

HALVINGS = 36
TOUCH_MM = 1e-9
"""Rounding that still counts as touching: touching is clear."""

_PAIRS = np.array(list(combinations(range(9), 2)))


def standing_room(panel: Floats, bodies: Sequence[Floats], *, aspect: float = 1 / 3) -> float:
    """The height in mm of the tallest box of an aspect that stands clear on a panel's floor.

    Args:
        panel: The corners of the panel, a simple polygon, shape (n, 2).
        bodies: The corners of what has to be kept clear of.
        aspect: Width over height of the box.

    Returns:
        The height to 1e-10 of the panel's; with more than 2000 sides perhaps less, never more.
        Where the panel lies in several storeys over each other, on the lowest one.

    Raises:
        DrawingError: When the bodies' hulls have more than some 2000 sides.

    >>> box = np.array([[0.0, 0.0], [60.0, 0.0], [60.0, 40.0], [0.0, 40.0]])
    >>> round(standing_room(box, [box * (1, 0.25)]), 6)
    30.0
    """
    ground = _ground(panel, bodies)
    if ground is None:
        return 0.0
    low, high = 0.0, min(float(np.ptp(panel[:, 1])), float(np.ptp(panel[:, 0])) / aspect)
    if ground.holds(high, aspect * high):
        return high
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if ground.holds(middle, aspect * middle) else (low, middle)
    return low if low > 1e-6 else 0.0


@dataclass(frozen=True, slots=True, eq=False)
class _Ground:
    """Floor and roof over each interval of x.

    Args:
        cuts: The ends of the intervals, growing, shape (n + 1,).
        floor: The floor's y at both ends of each interval, shape (n, 2).
        roof: The lowest thing's y at both ends, shape (n, 2).
        floors: Highest floors over 1, 2, 4, ... intervals onwards from each, a row each.
        roofs: Lowest roofs, likewise.
    """

    cuts: Floats
    floor: Floats
    roof: Floats
    floors: Floats
    roofs: Floats

    def holds(self, height: float, width: float) -> bool:
        """Whether a box goes in anywhere."""
        left, right = self.cuts[0], self.cuts[-1] - width
        starts = np.unique(np.clip(np.concatenate([self.cuts, self.cuts - width]), left, right))
        if right < left - TOUCH_MM:
            return False
        starts = starts if len(starts) > 1 else np.array([left, left])
        room = self._rooms(starts[:-1], starts[1:], width)
        wanted = height - TOUCH_MM
        if bool((room.min(axis=1) >= wanted).any()):
            return True
        near = room.max(axis=2).min(axis=1) >= wanted
        return bool(near.any()) and _greatest_least(room[near]) >= wanted

    def _rooms(self, first: Floats, last: Floats, width: float) -> Floats:
        """What a box has by each of nine straight functions, shape (m, 9, 2): at both starts."""
        middle, most = (first + last) / 2, len(self.floor) - 1
        here = np.clip(np.searchsorted(self.cuts, middle, side="right") - 1, 0, most)
        there = np.clip(np.searchsorted(self.cuts, middle + width, side="left") - 1, here, most)
        between = there > here
        floor = np.minimum(self.floor[here, 1], self.floor[there, 0])
        roof = np.maximum(self.roof[here, 1], self.roof[there, 0])
        floor = np.where(between, floor, np.inf)
        roof = np.where(between, roof, -np.inf)
        inner = there - here > 1
        start, stop = here[inner] + 1, there[inner]
        floor[inner] = np.minimum(floor[inner], _over(self.floors, start, stop, np.minimum))
        roof[inner] = np.maximum(roof[inner], _over(self.roofs, start, stop, np.maximum))
        spots = np.stack([first, last], axis=1)
        floors = [self._at(self.floor, here, spots), self._at(self.floor, there, spots + width)]
        roofs = [self._at(self.roof, here, spots), self._at(self.roof, there, spots + width)]
        floors.append(np.repeat(np.where(between, floor, floors[0].max(axis=1))[:, None], 2, 1))
        roofs.append(np.repeat(np.where(between, roof, roofs[0].min(axis=1))[:, None], 2, 1))
        return np.stack([f - r for f in floors for r in roofs], axis=1)

    def _at(self, ends: Floats, where: Ints, spots: Floats) -> Floats:
        """A straight function at two places of an interval each."""
        start, span = self.cuts[where], self.cuts[where + 1] - self.cuts[where]
        share = (spots - start[:, None]) / span[:, None]
        result: Floats = ends[where, :1] + share * (ends[where, 1:] - ends[where, :1])
        return result


def _greatest_least(room: Floats) -> float:
    """The greatest that the least of nine straight functions comes to, over all intervals."""
    first, step = room[..., 0], room[..., 1] - room[..., 0]
    one, other = _PAIRS.T
    with np.errstate(divide="ignore", invalid="ignore"):
        where = (first[:, other] - first[:, one]) / (step[:, one] - step[:, other])
    where = np.where(np.isfinite(where), np.clip(where, 0.0, 1.0), 0.0)
    least = (first[:, :, None] + step[:, :, None] * where[:, None, :]).min(axis=1)
    return float(least.max())


def _over(table: Floats, start: Ints, stop: Ints, better: np.ufunc) -> Floats:
    """The best over intervals from start up to stop, by two overlapping powers of two."""
    level = np.log2(stop - start).astype(np.intp)
    result: Floats = better(table[level, start], table[level, stop - 2**level])
    return result


def _table(values: Floats, better: np.ufunc) -> Floats:
    """The best of 1, 2, 4, ... values onwards from each, a row each; rows end in idle places."""
    rows = [values]
    while 2 ** len(rows) <= len(values):
        half = 2 ** (len(rows) - 1)
        shorter = better(rows[-1][:-half], rows[-1][half:])
        rows.append(np.concatenate([shorter, rows[-1][-half:]]))
    return np.stack(rows)


def _ground(panel: Floats, bodies: Sequence[Floats]) -> _Ground | None:
    """Floor and roof of a panel with what stands in it."""
    left, right = panel[:, 0].min(), panel[:, 0].max()
    rings = [panel, *bodies]
    places = [ring[:, 0] for ring in rings]
    sides = np.concatenate([np.hstack([ring, np.roll(ring, -1, axis=0)]) for ring in rings])
    crossed = len(sides) <= CROSSED_SIDES
    places.append(crossings(sides)[:, 0] if crossed else np.zeros(0))
    cuts = np.unique(np.clip(np.concatenate(places), left, right))
    if not crossed or len(cuts) * len(sides) > MOST_PLACES:
        hulls = [hull(body) for body in bodies]
        if sum(map(len, hulls)) < sum(map(len, bodies)):
            return _ground(panel, hulls)
        raise DrawingError("too many sides round a panel's balloons", advice="simplify their paths")
    cuts = cuts[np.concatenate([[True], np.diff(cuts) > TOUCH_MM])]
    if len(cuts) < 2:
        return None
    floor, roof = _storey(panel, cuts)
    for body in bodies:
        high, low = _extent(body, cuts)
        over = high.mean(axis=1) < floor.mean(axis=1)
        roof = np.where(over[:, None], np.maximum(roof, low), roof)
    worst_floor, worst_roof = floor.min(axis=1), roof.max(axis=1)
    return _Ground(
        cuts, floor, roof, _table(worst_floor, np.minimum), _table(worst_roof, np.maximum)
    )


def _sides_over(ring: Floats, cuts: Floats) -> tuple[Floats, Floats]:
    """The y of each side at both ends of each interval that it runs over; nan elsewhere."""
    start, end = ring, np.roll(ring, -1, axis=0)
    middle = ((cuts[1:] + cuts[:-1]) / 2)[:, None]
    runs = (start[:, 0] > middle) != (end[:, 0] > middle)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        slope = (end[:, 1] - start[:, 1]) / (end[:, 0] - start[:, 0])
        at = [start[:, 1] + (x[:, None] - start[:, 0]) * slope for x in (cuts[:-1], cuts[1:])]
    return np.where(runs, at[0], np.nan), np.where(runs, at[1], np.nan)


def _storey(panel: Floats, cuts: Floats) -> tuple[Floats, Floats]:
    """The floor of the panel's lowest storey over each interval, and what is over it."""
    first, last = _sides_over(panel, cuts)
    order = np.argsort(np.where(np.isnan(first), -np.inf, first + last), axis=1)
    rows = np.arange(len(cuts) - 1)
    lowest, next_up = order[:, -1], order[:, -2]
    floor = np.stack([first[rows, lowest], last[rows, lowest]], axis=1)
    roof = np.stack([first[rows, next_up], last[rows, next_up]], axis=1)
    bare = np.isnan(floor) | np.isnan(roof)
    return np.where(bare, 0.0, floor), np.where(bare, np.inf, roof)


def _extent(body: Floats, cuts: Floats) -> tuple[Floats, Floats]:
    """The highest and the lowest point of a body at both ends of each interval it runs over."""
    ends = np.stack(_sides_over(body, cuts), axis=1)
    away = np.isnan(ends).all(axis=2)
    high = np.where(np.isnan(ends), np.inf, ends).min(axis=2)
    low = np.where(np.isnan(ends), -np.inf, ends).max(axis=2)
    return np.where(away, np.inf, high), np.where(away, -np.inf, low)
