"""Polish: the moves that pay, one after the other, until none does.

All moves of all finalists of all panels are decoded and priced in one batch; each finalist takes
its best one. After the first round the best finalist of each panel tries jumps as well. The number
of rounds is bounded, never the time.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.cost import best_of_each
from letterfit.place.jumps import Moves, jumps, steps
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem, replaced
from letterfit.place.settle import decode
from letterfit.runs import starts

ROUNDS = 10
"""Most rounds of moves."""

TRIAL = 1
"""Moves after which jumps are tried, and layouts that lag behind are given up."""

LAG = 0.02
"""A layout that costs this much more than the best one of its panel lags behind."""

GAIN = 1e-3
"""A move that gains less, a tenth of one percent of the panel, is not worth a round."""


def polish(
    problem: Problem, batch: Batch, cost: Floats, *, leap: bool = True
) -> tuple[Batch, Floats]:
    """The layouts after all moves that pay, and their costs; none costs more than before.

    Args:
        problem: The task.
        batch: Layouts, blanks filled up.
        cost: Their costs.
        leap: Whether jumps are tried.
    """
    rows = np.arange(len(cost))
    # A balloon alone finds its place with one move, and has nothing to jump over.
    for turn in range(ROUNDS if problem.most > 1 else 1):
        leaders = _best_of_each(batch, cost) if turn == TRIAL and leap else rows[:0]
        if len(leaders):
            chosen = np.zeros(len(cost), dtype=np.bool_)
            chosen[rows] = chosen[leaders] = True
            (rows,) = chosen.nonzero()
        if not len(rows):
            break
        moves = _moves(problem, batch.take(rows), leaders=np.searchsorted(rows, leaders))
        better, moved, price = _best(problem, batch.take(rows), cost[rows], moves=moves)
        rows = rows[better]
        batch, cost = _with(batch, cost, rows, some=moved, price=price)
        if turn >= TRIAL:
            least = np.full(len(problem.size), np.inf)
            np.minimum.at(least, batch.panel, cost)
            rows = rows[cost[rows] < least[batch.panel[rows]] + LAG]
    return batch, cost


def _moves(problem: Problem, batch: Batch, *, leaders: Ints) -> Moves:
    """The small moves of all layouts, and the jumps of some."""
    small = steps(problem, batch)
    if not len(leaders):
        return small
    large = jumps(problem, batch.take(leaders))
    return Moves(
        np.concatenate([small.owner, leaders[large.owner]]),
        np.concatenate([small.x, large.x], axis=1),
        np.concatenate([small.outline, large.outline], axis=1),
    )


def _best(
    problem: Problem, batch: Batch, cost: Floats, *, moves: Moves
) -> tuple[Ints, Batch, Floats]:
    """Which layouts a move helps, each after the move that helps most, and what they cost then."""
    tried, legal = decode(problem, batch.panel[moves.owner], x=moves.x, outline=moves.outline)
    rows = np.flatnonzero(legal)
    rows = rows[np.argsort(moves.owner[rows], kind="stable")]
    some, owner = tried.take(rows), moves.owner[rows]
    best, price = best_of_each(problem, some, than=cost[owner] - GAIN, owner=owner)
    return owner[best], some.take(best), price


def _best_of_each(batch: Batch, cost: Floats) -> Ints:
    """The best layout of each panel."""
    order = np.lexsort((np.arange(len(cost)), cost, batch.panel))
    return order[starts(batch.panel[order])]


def _with(
    batch: Batch, cost: Floats, rows: Ints, *, some: Batch, price: Floats
) -> tuple[Batch, Floats]:
    """The layouts and costs with some of them replaced."""
    cost = cost.copy()
    cost[rows] = price
    return replaced(batch, rows, some), cost
