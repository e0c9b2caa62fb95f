"""The smallest outline of a family round a text, over all breaks, numbers of lines and aspects.

Exact, as follows. The survey gives, per cell of aspect, the least scale of any stack at the cell's
middle, never too large. Its stacks, each polished over all aspects, give an area. No stack with a
smaller area can ask for more than `Cells.reach` of it at the middle of the cell where it is
smallest: all stacks that ask for less are listed (cells with too many of them are split) and
polished. What remains is the least. Where less than exact is asked for, cells are not split: of
one with too many stacks only the smallest ones at its middle are polished.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.fit.aspects import Cells, fine_cells
from letterfit.fit.bound import least_scale
from letterfit.fit.ink import Ink, Stack
from letterfit.fit.lines import SIN, Candidates, Ints, Shapes
from letterfit.fit.polish import EXACT, smallest_outline
from letterfit.fit.stack import half_leadings
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

MOST_LISTED = 400
"""Stacks listed in one cell before the cell is split."""

FEW_LISTED = 60
"""The same where less than exact is asked for."""

BATCH = 64
"""Stacks measured at once."""

PARTS = 4
"""Into how many a cell is split."""

NARROWEST = 1e-3
"""Cells this narrow (in log aspect) are split no more: if the limit is exceeded even there, only
the smallest stack at the cell's middle is polished, and the area may be 0.05 % over the least."""

NEAR = 1e-4
"""How far, as a share, an area may lie over the least where looks decide anyway."""

ROUNDING = 1e-11
"""An outline is grown by this share before it is used: computed scales are right to about 1e-13."""

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

    @property
    def safe(self) -> Outline:
        """The outline grown by what rounding may have cost it."""
        return self.outline.scaled(1 + ROUNDING)


def thorough_survey(words: Words, grid: Cells, *, air: float, slack: float) -> tuple[Survey, Small]:
    """A survey that leaves out no stack that can be smallest, or within the slack of the smallest.

    Cells that prove nothing are surveyed for stacks within the slack at their middles.

    Returns:
        The survey and the stack that is smallest at some cell's middle, for a start.
    """
    goal = Goal(max(slack, _slack(grid)) if grid.proves else slack)
    while True:
        found = survey(words, grid.shapes, goal=goal, air=air)
        start = _start(grid, found)
        if not grid.proves:
            return found, start
        within = np.sqrt(start.area * (1 + slack) / grid.shapes.areas)
        needed = np.maximum(grid.reach(start.area), within)
        if np.all(needed <= found.limits):
            return found, start
        # Lower bounds were too low to tell: the start's own area is the one to go by.
        goal = replace(goal, area=start.area * (1 + SAME))


def _start(grid: Cells, found: Survey) -> Small:
    """The stack that asks for the least area at a cell's middle, with its outline there."""
    first = int((found.scales**2 * grid.shapes.areas[found.which]).argmin())
    (stack,) = found.stacks(np.array([first]))
    outline = grid.shapes.outlines[found.which[first]]
    lines = found.candidates
    touch = least_scale(lines.boxes.points(stack), outline, air=lines.air)
    return Small(stack, outline.scaled(touch.scale))


def smallest(
    words: Words, grid: Cells, found: Survey, *, start: Small, tolerance: float = EXACT
) -> Small:
    """The stack whose smallest outline is the least of all.

    Args:
        words: A text with at least one piece.
        grid: The family and its range of aspects in cells.
        found: A thorough survey at the cells' middles.
        start: Some stack of it and an outline that holds it.
        tolerance: How far, as a share, the area may lie over the least.
    """
    if grid.proves:
        return _improved(words, grid, found, best=start, tolerance=tolerance)
    best = np.flatnonzero(found.scales == found.least[found.which])
    return _least(grid, found, found.stacks(best), (start, tolerance))


def _improved(words: Words, grid: Cells, found: Survey, *, best: Small, tolerance: float) -> Small:
    """The least of `best` and every stack that could be smaller, listed cell by cell."""
    limits = grid.reach(best.area) * (1 + SAME)
    pairs = np.flatnonzero(found.scales <= limits[found.which])
    most = MOST_LISTED if tolerance <= EXACT else FEW_LISTED
    listed, too_many = listed_stacks(found, pairs, limits=limits, most=most)
    for cell in too_many:
        if grid.width <= NARROWEST or tolerance > EXACT:
            listed += found.stacks(pairs[found.which[pairs] == cell])
            continue
        parts = grid.split(cell, parts=PARTS)
        goal = Goal(_slack(parts), area=best.area)
        inner = survey(words, parts.shapes, goal=goal, air=found.candidates.air)
        best = _improved(words, parts, inner, best=best, tolerance=tolerance)
    return _least(grid, found, listed, (best, tolerance)) if listed else best


def _slack(grid: Cells) -> float:
    """The slack that a survey needs for its stacks to be all that a cell may hold."""
    return math.expm1(grid.width) + SAME


