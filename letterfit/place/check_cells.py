"""A search over cells, depth first: can balloons stay inside a panel in reading order at all?

Where a balloon's centre may be across is cut into cells. For two cells, reading order and gap ask
for a least way down from the earlier balloon to the later, whatever the x within them; the longest
of these ways gives the least y of each balloon in an arrangement of cells. One in which a balloon
leaves the panel is refused. Where all stay inside, the widest cell is halved and the parts are
looked at again, so that this refuses whatever fixed cells refuse, and more. In passing it pushes up
real layouts within the cells: one that is legal disproves any proof.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats
from letterfit.place.check_down import NODES, down_at, downs
from letterfit.place.check_nested import none_goes_in
from letterfit.place.check_options import SLACK, Option, Room
from letterfit.place.check_pushing import is_legal

RIGHT_OF = 0.8
"""Share of two balloons' joint half-widths from which on one stands right of the other."""

CHUNK = 256
"""Arrangements looked at together."""

TRIED = 3
"""Arrangements of each chunk in which a real layout is tried."""

FINEST = (math.inf, 2.0, 0.2, 0.002)
"""Widths in mm to which cells are halved, in one search after the other."""

DEEPER = 2e-3
"""How much deeper in mm than asked for a joint may be."""

STEPS = 50
"""Steps of the nested search for one arrangement of this one."""

Ints = npt.NDArray[np.intp]


class Found(NamedTuple):
    """What a search found.

    Args:
        legal: Whether it met a layout that is legal.
        left: Whether arrangements were left that it neither refused nor found legal.
        states: How many it looked at; none where the nested search showed enough.
    """

    legal: bool
    left: bool
    states: int


@dataclass(frozen=True, slots=True, eq=False)
class Chunk:
    """Arrangements of the first balloons, each array of shape (n, d).

    Args:
        way: Which way each enters.
        left: The least x of its cell, mm.
        right: The greatest.
        y: The least y of each, mm; exact where it hangs over.
    """

    way: Ints
    left: Floats
    right: Floats
    y: Floats

    def take(self, rows: Ints) -> "Chunk":
        """The arrangements of the given rows."""
        return Chunk(self.way[rows], self.left[rows], self.right[rows], self.y[rows])


class Numbers:
    """The ways of one balloon as arrays, each of shape (w,), mm."""

    def __init__(self, room: Room, ways: Sequence[Option]) -> None:
        self.half_width = np.array([way.outline.half_width for way in ways])
        self.half_height = np.array([way.outline.half_height for way in ways])
        self.hangs = np.array([way.over > 0 for way in ways])
        reach = np.array([room.reach(way) for way in ways]).reshape(-1, 2)
        self.high, self.deep = reach.T
        self.left = room.margin.left + self.half_width
        self.right = np.maximum(room.width - room.margin.right - self.half_width, self.left)


def search_cells(
    room: Room,
    ways: Sequence[Sequence[Option]],
    *,
    joined: Sequence[bool],
    cells: int,
    states: int,
) -> Found:
    """Look for an arrangement that stays inside: none, a legal layout, or some that are left.

    Args:
        room: The room.
        ways: Every way each balloon enters, in script order.
        joined: Per balloon, whether it is joined to the one before it.
        cells: Cells that each outline's range is cut into at first.
        states: Arrangements that each of four searches looks at before it ends.

    >>> from letterfit.outline import CaptionBox
    >>> tall = [Option(CaptionBox(half_width=15, half_height=8), 0.0)]
    >>> from letterfit.geometry import Insets
    >>> room = Room(width=50, height=36.1, margin=Insets.even(1), gap=2, overlap=1)
    >>> search_cells(room, [tall] * 2, joined=[False] * 2, cells=2, states=100).legal
    True
    >>> search_cells(room._replace(height=35), [tall] * 2, joined=[False] * 2, cells=2, states=100)
    Found(legal=False, left=False, states=0)
    """
    if not all(ways):
        return Found(legal=False, left=False, states=0)
    if none_goes_in(room, ways, joined=joined, cells=cells, states=STEPS * states):
        return Found(legal=False, left=False, states=0)
    search = _Search(room, ways, joined, cells)
    seen = 0
    for finest in FINEST:
        found = search.through(finest, states=states)
        seen += found.states
        if found.legal or not found.left:
            break
    return found._replace(states=seen)


