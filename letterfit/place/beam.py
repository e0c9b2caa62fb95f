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
from letterfit.place.cost import FIGURE, full_cost, own_costs, tail_cost
from letterfit.place.kernel import Bools, Ints
from letterfit.place.lanes import COLUMNS, FIGURES, Lanes, lanes_of
from letterfit.place.problem import Batch, Problem, columns, filled, started, together
from letterfit.place.settle import settle

WEIGHTS = (0.15, 1.2)
"""What a panel's area still in reach is worth in the two rankings."""

UNLIKE = 0.08
"""Two layouts are unlike when some balloon moves by this share of the panel's width."""

TIGHT = 0.25
"""What a state's own cost weighs against the room it leaves, where any layout will do."""

ROUGH = 6
"""How many times more states are kept before their tails are priced than after."""

ROUGHLY = 160
"""Whole layouts of a panel whose tails are priced."""

FULLY = 32
"""Whole layouts of a panel whose figure room is told."""

STEP = 1.0
"""In mm: staircases that differ by less leave much the same room."""

MIX = np.uint64(0x9E3779B97F4A7C15)
"""A large odd number: staircases multiplied up by it hardly ever come to the same mark."""

GRAIN = 1 << 20
"""Parts of one that costs are told apart by in a ranking."""


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
            columns(self.stair, rows),
        )


def search(problem: Problem, panels: Ints, *, width: Ints, finalists: int) -> tuple[Batch, Floats]:
    """The best whole layouts found of each panel and their costs; none of some panels, perhaps.

    Args:
        problem: The task.
        panels: Which panels to search.
        width: How many states of a lane are kept after each balloon, by the panel's number of
            balloons: an array of as many as the largest panel has and one.
        finalists: How many layouts of a panel to return at most.

    Returns:
        Panel by panel, those of each best first; blanks filled up.
    """
    alone = problem.most == 1
    lanes = lanes_of(problem, panels, figures=NO_FIGURE if alone else FIGURES)
    states = _start(problem, lanes)
    done: list[Batch] = [_none(problem, states)]
    for index in range(problem.most):
        states, whole = _extended(problem, lanes, states, index, menus=problem.few)
        if len(whole.cost):
            done.append(filled(problem, _promising(problem, lanes, whole, alone=alone)))
        if not len(states.cost):
            break
        states = states.take(_kept(problem, lanes, states, cost=states.cost, width=ROUGH * width))
        cost = states.cost + tail_cost(problem, states.batch)
        states = states.take(_kept(problem, lanes, states, cost=cost, width=width))
    batch = together(done)
    cost = full_cost(problem, batch)
    best = _unlike(problem, batch, cost=cost, most=finalists)
    return batch.take(best), cost[best]


def _promising(problem: Problem, lanes: Lanes, whole: States, *, alone: bool) -> Batch:
    """The whole layouts that are priced in full: those that cost least with their lane's figure."""
    if alone:
        return whole.batch
    panel = whole.batch.panel
    tall = (problem.height[lanes.panel] - lanes.top)[whole.lane] / problem.height[panel]
    cost = whole.cost - FIGURE * tall
    for most, price in ((ROUGHLY, False), (FULLY, True)):
        if price:
            cost = cost + tail_cost(problem, whole.batch)
        chosen = np.zeros(len(cost), dtype=np.bool_)
        _choose(chosen, panel, score=cost, width=np.full(len(problem.size), most))
        rows = np.flatnonzero(chosen)
        whole, cost, panel = whole.take(rows), cost[rows], panel[rows]
    return whole.batch


