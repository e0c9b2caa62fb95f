"""The front of one text by the thorough search, which fills every table.

For texts that the fast search does not take: with forced line ends, lines that begin together, or
very many pieces.
"""

import math

import numpy as np

from letterfit.fit.aspects import Cells
from letterfit.fit.bound import least_scale
from letterfit.fit.exact import Tight, least_stack
from letterfit.fit.flush import Blocks
from letterfit.fit.handsome import handsome
from letterfit.fit.ink import Ink, begins_together
from letterfit.fit.smallest import Small
from letterfit.fit.survey import Goal, survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

ROUNDING = 1e-6
"""The survey's scales are in single precision."""


def thorough_front(
    words: Words, grid: Cells, *, air: float, slack: float
) -> tuple[list[Small], Floats]:
    """Per cell the best-looking stack within the slack, and the least scale of each cell.

    Args:
        words: The text.
        grid: The shapes.
        air: mm.
        slack: By what share an area may exceed the least of its own aspect.
    """
    if begins_together(words):
        return Blocks.of(words, aspects=grid.ends()).smalls(grid, air=air, slack=slack)
    found = survey(words, grid.shapes, goal=Goal(slack, each=True), air=air)
    limits = (found.least * math.sqrt(1 + slack) * (1 + ROUNDING))[found.which]
    pairs = np.flatnonzero(found.scales <= limits)
    looking = handsome(words, found, pairs, limits=limits[pairs])
    best: dict[int, int] = {}
    for place in np.argsort(looking.costs, kind="stable").tolist():
        best.setdefault(int(found.which[pairs[place]]), place)
    ink = found.candidates.boxes
    smalls = []
    for cell, place in sorted(best.items()):
        shape, stack = grid.shapes.outlines[cell], looking.stack(place)
        scale = least_scale(ink.points(stack), shape, air=air).scale
        tight = within_slack(
            ink, Tight(scale, stack), shape, least=float(found.least[cell]), slack=slack, air=air
        )
        smalls.append(Small(tight.stack, shape.scaled(tight.scale)))
    return smalls, found.least


def within_slack(  # noqa: PLR0913 - one question, keyword-only but for its subject
    ink: Ink, tight: Tight, shape: Outline, *, least: float, slack: float, air: float
) -> Tight:
    """A stack, or the tightest one where its scale turns out to exceed the slack.

    Args:
        ink: The text's ink.
        tight: The stack and the scale it asks for.
        shape: The unit shape.
        least: The least scale that any stack asks for, a lower bound.
        slack: By what share the area may exceed the least.
        air: mm.
    """
    most = math.sqrt(1 + slack)
    if tight.scale <= least * most:
        return tight
    exact = least_stack(ink.words, shape, air=air)  # only the exact least can tell
    return tight if tight.scale <= exact.scale * most else exact
