"""The stack that asks for the least scale of one given shape, exact, by the fast search.

Lower bounds say which stacks can be tightest: the one that the bounds favour is measured exactly,
then all whose bounds do not exceed that. There are few of them, since bounds are right to some
0.1 %; what has too many is left to the thorough search (`letterfit.fit.exact`).
"""

import math

import numpy as np

from letterfit.fit.batch import first_guess, least_bounds
from letterfit.fit.exact import Tight
from letterfit.fit.graph import Graph
from letterfit.fit.lanes import open_lanes
from letterfit.fit.lines import Shapes
from letterfit.fit.profiles import UP, Profiles
from letterfit.fit.scales import exact_scales
from letterfit.outline import Outline

MOST_LISTED = 200
"""Stacks measured exactly; with more the thorough search is as fast."""

SAME = 1e-9
"""A bound over the exact scale by this share may still be that of the stack itself."""

WIDER = 1.25
"""By how much a guess is widened that held no stack."""

ATTEMPTS = 12


def tightest(texts: Profiles, shape: Outline) -> Tight | None:
    """The stack of a text that asks for the least scale of a shape.

    Args:
        texts: One plain text (`letterfit.fit.batch`).
        shape: The unit shape.

    Returns:
        None where only the thorough search can tell.
    """
    shapes = Shapes.of((shape,))
    limit = float(least_bounds(texts, shapes)[0, :, 0].min() * first_guess(texts)[0])
    for _ in range(ATTEMPTS):
        graph = graph_of(texts, shapes, limit=limit)
        if graph is None or not math.isfinite(float(graph.scales.min())):
            limit *= WIDER
            continue
        likely = (0, graph.tightest(int(graph.scales.argmin())))
        scale = float(exact_scales(texts, [likely], [shape])[0]) * (1 + SAME)
        if scale > limit:
            limit = scale
            continue
        used = graph.in_use(np.full(len(graph.lanes.count), scale))
        if used.count_of_stacks() > MOST_LISTED:
            return None
        stacks = [(0, stack) for stack in used.all_stacks()]
        scales = exact_scales(texts, stacks, [shape] * len(stacks))
        best = min(zip(scales.tolist(), stacks, strict=True), key=lambda pair: pair)
        return Tight(best[0], best[1][1])
    return None


def graph_of(texts: Profiles, shapes: Shapes, *, limit: float) -> Graph | None:
    """The lines of one text in one shape, whatever their number, up to a scale.

    Returns:
        None where no stack can go in.
    """
    # The first line's ink keeps in the outline: no more lines than its height has room for.
    low = float(texts.heights[0, UP].min())
    over = limit * float(shapes.half_heights[0]) - texts.air - low
    most = int(min(1 + over / texts.half_leading[0], len(texts.starts)))
    if most < 1:
        return None
    count = np.arange(1, most + 1)
    zeros = np.zeros_like(count)
    lanes = open_lanes(texts, shapes, lanes=(zeros, count, zeros), limit=np.full(most, limit))
    return None if lanes is None else Graph.of(lanes)
