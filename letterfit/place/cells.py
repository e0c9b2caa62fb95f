"""Cells: where an outline's centre may be across is cut up, and what two cells ask for down.

For two cells, the reading order and the gap together ask for a least distance down, whatever the x
within them; it shrinks with the distance across, so the farthest ends of the two cells give a lower
bound. Finer cells ask for more.

Distances down are taken from below: between two outlines and a gap, the region of overlap is a
convex body, and the polygon of its boundary points (sums of boundary points with one normal) lies
inside it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import Bools, Ints
from letterfit.place.settle import RIGHT
from letterfit.place.terms import Terms

SLACK = 1e-6
"""In mm: what rounding may have cost is no proof."""

_NORMALS = np.linspace(0, math.pi / 2, 65)


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """The cells of one balloon, over all its outlines.

    Args:
        outline: Shape (c,): which outline of its menu, in order.
        left: Shape (c,), mm: the least x of each cell.
        right: Shape (c,), mm: the greatest.
        half_width: Shape (c,), mm.
        half_height: Shape (c,), mm.
        top: Shape (c,), mm: the least y, from the margin.
        hangs: Shape (c,): whether it may hang over the border, so that nothing is higher.
    """

    outline: Ints
    left: Floats
    right: Floats
    half_width: Floats
    half_height: Floats
    top: Floats
    hangs: Bools

    def __len__(self) -> int:
        return len(self.outline)

    def take(self, rows: Ints) -> "Cells":
        """The cells of the given rows."""
        return Cells(
            self.outline[rows],
            self.left[rows],
            self.right[rows],
            self.half_width[rows],
            self.half_height[rows],
            self.top[rows],
            self.hangs[rows],
        )

    def halved(self) -> "Cells":
        """Both halves of every cell, side by side."""
        middle = (self.left + self.right) / 2
        both = self.take(np.repeat(np.arange(len(self)), 2))
        left = np.stack([self.left, middle], axis=1).ravel()
        right = np.stack([middle, self.right], axis=1).ravel()
        return Cells(
            both.outline, left, right, both.half_width, both.half_height, both.top, both.hangs
        )


def cut(panel: Rect, menu: Sequence[Outline], index: int, *, terms: Terms, count: int) -> Cells:
    """The cells of balloon `index`, so many of each outline of its menu that enters the panel."""
    margin = terms.margin
    a = np.array([outline.half_width for outline in menu])
    b = np.array([outline.half_height for outline in menu])
    over = np.array(terms.overhangs[index]) if terms.overhangs else np.zeros(len(menu))
    more = np.where(over > 0, over + margin.top, 0.0)
    move = panel.width - margin.left - margin.right - 2 * a
    enters = (move >= -SLACK) & (2 * b <= panel.height - margin.top - margin.bottom + more + SLACK)
    outline = np.repeat(np.flatnonzero(enters), count)
    step = np.tile(np.arange(count), int(enters.sum()))
    move = np.maximum(move, 0.0)[outline] / count
    left = margin.left + a[outline] + step * move
    top = (b - more)[outline]
    return Cells(outline, left, left + move, a[outline], b[outline], top, (over > 0)[outline])


def joined_downs(one: Cells, two: Cells) -> Floats:
    """The least distance down to a joined balloon: it begins below the middle, or stands right."""
    b = one.half_height[:, None]
    widths = one.half_width[:, None] + two.half_width
    right = two.right - one.left[:, None] >= RIGHT * widths - SLACK
    level = np.where(one.hangs[:, None], -np.inf, two.half_height - b)
    result: Floats = np.where(right, level, two.half_height + 0 * b)
    return result


def cell_downs(
    menus: tuple[Sequence[Outline], Sequence[Outline]], cells: tuple[Cells, Cells], *, gap: float
) -> Floats:
    """The least distance down from each cell of the earlier to each of the later: (c, d), mm."""
    one, two = cells
    a, b = one.half_width[:, None], one.half_height[:, None]
    right = two.right - one.left[:, None]
    farthest = np.maximum(np.abs(right), np.abs(two.left - one.right[:, None]))
    across = np.stack([farthest, np.maximum(right, 0.0)])
    anywhere, overlap = _overlaps(menus, cells, across=across, gap=gap)
    below = np.maximum(b + two.half_height, anywhere)
    # To the right and not higher: clear across, tucked up under an equal top, or below the overlap.
    level = two.half_height - b
    beside = np.where(level <= -overlap, level, np.maximum(level, overlap))
    beside[one.hangs] = -np.inf
    stands_right = right >= RIGHT * (a + two.half_width) - SLACK
    result: Floats = np.where(stands_right, np.minimum(below, beside), below)
    return result


def _overlaps(
    menus: tuple[Sequence[Outline], Sequence[Outline]],
    cells: tuple[Cells, Cells],
    *,
    across: Floats,
    gap: float,
) -> Floats:
    """From below, how far down two outlines' centres must be, per distance across (n, c, d)."""
    result = np.zeros(across.shape)
    circle = gap * np.stack([np.cos(_NORMALS), np.sin(_NORMALS)], axis=-1)
    # The cells of one outline stand together: slices of them are views.
    ends = [(menus[1][p].boundary(_NORMALS), _span(cells[1], p)) for p in _outlines(cells[1])]
    for o in _outlines(cells[0]):
        rows = _span(cells[0], o)
        start = menus[0][o].boundary(_NORMALS) + circle
        for end, columns in ends:
            x, y = (start + end).T
            part = across[:, rows, columns]
            down = np.interp(part, x[::-1], y[::-1]) - SLACK
            result[:, rows, columns] = np.where(part >= x[0] - SLACK, 0.0, down)
    return np.maximum(result, 0.0)


def _outlines(cells: Cells) -> list[int]:
    return [int(o) for o in np.unique(cells.outline)]


def _span(cells: Cells, outline: int) -> slice:
    first, last = np.searchsorted(cells.outline, [outline, outline + 1])
    return slice(int(first), int(last))
