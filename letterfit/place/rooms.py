"""Figure room of many layouts at once: the argument of `figure`, over arrays.

A box of height h and width w = aspect h is blocked by a balloon that spans [l, r] below the box's
top wherever its left edge is in l - w < x < r. Only the panel's left side and the right ends r need
be tried, and whether a height stands clear is monotone in it: a few rounds of cutting the interval
of heights tell the tallest as finely as a ranking needs.
"""

from functools import cache

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Bools
from letterfit.place.problem import Batch, Problem, Table

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
    low = np.zeros(len(batch)) if least is None else least
    high = cap_height(problem)[batch.panel]
    for _ in range(ROUNDS if len(batch) else 0):
        low, high = narrowed(problem, batch, low, high, sections=SECTIONS)
    return np.asarray(low, dtype=np.float64)


def narrowed(
    problem: Problem, batch: Batch, low: Floats, high: Floats, *, sections: int
) -> tuple[Floats, Floats]:
    """The section of each interval of heights in which the tallest clear one lies."""
    tried = low + (high - low) * _shares(sections)
    some = _repeated(batch, sections)
    good = clear(problem, some, tried.ravel()).reshape(tried.shape).sum(axis=0)
    part = (high - low) / sections
    return low + part * good, np.minimum(low + part * (good + 1), high)


def _repeated(batch: Batch, times: int) -> Batch:
    """All layouts, then all of them again, and so on."""
    count, size = batch.x.shape

    def again(rows: Table) -> Table:
        wide = np.broadcast_to(rows[:, None], (count, times, size))
        return wide.reshape(count, times * size)

    panel = np.concatenate([batch.panel] * times)
    return Batch(panel, again(batch.x), again(batch.y), again(batch.outline))


@cache
def _shares(sections: int) -> Floats:
    return np.arange(1, sections + 1)[:, None] / sections


def clear(problem: Problem, batch: Batch, height: Floats) -> Bools:
    """Whether a figure box of that height, shape (n,), finds a free left edge in each layout."""
    width = problem.aspect[batch.panel] * height
    reach = chords(problem, batch, problem.height[batch.panel] - height)
    left, right = batch.x - reach - width + 1e-9, batch.x + reach
    most = problem.width[batch.panel] - width + 1e-9
    free = ~((left < 0) & (right > 0)).any(axis=0)
    held = ((right[:, None] > left) & (right[:, None] < right)).any(axis=1)
    held |= (right < 0) | (right > most)
    free |= ~held.all(axis=0)
    return np.asarray(free & (most >= 0))


def chords(problem: Problem, batch: Batch, line: Floats) -> Floats:
    """Half the widest chord of each outline below a level line, minus infinity if none: (k, n)."""
    half = problem.half_height[batch.outline]
    below = line - batch.y
    share = below / half
    np.maximum(share, 0.0, out=share)
    np.minimum(share, 1.0, out=share)
    share *= STEPS
    step = share.astype(np.intp)
    np.minimum(step, STEPS - 1, out=step)
    share -= step
    step += batch.outline * (STEPS + 1)
    table = problem.chord.ravel()
    chord = table[step]
    step += 1
    share *= table[step] - chord
    chord += share
    half -= 1e-9
    chord[below >= half] = -np.inf
    return chord
