"""The stack that asks for the least scale of one given shape, exact.

The survey's scales are lower bounds. Its best stack's lines are measured exactly and their costs
raised to what they really ask for, until the best stack asks for what the table says: then no other
can ask for less.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from letterfit.fit import table
from letterfit.fit.ink import Stack
from letterfit.fit.lines import Shapes
from letterfit.fit.scales import line_scales
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.lettering.words import Words
from letterfit.outline import Outline

NEARLY = 0.02
"""How far, as a share, the exact area is expected to lie over its lower bound."""

EQUAL = 1e-12
"""Scales that differ by this share are equal."""


@dataclass(frozen=True, slots=True)
class Tight:
    """A stack and the scale of the shape that it asks for.

    Args:
        scale: The scale.
        stack: First piece of every line, and the number of pieces at the end.
    """

    scale: float
    stack: Stack


def least_stack(words: Words, shape: Outline, *, air: float, found: Survey | None = None) -> Tight:
    """The stack that asks for the least scale of `shape`.

    Args:
        words: A text with at least one piece.
        shape: The unit shape.
        air: mm.
        found: The survey of this shape, if it is at hand.
    """
    found = found or survey(words, Shapes.of((shape,)), goal=Goal(NEARLY), air=air)
    best = Tight(math.inf, (0,))
    while True:
        for pair in np.argsort(found.scales, kind="stable").tolist():
            if found.scales[pair] >= best.scale * (1 - EQUAL):
                break
            best = _least_of_height(shape, found, pair=pair, best=best)
        if best.scale <= found.limits[0]:
            return best
        goal = Goal(NEARLY, area=best.scale**2 * shape.area_mm2)
        found = survey(words, Shapes.of((shape,)), goal=goal, air=air)


def _least_of_height(shape: Outline, found: Survey, *, pair: int, best: Tight) -> Tight:
    """The least of `best` and the stacks of one pair."""
    count = int(found.counts[pair])
    costs = [found.costs[row].astype(np.float64) for row in found.rows_of_costs[pair, :count][::-1]]
    while True:
        bound, ends = table.best_breaks(costs, combine="max", lines=count)
        if bound >= best.scale * (1 - EQUAL):
            return best
        stack = (0, *(end + 1 for end in ends))
        asked = line_scales(found.candidates.boxes, shape, stack, air=found.candidates.air)
        if asked.max() < best.scale:
            best = Tight(float(asked.max()), stack)
        for cost, line, (first, end) in zip(costs, asked.tolist(), pairwise(stack), strict=True):
            cost[end - first - 1, first] = max(line, cost[end - first - 1, first])
