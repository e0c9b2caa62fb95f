"""The proof by exhausted cells: whatever goes where, the balloons run out of the panel.

The x range of every outline of every balloon is cut into cells. For two cells, the reading order
and the gap together ask for a least distance down, whatever the x within them; it shrinks with the
distance across, so the farthest ends of the two cells give a lower bound. Longest paths over these
bounds give the least y of each balloon for each choice of cells. If every choice leaves the panel,
or leaves too little of it for the balloons to come, no layout exists. Finer cells prove more; how
many choices are looked at is bounded.

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
from letterfit.place.model import Proof
from letterfit.place.proofs import grown
from letterfit.place.settle import RIGHT
from letterfit.place.terms import Terms

CELLS = (2, 3, 6, 16)
"""Cells that an outline's x range is cut into: a few first, more where that proves nothing."""

MOST_STATES = 150_000
"""Choices of cells that are gone on with after each balloon; more is no proof."""

MOST_TRIED = 5_000_000
"""Choices of cells looked at after each balloon: they bound the memory too."""

CHUNK = 1 << 15
"""Choices whose room is measured together, to bound the memory."""

COLUMNS = 16
"""Columns of the panel in which the room left to the balloons to come is measured."""

MOST_BALLOONS = 8

MOST_OUTLINES = 32
"""Outlines of a menu beyond which the cells are too many."""

SLACK = 1e-6
"""In mm: what rounding may have cost is no proof."""

