"""The front: the shapes a text can take, from wide and shallow to narrow and tall."""

import math

import numpy as np

from letterfit.fit.aspects import Cells, aspect_range, few_cells
from letterfit.fit.balloon import check_slack, check_words
from letterfit.fit.handsome import handsome
from letterfit.fit.model import FittedBalloon
from letterfit.fit.setting import balloon
from letterfit.fit.smallest import Small, in_cell
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.lettering.words import Words

MOST_SHAPES = 8
"""Shapes in a front: enough to choose from, few enough to try them all."""

ROUNDING = 1e-6
"""The survey's scales are lower bounds in single precision."""


def words_front(
    words: Words, *, outline: str = "ellipse", air_mm: float = 1.2, slack: float = 0.06
) -> tuple[FittedBalloon, ...]:
    """The shapes a text can take in outlines of a family: what the placing stage chooses from.

    Args:
        words: The measured text.
        outline: The family's name, a key of `letterfit.families.FAMILIES`.
        air_mm: The least distance from ink to outline.
        slack: By what share an area may exceed the least of its cell of aspect, for the looks.

    Returns:
        At most 8 balloons, the widest first, spread evenly in the logarithm of the aspect over the
        family's range. None is as wide and as high as another or more. Each is of the least cost of
        looks among the stacks within the slack at its cell's middle.

    Raises:
        OutlineError: As `fit_words`.
    """
    check_words(words, air_mm=air_mm)
    check_slack(slack)
    grid = few_cells(outline, *aspect_range(outline, None), MOST_SHAPES)
    found = survey(words, grid.shapes, goal=Goal(slack, each=True), air=air_mm)
    smalls = _undominated(_best_of_each(words, grid, found, slack=slack))
    return tuple(balloon(words, small.stack, small.outline, air=air_mm) for small in smalls)


def _best_of_each(words: Words, grid: Cells, found: Survey, *, slack: float) -> list[Small]:
    """The best-looking stack of each cell, each in its own smallest outline of the cell."""
    limits = (found.least * math.sqrt(1 + slack) * (1 + ROUNDING))[found.which]
    pairs = np.flatnonzero(found.scales <= limits)
    stacks = handsome(words, found, pairs, limits=limits[pairs])
    best: dict[int, tuple[float, tuple[int, ...]]] = {}
    for cell, ranked in zip(found.which[pairs].tolist(), stacks, strict=True):
        best[cell] = min(best.get(cell, ranked), ranked)
    return [in_cell(grid, found, stack, cell=cell) for cell, (_, stack) in sorted(best.items())]


def _undominated(smalls: list[Small]) -> list[Small]:
    """The widest first, and only those less high than every wider one is not."""
    ranked = sorted(smalls, key=lambda s: (-s.outline.half_width, s.outline.half_height))
    kept: list[Small] = []
    for small in ranked:
        while kept and kept[-1].outline.half_height >= small.outline.half_height:
            kept.pop()
        kept.append(small)
    return kept
