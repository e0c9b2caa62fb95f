"""A search over cells, nested: no balloon of a panel can stand as high as it would have to.

Where a balloon's centre may be across is cut into cells, as in check_cells. For each cell of the
first balloon, then of the second, and so on to the last, the highest that it can stand there is
found by going back over the balloons before it: each of those stands no higher than was found for
it, and every step from one to a later one costs some way down. A cell in which a balloon would
leave the panel is struck out; all cells that are left are halved, and it begins anew. A balloon
with no cell left shows that there is no layout.

The proof goes the other way, from the last balloon to the first, and shares none of this. Many
steps back are followed at once, those first that end highest; one that is not followed to its end
counts for as high as it may still lead.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats
from letterfit.place.check_down import NODES, down_at, downs
from letterfit.place.check_options import SLACK, Option, Room

RIGHT_OF = 0.8
"""Share of two balloons' joint half-widths from which on one stands right of the other."""

DEEPER = 2e-3
"""How much deeper in mm than asked for a joint may be."""

FOLLOWED = 1500
"""Steps back that are followed at once for one balloon."""

MEASURED = 8000
"""Steps back of which it is measured how high they may lead."""

ANYWHERE = 1e5
"""In mm: a way down that asks for nothing, negative, or that cannot be, positive."""

MOST_CELLS = 4000
"""Cells of all balloons beyond which none is halved."""

Ints = npt.NDArray[np.intp]

Steps = dict[tuple[int, int], Floats]
"""The least way down from every cell of one balloon to every cell of a later one."""


class Strip:
    """The cells that are left to one balloon.

    Args:
        room: The panel.
        ways: Every way the balloon enters.
        cells: How many each way's range is cut into.

    Attributes, each of shape (c,), mm:
        way: Which way.
        left, right: The least and the greatest x of the centre.
        high, deep: The least and the greatest y that are not ruled out.
    """

    def __init__(self, room: Room, ways: Sequence[Option], cells: int) -> None:
        a = np.array([option.outline.half_width for option in ways])
        reach = np.array([room.reach(option) for option in ways]).reshape(-1, 2)
        self.way = np.repeat(np.arange(len(ways)), cells)
        first = (room.margin.left + a)[self.way]
        last = np.maximum((room.width - room.margin.right - a)[self.way], first)
        part = np.tile(np.arange(cells), len(ways)) / cells
        self.left = first + part * (last - first)
        self.right = first + (part + 1 / cells) * (last - first) + SLACK
        self.high, self.deep = reach[self.way].T

    def keep(self, rows: Ints) -> None:
        """Strike out all cells but those."""
        self.way = self.way[rows]
        self.left, self.right = self.left[rows], self.right[rows]
        self.high, self.deep = self.high[rows], self.deep[rows]

    def halve(self) -> None:
        """Put both halves of every cell in its place; what is ruled out of it is of them too."""
        middle = (self.left + self.right) / 2
        self.keep(np.concatenate([np.arange(len(self.way))] * 2))
        count = len(middle)
        self.right[:count] = middle
        self.left[count:] = middle


class Nested:
    """What all rounds of one search share.

    Args:
        room: The room.
        ways: Every way each balloon enters, in script order.
        joined: Per balloon, whether it is joined to the one before it.
    """

    def __init__(
        self, room: Room, ways: Sequence[Sequence[Option]], joined: Sequence[bool]
    ) -> None:
        self.ways, self.joined = ways, joined
        self.half_width = [np.array([w.outline.half_width for w in own]) for own in ways]
        self.half_height = [np.array([w.outline.half_height for w in own]) for own in ways]
        self.hangs = [np.array([w.over > 0 for w in own]) for own in ways]
        self.tables = {
            (i, j): self._table(
                ways[i], ways[j], -room.overlap - DEEPER if self._meets(i, j) else room.gap - SLACK
            )
            for j in range(len(ways))
            for i in range(j)
        }
        self.seen = 0

    def _meets(self, i: int, j: int) -> bool:
        return i == j - 1 and bool(self.joined[j])

    @staticmethod
    def _table(
        ones: Sequence[Option], others: Sequence[Option], apart: float
    ) -> tuple[Floats, Floats]:
        own = [[downs(one.outline, two.outline, apart) for two in others] for one in ones]
        across = np.array([[table.across for table in row] for row in own])
        down = np.array([[table.down for table in row] for row in own])
        return across, down.reshape(*across.shape, NODES + 1)

    def step(self, strips: Sequence[Strip], i: int, j: int) -> Floats:
        """The least way down from every cell of one balloon to every cell of a later: (c, d)."""
        one, two = strips[i], strips[j]
        across, down = (part[one.way[:, None], two.way] for part in self.tables[i, j])
        a, b = self.half_width[i][one.way, None], self.half_height[i][one.way, None]
        wide, tall = self.half_width[j][two.way], self.half_height[j][two.way]
        shift = two.right - one.left[:, None]
        back = one.right[:, None] - two.left
        far = down_at(across, down, np.maximum(np.abs(shift), np.abs(back)))
        near = down_at(across, down, np.maximum(shift, 0.0))
        under = np.maximum(tall if self._meets(i, j) else b + tall, far)
        # Beside it and not higher; what is cut by the border is as high as anything.
        level = np.where(self.hangs[i][one.way, None] | self.hangs[j][two.way], -ANYWHERE, tall - b)
        beside = np.where(level <= SLACK - near, level, np.maximum(level, near))
        stands = shift >= RIGHT_OF * (a + wide) - SLACK
        least = np.where(stands, np.minimum(under, beside), under) - SLACK
        if self._meets(i, j):
            # Joined outlines touch: they are no farther apart across than that.
            nearest = np.maximum(-back, -shift)
            least = np.where(nearest > across + 2 * DEEPER, ANYWHERE, least)
        result: Floats = least
        return result

    def highest(self, strips: Sequence[Strip], steps: Steps, j: int) -> Floats:
        """The highest that a balloon can stand in each of its cells, going back to the first."""
        deep = strips[j].deep
        found = np.full(len(deep), np.inf)
        start, y = np.arange(len(deep)), strips[j].high
        back = np.concatenate([steps[i, j].T for i in reversed(range(j))], axis=1)
        for i in reversed(range(j)):
            self.seen += len(start)
            y = np.maximum(y, _highest_before(strips, back, i))
            rows = _followed(found, start, y, deep=deep, most=FOLLOWED)
            start, y, back = start[rows], y[rows], back[rows]
            count = len(strips[i].way)
            ends = np.maximum(y[:, None], strips[i].high + back[:, :count])
            row, cell = np.nonzero(ends <= deep[start, None] + SLACK)
            rows = _followed(found, start[row], ends[row, cell], deep=deep, most=MEASURED)
            row, cell = row[rows], cell[rows]
            further = [np.zeros((len(cell), 0))]
            further += [steps[m, i].T[cell] for m in reversed(range(i))]
            onward = np.concatenate(further, axis=1) + back[row, cell][:, None]
            start, y = start[row], ends[row, cell]
            back = np.maximum(back[row, count:], onward)
        np.minimum.at(found, start, y)
        result: Floats = np.maximum(found, strips[j].high)
        return result


