"""Figure room of many layouts at once: the argument of `figure`, over arrays.

A box of height h and width w = aspect h is blocked by a balloon that spans [l, r] below the box's
top wherever its left edge is in l - w < x < r. Only the panel's left side and the right ends r need
be tried, and whether a height stands clear is monotone in it: a few rounds of cutting the interval
of heights tell the tallest as finely as a ranking needs.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Bools
from letterfit.place.problem import Batch, Problem

CAP = 0.8
"""Share of the panel's height from which on figure room earns nothing more."""

SECTIONS = 8
"""Parts that an interval of heights is cut into at once: fewer calls than halving."""

ROUNDS = 3
"""How often it is cut: down to a five-hundredth of the cap."""


def cap_height(problem: Problem) -> Floats:
    """The tallest figure that earns anything in each panel, mm."""
    return np.minimum(CAP * problem.height, problem.width / problem.aspect)


def rooms(problem: Problem, batch: Batch, *, least: Floats | None = None) -> Floats:
    """Figure room in mm of each layout, up to the cap.

    Args:
        problem: The task.
        batch: n layouts.
        least: Shape (n,), mm: heights known to stand clear.
    """
    count = len(batch)
    low = np.zeros(count) if least is None else least
    high = cap_height(problem)[batch.panel]
    grid = np.arange(1, SECTIONS + 1)[:, None] / SECTIONS
    some = batch.take(np.tile(np.arange(count), SECTIONS))
    for _ in range(ROUNDS if count else 0):
        part = (high - low) / SECTIONS
        tried = low + (high - low) * grid
        good = clear(problem, some, tried.ravel()).reshape(tried.shape).sum(axis=0)
        high = np.minimum(low + part * (good + 1), high)
        low = low + part * good
    return np.asarray(low, dtype=np.float64)


def clear(problem: Problem, batch: Batch, height: Floats) -> Bools:
    """Whether a figure box of that height, shape (n,), finds a free left edge in each layout."""
    width = problem.aspect[batch.panel] * height
    reach = chords(problem, batch, problem.height[batch.panel] - height)
    left, right = batch.x - reach - width + 1e-9, batch.x + reach
    most = problem.width[batch.panel] - width + 1e-9
    free = ~((left < 0) & (right > 0)).any(axis=0) & (most >= 0)
    for edge in right:
        held = ((edge > left) & (edge < right)).any(axis=0)
        free |= (edge >= 0) & (edge <= most) & ~held
    return np.asarray(free)


def chords(problem: Problem, batch: Batch, line: Floats) -> Floats:
    """Half the widest chord of each outline below a level line, minus infinity if none: (k, n)."""
    half = problem.half_height[batch.outline]
    below = line - batch.y
    share = np.clip(below / half, 0.0, 1.0) * STEPS
    step = np.minimum(share.astype(np.intp), STEPS - 1)
    share -= step
    at = batch.outline * (STEPS + 1) + step
    table = problem.chord.ravel()
    chord = table[at]
    chord += (table[at + 1] - chord) * share
    chord[below >= half - 1e-9] = -np.inf
    return chord
