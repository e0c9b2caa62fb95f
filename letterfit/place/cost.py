"""What a letterer prefers, as one sum of ratios: figure room, little cover, high, near the speaker.

One hundredth of the panel's area covered weighs as much as one hundredth of the panel's height of
figure room. No figure earns more than CAP of the panel's height: taller ones are never drawn.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Ints
from letterfit.place.problem import Problem
from letterfit.place.settle import Batch

CAP = 0.8
"""Share of the panel's height from which on figure room earns nothing more."""

FIGURE = 1.0
"""Price of a whole panel's height of figure room, up to CAP."""

COVER = 1.0
"""Price of the whole panel covered."""

HIGH = 0.25
"""Price of hanging at the floor, as against the ceiling: a row is better than a pile."""

LEAN = 0.12
"""Price of standing a panel's width from the speaker."""

CORNER = 0.5
"""Price of an opening caption a panel's width from its corner."""

CROSSING = 0.12
"""Price of a tail that would run through another balloon, or cross another tail."""

REACH = 0.6
"""Share of the way to the mouth that a tail takes."""

HALVINGS = 9
"""Halvings of CAP when ranking: to a fifth of a hundredth of the panel's height."""


def cap_height(problem: Problem) -> float:
    """The tallest figure that earns anything, in mm."""
    return min(CAP * problem.height, problem.width / problem.aspect)


def own_cost(problem: Problem, index: int, *, x: Floats, y: Floats, outline: Ints) -> Floats:
    """What one balloon costs by itself, wherever the others are: shape (n,)."""
    bottom = y + problem.half_height[outline]
    cost = COVER * problem.area[outline] / (problem.width * problem.height)
    cost = cost + HIGH / problem.size * bottom / problem.height
    lean = problem.lean[index]
    if np.isfinite(lean):
        cost = cost + LEAN / problem.size * np.abs(x - lean) / problem.width
    elif problem.caption[index]:
        off = x - problem.half_width[outline] - problem.margin
        if index:
            right = problem.width - problem.margin - problem.half_width[outline] - x
            off = np.minimum(off, right) / 2
        cost = cost + CORNER / problem.size * off / problem.width
    result: Floats = cost
    return result


def full_cost(problem: Problem, batch: Batch) -> Floats:
    """The cost of whole layouts: shape (n,)."""
    cost = np.zeros(len(batch))
    for i in range(problem.size):
        cost += own_cost(problem, i, x=batch.x[:, i], y=batch.y[:, i], outline=batch.outline[:, i])
    cost += FIGURE * (CAP - rooms(problem, batch) / problem.height)
    if problem.size > 1 and problem.has_tail.any():
        cost += CROSSING * crossings(problem, batch)
    return cost


def rooms(problem: Problem, batch: Batch) -> Floats:
    """Figure room in mm of each layout, up to the cap: the argument of figure.py, in batch."""
    cap = cap_height(problem)
    free = np.where(_clear(problem, batch, np.full(len(batch), cap)), cap, 0.0)
    tight = np.flatnonzero(free == 0)
    low, high = np.zeros(len(tight)), np.full(len(tight), cap)
    some = batch.take(tight)
    for _ in range(HALVINGS if len(tight) else 0):
        middle = (low + high) / 2
        good = _clear(problem, some, middle)
        low, high = np.where(good, middle, low), np.where(good, high, middle)
    free[tight] = low
    return free


def _clear(
    problem: Problem, batch: Batch, height: Floats
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether a figure box of that height finds a free left edge in each layout."""
    width = (problem.aspect * height)[:, None]
    reach = chords(problem, batch, problem.height - height)
    left, right = batch.x - reach - width, batch.x + reach
    edges = np.concatenate([np.zeros_like(width), right], axis=1)
    held = (edges[:, :, None] > left[:, None, :] + 1e-9) & (edges[:, :, None] < right[:, None, :])
    inside = edges + width <= problem.width + 1e-9
    result: np.ndarray[tuple[int], np.dtype[np.bool_]] = (
        inside & (edges >= 0) & ~held.any(axis=2)
    ).any(axis=1)
    return result


def chords(problem: Problem, batch: Batch, line: Floats) -> Floats:
    """Half the widest chord of each outline below a level line, minus infinity if none: (n, k)."""
    half = problem.half_height[batch.outline]
    share = np.clip((line[:, None] - batch.y) / half, 0.0, 1.0) * STEPS
    step = np.minimum(share.astype(np.intp), STEPS - 1)
    part = share - step
    table = problem.chord
    chord = table[batch.outline, step] * (1 - part) + table[batch.outline, step + 1] * part
    return np.where(batch.y + half <= line[:, None] + 1e-9, -np.inf, chord)


def crossings(problem: Problem, batch: Batch) -> Floats:
    """How many balloons and tails the straight tails of each layout run through."""
    tailed = np.flatnonzero(problem.has_tail & np.isfinite(problem.lean))
    x, y = batch.x, batch.y
    dx = REACH * (problem.lean - x)[:, tailed]
    dy = REACH * (problem.mouth_y[tailed] - y[:, tailed])
    across = 1 / problem.half_width[batch.outline]
    down = 1 / problem.half_height[batch.outline]
    # In the frame where balloon j is the unit disc about its centre: how near does the tail come?
    px = (x[:, tailed, None] - x[:, None, :]) * across[:, None, :]
    py = (y[:, tailed, None] - y[:, None, :]) * down[:, None, :]
    vx, vy = dx[:, :, None] * across[:, None, :], dy[:, :, None] * down[:, None, :]
    along = np.clip(-(px * vx + py * vy) / np.maximum(vx * vx + vy * vy, 1e-12), 0.0, 1.0)
    near = (px + along * vx) ** 2 + (py + along * vy) ** 2 < 1.0
    near[:, np.arange(len(tailed)), tailed] = False
    total = near.sum(axis=(1, 2)) + _crossed_tails(x[:, tailed], y[:, tailed], dx=dx, dy=dy)
    return total.astype(np.float64)


def _crossed_tails(x: Floats, y: Floats, *, dx: Floats, dy: Floats) -> Floats:
    """How many pairs of segments (x, y) .. (x + dx, y + dy) cross, per layout."""
    count = x.shape[1]
    i, j = np.triu_indices(count, 1)
    ex, ey = x[:, j] - x[:, i], y[:, j] - y[:, i]
    turn = dx[:, i] * dy[:, j] - dy[:, i] * dx[:, j]
    turn = np.where(np.abs(turn) < 1e-9, np.inf, turn)
    s = (ex * dy[:, j] - ey * dx[:, j]) / turn
    t = (ex * dy[:, i] - ey * dx[:, i]) / turn
    result: Floats = ((s > 0) & (s < 1) & (t > 0) & (t < 1)).sum(axis=1).astype(np.float64)
    return result
