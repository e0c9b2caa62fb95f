"""The front: the shapes a text can take, from wide and shallow to narrow and tall."""

import math

import numpy as np

from letterfit.fit.aspects import STEP, Cells
from letterfit.fit.balloon import in_cell, checked
from letterfit.fit.handsome import handsome
from letterfit.fit.lines import Ints
from letterfit.fit.model import FittedBalloon
from letterfit.fit.setting import balloon
from letterfit.fit.smallest import Small
from letterfit.fit.survey import Survey, survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats

MOST_SHAPES = 8
"""Shapes in a front: enough to choose from, few enough to try them all."""


def words_front(
    words: Words, *, outline: str = "ellipse", air_mm: float = 1.2, slack: float = 0.06
) -> tuple[FittedBalloon, ...]:
    """The shapes a text can take in outlines of a family: what the placing stage chooses from.

    Args:
        words: The measured text.
        outline: The family's name, a key of `letterfit.outline.FAMILIES`.
        air_mm: The least distance from ink to outline.
        slack: By what share an area may exceed the least of its cell of aspect, for the looks.

    Returns:
        At most 8 balloons, the widest first, spread evenly in the logarithm of the aspect over the
        family's range. None is as wide and as high as another or more. Each is of the least cost of
        looks among the stacks within the slack at its cell's middle.

    Raises:
        OutlineError: As `fit_words`.
    """
    grid = checked(words, outline, air_mm=air_mm, aspect=None, slack=slack)
    found = survey(words, grid.shapes, air=air_mm, slack=max(slack, math.expm1(STEP)))
    cells = _spread(len(grid.shapes.outlines))
    smalls = _undominated(_shapes(words, grid, found, cells=cells, slack=slack))
    return tuple(balloon(words, small.stack, small.outline, air=air_mm) for small in smalls)


def _spread(count: int) -> Ints:
    """The numbers of at most MOST_SHAPES cells out of `count`, first and last among them."""
    chosen = np.linspace(0, count - 1, min(count, MOST_SHAPES)).round()
    return np.unique(chosen.astype(np.int64))


def _shapes(words: Words, grid: Cells, found: Survey, *, cells: Ints, slack: float) -> list[Small]:
    """The best-looking stack of each cell, each in its own smallest outline of the cell."""
    limits: Floats = found.least[found.which] * math.sqrt(1 + slack) * (1 + 1e-9)
    pairs = np.flatnonzero((found.scales <= limits) & np.isin(found.which, cells))
    stacks = handsome(words, found, pairs, limits=limits[pairs])
    result = []
    for cell in cells.tolist():
        own = [place for place in range(len(pairs)) if found.which[pairs[place]] == cell]
        best = min(own, key=lambda place: stacks[place][0])
        result.append(in_cell(grid, found, stacks[best][1], cell=cell))
    return result


def _undominated(smalls: list[Small]) -> list[Small]:
    """The widest first, and only those less high than every wider one is not."""
    ranked = sorted(smalls, key=lambda s: (-s.outline.half_width, s.outline.half_height))
    kept: list[Small] = []
    for small in ranked:
        while kept and kept[-1].outline.half_height >= small.outline.half_height:
            kept.pop()
        kept.append(small)
    return kept
