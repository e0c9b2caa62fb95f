"""What a letterer prefers, as one sum of ratios: figure room, little cover, high, near, good looks.

One hundredth of the panel's area covered weighs as much as one hundredth of the panel's height of
figure room. No figure earns more than `rooms.CAP` of the panel's height: taller ones are never
drawn.
"""

from functools import cache

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import Bools, Ints
from letterfit.place.problem import Batch, Problem, columns
from letterfit.place.rooms import CAP, cap_height, clear, narrowed, rooms
from letterfit.place.settle import summed
from letterfit.runs import lengths, starts

FIGURE = 1.0
"""Price of a whole panel's height of figure room, up to the cap."""

CROSSING = 0.12
"""Price of a tail that would run through another balloon, or cross another tail."""

SECTIONS, LOOKS = 8, 3
"""Parts that an interval of figure room is cut into at once, and how often."""

REACH = 0.6
"""Share of the way to the mouth that a tail takes."""


def own_costs(problem: Problem, batch: Batch, *, first: int = 0) -> Floats:
    """What each balloon costs by itself, wherever the others are.

    Args:
        problem: The task.
        batch: Layouts of balloons `first`, `first` + 1 and so on: shape (c, n).
        first: The first of them.

    Returns:
        Shape (c, n).
    """
    chosen, panel, rates = slice(first, first + len(batch.x)), batch.panel, problem.rates
    cost = problem.half_height[batch.outline]
    cost += batch.y
    cost *= columns(rates.down[chosen], panel)
    cost += rates.outline[batch.outline]
    away = batch.x - columns(problem.voices.lean[chosen], panel)
    np.abs(away, out=away)
    away *= columns(rates.away[chosen], panel)
    cost += away
    side, corner = rates.side[chosen], rates.corner[chosen]
    if side.any() or corner.any():
        half = problem.half_width[batch.outline]
        left = batch.x - half
        left -= problem.margin.left
        right = (problem.width - problem.margin.right)[panel] - half - batch.x
        cost += columns(side, panel) * np.minimum(left, right)
        cost += columns(corner, panel) * left
    return cost


def full_cost(problem: Problem, batch: Batch) -> Floats:
    """The cost of whole layouts, blanks filled up: shape (n,)."""
    cost = summed(own_costs(problem, batch))
    cost += _room_cost(problem, batch, rooms(problem, batch))
    cost += tail_cost(problem, batch)
    return cost


def best_of_each(
    problem: Problem, batch: Batch, *, than: Floats, owner: Ints
) -> tuple[Ints, Floats]:
    """The cheapest of each owner's layouts that cost less than a bound each, and their costs.

    Most layouts are no better: one look at the figure room that would be needed spares the rest.
    What is left is told by intervals of room, as finely as it takes to tell one from another.

    Args:
        problem: The task.
        batch: n layouts.
        than: Shape (n,): the bounds.
        owner: Shape (n,), growing: whose each layout is.

    Returns:
        Rows of layouts, at most one of each owner, and what they cost.
    """
    tall = cap_height(problem)
    rate = problem.height / FIGURE
    base = summed(own_costs(problem, batch)) + FIGURE * CAP
    rows = np.flatnonzero((base - than) * rate[batch.panel] < tall[batch.panel])
    some, base = batch.take(rows), base[rows]
    base += tail_cost(problem, some)
    low = np.maximum((base - than[rows]) * rate[some.panel], 0.0)
    high = tall[some.panel]
    left = np.flatnonzero(low < high)
    left = left[clear(problem, some.take(left), low[left])]
    for _ in range(LOOKS):
        if not len(left):
            break
        rows, some, base, low, high = rows[left], some.take(left), base[left], low[left], high[left]
        low, high = narrowed(problem, some, low, high, sections=SECTIONS)
        each = rate[some.panel]
        first = starts(owner[rows])
        most = np.minimum.reduceat(base - low / each, first)
        left = np.flatnonzero(base - high / each <= np.repeat(most, lengths(first, len(rows))))
    if not len(left):
        return rows[:0], base[:0]
    cost = base - low / each
    order = np.lexsort((rows, cost, owner[rows]))
    best = order[starts(owner[rows[order]])]
    return rows[best], cost[best]