def _least(grid: Cells, found: Survey, listed: list[Stack], so_far: tuple[Small, float]) -> Small:
    """The least of the best so far and the listed stacks."""
    fine = fine_cells(grid.name, *grid.ends(), len(grid.shapes.outlines))
    stacks = list(dict.fromkeys(listed))
    areas = stack_scales(found.candidates, fine.shapes, stacks) ** 2 * fine.shapes.areas
    lines = found.candidates
    return least_of(stacks, areas, fine=fine, ink=lines.boxes, air=lines.air, so_far=so_far)


def least_of(  # noqa: PLR0913 - one question, keyword-only but for its subject
    stacks: Sequence[Stack],
    areas: Floats,
    *,
    fine: Cells,
    ink: Ink,
    air: float,
    so_far: tuple[Small, float],
) -> Small:
    """The least of the best so far and some stacks, each polished if it may be smaller.

    Args:
        stacks: The stacks.
        areas: Shape (stacks, S), mm2: what each asks for at the middles of fine cells, at least.
        fine: The fine cells.
        ink: The text's ink.
        air: mm.
        so_far: The best so far, and how far, as a share, an area may lie over the least.
    """
    best, tolerance = so_far
    # From the middle of a cell to its edges the area falls no faster than the aspect changes.
    bounds = areas * math.exp(-fine.width / 2)
    least = bounds.min(axis=1)
    for k in np.argsort(least, kind="stable").tolist():
        if least[k] > best.area * (1 + SAME):
            break
        within = np.flatnonzero(bounds[k] <= best.area * (1 + SAME))
        outline = smallest_outline(
            ink.points(stacks[k]),
            fine.name,
            aspects=(fine.ends(int(within[0]))[0], fine.ends(int(within[-1]))[1]),
            air=air,
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


def in_cell(grid: Cells, ink: Ink, stack: Stack, *, cell: int, air: float) -> Small:
    """A stack with its smallest outline in one cell of aspect, nearly."""
    points, ends = ink.points(stack), grid.ends(cell)
    outline = smallest_outline(points, grid.name, aspects=ends, air=air, tolerance=NEAR)
    return Small(stack, outline)


def listed_stacks(
    found: Survey, pairs: Ints, *, limits: Floats, most: int
) -> tuple[list[Stack], list[int]]:
    """Every stack of the given pairs none of whose lines asks for more than its shape's limit.

    Args:
        found: The survey.
        pairs: Numbers of pairs in it.
        limits: Shape (S,): the largest scale of each shape.
        most: How many stacks of one shape and height are listed.

    Returns:
        The stacks, and the shapes left out because they have too many.
    """
    listed: list[Stack] = []
    too_many: set[int] = set()
    for count in np.unique(found.counts[pairs]).tolist():
        pair = pairs[found.counts[pairs] == count]
        begun = np.zeros((len(pair), 1), dtype=np.int64)
        for line in range(count):
            parent, end = _next_ends(found, pair, begun[:, -1], limits, count - 1 - line)
            pair, begun = pair[parent], np.concatenate([begun[parent], end[:, None]], axis=1)
            full = np.bincount(found.which[pair], minlength=len(limits)) > most
            if full.any():
                too_many.update(np.flatnonzero(full).tolist())
                pair, begun = pair[~full[found.which[pair]]], begun[~full[found.which[pair]]]
        listed += map(tuple, begun.tolist())
    return listed, sorted(too_many)


def _next_ends(
    found: Survey, pair: Ints, first: Ints, limits: Floats, height: int
) -> tuple[Ints, Ints]:
    """All lines that can follow at a height from the bottom: which stack, and where they end."""
    reach, pieces = found.costs.shape[1:]
    ends = np.minimum(first[:, None] + np.arange(1, reach + 1), pieces)
    limit = limits[found.which[pair]][:, None]
    asked = found.costs[found.rows_of_costs[pair, height], :, np.minimum(first, pieces - 1)]
    rest = found.rows[height][pair[:, None], ends]
    parent, run = np.nonzero((asked <= limit) & (rest <= limit))
    return parent, ends[parent, run]


def stack_scales(candidates: Candidates, shapes: Shapes, stacks: Sequence[Stack]) -> Floats:
    """The scale that each stack asks of each shape, a lower bound from all its ink: (stacks, S)."""
    result = np.empty((len(stacks), len(shapes.outlines)))
    lengths = np.array([len(stack) for stack in stacks])
    for length in np.unique(lengths).tolist():
        same = np.flatnonzero(lengths == length)
        bounds = np.array([stacks[k] for k in same.tolist()])
        drop = half_leadings(length - 1) * candidates.half_leading * SIN[:, None, None]
        ink = candidates.ink[:, :, np.diff(bounds) - 1, bounds[:, :-1]]
        folded = (ink + np.stack([-drop, drop])).max(axis=(0, 3)).T + candidates.air
        for begin in range(0, len(same), BATCH):
            some = slice(begin, begin + BATCH)
            result[same[some]] = (folded[some, None] * shapes.inverse).max(axis=2)
    return result
