"""The smallest outline of a family round a text, over all breaks, numbers of lines and aspects.

Exact, as follows. The survey gives, per cell of aspect, the least scale of any stack at the cell's
middle, never too large. Its stacks, each polished over all aspects, give an area. No stack with a
smaller area can ask for more than `Cells.reach` of it at the middle of the cell where it is
smallest: all stacks that ask for less are listed (cells with too many of them are split) and
polished. What remains is the least.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

import numpy as np

from letterfit.fit.aspects import Cells
from letterfit.fit.bound import ink_points
from letterfit.fit.lines import DIRECTIONS, SIN, Candidates, Ints
from letterfit.fit.polish import smallest_outline
from letterfit.fit.stack import baselines, half_leadings
from letterfit.fit.survey import Survey, survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

Stack = tuple[int, ...]
"""The first piece of every line from the top, and the number of pieces at the end."""

MOST_LISTED = 400
"""Stacks listed in one cell before the cell is split."""

PARTS = 4
"""Into how many a cell is split."""

NARROWEST = 1e-7
"""A cell this narrow (in log aspect) is no more split: areas in it are equal to 1e-7."""

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


def stack_points(words: Words, stack: Stack) -> Floats:
    """Corners of a stack's ink about the outline's centre, folded into the first quadrant."""
    rows = baselines(len(stack) - 1, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm)
    return ink_points(words, stack, rows)


def smallest(words: Words, cells: Cells, found: Survey, *, prove: bool = True) -> Small:
    """The stack whose smallest outline is the least of all.

    Args:
        words: A text with at least one piece.
        cells: The family and its range of aspects.
        found: The survey at the cells' middles.
        prove: Whether to list whatever else might be smaller; without it the answer is a stack
            that is smallest at some cell's middle, nearly always the same.
    """
    best: Small | None = None
    areas = found.scales**2 * cells.shapes.areas[found.which]
    order = np.argsort(areas, kind="stable")
    seen: set[Stack] = set()
    span = math.log(float(cells.edges[-1] / cells.edges[0])) / len(cells.shapes.outlines)
    for pair in order:
        # From a cell's middle to a stack's own best aspect the area falls at most as fast.
        if best is not None and areas[pair] * math.exp(-span / 2) > best.area:
            break
        (stack,) = found.stacks(np.array([pair]))
        if stack not in seen:
            seen.add(stack)
            best = _better(best, _small(words, cells, stack, found.candidates.air))
    assert best is not None
    return _proved(words, cells, found, best=best) if prove else best


def _small(words: Words, cells: Cells, stack: Stack, air: float) -> Small:
    ends = (float(cells.edges[0]), float(cells.edges[-1]))
    return Small(stack, smallest_outline(stack_points(words, stack), cells.name, ends, air=air))


def _better(one: Small | None, other: Small) -> Small:
    """The smaller one; of equals the one with fewer lines, then shorter upper lines."""
    if one is None or other.area < one.area * (1 - SAME):
        return other
    if other.area > one.area * (1 + SAME):
        return one
    return min(one, other, key=lambda small: (len(small.stack), small.stack))


def _proved(words: Words, cells: Cells, found: Survey, *, best: Small) -> Small:
    """The least of `best` and every stack that could be smaller, cell by cell."""
    reach = cells.reach(best.area)[found.which]
    for cell in np.unique(found.which[found.scales <= reach]).tolist():
        pairs = np.flatnonzero((found.which == cell) & (found.scales <= reach))
        limit = float(cells.reach(best.area)[cell])
        listed = list(islice(listed_stacks(found, pairs, limit=limit), MOST_LISTED + 1))
        width = math.log(float(cells.edges[cell + 1] / cells.edges[cell]))
        if len(listed) > MOST_LISTED and width > NARROWEST:
            parts = cells.split(cell, parts=PARTS)
            inner = survey(words, parts.shapes, air=found.candidates.air, slack=math.expm1(width))
            best = _proved(words, parts, inner, best=best)
            continue
        for stack in _promising(found.candidates, cells, cell, listed, area=best.area):
            best = _better(best, _small(words, cells, stack, found.candidates.air))
    return best


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


def _promising(
    candidates: Candidates, cells: Cells, cell: int, listed: list[Stack], *, area: float
) -> list[Stack]:
    """Those of the listed stacks that may be under `area` somewhere in the cell, best first."""
    if not listed:
        return []
    fine = cells.split(cell, parts=8)
    reach = fine.reach(area)
    excess = np.array(
        [float((stack_scales(candidates, fine, stack) / reach).min()) for stack in listed]
    )
    order = np.argsort(excess, kind="stable")
    return [listed[k] for k in order.tolist() if excess[k] <= 1.0]


def stack_scales(candidates: Candidates, cells: Cells, stack: Stack) -> Floats:
    """The scale a stack asks for at the middle of every cell, a lower bound from all its ink."""
    firsts = np.array(stack[:-1])
    lengths = np.diff(stack) - 1
    drop = half_leadings(len(firsts)) * candidates.half_leading * SIN[:, None]
    down = candidates.down[:, lengths, firsts] + drop
    up = candidates.up[:, lengths, firsts] - drop
    ink = np.maximum(down, up).max(axis=1) + candidates.air
    result: Floats = (ink * cells.shapes.inverse).max(axis=1)
    assert len(ink) == len(DIRECTIONS)
    return result
