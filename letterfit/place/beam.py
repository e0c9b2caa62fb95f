"""The search: balloons set in script order, each at a few telling places, the best states kept.

Each panel is searched in several lanes at once, with a figure of another size or place in each
(`lanes`). Ranked by cost alone, a beam would fill the room that later balloons need: half of a
lane's states are ranked by cost less a little, half by cost less much of the room still in reach of
later balloons. Many panels are searched together.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.candidates import Candidates, candidates
from letterfit.place.cost import full_cost, own_costs, tail_cost
from letterfit.place.kernel import Bools, Ints
from letterfit.place.lanes import COLUMNS, FIGURES, Lanes, lanes_of
from letterfit.place.problem import Batch, Problem, filled, started, together
from letterfit.place.settle import settle

WEIGHTS = (0.15, 1.2)
"""What a panel's area still in reach is worth in the two rankings."""

UNLIKE = 0.08
"""Two layouts are unlike when some balloon moves by this share of the panel's width."""

TIGHT = 0.25
"""What a state's own cost weighs against the room it leaves, where any layout will do."""

ROUGH = 6
"""How many times more states are kept before their tails are priced than after."""

GRAIN = 1 << 20
"""Parts of one that costs are told apart by in a ranking."""


ALONE = 1 << 12
"""States kept of a balloon alone: all of them."""

NO_FIGURE = np.zeros((1, 2))


@dataclass(frozen=True, slots=True, eq=False)
class States:
    """Partial layouts.

    Args:
        batch: n layouts of the balloons placed so far.
        lane: Shape (n,): which lane each is in.
        cost: Shape (n,): their own costs.
        area: Shape (n,), mm2: the area of their outlines.
        stair: Shape (COLUMNS, n), mm: the least y that later balloons may take.
    """

    batch: Batch
    lane: Ints
    cost: Floats
    area: Floats
    stair: Floats

    def take(self, rows: Ints) -> "States":
        """The states of the given rows."""
        return States(
            self.batch.take(rows),
            self.lane[rows],
            self.cost[rows],
            self.area[rows],
            self.stair[:, rows],
        )


def search(problem: Problem, panels: Ints, *, width: int, finalists: int) -> tuple[Batch, Floats]:
    """The best whole layouts found of each panel and their costs; none of some panels, perhaps.

    Args:
        problem: The task.
        panels: Which panels to search.
        width: How many states of a lane are kept after each balloon.
        finalists: How many layouts of a panel to return at most.

    Returns:
        Panel by panel, those of each best first; blanks filled up.
    """
    alone = problem.most == 1
    lanes = lanes_of(problem, panels, figures=NO_FIGURE if alone else FIGURES)
    states = _start(problem, lanes)
    done: list[Batch] = [filled(problem, states.batch.take(np.zeros(0, dtype=np.intp)))]
    for index in range(problem.most):
        states = _extended(problem, lanes, states, index, menus=problem.few)
        most = ALONE if alone else ROUGH * width
        states = states.take(_kept(problem, lanes, states, cost=states.cost, width=most))
        if not alone:
            cost = states.cost + tail_cost(problem, states.batch)
            states = states.take(_kept(problem, lanes, states, cost=cost, width=width))
        states = _finished(problem, states, into=done)
        if not len(states.cost):
            break
    batch = together(done)
    cost = full_cost(problem, batch)
    best = _unlike(problem, batch, cost=cost, most=finalists)
    return batch.take(best), cost[best]


