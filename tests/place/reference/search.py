"""The slow search: layers of all states that may still be the best, then many small moves.

Up to EXACT balloons a branch and bound over outlines and places across: a grid, and contacts. What
a state must cost at least is what its balloons cost, what those to come cost at the least height
and place the reading order leaves them, and the figure that stands now. Where no layer had to be
cut at MOST states, nothing on the grid is more than MARGIN_LEFT better than what is returned. For
more balloons it is the best of two wide beams, with room ahead weighed in five ways: not exact.
"""

from dataclasses import dataclass

import numpy as np

from tests.place.reference.board import (
    GAP,
    MARGIN,
    Board,
    Bools,
    Floats,
    Ints,
    Layouts,
    nothing,
)
from tests.place.reference.moves import improved
from tests.place.reference.objective import FIGURE, HIGH, TALLEST
from tests.place.reference.rules import BESIDE

EXACT = 4
"""Balloons up to which the branch and bound is tried."""

MARGIN_LEFT = 0.001
"""What the branch and bound leaves to the small moves: a tenth of one percent of the panel."""

GRIDS = (400, 150, 70, 36)
"""Places of each outline between the walls, by number of balloons up to EXACT."""

BEAMS = ((9, 1200), (5, 2000))
"""Grids of the beams and states kept in a layer: the first for any number of balloons."""

MOST = 40_000
"""States kept in a layer of the branch and bound."""

WEIGHTS = (0.0, 0.15, 0.5, 1.2, 4.0)
"""What a panel's area still in reach is worth in the rankings of the beam."""

ROOM = (1.2, 4.0, 20.0)
"""What it is worth where any layout will do."""

FILLING = ((9, 1000), (24, 3000))
"""Grid and states kept of the searches for any layout at all."""

PORTION = 300_000
"""Candidates looked at in one go."""

STARTS = 48
"""Layouts that small moves start from."""

COLUMNS = 32
"""Columns that the room ahead is told by."""

RESTARTS = 3
"""Most runs of the branch and bound, each under the bound that the one before found."""


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """What the search ends with.

    Args:
        layout: One layout, or none.
        cost: Its cost.
        complete: Whether no layer was cut.
    """

    layout: Layouts
    cost: float
    complete: bool


def best_layout(board: Board) -> Found:
    """The best layout that a long search finds."""
    if any(not len(menu) for menu in board.menus):
        return Found(nothing(0), np.inf, complete=True)
    best, cost = nothing(0), np.inf
    for grid, keep in BEAMS if board.size > EXACT else BEAMS[:1]:
        more, price = _polished(board, _layers(board, grid=grid, keep=keep)[0])
        if price < cost:
            best, cost = more, price
    for _ in range(RESTARTS if board.size <= EXACT else 0):
        grid = GRIDS[board.size - 1]
        leaves, complete = _layers(board, grid=grid, keep=MOST, bound=cost - MARGIN_LEFT)
        more, price = _polished(board, leaves)
        gained = cost - price
        if gained > 0:
            best, cost = more, price
        if complete or not gained >= MARGIN_LEFT / 2:
            return Found(best, cost, complete=complete)
    return Found(best, cost, complete=False)


def any_layout(board: Board) -> Layouts:
    """Some legal layout, or none: a search that looks at room alone, wider and finer each time."""
    if any(not len(menu) for menu in board.menus):
        return nothing(0)
    for grid, keep in FILLING:
        leaves, complete = _layers(board, grid=grid, keep=keep, fill=True)
        if len(leaves) or complete:
            break
    return leaves


def _polished(board: Board, leaves: Layouts) -> tuple[Layouts, float]:
    """The best of a few unlike layouts after small moves, and its cost."""
    if not len(leaves):
        return leaves, np.inf
    layouts, cost = improved(board, _unlike(board, leaves, cost=board.cost(leaves)))
    best = np.argsort(cost, kind="stable")[:1]
    return layouts.take(best), float(cost[best[0]])


def _unlike(board: Board, layouts: Layouts, *, cost: Floats) -> Layouts:
    """The cheapest, each with some balloon elsewhere or of another outline than those before."""
    left = np.argsort(cost, kind="stable")[:4000]
    chosen: list[int] = []
    while len(left) and len(chosen) < STARTS:
        one = int(left[0])
        chosen.append(one)
        away = np.abs(layouts.x[:, left] - layouts.x[:, [one]]).max(axis=0) > 0.06 * board.width
        other = (layouts.o[:, left] != layouts.o[:, [one]]).sum(axis=0) > board.size // 2
        left = left[away | other]
    return layouts.take(np.array(chosen, np.intp))


