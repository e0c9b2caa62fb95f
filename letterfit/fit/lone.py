"""The last search for a stack without a lone short word, between the middles of the cells.

A lone short word on the first or last line outweighs every other cost of looks, so one is kept only
when no stack within the allowed area does without, at any aspect. A stack that fits that area
somewhere in a cell asks at its middle for no more than `Cells.reach`: if all stacks up to there
have a lone word, the cell has none without. Cells that leave it open are split.
"""

import math

import numpy as np

from letterfit.fit import looks
from letterfit.fit.aspects import Cells
from letterfit.fit.handsome import handsome
from letterfit.fit.smallest import NARROWEST, PARTS, SAME, Small, in_cell
from letterfit.fit.survey import Goal, survey
from letterfit.lettering.words import Words


def without_lone_word(words: Words, grid: Cells, *, most: float, air: float) -> Small | None:
    """A stack without a lone short word in an outline of at most the given area, the best looking.

    Args:
        words: The text.
        grid: The family and its range of aspects in cells.
        most: The allowed area, mm2.
        air: mm.

    Returns:
        None when there is none, up to what cells of 0.1 % of aspect can tell apart.
    """
    goal = Goal(math.expm1(grid.width) + SAME, area=most)
    found = survey(words, grid.shapes, goal=goal, air=air)
    reach = grid.reach(most)[found.which]
    pairs = np.flatnonzero(found.scales <= reach)
    if not len(pairs):
        return None
    looking = handsome(words, found, pairs, limits=reach[pairs])
    unsure = set()
    for place in np.argsort(looking.costs, kind="stable").tolist():
        if looking.costs[place] >= looks.LOST:
            break
        stack = looking.stack(place)
        cell = int(found.which[pairs[place]])
        small = in_cell(grid, found.candidates.boxes, stack, cell=cell, air=air)
        if small.area <= most * (1 + SAME):
            return small
        unsure.add(cell)
    if grid.width <= NARROWEST:
        return None
    for cell in sorted(unsure):
        parts = grid.split(cell, parts=PARTS)
        inner = without_lone_word(words, parts, most=most, air=air)
        if inner is not None:
            return inner
    return None
