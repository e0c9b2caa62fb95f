"""A caption that comes last stands at the bottom of its panel, where that costs no figure.

It is an afterthought, read after all else has been seen (common practice, no source). All other
balloons hang as high as they may; so the search lets it hang too, and here it is let down: where it
stands, to the left corner or to the right one, whichever costs least, as long as the whole layout
then costs no more than before. At the bottom it pays nothing for hanging low.
"""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.cost import full_cost
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem, replaced
from letterfit.place.rates import HIGH
from letterfit.place.settle import stands


def sunk(problem: Problem, batch: Batch, cost: Floats) -> tuple[Batch, Floats]:
    """The layouts with their closing captions at the bottom, where that is no worse; their costs.

    Args:
        problem: The task.
        batch: Layouts, blanks filled up.
        cost: Their costs.
    """
    size = problem.size[batch.panel]
    closing = problem.voices.closing[size - 1, batch.panel]
    for count in sorted(set(size[closing].tolist())):
        rows = np.flatnonzero(closing & (size == count))
        for place in range(3):
            batch, cost = _let_down(problem, batch, cost, rows=rows, last=count - 1, place=place)
    return batch, cost


def _let_down(  # noqa: PLR0913 - which layouts, which balloon, which place
    problem: Problem, batch: Batch, cost: Floats, *, rows: Ints, last: int, place: int
) -> tuple[Batch, Floats]:
    """The same with the last balloon of some layouts let down at one of three places."""
    some = batch.take(rows)
    outline, panel, margin = some.outline[last], some.panel, problem.margin
    left = margin.left + problem.half_width[outline]
    right = problem.width[panel] - margin.right - problem.half_width[outline]
    x = (left, some.x[last], right)[place]
    y = problem.height[panel] - margin.bottom - problem.half_height[outline]
    before = Batch(panel, some.x[:last], some.y[:last], some.outline[:last])
    legal = stands(problem, before, x=x, y=y, outline=outline)
    down = Batch(panel, some.x.copy(), some.y.copy(), outline=some.outline)
    down.x[last], down.y[last] = x, y
    bottom = y + problem.half_height[outline]
    price = full_cost(problem, down) - bottom * HIGH / (problem.height[panel] * problem.size[panel])
    better = legal & (price < cost[rows])
    rows, cost = rows[better], cost.copy()
    cost[rows] = price[better]
    return replaced(batch, rows, down.take(np.flatnonzero(better))), cost
