"""A last search: balloons thrown in anyhow, then pushed apart until nothing is in the way, or not.

Where a beam finds no layout, it is because every order of filling the panel wastes room somewhere.
Where no reading order binds, many starts are made at once, with rows, places and outlines drawn
from a seeded generator; then, over and over, any two balloons that are too near are pushed apart by
what they lack in the direction that needs the least, and all are kept inside the panel. What stands
still legal is a layout. Known as position-based dynamics (Mueller, Heidelberger, Hennix and
Ratcliff, Position based dynamics, 2007).
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import COS, SIN, Bools, Ints
from letterfit.place.problem import Batch, Problem, filled, started

STARTS = 128
"""Starts of one panel."""

ROUNDS = 480
"""Rounds of pushes."""

LOOK = 24
"""Rounds between two looks whether some start has become a layout."""

EXTRA = 0.02
"""In mm: how much more than the gap is asked for, so that what is nearly apart is apart."""

EAGER = 0.6
"""What share of what two balloons lack they are pushed apart in a round, half each."""

SEED = 20

MOST = 12
"""Balloons of a panel beyond which pairs are too many."""


def relaxed(problem: Problem, panel: int) -> Batch:
    """Legal layouts of one panel without reading order; none when no start became one.

    Args:
        problem: The task.
        panel: Which panel.
    """
    none = filled(problem, started(np.zeros(0, dtype=np.intp)))
    if not 2 <= problem.size[panel] <= MOST or problem.regions or problem.voices.joined.any():
        return none
    starts = _thrown(problem, panel)
    for turn in range(ROUNDS):
        starts = _pushed(problem, panel, starts)
        if turn % LOOK == LOOK - 1:
            found = _legal(problem, panel, starts)
            if len(found):
                return found
    return none


def _thrown(problem: Problem, panel: int) -> Batch:
    """Rows from left to right, of outlines by chance, some of them the smallest."""
    rng = np.random.default_rng(SEED)
    size = int(problem.size[panel])
    menus = [menu[menu >= 0] for menu in problem.menus[panel, :size]]
    smallest = np.array([menu[problem.area[menu].argmin()] for menu in menus])
    picked = np.array([rng.choice(menu, STARTS) for menu in menus])
    outline = np.where(rng.random((size, STARTS)) < rng.random(STARTS), smallest[:, None], picked)
    # Where a row ends is drawn with a chance of its own in each start.
    ends = rng.random((size, STARTS)) < rng.random(STARTS)
    row = np.concatenate([np.zeros((1, STARTS), dtype=np.intp), np.cumsum(ends, axis=0)[:-1]])
    x, y = np.zeros((size, STARTS)), (row + 0.5) / (row[-1] + 1)
    for index in range(size):
        same = row == row[index]
        place = (same[:index].sum(axis=0) + 0.5) / same.sum(axis=0)
        x[index] = place + 0.2 * (rng.random(STARTS) - 0.5)
    loose = np.arange(STARTS) % 2 == 1
    x = np.where(loose, rng.random(x.shape), x)
    y = np.where(loose, rng.random(y.shape), y)
    return _inside(problem, panel, x * problem.width[panel], y * problem.height[panel], outline)


def _inside(problem: Problem, panel: int, x: Floats, y: Floats, outline: Ints) -> Batch:
    a, b, margin = problem.half_width[outline], problem.half_height[outline], problem.margin
    right, floor = problem.width[panel] - margin.right, problem.height[panel] - margin.bottom
    return Batch(
        np.full(x.shape[1], panel),
        np.clip(x, margin.left + a, right - a),
        np.clip(y, margin.top + b, floor - b),
        outline,
    )


def _pushed(problem: Problem, panel: int, starts: Batch) -> Batch:
    """One round: every two balloons that lack something are pushed apart by a share of it."""
    i, j = np.triu_indices(len(starts.x), 1)
    dx, dy = starts.x[j] - starts.x[i], starts.y[j] - starts.y[i]
    across, down = _lacking(problem, starts.outline[i], starts.outline[j], dx=dx, dy=dy)
    x, y = starts.x.copy(), starts.y.copy()
    half = EAGER / 2
    np.subtract.at(x, i, half * across)
    np.add.at(x, j, half * across)
    np.subtract.at(y, i, half * down)
    np.add.at(y, j, half * down)
    return _inside(problem, panel, x, y, starts.outline)


def _lacking(
    problem: Problem, one: Ints, two: Ints, *, dx: Floats, dy: Floats
) -> tuple[Floats, Floats]:
    """How far the second must move from the first, across and down: 0 where nothing lacks."""
    short, cos, sin = _overlap(problem, one, two, dx=np.abs(dx), dy=np.abs(dy))
    return np.where(dx < 0, -1.0, 1.0) * short * cos, np.where(dy < 0, -1.0, 1.0) * short * sin


def _overlap(
    problem: Problem, one: Ints, two: Ints, *, dx: Floats, dy: Floats
) -> tuple[Floats, Floats, Floats]:
    """What lacks of the gap along the direction in which least does, and that direction."""
    gap = problem.gap + EXTRA
    short = problem.half_width[one] + problem.half_width[two] + gap - dx
    cos, sin = np.ones(short.shape), np.zeros(short.shape)
    for t in range(1, len(SIN), 2):
        reach = (problem.push[t, one] + problem.push[t, two]) * SIN[t] + EXTRA
        lacks = reach - dx * COS[t] - dy * SIN[t]
        less = lacks < short
        short = np.where(less, lacks, short)
        cos[less], sin[less] = COS[t], SIN[t]
    return np.maximum(short, 0.0), cos, sin


def _legal(problem: Problem, panel: int, starts: Batch) -> Batch:
    """The starts that have become layouts, as they stand, blanks filled up."""
    batch = filled(problem, starts)
    legal = _apart(problem, starts)
    legal &= problem.area[batch.outline].sum(axis=0) <= problem.limit[panel]
    return batch.take(np.flatnonzero(legal))


def _apart(problem: Problem, starts: Batch) -> Bools:
    """Whether no two balloons of a start are nearer than the gap."""
    i, j = np.triu_indices(len(starts.x), 1)
    one, two = starts.outline[i], starts.outline[j]
    dx, dy = np.abs(starts.x[j] - starts.x[i]), np.abs(starts.y[j] - starts.y[i])
    clear = dx >= problem.half_width[one] + problem.half_width[two] + problem.gap
    for t in range(len(SIN)):
        reach = (problem.push[t, one] + problem.push[t, two]) * SIN[t]
        clear |= dx * COS[t] + dy * SIN[t] >= reach
    return np.asarray(clear.all(axis=0))