class _Search:
    """What all steps of one search share."""

    def __init__(
        self, room: Room, ways: Sequence[Sequence[Option]], joined: Sequence[bool], cells: int
    ) -> None:
        self.room = room
        self.ways = ways
        self.joined = joined
        self.numbers = [Numbers(room, own) for own in ways]
        self.cells = cells
        self.tables = {
            (i, j): self._table(i, j, meets=bool(joined[j]) and i == j - 1)
            for j in range(len(ways))
            for i in range(j)
        }

    def through(self, finest: float, *, states: int) -> Found:
        """One search, in which cells are halved down to a width in mm."""
        none = np.zeros((1, 0))
        stack = [Chunk(none.astype(np.intp), none, none, none)]
        seen, left = 0, False
        while stack:
            chunk = stack.pop()
            seen += len(chunk.way)
            if seen > states:
                return Found(legal=False, left=True, states=seen)
            if chunk.way.shape[1] < len(self.ways):
                stack.extend(self.parts(self.children(chunk)))
                continue
            if any(self.is_legal(chunk, row) for row in range(len(chunk.way))[-TRIED:]):
                return Found(legal=True, left=True, states=seen)
            wide = (chunk.right - chunk.left).max(axis=1) > finest
            left = left or not wide.all()
            stack.extend(self.parts(self.halved(chunk.take(np.flatnonzero(wide)))))
        return Found(legal=False, left=left, states=seen)

    def children(self, chunk: Chunk) -> Chunk:
        """Every arrangement with one balloon more that stays inside."""
        j = chunk.way.shape[1]
        own = self.numbers[j]
        way = np.repeat(np.arange(len(self.ways[j])), self.cells)
        step = np.tile(np.arange(self.cells), len(self.ways[j]))
        width = (own.right - own.left)[way] / self.cells
        left = own.left[way] + step * width
        right = np.where(step == self.cells - 1, own.right[way], left + width)
        y = np.broadcast_to(own.high[way], (len(chunk.way), len(way)))
        for i in range(j):
            before = chunk.way[:, i, None], chunk.left[:, i, None], chunk.right[:, i, None]
            least = self._least((i, j), before, (way, left, right), y=chunk.y[:, i, None])
            y = np.maximum(y, least)
        row, child = np.nonzero(y <= own.deep[way] + SLACK)
        y = np.where(own.hangs[way], own.high[way], y)
        return Chunk(
            np.concatenate([chunk.way[row], way[child, None]], axis=1),
            np.concatenate([chunk.left[row], left[child, None]], axis=1),
            np.concatenate([chunk.right[row], right[child, None]], axis=1),
            np.concatenate([chunk.y[row], y[row, child][:, None]], axis=1),
        )

    def halved(self, chunk: Chunk) -> Chunk:
        """Both halves of the widest cell of each arrangement, where all still stays inside."""
        n = np.arange(len(chunk.way))
        widest = (chunk.right - chunk.left).argmax(axis=1) if len(n) else n
        middle = (chunk.left[n, widest] + chunk.right[n, widest]) / 2
        left, right = np.concatenate([chunk.left] * 2), np.concatenate([chunk.right] * 2)
        right[n, widest] = middle
        left[n + len(n), widest] = middle
        way, y = np.concatenate([chunk.way] * 2), np.zeros(left.shape)
        stays = np.ones(len(way), dtype=bool)
        for j, own in enumerate(self.numbers):
            y[:, j] = own.high[way[:, j]]
            for i in range(j):
                one, two = ((way[:, b], left[:, b], right[:, b]) for b in (i, j))
                y[:, j] = np.maximum(y[:, j], self._least((i, j), one, two, y=y[:, i]))
            stays &= y[:, j] <= own.deep[way[:, j]] + SLACK
            y[:, j] = np.where(own.hangs[way[:, j]], own.high[way[:, j]], y[:, j])
        return Chunk(way, left, right, y).take(np.flatnonzero(stays))

    def parts(self, chunk: Chunk) -> list[Chunk]:
        """The same in chunks of the usual size, the deepest first: the last is looked at next."""
        heights = [own.half_height for own in self.numbers]
        bottoms = [
            y + tall[way] for y, tall, way in zip(chunk.y.T, heights, chunk.way.T, strict=False)
        ]
        order = np.argsort(-np.max(bottoms, axis=0), kind="stable")
        return [chunk.take(order[start : start + CHUNK]) for start in range(0, len(order), CHUNK)]

    def is_legal(self, chunk: Chunk, row: int) -> bool:
        """Whether the middles or the ends of an arrangement's cells make a legal layout."""
        ways = [own[number] for own, number in zip(self.ways, chunk.way[row], strict=True)]
        left, right = chunk.left[row], chunk.right[row]
        odd = np.arange(len(ways)) % 2 > 0
        places = (left + right) / 2, left, right, np.where(odd, right, left)
        return any(is_legal(self.room, ways, joined=self.joined, x=x.tolist()) for x in places)

    def _table(self, i: int, j: int, *, meets: bool) -> tuple[Floats, Floats]:
        apart = -self.room.overlap - DEEPER if meets else self.room.gap - SLACK
        own = [[downs(a.outline, b.outline, apart) for b in self.ways[j]] for a in self.ways[i]]
        across = np.array([[table.across for table in row] for row in own])
        down = np.array([[table.down for table in row] for row in own])
        return across, down.reshape(*across.shape, NODES + 1)

    def _least(
        self,
        pair: tuple[int, int],
        one: tuple[Ints, Floats, Floats],
        two: tuple[Ints, Floats, Floats],
        *,
        y: Floats,
    ) -> Floats:
        """The least y of the later of two balloons in their cells, y being the earlier's."""
        i, j = pair
        before, own = self.numbers[i], self.numbers[j]
        (way, left, right), (later, start, end) = one, two
        tall, taller = before.half_height[way], own.half_height[later]
        meets = bool(self.joined[j]) and i == j - 1
        shift = end - left
        farthest = np.maximum(np.abs(shift), np.abs(start - right))
        across, down = (part[way, later] for part in self.tables[pair])
        far = down_at(across, down, farthest)
        near = down_at(across, down, np.maximum(shift, 0.0))
        below = y + np.maximum(taller if meets else tall + taller, far)
        # Beside and not higher, as tops are seen: what hangs over begins at the border.
        hangs = before.hangs[way] | own.hangs[later]
        level = np.where(hangs, own.high[later], y - tall + taller)
        beside = np.where(level <= y - near + SLACK, level, np.maximum(level, y + near))
        stands = shift >= RIGHT_OF * (before.half_width[way] + own.half_width[later]) - SLACK
        stands &= ~own.hangs[later] | before.hangs[way] | (y - tall <= SLACK)
        least = np.where(stands, np.minimum(below, beside), below) - SLACK
        if meets:  # joined outlines touch: they are no farther apart across than that
            nearest = np.maximum(np.maximum(start - right, left - end), 0.0)
            least = np.where(nearest > across + 2 * DEEPER, np.inf, least)
        result: Floats = least
        return result
