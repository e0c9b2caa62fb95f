"""Where no reading order binds: the large balloons first, as anyone fills a box.

A beam sets balloons in the order of the script. Where that order says nothing, what is set last had
better be small.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from letterfit.place.beam import squeezed
from letterfit.place.kernel import Ints
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Batch, Problem


def any_order(task: Task, problem: Problem, *, width: int) -> Batch:
    """Layouts of a task without reading order, however they look; none when none was found.

    Args:
        task: The panel.
        problem: The task posed alone.
        width: How many states are kept after each balloon.
    """
    found = squeezed(problem, np.zeros(1, dtype=np.intp), width=width)
    for order in () if len(found) else _orders(task):
        found = _in_order(task, problem, order, width=width)
        if len(found):
            break
    return found


def _orders(task: Task) -> Iterator[Ints]:
    """By area, by the longer side, by the shorter side: the largest first."""
    measures = (
        [min(o.area_mm2 for o in menu) for menu in task.menus],
        [min(max(o.half_width, o.half_height) for o in menu) for menu in task.menus],
        [min(min(o.half_width, o.half_height) for o in menu) for menu in task.menus],
    )
    for measure in measures:
        yield np.argsort(-np.array(measure), kind="stable")


def _in_order(task: Task, problem: Problem, order: Ints, *, width: int) -> Batch:
    """Layouts found in another order, told in the order of the task."""
    terms = task.terms
    turned = replace(
        task,
        menus=[task.menus[i] for i in order],
        terms=replace(
            terms,
            speakers=tuple(terms.speakers[i] for i in order),
            prices=terms.prices and tuple(terms.prices[i] for i in order),
            overhangs=terms.overhangs and tuple(terms.overhangs[i] for i in order),
        ),
    )
    other = pose([turned])
    found = squeezed(other, np.zeros(1, dtype=np.intp), width=width)
    number = np.arange(len(other.half_width))
    own, theirs = problem.menus[0, order], other.menus[0]
    number[theirs[theirs >= 0]] = own[theirs >= 0]
    x, y, outline = np.empty_like(found.x), np.empty_like(found.y), np.empty_like(found.outline)
    x[order], y[order], outline[order] = found.x, found.y, number[found.outline]
    return Batch(found.panel, x, y, outline)
