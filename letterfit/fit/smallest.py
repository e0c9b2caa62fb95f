"""The smallest outline of a family round a text, over all breaks, numbers of lines and aspects.

Exact, as follows. The survey gives, per cell of aspect, the least scale of any stack at the cell's
middle, never too large. Its stacks, each polished over all aspects, give an area. No stack with a
smaller area can ask for more than `Cells.reach` of it at the middle of the cell where it is
smallest: all stacks that ask for less are listed (cells with too many of them are split) and
polished. What remains is the least.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np

from letterfit.fit.aspects import Cells, fine_cells
from letterfit.fit.bound import least_scale
from letterfit.fit.ink import Stack
from letterfit.fit.lines import SIN, Candidates, Ints, Shapes
from letterfit.fit.polish import EXACT, smallest_outline
from letterfit.fit.stack import half_leadings
from letterfit.fit.survey import Survey, survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

MOST_LISTED = 400
"""Stacks listed in one cell before the cell is split."""

PARTS = 4
"""Into how many a cell is split."""

NARROWEST = 1e-6
"""Cells this narrow (in log aspect) are no more split, but listed up to the limit: the areas of all
stacks in them are equal to 1e-6."""

SAME = 1e-9
"""Areas that differ by this share are equal."""


@dataclass(frozen=True, slots=True)
class Small:
    """A stack and the smallest outline round it.

    Args:
        stack: First piece of every line, and the number of pieces.
        outline: The outline.
    """

    stack: Stack
    outline: Outline

    @property
    def area(self) -> float:
        """The outline's area in mm2."""
        return self.outline.area_mm2


def smallest(words: Words, grid: Cells, found: Survey, *, tolerance: float = EXACT) -> Small:
    """The stack whose smallest outline is the least of all.

    Args:
        words: A text with at least one piece.
        grid: The family and its range of aspects in cells.
        found: The survey at the cells' middles.
        tolerance: How far, as a share, the area may lie over the least.
    """
    first = int((found.scales**2 * grid.shapes.areas[found.which]).argmin())
    (stack,) = found.stacks(np.array([first]))
    outline = grid.shapes.outlines[found.which[first]]
    touch = least_scale(
        found.candidates.boxes.points(stack), outline, air=found.candidates.air
    )
    start = Small(stack, outline.scaled(touch.scale))
    return _improved(words, grid, found, best=start, tolerance=tolerance)


def _improved(
    words: Words, grid: Cells, found: Survey, *, best: Small, tolerance: float
) -> Small:
    """The least of `best` and every stack that could be smaller, listed cell by cell."""
    reach = grid.reach(best.area) * (1 + SAME)
    open_pairs = found.scales <= reach[found.which]
    listed: list[Stack] = []
    for cell in np.unique(found.which[open_pairs]).tolist():
        pairs = np.flatnonzero(open_pairs & (found.which == cell))
        here = list(islice(listed_stacks(found, pairs, limit=reach[cell]), MOST_LISTED + 1))
        if len(here) <= MOST_LISTED or grid.width < NARROWEST:
            listed += here
            continue
        parts = grid.split(cell, parts=PARTS)
        inner = survey(
            words, parts.shapes, air=found.candidates.air, slack=math.expm1(parts.width)
        )
        best = _improved(words, parts, inner, best=best, tolerance=tolerance)
    return _least(grid, found, listed, (best, tolerance))


def _least(
    grid: Cells, found: Survey, listed: list[Stack], so_far: tuple[Small, float]
) -> Small:
    """The least of the best so far and the listed stacks, each polished if it may be smaller."""
    best, tolerance = so_far
    fine = fine_cells(grid.name, *grid.ends(), len(grid.shapes.outlines))
    stacks = list(dict.fromkeys(listed))
    areas = stack_scales(found.candidates, fine.shapes, stacks) ** 2 * fine.shapes.areas
    # From the middle of a cell to its edges the area falls no faster than the aspect changes.
    bounds = areas.min(axis=1) * math.exp(-fine.width / 2)
    for k in np.argsort(bounds, kind="stable").tolist():
        if bounds[k] > best.area * (1 + SAME):
            break
        within = np.flatnonzero(areas[k] * math.exp(-fine.width / 2) <= best.area * (1 + SAME))
        outline = smallest_outline(
            found.candidates.boxes.points(stacks[k]),
            grid.name,
            (fine.ends(int(within[0]))[0], fine.ends(int(within[-1]))[1]),
            air=found.candidates.air,
            near=fine.ends(int(areas[k].argmin())),
            tolerance=tolerance,
        )
        best = _better(best, Small(stacks[k], outline))
    return best


def _better(one: Small, other: Small) -> Small:
    """The smaller one; of equals the one with fewer lines, then shorter upper lines."""
    if other.area < one.area * (1 - SAME):
        return other
    if other.area > one.area * (1 + SAME):
        return one
    return min(one, other, key=lambda small: (len(small.stack), small.stack))


def listed_stacks(found: Survey, pairs: Ints, *, limit: float) -> Iterator[Stack]:
    """Every stack of the given pairs none of whose lines asks for more than `limit`."""
    for pair in pairs.tolist():
        count = int(found.counts[pair])
        costs = [found.costs[row] for row in found.rows_of_costs[pair, :count][::-1]]
        yield from _runs(costs, [row[pair] for row in found.rows[:count]], (0,), limit)


def _runs(costs: list[Floats], rows: list[Floats], begun: Stack, limit: float) -> Iterator[Stack]:
    """All ways to go on from the lines begun: no dead ends, since the rows know what is left."""
    line, first = len(begun) - 1, begun[-1]
    if line == len(costs):
        yield begun
        return
    below = rows[len(costs) - 1 - line]
    for end in range(first + 1, min(first + len(costs[0]), len(below) - 1) + 1):
        if below[end] <= limit and costs[line][end - first - 1, first] <= limit:
            yield from _runs(costs, rows, (*begun, end), limit)


def stack_scales(candidates: Candidates, shapes: Shapes, stacks: Sequence[Stack]) -> Floats:
    """The scale that each stack asks of each shape, a lower bound from all its ink: (stacks, S)."""
    result = np.empty((len(stacks), len(shapes.outlines)))
    lengths = np.array([len(stack) for stack in stacks])
    for length in np.unique(lengths).tolist():
        same = np.flatnonzero(lengths == length)
        bounds = np.array([stacks[k] for k in same])
        drop = half_leadings(length - 1) * candidates.half_leading * SIN[:, None, None]
        ink = candidates.ink[:, :, np.diff(bounds) - 1, bounds[:, :-1]]
        folded = (ink + np.stack([-drop, drop])).max(axis=(0, 3)).T + candidates.air
        for k, row in zip(same.tolist(), folded, strict=True):
            result[k] = (row * shapes.inverse).max(axis=1)
    return result
