"""The search: balloons set in script order, each at a few telling places, the best states kept.

Ranked by cost alone, a beam fills the room that later balloons need. So states are kept apart by
the figure that still stands clear of them (STRATA heights), and within each height half are ranked
by cost less a little, half by cost less much of the room still in reach of later balloons.
Candidate places are walls, a coarse grid, the speaker's side, and contact with each balloon placed:
contacts beat finer grids.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.cost import cap_height, full_cost, own_costs, tail_cost
from letterfit.place.kernel import ANGLES, Bools, Ints
from letterfit.place.problem import Problem, directions
from letterfit.place.settle import RIGHT, Batch, empty, settle

GRID = np.array([0.0, 0.25, 0.5, 0.75, 1.0])
"""Places between the walls, as shares of the room to move."""

FINE = 25
"""Places between the walls for a balloon alone, where no contact tells a place."""

STRATA = 8
"""Figure heights that states are kept for, from none to the cap."""

COLUMNS = 24
"""Columns of the staircase under which later balloons must go."""

NEAR = 3
"""How many balloons back contacts are looked for."""

EDGES = 9
"""Left edges of the figure box looked at for each height."""

WEIGHTS = (0.15, 1.2)
"""What a panel's area still in reach is worth in the two rankings."""

UNLIKE = 0.08
"""Two layouts are unlike when some balloon moves by this share of the panel's width."""

PLACES = 1 << 20
"""Parts of the panel's width within which two places are one."""

TIGHT = 0.25
"""What a state's own cost weighs against the room it leaves, where any layout will do."""

LAST = (0.0,)
"""After the last balloon no room needs to be left in reach."""

ROUGH = 45
"""Over the number of balloons: how many times more states are kept before their tails are priced
than after."""

TAN = np.tan(ANGLES)


@dataclass(frozen=True, slots=True, eq=False)
class States:
    """Partial layouts.

    Args:
        batch: n layouts of the balloons placed so far.
        cost: Shape (n,): their own costs.
        stair: Shape (n, COLUMNS), mm: the least y that later balloons may take.
        free: Shape (n, STRATA, EDGES): which left edges of which figure box are free.
    """

    batch: Batch
    cost: Floats
    stair: Floats
    free: Bools

    def take(self, rows: Ints) -> "States":
        """The states of the given rows."""
        return States(self.batch.take(rows), self.cost[rows], self.stair[rows], self.free[rows])


