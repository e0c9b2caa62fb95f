"""The best-looking stack of a text that goes into a given outline.

An outline with room to spare leaves a choice that a tight one does not. A letterer then breaks by
sense and keeps the words together in the middle, in the outline's own form: only stacks are looked
at whose lines, taken for capitals, would go into an outline of the same form somewhat larger than
the least (`letterfit.fit.capitals`). Of a text as long as a balloon's they are looked at line by
line (`letterfit.fit.quick`), of a longer one all at once (`letterfit.fit.stacks`), and the ink of
the best one is measured exactly. What is so tight that ink decides is left to the fast search.
"""

import math
from typing import NamedTuple

import numpy as np

from letterfit.fit.capitals import SPARE, Capitals
from letterfit.fit.graph import Graph
from letterfit.fit.ink import Stack, stack_points
from letterfit.fit.lines import Shapes
from letterfit.fit.nearest import ink_clearance
from letterfit.fit.profiles import Profiles
from letterfit.fit.quick import best_stack
from letterfit.fit.scales import exact_scales
from letterfit.fit.stacks import Best, best_looking
from letterfit.fit.tight import graph_of
from letterfit.lettering.words import Words
from letterfit.outline import Outline

MOST_LOOKED_AT = 60
"""Pieces of a text up to which lines are sooner looked at one by one than all at once."""


class Within(NamedTuple):
    """A stack in an outline.

    Args:
        stack: First piece of every line, and the number of pieces.
        clearance_mm: The least distance from its ink to the outline.
    """

    stack: Stack
    clearance_mm: float


def roomy_stack(words: Words, outline: Outline, *, air: float) -> Within | None:
    """The best-looking stack of words that keep together in an outline.

    Args:
        words: A plain text (`letterfit.fit.batch`).
        outline: The outline.
        air: mm.

    Returns:
        None where the outline is too tight to choose by advances alone.
    """
    capitals = Capitals.of(words, outline, air=air)
    scale = capitals.together()
    if scale is None:
        return None
    if len(words) <= MOST_LOOKED_AT:
        room = capitals.room(scale)
        stack = best_stack(words, capitals, room=room, half_width=scale * outline.half_width)
    else:
        stack = best_of_all(words, outline, scale=scale, air=air)
    if stack is None:
        return None
    distance = ink_clearance(outline, stack_points(words, stack))
    return Within(stack, distance) if distance >= air else None


def best_of_all(words: Words, outline: Outline, *, scale: float, air: float) -> Stack | None:
    """The best-looking stack whose lines, taken for capitals, go into an outline at a scale.

    Args:
        words: A plain text.
        outline: The outline.
        scale: The scale.
        air: mm.

    Returns:
        None where no stack goes in.
    """
    shapes = Shapes.of((outline,))
    graph = graph_of(Profiles.of_capitals(words, air=air), shapes, limit=scale)
    if graph is None or not graph.scales.min() <= scale:
        return None
    best = _best(graph, outline, limit=scale)
    return best.stack(int(best.costs.argmin()))


def tight_stack(texts: Profiles, outline: Outline) -> Stack | None:
    """The best-looking stack that goes into an outline, by its ink.

    Args:
        texts: One plain text.
        outline: The outline.

    Returns:
        None where the fast search finds none: whether there is one the thorough search can tell.
    """
    graph = graph_of(texts, Shapes.of((outline,)), limit=1.0)
    least = math.inf if graph is None else float(graph.scales.min())
    if graph is None or not least <= 1:
        return None
    best = _best(graph, outline, limit=min(1.0, least * SPARE))
    ranked = [best.stack(place) for place in np.argsort(best.costs, kind="stable").tolist()]
    scales = exact_scales(texts, [(0, stack) for stack in ranked], [outline] * len(ranked))
    return next((s for s, scale in zip(ranked, scales, strict=True) if scale <= 1), None)


def _best(graph: Graph, outline: Outline, *, limit: float) -> Best:
    """The best-looking stack for each number of lines that asks for at most the limit."""
    lanes = graph.lanes
    limits = np.full(len(lanes.count), limit)
    return best_looking(
        graph.in_use(limits), room=lanes.room_at(limits), half_width=limits * outline.half_width
    )
