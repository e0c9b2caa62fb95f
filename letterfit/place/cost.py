"""What a letterer prefers, as one sum of ratios: figure room, little cover, high, near, good looks.

One hundredth of the panel's area covered weighs as much as one hundredth of the panel's height of
figure room. No figure earns more than CAP of the panel's height: taller ones are never drawn.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Bools
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

LOOKS = 0.1
"""Price of an outline whose looks cost 1: a tenth of the panel's height of figure room."""

CORNER = 0.5
"""Price of an opening caption a panel's width from its corner."""

CROSSING = 0.12
"""Price of a tail that would run through another balloon, or cross another tail."""

REACH = 0.6
"""Share of the way to the mouth that a tail takes."""

SECTIONS = 8
"""Parts that an interval of heights is cut into at once: fewer calls than halving."""

GRAIN = 1 / 500
"""How finely figure room is told when ranking, as a share of the panel's height."""


def cap_height(problem: Problem) -> float:
    """The tallest figure that earns anything, in mm."""
    return min(CAP * problem.height, problem.width / problem.aspect)


def own_costs(problem: Problem, batch: Batch, *, first: int = 0) -> Floats:
    """What each balloon costs by itself, wherever the others are.

    Args:
        problem: The task.
        batch: Layouts of balloons `first`, `first` + 1 and so on: shape (n, c).
        first: The first of them.

    Returns:
        Shape (n, c).
    """
    chosen = slice(first, first + batch.x.shape[1])
    share = 1 / problem.size
    half_width = problem.half_width[batch.outline]
    bottom = batch.y + problem.half_height[batch.outline]
    cost = problem.area[batch.outline] * (COVER / (problem.width * problem.height))
    cost += problem.price[batch.outline] * LOOKS
    cost += bottom * (HIGH * share / problem.height)
    away = np.abs(batch.x - problem.lean[chosen])
    cost += np.where(problem.leans[chosen], away, 0.0) * (LEAN * share / problem.width)
    if (problem.caption | problem.aside).any():
        left = batch.x - half_width - problem.margin
        right = problem.width - problem.margin - half_width - batch.x
        side = np.where(problem.aside[chosen], np.minimum(left, right), 0.0)
        cost += side * (LEAN * share / problem.width)
        off = np.where(np.arange(problem.size)[chosen] > 0, np.minimum(left, right) / 2, left)
        cost += np.where(problem.caption[chosen], off, 0.0) * (CORNER * share / problem.width)
    return cost


def full_cost(problem: Problem, batch: Batch) -> Floats:
    """The cost of whole layouts: shape (n,)."""
    cost = np.asarray(own_costs(problem, batch).sum(axis=1), dtype=np.float64)
    cost += _room_cost(problem, rooms(problem, batch))
    cost += tail_cost(problem, batch)
    return cost


def improved(problem: Problem, batch: Batch, *, than: Floats) -> Floats:
    """The cost of those layouts that cost less than a bound each, infinite for the others.

    Most moves are no better: one look at the figure room that would be needed spares the rest.
    """
    result = np.full(len(batch), np.inf)
    own = own_costs(problem, batch).sum(axis=1)
    needed = (own + FIGURE * CAP - than) * (problem.height / FIGURE)
    hopeful = np.flatnonzero(needed < cap_height(problem))
    some = batch.take(hopeful)
    hopeful = hopeful[_clear(problem, some, np.maximum(needed[hopeful], 0.0))]
    if len(hopeful):
        some = batch.take(hopeful)
        least = np.maximum(needed[hopeful], 0.0)
        room = _room_cost(problem, rooms(problem, some, least=least))
        result[hopeful] = own[hopeful] + room + tail_cost(problem, some)
    return result


def _room_cost(problem: Problem, room: Floats) -> Floats:
    return FIGURE * (CAP - room / problem.height)


def tail_cost(problem: Problem, batch: Batch) -> Floats:
    """The price of what straight tails would run into: shape (n,)."""
    if problem.size < 2 or not problem.leans.any():
        return np.zeros(len(batch))
    return CROSSING * crossings(problem, batch)


def rooms(problem: Problem, batch: Batch, *, least: Floats | None = None) -> Floats:
    """Figure room in mm of each layout, up to the cap: the argument of figure.py, in batch.

    Args:
        problem: The task.
        batch: n layouts.
        least: Shape (n,), mm: heights known to stand clear.
    """
    cap = cap_height(problem)
    low = np.zeros(len(batch)) if least is None else least
    high = np.full(len(batch), cap)
    grid = np.arange(1, SECTIONS + 1) / SECTIONS
    some = batch.take(np.repeat(np.arange(len(batch)), SECTIONS))
    while len(batch) and (high - low).max() > GRAIN * problem.height:
        part = (high - low) / SECTIONS
        tried = low[:, None] + (high - low)[:, None] * grid
        good = _clear(problem, some, tried.ravel()).reshape(tried.shape).sum(axis=1)
        high = np.minimum(low + part * (good + 1), high)
        low = low + part * good
    return np.asarray(low, dtype=np.float64)


def _clear(problem: Problem, batch: Batch, height: Floats) -> Bools:
    """Whether a figure box of that height finds a free left edge in each layout."""
    width = problem.aspect * height
    reach = chords(problem, batch, problem.height - height).T
    # Balloons first, layouts last: the inner loops of the comparisons then run over layouts.
    left, right = batch.x.T - reach - width + 1e-9, batch.x.T + reach
    edges = np.concatenate([np.zeros((1, len(batch))), right])
    held = ((edges > left[:, None]) & (edges < right[:, None])).any(axis=0)
    free = (edges + width <= problem.width + 1e-9) & (edges >= 0) & ~held
    return np.asarray(free.any(axis=0))


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
    """How many balloons and tails the straight tails of each layout run through, so far."""
    tailed = np.flatnonzero(problem.leans[: batch.x.shape[1]])
    x, y = batch.x, batch.y
    dx = REACH * (problem.lean[tailed] - x[:, tailed])
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
    total = np.asarray(near.sum(axis=(1, 2)), dtype=np.float64)
    total += _crossed_tails(x[:, tailed], y[:, tailed], dx=dx, dy=dy)
    return total


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
