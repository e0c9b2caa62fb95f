"""The smallest outline of a family round one text, proved by the fast search.

As `letterfit.fit.smallest`: no stack with less than a known area can ask, at the middle of the cell
of aspect where it is smallest, for more than `Cells.reach` of that area. The fast search's lanes
(`letterfit.fit.lanes`) and what its lines ask for (`letterfit.fit.graph`) are bounds from below, so
its graph up to those scales holds every stack that may be smaller. All of them are listed, and
polished while they may be. Texts that have too many, or lines that are set anew, are left to the
survey.
"""

import math

import numpy as np

from letterfit.fit.aspects import Cells, fine_cells
from letterfit.fit.batch import first_guess, least_bounds
from letterfit.fit.graph import Graph
from letterfit.fit.lanes import open_lanes
from letterfit.fit.polish import EXACT
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import stack_areas
from letterfit.fit.smallest import SAME, Small, in_cell, least_of
from letterfit.lettering.words import Words
from letterfit.outline import Floats

MOST_PIECES, MOST_LISTED = 75, 500
"""Pieces and stacks of a text that is looked at: with more the thorough search is as fast."""

WIDER = 1.1
"""By how much a guess is widened that held no stack."""

ATTEMPTS = 12


def fast_smallest(words: Words, grid: Cells, *, air: float) -> Small | None:
    """The stack whose smallest outline is the least of all, and that outline.

    Args:
        words: A plain text (`letterfit.fit.batch`).
        grid: The family and its range of aspects in cells that prove.
        air: mm.

    Returns:
        None where only the thorough search can tell.
    """
    if words.reshaped or len(words) > MOST_PIECES:
        return None
    texts = Profiles.of([words], air=air)
    bounds = least_bounds(texts, grid.shapes)[0]
    areas = bounds.min(axis=0) ** 2 * grid.shapes.areas
    guess = math.sqrt(float(areas.min())) * float(first_guess(texts)[0])
    for _ in range(ATTEMPTS):
        limits = guess / np.sqrt(grid.shapes.areas)
        graph = _graph(texts, grid, bounds, limits=limits)
        if graph is not None and math.isfinite(float(graph.scales.min())):
            best = _tightest(texts, grid, graph)
            needed = grid.reach(best.area) * (1 + SAME)
            if np.any(needed > limits):
                graph = _graph(texts, grid, bounds, limits=needed)
            return None if graph is None else _listed(texts, grid, graph, best, limits=needed)
        guess *= WIDER
    return None


def _graph(texts: Profiles, grid: Cells, bounds: Floats, *, limits: Floats) -> Graph | None:
    """The lines of all stacks that ask for at most so much of each shape."""
    lines, which = (bounds <= limits).nonzero()
    lanes = (np.zeros_like(lines), lines + 1, which)
    opened = open_lanes(texts, grid.shapes, lanes=lanes, limit=limits[which])
    return None if opened is None else Graph.of(opened)


def _tightest(texts: Profiles, grid: Cells, graph: Graph) -> Small:
    """The stack that asks for about the least area at a cell's middle, polished in that cell."""
    lanes = graph.lanes
    lane = int((graph.scales**2 * grid.shapes.areas[lanes.which]).argmin())
    cell, stack = int(lanes.which[lane]), graph.tightest(lane)
    return in_cell(grid, texts.inks[0], stack, cell=cell, air=texts.air)


def _listed(
    texts: Profiles, grid: Cells, graph: Graph, best: Small, *, limits: Floats
) -> Small | None:
    """The least of all stacks within the limits of the shapes."""
    used = graph.in_use(limits[graph.lanes.which])
    if used.count_of_stacks() > MOST_LISTED:
        return None
    stacks = list(dict.fromkeys(used.all_stacks()))
    fine = fine_cells(grid.name, *grid.ends(), len(grid.shapes.outlines))
    areas = stack_areas(texts, [(0, stack) for stack in stacks], fine.shapes)
    so_far = (best, EXACT)
    return least_of(stacks, areas, fine=fine, ink=texts.inks[0], air=texts.air, so_far=so_far)