def squeezed(problem: Problem, panels: Ints, *, width: int) -> Batch:
    """Whole layouts that a search for any at all finds: none of some panels, perhaps.

    It looks neither at figures nor at tails, and all outlines of every menu are tried.

    Args:
        problem: The task.
        panels: Which panels to search.
        width: How many states of a panel are kept after each balloon.
    """
    lanes = lanes_of(problem, panels, figures=NO_FIGURE)
    states = _start(problem, lanes)
    done: list[Batch] = [filled(problem, states.batch.take(np.zeros(0, dtype=np.intp)))]
    for index in range(problem.most):
        states = _extended(problem, lanes, states, index, menus=problem.menus)
        states = _finished(problem, states, into=done)
        if not len(states.cost):
            break
        level = -_reach(problem, lanes, states)
        chosen = np.zeros(len(level), dtype=np.bool_)
        for score in (level, level + TIGHT * states.cost):
            _choose(chosen, states.lane, score=score, width=max(width // 2, 1))
        states = states.take(np.flatnonzero(chosen))
    return together(done)


def _start(problem: Problem, lanes: Lanes) -> States:
    count = len(lanes.panel)
    return States(
        started(lanes.panel),
        np.arange(count),
        np.zeros(count),
        np.zeros(count),
        np.full((COLUMNS, count), problem.margin),
    )


def _finished(problem: Problem, states: States, *, into: list[Batch]) -> States:
    """Puts whole layouts aside; the states that go on."""
    ends = problem.size[states.batch.panel] == len(states.batch.x)
    if not ends.any():
        return states
    into.append(filled(problem, states.batch.take(np.flatnonzero(ends))))
    return states.take(np.flatnonzero(~ends))


def _extended(problem: Problem, lanes: Lanes, states: States, index: int, *, menus: Ints) -> States:
    """Every legal state with one balloon more, in a fixed order."""
    tried = candidates(problem, states.batch, index, menu=menus[states.batch.panel, index])
    area = states.area[tried.row] + problem.area[tried.outline]
    most = _limits(problem, index, menus=menus)
    tried, area = _chosen(tried, area, area <= most[states.batch.panel[tried.row]])
    x, outline, row = tried.x, tried.outline, tried.row
    y = settle(problem, states.batch.take(row), x=x, outline=outline)
    lane = states.lane[row]
    good = np.isfinite(y) & lanes.clear(problem, lane, x=x, y=y, outline=outline)
    y = y[good]
    tried, area = _chosen(tried, area, good)
    x, outline, row = tried.x, tried.outline, tried.row
    alone = Batch(states.batch.panel[row], x[None], y[None], outline[None])
    return States(
        states.batch.take(row).joined(x, y, outline),
        lane[good],
        states.cost[row] + own_costs(problem, alone, first=index)[0],
        area,
        _lowered(problem, states.stair[:, row], alone),
    )


def _chosen(tried: Candidates, area: Floats, good: Bools) -> tuple[Candidates, Floats]:
    return Candidates(tried.x[good], tried.outline[good], tried.row[good]), area[good]


def _limits(problem: Problem, index: int, *, menus: Ints) -> Floats:
    """The most area so far that leaves the balloons to come their least outlines: (p,)."""
    to_come = menus[:, index + 1 :]
    least = np.where(to_come >= 0, problem.area[to_come], np.inf).min(axis=2, initial=np.inf)
    result: Floats = problem.limit - np.where(np.isfinite(least), least, 0.0).sum(axis=1)
    return result


def _lowered(problem: Problem, stair: Floats, alone: Batch) -> Floats:
    """The staircase with one balloon more: below it, or right of it and not higher."""
    x, y, outline = alone.x[0], alone.y[0], alone.outline[0]
    columns = (np.arange(COLUMNS)[:, None] + 0.5) * (problem.width[alone.panel] / COLUMNS)
    half = problem.half_height[outline]
    wide = problem.half_width[outline]
    if not problem.ordered:
        inside = np.abs(columns - x) < wide
        return np.where(inside, np.maximum(stair, y + half), stair)
    step = np.where(columns > x + wide, y - half, y + half)
    return np.asarray(np.maximum(stair, step), dtype=np.float64)


def _reach(problem: Problem, lanes: Lanes, states: States) -> Floats:
    """The share of each panel that later balloons can still reach, the figure's box aside."""
    left = np.maximum(lanes.floor[:, states.lane] - states.stair, 0.0)
    total = np.zeros(left.shape[1])
    for row in left:
        total += row
    return total / (COLUMNS * problem.height[states.batch.panel])


def _kept(problem: Problem, lanes: Lanes, states: States, *, cost: Floats, width: int) -> Ints:
    """The states to go on with: the best of each lane by each ranking."""
    # After the last balloon no room needs to be left in reach.
    goes_on = problem.size[states.batch.panel] > len(states.batch.x)
    reach = np.where(goes_on, _reach(problem, lanes, states), 0.0)
    chosen = np.zeros(len(cost), dtype=np.bool_)
    for weight in WEIGHTS:
        _choose(chosen, states.lane, score=cost - weight * reach, width=width // len(WEIGHTS))
    return np.flatnonzero(chosen)


def _choose(chosen: Bools, lane: Ints, *, score: Floats, width: int) -> None:
    """Marks so many more states of each lane, those of the lowest scores.

    Scores are sorted as whole numbers that end in the state's own, so ties are told by its place.
    """
    rows = np.flatnonzero(~chosen)
    if not len(rows):
        return
    own = np.clip(score[rows] * GRAIN + (GRAIN << 3), 0, (GRAIN << 4) - 1).astype(np.int64)
    # The lane, 24 bits of score, 24 bits of row.
    key = np.sort((((lane[rows] << 24) | own) << 24) | rows)
    group = key >> 48
    new = np.flatnonzero(np.diff(group, prepend=-1))
    place = np.arange(len(group)) - np.repeat(new, np.diff(new, append=len(group)))
    chosen[(key & 0xFFFFFF)[place < width]] = True


def _unlike(problem: Problem, batch: Batch, *, cost: Floats, most: int) -> Ints:
    """The best layouts of each panel, each unlike those before it: twins polish to one place."""
    left = np.lexsort((np.arange(len(cost)), cost, batch.panel))
    chosen: list[Ints] = []
    for _ in range(most):
        if not len(left):
            break
        first = left[np.flatnonzero(np.diff(batch.panel[left], prepend=-1))]
        chosen.append(first)
        own = np.zeros(len(problem.size), dtype=np.intp)
        own[batch.panel[first]] = first
        model = own[batch.panel[left]]
        away = np.abs(batch.x[:, left] - batch.x[:, model]).max(axis=0)
        left = left[away > UNLIKE * problem.width[batch.panel[left]]]
    if not chosen:
        return np.zeros(0, dtype=np.intp)
    found = np.concatenate(chosen)
    return found[np.argsort(batch.panel[found], kind="stable")]