def search(
    problem: Problem, *, width: int, finalists: int, coarse: bool = True
) -> tuple[Batch, Floats]:
    """The best whole layouts found and their costs, best first; empty when none was found.

    Args:
        problem: The task.
        width: How many states are kept after each balloon, about.
        finalists: How many layouts to return at most.
        coarse: Whether half of the directions are enough: faster, balloons a little farther apart.
    """
    states = _start(problem)
    for index in range(problem.size):
        states = _extended(problem, states, index, coarse=coarse)
        if not len(states.cost):
            return empty(0), np.zeros(0)
        weights = WEIGHTS if index < problem.size - 1 else LAST
        rough = max(3, ROUGH // problem.size) * width
        states = states.take(_kept(problem, states, cost=states.cost, weights=weights, width=rough))
        cost = states.cost + tail_cost(problem, states.batch)
        states = states.take(_kept(problem, states, cost=cost, weights=weights, width=width))
    cost = full_cost(problem, states.batch)
    best = _unlike(problem, states.batch, cost=cost, most=finalists)
    return states.batch.take(best), cost[best]


def squeezed(problem: Problem, *, width: int) -> Batch:
    """Whole layouts that a search for any at all finds: empty when it finds none.

    It looks neither at figures nor at tails: states are kept by the room that is left in reach, and
    all outlines of every menu are tried.

    Args:
        problem: The task.
        width: How many states are kept after each balloon.
    """
    states = _start(problem)
    for index in range(problem.size):
        states = _extended(problem, states, index, coarse=True, menu=problem.menus[index])
        if not len(states.cost):
            return empty(0)
        left = (problem.height - problem.margin - states.stair).clip(0).mean(axis=1)
        level = -left / problem.height
        first = np.argsort(level, kind="stable")[: width // 2]
        second = np.argsort(level + TIGHT * states.cost, kind="stable")[: width - len(first)]
        states = states.take(np.unique(np.concatenate([first, second])))
    return states.batch


def _unlike(problem: Problem, batch: Batch, *, cost: Floats, most: int) -> Ints:
    """The best layouts, each unlike those before it: polishing twins finds the same place twice."""
    left = np.argsort(cost, kind="stable")
    chosen: list[int] = []
    while len(left) and len(chosen) < most:
        chosen.append(int(left[0]))
        away = np.abs(batch.x[left] - batch.x[left[0]]).max(axis=1)
        left = left[away > UNLIKE * problem.width]
    return np.array(chosen, dtype=np.intp)


def _start(problem: Problem) -> States:
    return States(
        empty(1),
        np.zeros(1),
        np.full((1, COLUMNS), problem.margin),
        np.ones((1, STRATA, EDGES), dtype=np.bool_),
    )


def _extended(
    problem: Problem, states: States, index: int, *, coarse: bool, menu: Ints | None = None
) -> States:
    """Every legal state with one balloon more, in a fixed order; no figures for a menu given."""
    figures, menu = menu is None, problem.few[index] if menu is None else menu
    x, outline, row = _candidates(problem, states.batch, index, menu=menu)
    y = settle(problem, states.batch.take(row), x=x, outline=outline, coarse=coarse)
    good = np.isfinite(y) & _within_limit(problem, states.batch, row=row, outline=outline)
    x, y, outline, row = x[good], y[good], outline[good], row[good]
    alone = Batch(x[:, None], y[:, None], outline[:, None])
    cost = states.cost[row] + own_costs(problem, alone, first=index)[:, 0]
    free = states.free[row]
    return States(
        states.batch.take(row).joined(x, y, outline),
        cost,
        _lowered(problem, states.stair[row], x=x, y=y, outline=outline),
        free & _figures(problem, x=x, y=y, outline=outline) if figures else free,
    )


def _candidates(
    problem: Problem, batch: Batch, index: int, *, menu: Ints
) -> tuple[Floats, Ints, Ints]:
    """Telling places: x, outline and the state each belongs to, duplicates left out."""
    half = problem.half_width[menu]
    low, high = problem.margin + half, problem.width - problem.margin - half
    grid = GRID if problem.size > 1 else np.linspace(0, 1, FINE)
    fixed = [low + share * (high - low) for share in grid]
    if problem.leans[index]:
        fixed.append(np.clip(problem.lean[index], low, high))
    count = len(batch)
    alone = np.broadcast_to(np.stack(fixed), (count, len(fixed), len(menu)))
    x = np.concatenate([alone, *_contacts(problem, batch, menu)], axis=1)
    legal = (x >= low - 1e-9) & (x <= high + 1e-9)
    state, _, choice = np.nonzero(legal)
    place = (x[legal] * (PLACES / problem.width)).astype(np.int64)
    _, first = np.unique((state * len(menu) + choice) * PLACES + place, return_index=True)
    return x[legal][first], menu[choice[first]], state[first]


def _within_limit(problem: Problem, batch: Batch, *, row: Ints, outline: Ints) -> Bools:
    """Whether the least outlines of the balloons to come still keep to the limit of coverage."""
    placed = problem.area[batch.outline].sum(axis=1)[row] + problem.area[outline]
    to_come = problem.few[batch.x.shape[1] + 1 :]
    least = sum(float(problem.area[menu].min()) for menu in to_come)
    return np.asarray(placed + least <= problem.limit)


def _contacts(problem: Problem, batch: Batch, menu: Ints) -> list[Floats]:
    """Places by contact with each balloon placed: arrays of shape (n, i, menu)."""
    if not batch.x.shape[1]:
        return []
    px, po = batch.x[:, -NEAR:, None], batch.outline[:, -NEAR:, None]
    half, before = problem.half_width[menu], problem.half_width[po]
    drop = np.abs(problem.half_height[po] - problem.half_height[menu])
    beside = half + before + problem.gap
    for part in directions(beside.size, step=2):
        reach = problem.push[part, po] + problem.push[part][:, None, None, menu] - drop
        reach *= TAN[part].reshape(-1, 1, 1, 1)
        np.minimum(beside, reach.min(axis=0), out=beside)
    shoulder = RIGHT * (half + before)
    if not problem.ordered:
        return [px + beside, px - beside, px + beside / 2, px - beside / 2, px + 0 * beside]
    return [
        px + np.maximum(beside, shoulder),
        px + shoulder,
        px + 0 * beside,
        px - before + half,
    ]


def _lowered(problem: Problem, stair: Floats, *, x: Floats, y: Floats, outline: Ints) -> Floats:
    """The staircase with one balloon more: below it, or right of it and not higher."""
    columns = (np.arange(COLUMNS) + 0.5) * (problem.width / COLUMNS)
    half = problem.half_height[outline]
    end = (x + problem.half_width[outline])[:, None]
    if not problem.ordered:
        inside = np.abs(columns - x[:, None]) < problem.half_width[outline][:, None]
        return np.where(inside, np.maximum(stair, (y + half)[:, None]), stair)
    step = np.where(columns > end, (y - half)[:, None], (y + half)[:, None])
    return np.maximum(stair, step)


def _figures(problem: Problem, *, x: Floats, y: Floats, outline: Ints) -> Bools:
    """Which left edges of which figure box one balloon leaves free: (n, STRATA, EDGES)."""
    height = np.linspace(0, cap_height(problem), STRATA)
    width = problem.aspect * height
    edges = np.linspace(0, 1, EDGES) * (problem.width - width)[:, None]
    half = problem.half_height[outline]
    line = problem.height - height
    part = np.clip((line - y[:, None]) / half[:, None], 0.0, 1.0)
    steps = problem.chord.shape[1] - 1
    reach = problem.chord[outline[:, None], (part * steps).astype(np.intp)]
    reach = np.where((y + half)[:, None] <= line + 1e-9, -np.inf, reach)
    left, right = x[:, None] - reach - width + 1e-9, x[:, None] + reach - 1e-9
    # Edges outermost: the inner loops of the comparisons then run over all states.
    free = np.empty((EDGES, *left.T.shape), dtype=np.bool_)
    for place, edge in enumerate(edges.T):
        np.less_equal(edge[:, None], left.T, out=free[place])
        free[place] |= edge[:, None] >= right.T
    result: Bools = free.transpose(2, 1, 0)
    return result


def _kept(
    problem: Problem,
    states: States,
    *,
    cost: Floats,
    weights: tuple[float, ...],
    width: int,
) -> Ints:
    """The states to go on with: the best of each figure height under each ranking."""
    reach = np.maximum(problem.height - problem.margin - states.stair, 0).mean(axis=1)
    stands = np.asarray(states.free.any(axis=2))
    chosen = np.zeros(len(reach), dtype=np.bool_)
    quota = max(1, width // (STRATA * len(weights)))
    for weight in weights:
        order = np.argsort(cost - weight * reach / problem.height, kind="stable")
        for stratum in range(STRATA - 1, -1, -1):
            fresh = order[stands[order, stratum] & ~chosen[order]]
            chosen[fresh[:quota]] = True
    return np.flatnonzero(chosen)