def squeezed(problem: Problem, panels: Ints, *, width: int, fine: bool = False) -> Batch:
    """Whole layouts that a search for any at all finds: none of some panels, perhaps.

    It looks neither at figures nor at tails, and all outlines of every menu are tried.

    Args:
        problem: The task.
        panels: Which panels to search.
        width: How many states of a panel are kept after each balloon.
        fine: Whether all tangents are asked.
    """
    lanes = lanes_of(problem, panels, figures=NO_FIGURE)
    states = _start(problem, lanes)
    done: list[Batch] = [_none(problem, states)]
    for index in range(problem.most):
        states, whole = _extended(problem, lanes, states, index, menus=problem.menus, fine=fine)
        if len(whole.cost):
            done.append(filled(problem, whole.batch))
        if not len(states.cost):
            break
        if fine:
            states = states.take(_unlike_stairs(states))
        level = -_reach(problem, lanes, states)
        chosen = np.zeros(len(level), dtype=np.bool_)
        each = np.full(len(lanes.panel), max(width // 2, 1))
        for score in (level, level + TIGHT * states.cost):
            _choose(chosen, states.lane, score=score, width=each)
        states = states.take(np.flatnonzero(chosen))
    return together(done)


def _unlike_stairs(states: States) -> Ints:
    """One state of each lane and staircase, told to a STEP: the cheapest."""
    told = np.floor(states.stair / STEP).astype(np.uint64)
    mark = np.zeros(told.shape[1], dtype=np.uint64)
    for row in told:
        mark = mark * MIX + row
    order = np.lexsort((np.arange(len(mark)), states.cost, mark, states.lane))
    same = (np.diff(mark[order]) == 0) & (np.diff(states.lane[order]) == 0)
    result: Ints = np.sort(order[np.concatenate([[True], ~same])])
    return result


def _none(problem: Problem, states: States) -> Batch:
    return filled(problem, states.batch.take(np.zeros(0, dtype=np.intp)))


def _start(problem: Problem, lanes: Lanes) -> States:
    count = len(lanes.panel)
    return States(
        started(lanes.panel),
        np.arange(count),
        np.zeros(count),
        np.zeros(count),
        np.full((COLUMNS, count), problem.margin.top),
    )


def _extended(  # noqa: PLR0913 - which states, which balloon, how finely
    problem: Problem,
    lanes: Lanes,
    states: States,
    index: int,
    *,
    menus: Ints,
    fine: bool = False,
) -> tuple[States, States]:
    """Every legal state with one balloon more: those that go on, and those that are whole."""
    tried = candidates(problem, states.batch, index, menu=menus[states.batch.panel, index])
    area = states.area[tried.row] + problem.area[tried.outline]
    most = _limits(problem, index, menus=menus)
    tried, area = _chosen(tried, area, area <= most[states.batch.panel[tried.row]])
    before = states.batch.take(tried.row)
    y = settle(problem, before, x=tried.x, outline=tried.outline, fine=fine)
    lane = states.lane[tried.row]
    good = np.isfinite(y) & lanes.clear(problem, lane, x=tried.x, y=y, outline=tried.outline)
    alone = Batch(before.panel, tried.x[None], y[None], tried.outline[None])
    cost = states.cost[tried.row] + own_costs(problem, alone, first=index)[0]
    whole = problem.size[before.panel] == index + 1
    parts: list[States] = []
    for part in (good & ~whole, good & whole):
        rows = np.flatnonzero(part)
        own, row = alone.take(rows), tried.row[rows]
        # Nothing comes after whole layouts: no need to know where it may stand.
        stair = columns(states.stair, row)
        stair = stair if parts else _lowered(problem, stair, own)
        batch = before.take(rows).joined(own.x[0], own.y[0], own.outline[0])
        parts.append(States(batch, lane[rows], cost[rows], area[rows], stair))
    return parts[0], parts[1]


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
    left = np.maximum(columns(lanes.floor, states.lane) - states.stair, 0.0)
    total = np.zeros(left.shape[1])
    for row in left:
        total += row
    return total / (COLUMNS * problem.height[states.batch.panel])


def _kept(problem: Problem, lanes: Lanes, states: States, *, cost: Floats, width: Ints) -> Ints:
    """The states to go on with: the best of each lane by each ranking."""
    reach = _reach(problem, lanes, states)
    chosen = np.zeros(len(cost), dtype=np.bool_)
    each = width[problem.size[lanes.panel]] // len(WEIGHTS)
    for weight in WEIGHTS:
        _choose(chosen, states.lane, score=cost - weight * reach, width=each)
    return np.flatnonzero(chosen)


def _choose(chosen: Bools, lane: Ints, *, score: Floats, width: Ints) -> None:
    """Marks so many more states of each lane, those of the lowest scores; `width` is per lane.

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
    chosen[(key & 0xFFFFFF)[place < width[group]]] = True


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
        away = np.abs(columns(batch.x, left) - columns(batch.x, model)).max(axis=0)
        left = left[away > UNLIKE * problem.width[batch.panel[left]]]
    if not chosen:
        return np.zeros(0, dtype=np.intp)
    found = np.concatenate(chosen)
    return found[np.argsort(batch.panel[found], kind="stable")]
