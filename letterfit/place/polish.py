"""Polish: the moves that pay, one after the other, until none does.

All moves of all finalists of all panels are decoded and priced in one batch; each finalist takes
its best one. Where no small move pays any more, the best finalist of each panel tries jumps, and
small moves after each. The number of rounds is bounded, never the time.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.cost import improved
from letterfit.place.jumps import Moves, jumps, steps
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem, replaced
from letterfit.place.settle import decode

ROUNDS = 10
"""Most rounds of small moves."""

TRIAL = 1
"""Moves after which layouts that lag behind are given up."""

LAG = 0.02
"""A layout that costs this much more than the best one of its panel lags behind."""

GAIN = 3e-4
"""A move that gains less, a thirtieth of one percent of the panel, is not worth a round."""


def polish(problem: Problem, batch: Batch, cost: Floats, *, leaps: int) -> tuple[Batch, Floats]:
    """The layouts after all moves that pay, and their costs; none costs more than before.

    Args:
        problem: The task.
        batch: Layouts, blanks filled up.
        cost: Their costs.
        leaps: How often jumps are tried at most.
    """
    batch, cost = _walked(problem, batch, cost)
    rows = _best_of_each(batch, cost)
    for _ in range(leaps):
        if not len(rows):
            break
        some = batch.take(rows)
        jumped, price = _best(problem, some, cost[rows], moves=jumps(problem, some))
        better = np.flatnonzero(price < cost[rows])
        rows = rows[better]
        walked, price = _walked(problem, jumped.take(better), price[better])
        batch, cost = _with(batch, cost, rows, some=walked, price=price)
    return batch, cost


def _walked(problem: Problem, batch: Batch, cost: Floats) -> tuple[Batch, Floats]:
    """The layouts after all small moves that pay."""
    rows = np.arange(len(cost))
    for turn in range(ROUNDS):
        if not len(rows):
            break
        some = batch.take(rows)
        moved, price = _best(problem, some, cost[rows], moves=steps(problem, some))
        better = np.flatnonzero(price < cost[rows])
        rows = rows[better]
        batch, cost = _with(batch, cost, rows, some=moved.take(better), price=price[better])
        if turn >= TRIAL:
            least = np.full(len(problem.size), np.inf)
            np.minimum.at(least, batch.panel, cost)
            rows = rows[cost[rows] < least[batch.panel[rows]] + LAG]
    return batch, cost


def _best(problem: Problem, batch: Batch, cost: Floats, *, moves: Moves) -> tuple[Batch, Floats]:
    """The best single move of each layout that pays, and its cost; infinite where none does."""
    owner = moves.owner
    tried, legal = decode(problem, batch.panel[owner], x=moves.x, outline=moves.outline)
    price = np.full(len(owner), np.inf)
    rows = np.flatnonzero(legal)
    price[rows] = improved(problem, tried.take(rows), than=cost[owner[rows]] - GAIN)
    order = np.lexsort((np.arange(len(owner)), price, owner))
    best = order[np.flatnonzero(np.diff(owner[order], prepend=-1))]
    return tried.take(best), price[best]


def _best_of_each(batch: Batch, cost: Floats) -> Ints:
    """The best layout of each panel."""
    order = np.lexsort((np.arange(len(cost)), cost, batch.panel))
    return order[np.flatnonzero(np.diff(batch.panel[order], prepend=-1))]


def _with(
    batch: Batch, cost: Floats, rows: Ints, *, some: Batch, price: Floats
) -> tuple[Batch, Floats]:
    """The layouts and costs with some of them replaced."""
    cost = cost.copy()
    cost[rows] = price
    return replaced(batch, rows, some), cost