def _room_cost(problem: Problem, batch: Batch, room: Floats) -> Floats:
    return FIGURE * (CAP - room / problem.height[batch.panel])


def tail_cost(problem: Problem, batch: Batch) -> Floats:
    """The price of what straight tails would run into: shape (n,)."""
    count = len(batch.x)
    if count < 2 or not problem.voices.leans.any():
        return np.zeros(len(batch))
    first, second = _twos(count)
    return CROSSING * _crossings(problem, batch, first=first, second=second)


def added_tail_cost(problem: Problem, batch: Batch) -> Floats:
    """What the last balloon of each layout adds to that price: shape (n,)."""
    count = len(batch.x)
    if count < 2 or not problem.voices.leans.any():
        return np.zeros(len(batch))
    return CROSSING * _crossings(
        problem, batch, first=slice(count - 1), second=slice(count - 1, count)
    )


@cache
def _twos(count: int) -> tuple[Ints, Ints]:
    """The numbers of the earlier and of the later one of any two balloons."""
    first, second = np.triu_indices(count, 1)
    return first, second


def _crossings(
    problem: Problem, batch: Batch, *, first: Ints | slice, second: Ints | slice
) -> Floats:
    """How many balloons and tails the straight tails of pairs of balloons run through: (n,).

    Args:
        problem: The task.
        batch: n layouts.
        first: The earlier balloon of each pair.
        second: The later one.
    """
    count, panel, voices = len(batch.x), batch.panel, problem.voices
    x, y = batch.x, batch.y
    tailed = columns(voices.leans[:count], panel)
    dx = columns(voices.lean[:count], panel) - x
    dy = columns(voices.mouth_y[:count], panel) - y
    dx *= REACH
    dy *= REACH
    across = 1 / problem.half_width[batch.outline]
    down = 1 / problem.half_height[batch.outline]
    px, py = x[first] - x[second], y[first] - y[second]
    ax, ay, bx, by = dx[first], dy[first], dx[second], dy[second]
    one = _meets(px, py, dx=ax, dy=ay, across=across[second], down=down[second]) & tailed[first]
    two = _meets(-px, -py, dx=bx, dy=by, across=across[first], down=down[first]) & tailed[second]
    # Tails go from (0, 0) to a and from -p to -p + b: do they cross?
    turn = ax * by - ay * bx
    turn[np.abs(turn) < 1e-9] = np.inf
    s = (py * bx - px * by) / turn
    t = (py * ax - px * ay) / turn
    both = (s > 0) & (s < 1) & (t > 0) & (t < 1) & tailed[first] & tailed[second]
    if voices.joined[:count].any():
        apart = ~columns(voices.joined[:count], panel)[second]
        apart = apart | (_numbers(count, second) - _numbers(count, first) != 1)[:, None]
        one &= apart
        two &= apart
    total = np.zeros(len(batch))
    for rows in (one, two, both):
        total += rows.sum(axis=0)
    return total


def _numbers(count: int, chosen: Ints | slice) -> Ints:
    result: Ints = np.arange(count)[chosen]
    return result


def _meets(  # noqa: PLR0913 - a segment and an ellipse
    px: Floats, py: Floats, *, dx: Floats, dy: Floats, across: Floats, down: Floats
) -> Bools:
    """Whether segments from (px, py) by (dx, dy) pass through ellipses about (0, 0)."""
    # In the frame where the ellipse is the unit disc: how near does the segment come?
    ux, uy, vx, vy = px * across, py * down, dx * across, dy * down
    along = -(ux * vx + uy * vy) / np.maximum(vx * vx + vy * vy, 1e-12)
    np.maximum(along, 0.0, out=along)
    np.minimum(along, 1.0, out=along)
    ux += along * vx
    uy += along * vy
    result: Bools = ux * ux + uy * uy < 1.0
    return result
