"""Lanes: the same panel searched with different figures in it, each as a box that is taken.

How tall a figure still stands clear of a layout is known only when all balloons are placed, and
what is cheapest so far fills the room it needs. So a panel is searched several times at once: for
a few heights, a figure of each at the left wall, at the right wall, sometimes in the middle, and
once with none. Within a lane all layouts have the same figure, and are compared by what they cost.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Bools
from letterfit.place.problem import Batch, Problem, columns
from letterfit.place.rooms import cap_height

SHARES = (1.0, 0.85, 0.7, 0.5)
"""Heights of the figures, as shares of the tallest that earns anything."""

MIDDLE = (1.0, 0.7)
"""Heights of those that stand in the middle as well."""

COLUMNS = 12
"""Columns of the staircase under which later balloons must go."""


def _figures() -> Floats:
    """Height as a share of the cap, place as a share of the room to move: (lanes, 2)."""
    walls = [(share, side) for share in SHARES for side in (0.0, 1.0)]
    return np.array([*walls, *((share, 0.5) for share in MIDDLE), (0.0, 0.0)])


FIGURES = _figures()


@dataclass(frozen=True, slots=True, eq=False)
class Lanes:
    """The figures that stand in p panels, f in each: one in each lane.

    Args:
        share: Shape (f, p): its height over the panel's.
        top: Shape (f, p), mm: the top of its box.
        left: Shape (f, p), mm: its left side.
        right: Shape (f, p), mm: its right side.
        floor: Shape (COLUMNS, f, p), mm: how far down balloons may reach in each column.
    """

    share: Floats
    top: Floats
    left: Floats
    right: Floats
    floor: Floats

    def clear(self, problem: Problem, batch: Batch) -> Bools:
        """Whether the last balloon of each of n layouts keeps clear of the figures: (f, n)."""
        x, y, outline = batch.x[-1], batch.y[-1], batch.outline[-1]
        off = np.maximum(columns(self.left, batch.panel) - x, x - columns(self.right, batch.panel))
        off /= problem.half_width[outline]
        np.maximum(off, 0.0, out=off)
        beside = off >= 1
        off[beside] = 0.0
        # Rounded down towards the middle, where the outline reaches farther down.
        step = (off * STEPS).astype(np.intp)
        step += outline * (STEPS + 1)
        reach = problem.rise.ravel().take(step)
        reach += y
        beside |= reach <= columns(self.top, batch.panel) + 1e-9
        return np.asarray(beside)


def lanes_of(problem: Problem, *, figures: Floats = FIGURES) -> Lanes:
    """The lanes of all panels.

    Args:
        problem: The task.
        figures: Shape (f, 2): height and place of each figure, as shares.
    """
    share, place = figures[:, 0, None], figures[:, 1, None]
    height = share * cap_height(problem)
    box = problem.aspect * height
    left = place * (problem.width - box)
    right = np.where(height > 0, left + box, left)
    top = problem.height - height
    middles = (np.arange(COLUMNS)[:, None, None] + 0.5) * (problem.width / COLUMNS)
    taken = (middles > left) & (middles < right)
    floor = np.where(taken, top, problem.height - problem.margin.bottom)
    return Lanes(height / problem.height, top, left, right, floor)
