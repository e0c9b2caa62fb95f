"""Lanes: the same panel searched with different figures in it, each as a box that is taken.

How tall a figure still stands clear of a layout is known only when all balloons are placed, and
what is cheapest so far fills the room it needs. So a panel is searched several times at once: for
a few heights, a figure of each at the left wall, at the right wall, sometimes in the middle, and
once with none. Within a lane all layouts have the same figure, and are compared by what they cost.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import STEPS, Bools, Ints
from letterfit.place.problem import Problem
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
    """The figure of each lane.

    Args:
        panel: Shape (n,): which panel it stands in.
        top: Shape (n,), mm: the top of its box.
        left: Shape (n,), mm: its left side.
        right: Shape (n,), mm: its right side.
        floor: Shape (COLUMNS, n), mm: how far down balloons may reach in each column.
    """

    panel: Ints
    top: Floats
    left: Floats
    right: Floats
    floor: Floats

    def clear(self, problem: Problem, lane: Ints, *, x: Floats, y: Floats, outline: Ints) -> Bools:
        """Whether outlines at (x, y) mm keep clear of the figures of their lanes: (n,)."""
        off = np.maximum(self.left[lane] - x, x - self.right[lane])
        off /= problem.half_width[outline]
        np.clip(off, 0.0, 1.0, out=off)
        # Rounded down towards the middle, where the outline reaches farther down.
        reach = problem.rise.ravel()[outline * (STEPS + 1) + (off * STEPS).astype(np.intp)]
        return (off >= 1) | (y + reach <= self.top[lane] + 1e-9)


def lanes_of(problem: Problem, panels: Ints, *, figures: Floats = FIGURES) -> Lanes:
    """The lanes of some panels.

    Args:
        problem: The task.
        panels: Which panels.
        figures: Shape (m, 2): height and place of each figure, as shares.
    """
    panel = np.repeat(panels, len(figures))
    height, place = np.tile(figures, (len(panels), 1)).T
    height = height * cap_height(problem)[panel]
    box = problem.aspect[panel] * height
    left = place * (problem.width[panel] - box)
    right = np.where(height > 0, left + box, left)
    top = problem.height[panel] - height
    columns = (np.arange(COLUMNS)[:, None] + 0.5) * (problem.width[panel] / COLUMNS)
    taken = (columns > left) & (columns < right)
    floor = np.where(taken, top, problem.height[panel] - problem.margin.bottom)
    return Lanes(panel, top, left, right, floor)