def _layers(
    board: Board,
    *,
    grid: int,
    keep: int,
    bound: float = np.inf,
    fill: bool = False,
) -> tuple[Layouts, bool]:
    """Whole layouts, balloon by balloon; and whether every state that might do was kept.

    Args:
        board: The task.
        grid: Places of each outline between the walls.
        keep: States kept after each balloon.
        bound: Whole layouts have to cost less.
        fill: Whether any layout will do: states are ranked by room alone.
    """
    states, complete = nothing(1), True
    for index in range(board.size):
        last = index == board.size - 1
        kept = () if last else (ROOM if fill else WEIGHTS)
        parts = []
        count = grid * len(board.menus[index])
        for at in range(0, len(states), max(1, PORTION // count)):
            some = states.take(np.arange(at, min(len(states), at + max(1, PORTION // count))))
            parts.append(_grown(board, some, index, grid=grid, bound=bound))
            if sum(map(len, parts)) > 12 * keep:
                rough = 0 if fill else 4
                parts = [_best(board, _joined(parts), keep=6 * keep, weights=kept, halvings=rough)]
                complete = complete and last
        states = _joined(parts)
        if not len(states):
            return nothing(0), complete
        if len(states) > keep:
            fine = 0 if fill else 8
            states = _best(board, states, keep=keep, weights=kept, halvings=fine)
            complete = complete and last
    return states, complete


def _joined(parts: list[Layouts]) -> Layouts:
    return Layouts(
        np.concatenate([p.x for p in parts], axis=1),
        np.concatenate([p.y for p in parts], axis=1),
        np.concatenate([p.o for p in parts], axis=1),
    )


def _grown(board: Board, states: Layouts, index: int, *, grid: int, bound: float) -> Layouts:
    """Every state with one balloon more that may still come under the bound."""
    x, o, row = _candidates(board, states, board.menus[index], index=index, grid=grid)
    before = states.take(row)
    y = board.settle(before, x=x, o=o)
    good = np.isfinite(y)
    grown = before.take(np.flatnonzero(good)).joined(x[good], y[good], o[good])
    least = _to_come(board, grown)
    if not np.isfinite(bound):
        return grown.take(np.flatnonzero(np.isfinite(least)))
    least += board.owns(grown) + FIGURE * TALLEST - bound
    hopeful = np.flatnonzero(least * board.height <= FIGURE * board.tallest)
    grown, least = grown.take(hopeful), least[hopeful] + board.tails(grown.take(hopeful))
    needed = np.maximum(least, 0.0) * (board.height / FIGURE)
    clear = (needed <= board.tallest) & board.stands(grown, needed)
    return grown.take(np.flatnonzero(clear))


def _to_come(board: Board, states: Layouts) -> Floats:
    """What the balloons to come cost at least by themselves: infinite where one finds no room.

    Each lies under an earlier balloon, unless it has room on its right: then its top is not higher.
    """
    total = np.zeros(len(states))
    a, b = board.a[states.o], board.b[states.o]
    least_top, low_top = states.y - b, states.y + b
    for index in range(states.size, board.size):
        menu = board.menus[index]
        half, least = board.a[menu].min(), np.full(len(states), np.inf)
        beside = states.x + BESIDE * a <= board.width - MARGIN - (1 + BESIDE) * half
        top = np.where(beside, least_top, low_top).max(axis=0, initial=MARGIN)
        for o in menu:
            low = top + 2 * board.b[o]
            cost = board.fixed[o] + low * (HIGH / (board.size * board.height))
            low_enough = low <= board.height - MARGIN + 1e-9
            least = np.where(low_enough, np.minimum(least, cost), least)
        total += least
    return total


def _candidates(
    board: Board, states: Layouts, menu: Ints, *, index: int, grid: int
) -> tuple[Floats, Ints, Ints]:
    """Places to try: a grid between the walls, the speaker's side, contacts with balloons."""
    a = board.a[menu]
    low, high = MARGIN + a, board.width - MARGIN - a
    places = low + np.linspace(0, 1, grid)[:, None] * (high - low)
    lean = board.lean[index]
    if lean is not None:
        places = np.concatenate([places, np.clip(lean, low, high)[None]])
    x = np.broadcast_to(places, (len(states), *places.shape))
    if states.size:
        px, before = states.x[-4:].T[:, :, None], board.a[states.o[-4:].T[:, :, None]]
        contacts = [px + a + before + GAP, px + BESIDE * (a + before), px + 0 * a, px - before + a]
        x = np.concatenate([x, *contacts], axis=1)
    good = (x >= low - 1e-9) & (x <= high + 1e-9)
    row, _, choice = np.nonzero(good)
    return np.clip(x[good], low[choice], high[choice]), menu[choice], row


def _best(
    board: Board, states: Layouts, *, keep: int, weights: tuple[float, ...], halvings: int
) -> Layouts:
    """As many states as are kept: under each weight of the room ahead its share."""
    cost = board.owns(states) + _to_come(board, states) + board.tails(states)
    cost += FIGURE * (TALLEST - board.rooms(states, halvings=halvings) / board.height)
    if not weights:
        return states.take(np.argsort(cost, kind="stable")[:keep])
    ahead = _ahead(board, states)
    chosen = np.zeros(len(states), np.bool_)
    for weight in weights:
        order = np.argsort(cost - weight * ahead, kind="stable")
        fresh = order[~chosen[order]]
        chosen[fresh[: keep // len(weights)]] = True
    return states.take(np.flatnonzero(chosen))


def _ahead(board: Board, states: Layouts) -> Floats:
    """Share of the panel that the reading order leaves to balloons to come."""
    columns = (np.arange(COLUMNS) + 0.5) * (board.width / COLUMNS)
    stair = np.zeros((COLUMNS, len(states)))
    for x, y, o in zip(states.x, states.y, states.o, strict=True):
        free: Bools = columns[:, None] > x + board.a[o]
        stair = np.maximum(stair, np.where(free, y - board.b[o], y + board.b[o]))
    return np.asarray((1 - stair / board.height).clip(0).mean(axis=0), np.float64)