_NORMALS = np.linspace(0, math.pi / 2, 65)


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """The cells of one balloon, over all its outlines.

    Args:
        outline: Shape (c,): which outline of its menu.
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


def exhausted(
    panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms
) -> tuple[Proof, str] | None:
    """The proof, and its name and figures in words; None where it proves nothing.

    Args:
        panel: The panel.
        menus: The outlines of each balloon; all of them count, not only those searched.
        terms: The terms; without a reading order this proves nothing.
    """
    if not terms.ordered or not 2 <= len(menus) <= MOST_BALLOONS:
        return None
    if max(map(len, menus)) > MOST_OUTLINES:
        return None
    room = panel.height - terms.margin.top - terms.margin.bottom
    for count in CELLS:
        cells = [
            _cells(panel, menu, index, terms=terms, count=count) for index, menu in enumerate(menus)
        ]
        tried = _ways(menus, cells, room=room, width=panel.width, terms=terms)
        if tried is None:
            return None
        if tried >= 0:
            everyone = tuple(range(len(menus)))
            proved = Proof(name="cells", balloons=everyone, needs=tried, holds=room, cells=count)
            words = f"cells: none of {tried} arrangements in {count} cells a shape stays within "
            return proved, f"{words}{room:.1f} mm of height"
    return None


def _cells(panel: Rect, menu: Sequence[Outline], index: int, *, terms: Terms, count: int) -> Cells:
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


def _ways(
    menus: Sequence[Sequence[Outline]],
    cells: Sequence[Cells],
    *,
    room: float,
    width: float,
    terms: Terms,
) -> int | None:
    """How many arrangements were refused, if all were; -1 if some stands; None if too many."""
    joined = terms.joined or (False,) * len(menus)
    states = np.zeros((1, 0), dtype=np.intp)
    least = np.zeros((1, 0))
    rest = _Rest.of(menus, cells, room=room, width=width, terms=terms)
    stair = np.full((1, 2, COLUMNS), -rest.half - _most_over(terms))
    tried = 0
    for j, own in enumerate(cells):
        if len(states) * len(own.left) > MOST_TRIED:
            return None
        y = np.broadcast_to(own.top, (len(states), len(own.left)))
        for i in range(j):
            if i == j - 1 and joined[j]:
                downs = _joined_downs(cells[i], own)
            else:
                downs = _downs((menus[i], menus[j]), (cells[i], own), gap=terms.gap)
            y = np.maximum(y, least[:, i, None] + downs[states[:, i]])
        tried += y.size
        row, cell = np.nonzero(y + own.half_height <= room + SLACK)
        keep, stair = rest.kept(stair, j, row=row, cell=cell, y=y)
        if len(keep) > MOST_STATES:
            return None
        row, cell = row[keep], cell[keep]
        states = np.concatenate([states[row], cell[:, None]], axis=1)
        least = np.concatenate([least[row], y[row, cell][:, None]], axis=1)
    return tried if not len(states) else -1


@dataclass(frozen=True, slots=True, eq=False)
class _Rest:
    """Whether the balloons to come have the area they need, told in two ways.

    What comes after a balloon is wholly below it, or right of it, with RIGHT of the joint
    half-widths between the centres, and not higher: so it begins under a staircase. All grown by
    half the gap, outlines are disjoint. So are their boxes, made narrower to RIGHT of their width.

    Args:
        cells: Those of each balloon.
        ends: Shape (2, COLUMNS), mm: where columns of the panel end on the right, for grown
            outlines and for boxes.
        column: Shape (2,), mm: their widths.
        floor: Shape (2,), mm from the margin: where all of them end below.
        area: Shape (k, 2), mm2: the least area of those after each balloon; nothing where joined
            balloons may share some.
        widest: Per balloon, the greatest half-width of those after it, mm.
        half: Half the gap, mm.
    """

    cells: Sequence[Cells]
    ends: Floats
    column: Floats
    floor: Floats
    area: Floats
    widest: Floats
    half: float

    @classmethod
    def of(
        cls,
        menus: Sequence[Sequence[Outline]],
        cells: Sequence[Cells],
        *,
        room: float,
        width: float,
        terms: Terms,
    ) -> "_Rest":
        """Those of a task in a room of that height and a panel of that width, mm."""
        half, margin = terms.gap / 2, terms.margin
        least = np.array(
            [
                [min(grown(o, half) for o in menu), min(_narrow_box(o) for o in menu)]
                for menu in menus
            ]
        )
        # A narrowed box never comes nearer to a wall than this.
        slim = (1 - RIGHT) * min(float(own.half_width.min(initial=0.0)) for own in cells)
        inner = np.array([-half, slim])
        left = margin.left + inner
        column = (width - margin.left - margin.right - 2 * inner) / COLUMNS
        to_come = np.cumsum(least[::-1], axis=0)[::-1] - least
        widest = [float(own.half_width.max(initial=0.0)) for own in cells]
        return cls(
            cells,
            left[:, None] + column[:, None] * (np.arange(COLUMNS) + 1),
            column,
            np.array([room + half, room]),
            to_come * (0.0 if any(terms.joined) else 1 - SLACK),
            np.array([max(widest[j + 1 :], default=0.0) for j in range(len(cells))]),
            half,
        )

    def lowered(self, stair: Floats, j: int, cell: Ints, *, y: Floats) -> Floats:
        """How far down at least what comes after balloon j begins: (n, 2, COLUMNS)."""
        own = self.cells[j]
        end = own.left[cell] + RIGHT * own.half_width[cell] - SLACK
        start = np.stack([end - (1 - RIGHT) * self.widest[j] - self.half, end], axis=1)
        more = np.array([self.half, 0.0])[:, None]
        b = own.half_height[cell]
        beside = self.ends > start[:, :, None]
        level = np.where(own.hangs[cell], -np.inf, y - b)
        begins = np.where(beside, level[:, None, None], (y + b)[:, None, None]) - more
        result: Floats = np.maximum(stair, begins)
        return result

    def kept(
        self, stair: Floats, j: int, *, row: Ints, cell: Ints, y: Floats
    ) -> tuple[Ints, Floats]:
        """Which choices leave room for what comes after balloon j, and their staircases.

        Args:
            stair: Shape (m, 2, COLUMNS): those before it.
            j: The balloon.
            row: Shape (n,): which of them each choice goes on from.
            cell: Shape (n,): its cell in each choice.
            y: Shape (m, cells), mm: its least y.
        """
        places, stairs = [np.zeros(0, dtype=np.intp)], [stair[:0]]
        for start in range(0, len(row), CHUNK):
            part = slice(start, start + CHUNK)
            own, there = row[part], cell[part]
            after = self.lowered(stair[own], j, there, y=y[own, there])
            good = np.flatnonzero(self.goes_in(after, j))
            places.append(start + good)
            stairs.append(after[good])
            if sum(map(len, places)) > MOST_STATES:
                break
        return np.concatenate(places), np.concatenate(stairs)

    def goes_in(self, stair: Floats, j: int) -> Bools:
        """Whether what comes after balloon j has its least area under the staircase."""
        free = np.maximum(self.floor[:, None] - stair, 0.0).sum(axis=2) * self.column
        return np.asarray((free >= self.area[j]).all(axis=1))


def _narrow_box(outline: Outline) -> float:
    return 4 * RIGHT * outline.half_width * outline.half_height


def _most_over(terms: Terms) -> float:
    """How far over the margin balloons may begin, mm."""
    over = max((x for own in terms.overhangs or () for x in own), default=0.0)
    return over + terms.margin.top if over else 0.0


def _joined_downs(one: Cells, two: Cells) -> Floats:
    """The least distance down to a joined balloon: it begins below the middle, or stands right."""
    b = one.half_height[:, None]
    right = two.right - one.left[:, None] >= RIGHT * (one.half_width[:, None] + two.half_width)
    level = np.where(one.hangs[:, None], -np.inf, two.half_height - b)
    result: Floats = np.where(right, level, two.half_height + 0 * b)
    return result


def _downs(
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
