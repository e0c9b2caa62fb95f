"""The search: balloons set in script order, each at a few telling places, the best states kept.

Each panel is searched in several lanes at once, with a figure of another size or place in each
(`lanes`). Ranked by cost alone, a beam would fill the room that later balloons need: half of a
lane's states are ranked by cost less a little, half by cost less much of the room still in reach of
later balloons. Many panels are searched together.
"""

from dataclasses import dataclass, replace

import numpy as np

from letterfit.outline import Floats
from letterfit.place.candidates import Candidates, candidates
from letterfit.place.cost import FIGURE, added_tail_cost, full_cost, own_costs
from letterfit.place.kernel import Bools, Ints
from letterfit.place.lanes import COLUMNS, FIGURES, Lanes, lanes_of
from letterfit.place.problem import Batch, Problem, columns, filled, started, together
from letterfit.place.settle import settle
from letterfit.runs import lengths, starts

WEIGHTS = (0.15, 1.2)
"""What a panel's area still in reach is worth in the two rankings."""

UNLIKE = 0.08
"""Two layouts are unlike when some balloon moves by this share of the panel's width."""

TIGHT = 0.25
"""What a state's own cost weighs against the room it leaves, where any layout will do."""

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
    """Partial layouts, each in some of its panel's lanes.

    Args:
        batch: n layouts of the balloons placed so far.
        held: Shape (f, n): which lanes each is in.
        cost: Shape (n,): what the balloons cost by themselves.
        tails: Shape (n,): what their tails cost, but for the last one's.
        area: Shape (n,), mm2: the area of their outlines.
        stair: Shape (COLUMNS, n), mm: the least y that later balloons may take.
    """

    batch: Batch
    held: Bools
    cost: Floats
    tails: Floats
    area: Floats
    stair: Floats

    def take(self, rows: Ints) -> "States":
        """The states of the given rows."""
        return States(
            self.batch.take(rows),
            columns(self.held, rows),
            self.cost[rows],
            self.tails[rows],
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
    lanes = lanes_of(problem, figures=NO_FIGURE if alone else FIGURES)
    states = _start(problem, lanes, panels)
    done: list[Batch] = [_none(problem, states)]
    for index in range(problem.most):
        states, whole = _extended(problem, lanes, states, index, menus=problem.few)
        if len(whole.cost):
            done.append(filled(problem, _promising(problem, lanes, whole, alone=alone)))
        if not len(states.cost):
            break
        tails = states.tails + added_tail_cost(problem, states.batch)
        states = _kept(problem, lanes, replace(states, tails=tails), width=width)
    batch = together(done)
    cost = full_cost(problem, batch)
    best = _unlike(problem, batch, cost=cost, most=finalists)
    return batch.take(best), cost[best]


def _promising(problem: Problem, lanes: Lanes, whole: States, *, alone: bool) -> Batch:
    """The whole layouts that are priced in full: those that cost least with a lane's figure."""
    batch = whole.batch
    if alone:
        return batch
    tall = np.where(whole.held, columns(lanes.share, batch.panel), 0.0).max(axis=0)
    cost = whole.cost - FIGURE * tall + whole.tails + added_tail_cost(problem, batch)
    chosen = np.zeros(len(cost), dtype=np.bool_)
    _choose(chosen, batch.panel, score=cost, width=np.full(len(problem.size), FULLY))
    return batch.take(np.flatnonzero(chosen))


def squeezed(problem: Problem, panels: Ints, *, width: int, fine: bool = False) -> Batch:
    """Whole layouts that a search for any at all finds: none of some panels, perhaps.

    It looks neither at figures nor at tails, and all outlines of every menu are tried.

    Args:
        problem: The task.
        panels: Which panels to search.
        width: How many states of a panel are kept after each balloon.
        fine: Whether all tangents are asked.
    """
    lanes = lanes_of(problem, figures=NO_FIGURE)
    states = _start(problem, lanes, panels)
    done: list[Batch] = [_none(problem, states)]
    each = np.full(len(problem.size), max(width // 2, 1))
    for index in range(problem.most):
        states, whole = _extended(problem, lanes, states, index, menus=problem.menus, fine=fine)
        if len(whole.cost):
            done.append(filled(problem, whole.batch))
        if not len(states.cost):
            break
        if fine:
            states = states.take(_unlike_stairs(states))
        panel = states.batch.panel
        row = np.arange(len(panel))
        level = -_reach(problem, lanes, states, lane=np.zeros_like(row), row=row)
        chosen = np.zeros(len(level), dtype=np.bool_)
        for score in (level, level + TIGHT * states.cost):
            _choose(chosen, panel, score=score, width=each)
        states = states.take(np.flatnonzero(chosen))
    return together(done)


def _unlike_stairs(states: States) -> Ints:
    """One state of each panel and staircase, told to a STEP: the cheapest."""
    told = np.floor(states.stair / STEP).astype(np.uint64)
    mark = np.zeros(told.shape[1], dtype=np.uint64)
    for row in told:
        mark = mark * MIX + row
    order = np.lexsort((np.arange(len(mark)), states.cost, mark, states.batch.panel))
    same = (np.diff(mark[order]) == 0) & (np.diff(states.batch.panel[order]) == 0)
    result: Ints = np.sort(order[np.concatenate([[True], ~same])])
    return result


def _none(problem: Problem, states: States) -> Batch:
    return filled(problem, states.batch.take(np.zeros(0, dtype=np.intp)))


def _start(problem: Problem, lanes: Lanes, panels: Ints) -> States:
    count = len(panels)
    return States(
        started(panels),
        np.ones((len(lanes.top), count), dtype=np.bool_),
        np.zeros(count),
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
    good = np.flatnonzero(np.isfinite(y))
    alone = Batch(before.panel, tried.x[None], y[None], tried.outline[None]).take(good)
    held = columns(states.held, tried.row[good])
    held &= lanes.clear(problem, alone)
    some = held.any(axis=0)
    whole = problem.size[alone.panel] == index + 1
    parts: list[States] = []
    for part in (some & ~whole, some & whole):
        rows = np.flatnonzero(part)
        own, at = alone.take(rows), good[rows]
        row = tried.row[at]
        cost = states.cost[row] + own_costs(problem, own, first=index)[0]
        # Nothing comes after whole layouts: no need to know where it may stand.
        stair = columns(states.stair, row)
        stair = stair if parts else _lowered(problem, stair, own)
        batch = before.take(at).joined(own.x[0], own.y[0], own.outline[0])
        parts.append(States(batch, columns(held, rows), cost, states.tails[row], area[at], stair))
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


def _reach(problem: Problem, lanes: Lanes, states: States, *, lane: Ints, row: Ints) -> Floats:
    """The share of a panel that later balloons can still reach, the figure's box aside.

    Args:
        problem: The task.
        lanes: The figures.
        states: Partial layouts.
        lane: Shape (m,): the lane of each of m states.
        row: Shape (m,): which states.
    """
    panel = states.batch.panel[row]
    floor = lanes.floor.reshape(COLUMNS, -1)
    left = columns(floor, lane * len(problem.size) + panel)
    left -= columns(states.stair, row)
    np.maximum(left, 0.0, out=left)
    total = np.zeros(left.shape[1])
    for own in left:
        total += own
    total /= COLUMNS * problem.height[panel]
    return total


def _kept(problem: Problem, lanes: Lanes, states: States, *, width: Ints) -> States:
    """The states to go on with: the best of each lane by each ranking."""
    row, lane = np.nonzero(states.held.T)
    reach = _reach(problem, lanes, states, lane=lane, row=row)
    chosen = np.zeros(len(row), dtype=np.bool_)
    count = len(states.held)
    group = states.batch.panel[row] * count + lane
    each = np.repeat(width[problem.size] // len(WEIGHTS), count)
    cost = (states.cost + states.tails)[row]
    for weight in WEIGHTS:
        _choose(chosen, group, score=cost - weight * reach, width=each)
    held = np.zeros_like(states.held)
    held[lane[chosen], row[chosen]] = True
    rows = np.flatnonzero(held.any(axis=0))
    return replace(states, held=held).take(rows)


def _choose(chosen: Bools, lane: Ints, *, score: Floats, width: Ints) -> None:
    """Marks so many more states of each lane, those of the lowest scores; `width` is per lane.

    Scores are sorted as whole numbers that end in the state's own, so ties are told by its place.
    """
    rows = np.flatnonzero(~chosen)
    if not len(rows):
        return
    told = score[rows] * GRAIN
    told += GRAIN << 3
    own = np.minimum(np.maximum(told, 0, out=told), (GRAIN << 4) - 1, out=told).astype(np.int64)
    # The lane, 24 bits of score, 24 bits of row.
    key = (((lane[rows] << 24) | own) << 24) | rows
    key.sort()
    group = key >> 48
    first = starts(group)
    last = first + width[group[first]]
    kept = np.arange(len(key)) < np.repeat(last, lengths(first, len(key)))
    chosen[key[kept] & 0xFFFFFF] = True


def _unlike(problem: Problem, batch: Batch, *, cost: Floats, most: int) -> Ints:
    """The best layouts of each panel, each unlike those before it: twins polish to one place."""
    left = np.lexsort((np.arange(len(cost)), cost, batch.panel))
    chosen: list[Ints] = []
    for _ in range(most):
        if not len(left):
            break
        first = left[starts(batch.panel[left])]
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
