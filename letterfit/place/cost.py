"""What a letterer prefers, as one sum of ratios: figure room, little cover, high, near, good looks.

One hundredth of the panel's area covered weighs as much as one hundredth of the panel's height of
figure room. No figure earns more than `rooms.CAP` of the panel's height: taller ones are never
drawn.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import Bools
from letterfit.place.problem import Batch, Problem, columns
from letterfit.place.rooms import CAP, cap_height, clear, rooms
from letterfit.place.settle import summed

FIGURE = 1.0
"""Price of a whole panel's height of figure room, up to the cap."""

COVER = 1.0
"""Price of the whole panel covered."""

HIGH = 0.25
"""Price of hanging at the floor, as against the ceiling: a row is better than a pile."""

LEAN = 0.12
"""Price of standing a panel's width from the speaker."""

LOOKS = 0.1
"""Price of an outline whose looks cost 1: a tenth of the panel's height of figure room."""

CORNER = 0.5
"""Price of an opening caption a panel's width from its corner."""

CROSSING = 0.12
"""Price of a tail that would run through another balloon, or cross another tail."""

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
    chosen, panel, voices = slice(first, first + len(batch.x)), batch.panel, problem.voices
    width, height = problem.width[panel], problem.height[panel]
    share = columns(voices.share[chosen], panel)
    half_width = problem.half_width[batch.outline]
    cost = problem.area[batch.outline] * (COVER / (width * height))
    cost += problem.price[batch.outline] * LOOKS
    cost += (batch.y + problem.half_height[batch.outline]) * (HIGH * share / height)
    away = np.abs(batch.x - columns(voices.lean[chosen], panel))
    cost += np.where(columns(voices.leans[chosen], panel), away, 0.0) * (LEAN * share / width)
    if voices.caption[chosen].any() or voices.aside[chosen].any():
        left = batch.x - half_width - problem.margin.left
        right = width - problem.margin.right - half_width - batch.x
        near = np.minimum(left, right)
        cost += np.where(columns(voices.aside[chosen], panel), near, 0.0) * (LEAN * share / width)
        opening = (np.arange(len(voices.share)) == 0)[chosen, None]
        off = np.where(opening, left, near / 2)
        cost += np.where(columns(voices.caption[chosen], panel), off, 0.0) * (
            CORNER * share / width
        )
    return cost


def full_cost(problem: Problem, batch: Batch) -> Floats:
    """The cost of whole layouts, blanks filled up: shape (n,)."""
    cost = summed(own_costs(problem, batch))
    cost += _room_cost(problem, batch, rooms(problem, batch))
    cost += tail_cost(problem, batch)
    return cost


def improved(problem: Problem, batch: Batch, *, than: Floats) -> Floats:
    """The cost of those layouts that cost less than a bound each, infinite for the others.

    Most moves are no better: one look at the figure room that would be needed spares the rest.
    """
    result = np.full(len(batch), np.inf)
    own = summed(own_costs(problem, batch))
    needed = (own + FIGURE * CAP - than) * (problem.height[batch.panel] / FIGURE)
    hopeful = np.flatnonzero(needed < cap_height(problem)[batch.panel])
    some = batch.take(hopeful)
    hopeful = hopeful[clear(problem, some, np.maximum(needed[hopeful], 0.0))]
    if len(hopeful):
        some = batch.take(hopeful)
        cost = own[hopeful] + tail_cost(problem, some)
        cost += _room_cost(
            problem, some, rooms(problem, some, least=np.maximum(needed[hopeful], 0.0))
        )
        result[hopeful] = cost
    return result


def _room_cost(problem: Problem, batch: Batch, room: Floats) -> Floats:
    return FIGURE * (CAP - room / problem.height[batch.panel])


def tail_cost(problem: Problem, batch: Batch) -> Floats:
    """The price of what straight tails would run into: shape (n,)."""
    if len(batch.x) < 2 or not problem.voices.leans.any():
        return np.zeros(len(batch))
    return CROSSING * crossings(problem, batch)


def crossings(problem: Problem, batch: Batch) -> Floats:
    """How many balloons and tails the straight tails of each layout run through, so far."""
    count, panel, voices = len(batch.x), batch.panel, problem.voices
    x, y = batch.x, batch.y
    tailed = columns(voices.leans[:count], panel)
    dx = REACH * (columns(voices.lean[:count], panel) - x)
    dy = REACH * (columns(voices.mouth_y[:count], panel) - y)
    across = 1 / problem.half_width[batch.outline]
    down = 1 / problem.half_height[batch.outline]
    total = np.zeros(len(batch))
    for i in range(count):
        # In the frame where balloon j is the unit disc about its centre: how near comes tail i?
        px, py = (x[i] - x) * across, (y[i] - y) * down
        vx, vy = dx[i] * across, dy[i] * down
        along = np.clip(-(px * vx + py * vy) / np.maximum(vx * vx + vy * vy, 1e-12), 0.0, 1.0)
        px += along * vx
        py += along * vy
        near = px * px + py * py < 1.0
        near[i] = False
        if i and voices.joined[i].any():
            near[i - 1] &= ~voices.joined[i, panel]
        if i + 1 < count and voices.joined[i + 1].any():
            near[i + 1] &= ~voices.joined[i + 1, panel]
        total += (near & tailed[i]).sum(axis=0)
        if i:
            total += (_crossed(x, y, dx=dx, dy=dy, last=i) & tailed[:i] & tailed[i]).sum(axis=0)
    return total


def _crossed(x: Floats, y: Floats, *, dx: Floats, dy: Floats, last: int) -> Bools:
    """Whether the segment (x, y) .. (x + dx, y + dy) of the last balloon crosses earlier ones'."""
    ex, ey = x[last] - x[:last], y[last] - y[:last]
    turn = dx[:last] * dy[last] - dy[:last] * dx[last]
    turn[np.abs(turn) < 1e-9] = np.inf
    s = (ex * dy[last] - ey * dx[last]) / turn
    t = (ex * dy[:last] - ey * dx[:last]) / turn
    result: Bools = (s > 0) & (s < 1) & (t > 0) & (t < 1)
    return result
