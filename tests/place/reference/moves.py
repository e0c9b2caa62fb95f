"""Small moves of whole layouts, down to a fiftieth of a millimetre, each taken while it pays.

Moves of one balloon, of two and of all from one on; every other outline of a menu; and holding a
balloon lower than it could hang, which the push up alone would never try.
"""

from itertools import combinations

import numpy as np

from tests.place.reference.board import MARGIN, Board, Bools, Floats, Ints, Layouts
from tests.place.reference.objective import FIGURE, TALLEST

STEPS = (30.0, 16.0, 9.0, 5.0, 2.5, 1.2, 0.6, 0.3, 0.15, 0.06, 0.02)
"""Sizes of moves, mm, three neighbours of this list at a time."""

ROUNDS = 60
"""Most moves of one size."""

LAG = (0.3, 0.25, 0.2, 0.1, 0.05, 0.03, 0.02, 0.01, 0.006)
"""How much dearer than the best a layout may be and go on, by size of moves."""


def improved(board: Board, layouts: Layouts) -> tuple[Layouts, Floats]:
    """The layouts after all moves that pay, and their costs."""
    cost = board.cost(layouts)
    x, o, floor = layouts.x.T.copy(), layouts.o.T.copy(), np.zeros(layouts.x.T.shape)
    for size in range(len(STEPS) - 2):
        alive = np.arange(len(x))
        for _ in range(ROUNDS):
            alive = alive[cost[alive] <= cost.min() + LAG[size]]
            if not len(alive):
                break
            state, steps = (x[alive], o[alive], floor[alive]), STEPS[size : size + 3]
            tried, price = _best_moves(board, state, cost=cost[alive], steps=steps)
            better = price < cost[alive] - 1e-5
            alive = alive[better]
            cost[alive] = price[better]
            x[alive], o[alive], floor[alive] = (part[better] for part in tried)
    decoded, _ = board.decode(x.T, o.T, floor=floor.T)
    return decoded, board.cost(decoded)


State = tuple[Floats, Ints, Floats]


def _best_moves(
    board: Board, state: State, *, cost: Floats, steps: tuple[float, ...]
) -> tuple[State, Floats]:
    """The best move of each layout, and what it costs then: infinite where none pays."""
    x, o, floor = state
    count = len(x)
    shift = np.concatenate([_shifts(board.size) * step for step in steps])
    moved = x[:, None] + shift
    swapped = _swaps(board, o)
    held = _held(board, state, steps=steps)
    many_x = np.concatenate(
        [moved, np.broadcast_to(x[:, None], (count, swapped.shape[1] + held.shape[1], board.size))],
        axis=1,
    )
    still = np.broadcast_to(o[:, None], moved.shape)
    many_o = np.concatenate([still, swapped, np.broadcast_to(o[:, None], held.shape)], axis=1)
    plain = np.broadcast_to(floor[:, None], (count, len(shift) + swapped.shape[1], board.size))
    many_floor = np.concatenate([plain, held], axis=1)
    half = board.a[many_o] + MARGIN
    many_x = np.clip(many_x, half, board.width - half)
    each = many_x.shape[1]
    flat_x, flat_o, flat_floor = (
        many_x.reshape(-1, board.size),
        many_o.reshape(-1, board.size),
        many_floor.reshape(-1, board.size),
    )
    layouts, good = board.decode(
        np.ascontiguousarray(flat_x.T), np.ascontiguousarray(flat_o.T), floor=flat_floor.T.copy()
    )
    price = _priced(board, layouts, good=good, than=np.repeat(cost, each))
    best = price.reshape(count, each).argmin(axis=1) + np.arange(count) * each
    return (flat_x[best], flat_o[best], flat_floor[best]), price[best]


def _priced(board: Board, layouts: Layouts, *, good: Bools, than: Floats) -> Floats:
    """What layouts cost, infinite where it is not less than a bound."""
    price = np.full(len(layouts), np.inf)
    rows = np.flatnonzero(good)
    some = layouts.take(rows)
    own = board.owns(some) + board.tails(some) + FIGURE * TALLEST
    needed = (own - than[rows]) * (board.height / FIGURE)
    clear = (needed <= board.tallest) & board.stands(some, np.maximum(needed, 0))
    rows, some, own = rows[clear], some.take(np.flatnonzero(clear)), own[clear]
    price[rows] = own - FIGURE * board.rooms(some, halvings=14) / board.height
    return price


def _shifts(size: int) -> Floats:
    """One balloon, all from one on, two together, two apart; and the way back of each."""
    single = np.eye(size)
    ways = [single, np.triu(np.ones((size, size)))[:-1]]
    for i, j in combinations(range(size), 2):
        ways += [single[i : i + 1] + single[j : j + 1], single[i : i + 1] - single[j : j + 1]]
    rows = np.concatenate(ways)
    return np.unique(np.concatenate([rows, -rows]), axis=0)


def _swaps(board: Board, o: Ints) -> Ints:
    """Every other outline of each balloon."""
    changed = []
    for i, menu in enumerate(board.menus):
        for other in menu:
            row = o.copy()
            row[:, i] = other
            changed.append(row)
    return np.stack(changed, axis=1)


def _held(board: Board, state: State, *, steps: tuple[float, ...]) -> Floats:
    """Each balloon held lower by each step, or let go."""
    x, o, floor = state
    layouts, _ = board.decode(x.T, o.T, floor=floor.T)
    rows = []
    for i in range(board.size):
        for step in (0.0, *steps):
            row = floor.copy()
            row[:, i] = layouts.y[i] + step if step else 0.0
            rows.append(row)
    return np.stack(rows, axis=1)