def none_goes_in(
    room: Room,
    ways: Sequence[Sequence[Option]],
    *,
    joined: Sequence[bool],
    cells: int,
    states: int,
) -> bool:
    """Whether it is shown that the balloons do not all go in; False where it is not.

    Args:
        room: The room.
        ways: Every way each balloon enters, in script order; none is empty.
        joined: Per balloon, whether it is joined to the one before it.
        cells: Cells that each outline's range is halved down to, or once more.
        states: Steps back that are looked at before it ends.

    >>> from letterfit.geometry import Insets
    >>> from letterfit.outline import CaptionBox
    >>> tall = [Option(CaptionBox(half_width=15, half_height=8), 0.0)]
    >>> room = Room(width=50, height=36.1, margin=Insets.even(1), gap=2, overlap=1)
    >>> none_goes_in(room, [tall] * 2, joined=[False] * 2, cells=4, states=100)
    False
    >>> low = room._replace(height=35)
    >>> none_goes_in(low, [tall] * 2, joined=[False] * 2, cells=4, states=100)
    True
    """
    nested = Nested(room, ways, joined)
    strips = [Strip(room, own, 1) for own in ways]
    count = 1
    while True:
        steps = {(i, j): nested.step(strips, i, j) for i, j in nested.tables}
        if _narrowed(strips, steps):
            return True
        for j in range(1, len(ways)):
            strips[j].high = nested.highest(strips, steps, j)
            if nested.seen > states:
                return False
            if _narrowed(strips, steps):
                return True
        if count > cells or 2 * sum(len(strip.way) for strip in strips) > MOST_CELLS:
            return False
        count *= 2
        for strip in strips:
            strip.halve()


def _highest_before(strips: Sequence[Strip], back: Floats, last: int) -> Floats:
    """How high each arrangement may lead for each of the balloons up to `last` alone."""
    before = [strips[i].high for i in reversed(range(last + 1))]
    first = np.cumsum([0, *map(len, before[:-1])])
    ends = np.concatenate(before) + back
    result: Floats = np.minimum.reduceat(ends, first, axis=1).max(axis=1)
    return result


def _followed(found: Floats, start: Ints, y: Floats, *, deep: Floats, most: int) -> Ints:
    """Which are followed on; the others count for as high as they may lead in `found`."""
    order = np.argsort(y - deep[start], kind="stable")
    inside = int((y <= deep[start] + SLACK).sum())
    kept, rest = order[: min(most, inside)], order[min(most, inside) :]
    np.minimum.at(found, start[rest], y[rest])
    return np.sort(kept)


def _narrowed(strips: Sequence[Strip], steps: Steps) -> bool:
    """Strike out cells by what any two balloons ask of each other; whether one has none left."""
    for (i, j), step in steps.items():
        least = (strips[i].high[:, None] + step).min(axis=0, initial=np.inf)
        strips[j].high = np.maximum(strips[j].high, least)
    for (i, j), step in reversed(steps.items()):
        most = (strips[j].deep - step).max(axis=1, initial=-np.inf)
        strips[i].deep = np.minimum(strips[i].deep, most)
    left = [np.flatnonzero(strip.high <= strip.deep + SLACK) for strip in strips]
    for strip, rows in zip(strips, left, strict=True):
        strip.keep(rows)
    for (i, j), step in steps.items():
        steps[i, j] = step[np.ix_(left[i], left[j])]
    return not all(map(len, left))
