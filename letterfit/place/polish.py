"""Polish: small moves of one balloon, of a run of balloons, and swaps of outlines, while they pay.

All moves of all finalists are decoded and priced in one batch; each finalist takes its best move.
Steps shrink when no move of a size pays any more. The number of rounds is bounded, never the time.
"""

from functools import cache

import numpy as np

from letterfit.outline import Floats
from letterfit.place.cost import improved
from letterfit.place.kernel import Ints
from letterfit.place.problem import Problem
from letterfit.place.settle import Batch, decode

STEPS_MM = (5.0, 1.6, 0.4)
"""Sizes of moves, all tried in every round."""

MORE_STEPS_MM = (5.0, 3.6, 2.6, 1.8, 1.2, 0.8, 0.4)
"""Sizes of moves of FEW balloons or less, where more moves a round cost less than more rounds."""

FEW = 2

ROUNDS = 10
"""Most moves of a layout."""

TRIAL = 1
"""Moves after which layouts that lag behind are given up."""

LAG = 0.02
"""A layout that costs this much more than the best one lags behind."""

GAIN = 2e-4
"""A move that gains less, a fiftieth of one percent of the panel, is not worth a round."""


def polish(problem: Problem, batch: Batch, cost: Floats) -> tuple[Batch, Floats]:
    """The layouts after all moves that pay, and their costs; none costs more than before."""
    x, y, outline, cost = batch.x.copy(), batch.y.copy(), batch.outline.copy(), cost.copy()
    rows = np.arange(len(cost))
    for turn in range(ROUNDS):
        if not len(rows):
            break
        moved, price = _best_moves(problem, Batch(x[rows], y[rows], outline[rows]), cost=cost[rows])
        better = price < cost[rows]
        rows = rows[better]
        cost[rows] = price[better]
        x[rows], y[rows], outline[rows] = moved.x[better], moved.y[better], moved.outline[better]
        if turn >= TRIAL:
            rows = rows[cost[rows] < cost.min() + LAG]
    return Batch(x, y, outline), cost


def _best_moves(problem: Problem, batch: Batch, *, cost: Floats) -> tuple[Batch, Floats]:
    """The best single move of each layout that pays, and its cost; infinite where none does."""
    x, outline = _moves(problem, batch)
    count, moves = x.shape[:2]
    tried, legal = decode(problem, x.reshape(count * moves, -1), outline.reshape(count * moves, -1))
    price = np.full(count * moves, np.inf)
    rows = np.flatnonzero(legal)
    bound = np.repeat(cost - GAIN, moves)[rows]
    price[rows] = improved(problem, tried.take(rows), than=bound)
    within = price.reshape(count, moves).argmin(axis=1) + np.arange(count) * moves
    return tried.take(within), price[within]


def _moves(problem: Problem, batch: Batch) -> tuple[Floats, Ints]:
    """Every move of every layout: x and outlines, both (n, moves, k)."""
    size = problem.size
    steps = STEPS_MM if size > FEW else MORE_STEPS_MM
    shifts = np.concatenate([_shifts(size) * step for step in steps])
    x = batch.x[:, None, :] + shifts
    outline = np.broadcast_to(batch.outline[:, None, :], x.shape)
    swapped = _swaps(problem, batch)
    kept = np.broadcast_to(batch.x[:, None, :], swapped.shape)
    x = np.concatenate([x, kept], axis=1)
    outline = np.concatenate([outline, swapped], axis=1)
    half = problem.half_width[outline] + problem.margin
    return np.clip(x, half, problem.width - half), outline


@cache
def _shifts(size: int) -> Floats:
    """Each balloon alone both ways, each run from a balloon to the last, each pair apart."""
    single = np.eye(size)
    runs = np.triu(np.ones((size, size)))[1:-1] if size > 2 else np.zeros((0, size))
    apart = single[:-1] - single[1:]
    moves = np.concatenate([single, runs, apart])
    return np.concatenate([moves, -moves])


def _swaps(problem: Problem, batch: Batch) -> Ints:
    """Each balloon's outline changed to the next wider or narrower: (n, 2 k, k)."""
    steps = np.eye(problem.size, dtype=np.intp)
    changed = batch.outline[:, None, :] + np.concatenate([steps, -steps])
    first = np.array([menu[0] for menu in problem.menus])
    last = np.array([menu[-1] for menu in problem.menus])
    result: Ints = np.clip(changed, first, last)
    return result
