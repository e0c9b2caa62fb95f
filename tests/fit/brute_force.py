"""The least area over every breaking of a text and every aspect, with no code of the fit's search.

All breakings are held at once: the ink of a stack reaches, in a direction, as far as that of its
farthest line does, so that a table of lines by place in the stack gives every stack. An outline of
a family must hold that reach and the air in all directions. Bounds on a grid of aspects leave few
stacks, and scipy finds the best aspect of each.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.optimize import minimize_scalar

from letterfit.fit.aspects import unit_outline
from letterfit.lettering.words import Words
from letterfit.outline import Floats

Stack = tuple[int, ...]

COARSE = np.linspace(0, math.pi / 2, 91)
FINE = np.linspace(0, math.pi / 2, 4_001)
"""Directions: any give a lower bound, these many the area to far below 1e-6 of it."""

FEW, MANY = 24, 240
"""Aspects of the first and second grid."""


@dataclass(frozen=True, slots=True, eq=False)
class Reaches:
    """How far the ink of every candidate line reaches at every place it may have in a stack.

    Args:
        words: The text.
        directions: Shape (d,), radians from 0 to a right angle: outlines are symmetric.
        table: Shape (n, n + 1, 2 n - 1, d), mm: entry [i, j, p] is the line of pieces i .. j - 1,
            its middle p - n + 1 half leadings under the centre.
    """

    words: Words
    directions: Floats
    table: Floats

    @classmethod
    def of(cls, words: Words, directions: Floats) -> "Reaches":
        """Every line with its advance centred, by the model's own `line`."""
        count = len(words)
        units = np.stack([np.cos(directions), np.sin(directions)])
        drops = np.arange(1 - count, count) * words.leading_mm / 2 + words.cap_height_mm / 2
        table = np.zeros((count, count + 1, len(drops), len(directions)))
        for first in range(count):
            for end in range(first + 1, count + 1):
                line = words.line(first, end - 1)
                for place, drop in enumerate(drops.tolist()):
                    corners = np.abs(line.corners() + np.array([-line.width_mm / 2, drop]))
                    table[first, end, place] = (corners @ units).max(axis=0, initial=0.0)
        return cls(words, directions, table)

    def of_stacks(self, stacks: Sequence[Stack]) -> Floats:
        """How far each stack's ink reaches, shape (s, d)."""
        count = len(self.words)
        result = np.zeros((len(stacks), len(self.directions)))
        lines = np.array([len(stack) - 1 for stack in stacks])
        for many in sorted(set(lines.tolist())):
            which = np.flatnonzero(lines == many)
            chosen = np.array([stacks[k] for k in which.tolist()])
            for line in range(many):
                place = 2 * line - (many - 1) + count - 1
                reach = self.table[chosen[:, line], chosen[:, line + 1], place]
                result[which] = np.maximum(result[which], reach)
        return result


def least_over_all(
    words: Words, name: str, *, stacks: Sequence[Stack], air: float, aspects: tuple[float, float]
) -> float:
    """The least area of a family's outline round any of the stacks, mm2.

    Args:
        words: The text.
        name: A family whose outlines nest.
        stacks: Its breakings.
        air: mm.
        aspects: The least and the greatest aspect, not equal.
    """
    reach = Reaches.of(words, COARSE).of_stacks(stacks) + air
    coarse = lower_bounds(name, reach, np.geomspace(*aspects, FEW))
    first = int(coarse.min(axis=0).argmin())
    grid = np.geomspace(*aspects, MANY)
    own = lower_bounds(name, reach[first : first + 1], grid)
    best = least_near(words, stacks[first], name, air=air, grid=grid, at=int(own.argmin()))
    near = np.flatnonzero(coarse.min(axis=0) <= best).tolist()
    finer = lower_bounds(name, reach[near], grid)
    for place in np.argsort(finer, axis=None, kind="stable").tolist():
        at, k = divmod(place, len(near))
        if finer[at, k] > best:
            break
        best = min(best, least_near(words, stacks[near[k]], name, air=air, grid=grid, at=at))
    return best


def lower_bounds(name: str, reach: Floats, grid: Floats) -> Floats:
    """What no area is under whose aspect is at one of the grid's, or half way to the next.

    From one aspect to another the least area changes by less than their ratio to the power of
    1.25: a family's outlines nest, and where rounded corners stay as they are, areas grow a little
    faster than sides.

    Args:
        name: The family.
        reach: Shape (s, d), mm: how far ink and air reach in the coarse directions.
        grid: Shape (a,): aspects in even ratios.

    Returns:
        Shape (a, s), mm2.
    """
    result = np.empty((len(grid), len(reach)))
    for row, aspect in zip(result, grid.tolist(), strict=True):
        unit = unit_outline(name, aspect)
        row[:] = unit.area_mm2 * (reach / unit.support(COARSE)).max(axis=1) ** 2
    bounds: Floats = result / (grid[1] / grid[0]) ** (1.25 / 2)
    return bounds


def least_near(
    words: Words, stack: Stack, name: str, *, air: float, grid: Floats, at: int
) -> float:
    """The least area round one stack, by scipy, its aspect near one of the grid's."""
    corners = []
    for k, (first, end) in enumerate(pairwise(stack)):
        line = words.line(first, end - 1)
        middle = (2 * k - (len(stack) - 2)) * words.leading_mm / 2
        baseline = middle + words.cap_height_mm / 2
        corners.append(line.corners() + np.array([-line.width_mm / 2, baseline]))
    points = np.abs(np.concatenate(corners))
    reach = (points @ np.stack([np.cos(FINE), np.sin(FINE)])).max(axis=0) + air

    def area(log_aspect: float) -> float:
        unit = unit_outline(name, math.exp(log_aspect))
        return float(unit.area_mm2 * (reach / unit.support(FINE)).max() ** 2)

    low, high = np.log(grid[[max(at - 1, 0), min(at + 1, len(grid) - 1)]]).tolist()
    found = minimize_scalar(area, bounds=(low, high), method="bounded", options={"xatol": 1e-9})
    return min(float(found.fun), area(low), area(high))
