"""The best-looking stack of a text that goes into a given outline, by the fast search.

An outline with room to spare leaves a choice that a tight one does not. A letterer then breaks by
sense and keeps the words together in the middle, in the outline's own form: stacks are looked at
that would go into an outline of the same form somewhat larger than the smallest for the text, and
no larger than the one given.
"""

import math

import numpy as np

from letterfit.fit.batch import first_guess, least_bounds
from letterfit.fit.graph import Graph
from letterfit.fit.ink import Stack
from letterfit.fit.lines import Shapes
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import exact_scales
from letterfit.fit.stacks import best_looking
from letterfit.fit.tight import WIDER, graph_of
from letterfit.outline import Outline

ROOMY = 0.25
"""By what share the area that the stack fills may exceed that of the tightest one, if there is
room: common practice, no source."""


def stack_within(texts: Profiles, outline: Outline) -> Stack | None:
    """The best-looking stack that goes into an outline, by exact measure.

    Args:
        texts: One plain text (`letterfit.fit.batch`).
        outline: The outline.

    Returns:
        None where the fast search finds none: whether there is one the thorough search can tell.
    """
    shapes = Shapes.of((outline,))
    spare = math.sqrt(1 + ROOMY)
    bound = float(least_bounds(texts, shapes)[0, :, 0].min())
    limit = min(1.0, bound * float(first_guess(texts)[0]) * spare)
    while True:
        graph = graph_of(texts, shapes, limit=limit)
        least = math.inf if graph is None else float(graph.scales.min())
        if graph is not None and least <= limit:
            return _best(texts, graph, outline, limit=min(limit, least * spare))
        if limit >= 1:
            return None
        limit = min(1.0, limit * WIDER)


def _best(texts: Profiles, graph: Graph, outline: Outline, *, limit: float) -> Stack | None:
    """The best-looking stack whose exact scale is at most 1, one for each number of lines."""
    lanes = graph.lanes
    limits = np.full(len(lanes.count), limit)
    best = best_looking(
        graph.in_use(limits), room=lanes.room_at(limits), half_width=limits * outline.half_width
    )
    ranked = [best.stack(place) for place in np.argsort(best.costs, kind="stable").tolist()]
    scales = exact_scales(texts, [(0, stack) for stack in ranked], [outline] * len(ranked))
    return next((s for s, scale in zip(ranked, scales, strict=True) if scale <= 1), None)
