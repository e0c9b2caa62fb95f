"""The proof by exhausted cells: whatever goes where, some balloon has no cell left.

Every outline's x range is cut into cells (`cells`), and for each cell of each balloon is known the
highest and the lowest that the balloon can stand there in any legal layout. At first these are the
panel's own. Then, for the last balloon but one, for the one before it, and so on to the first, how
low it can stand is told by a search over the cells of all balloons that come after it: each of
those must still stand no lower than is known of it, however it is pushed down by those before it.
Searches for the later balloons make that known, so those for the earlier end soon: nested searches
of this kind are called Russian doll search (Verfaillie, Lemaitre and Schiex, Russian doll search
for solving constraint optimization problems, AAAI 1996).

A cell whose lowest is above its highest is dropped; a balloon without cells is the proof. Where all
balloons keep some, the cells that are left are halved and it begins again. The search keeps a
bounded number of arrangements: one that is given up counts as if it went in, as low as is known.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.cells import SLACK, Cells, cell_downs, cut, joined_downs
from letterfit.place.kernel import Ints
from letterfit.place.model import Proof
from letterfit.place.terms import Terms

FIRST = 2
"""Cells that an outline's range is cut into at first."""

ROUNDS = 9
"""How often cells are halved at most, less one."""

WIDTH = 2000
"""Arrangements that are gone on with after each balloon."""

ROUGH = 6
"""How many times more are measured in full."""

NUMBERS = 1 << 22
"""Distances of arrangements kept at once: they bound the memory."""

MOST_LOOKED = 15_000_000
"""Distances looked at before the proof is given up."""

PAIR = 300
"""Distances that take as long as the curve between two outlines."""

MOST_CELLS = 3000
"""Cells of all balloons beyond which they are not halved."""

MOST_BALLOONS = 12

MOST_OUTLINES = 32
"""Outlines of a menu beyond which the cells are too many."""


def exhausted(
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    terms: Terms,
    most: int = MOST_LOOKED,
) -> tuple[Proof, str] | None:
    """The proof, and its name and figures in words; None where it proves nothing.

    Args:
        panel: The panel.
        menus: The outlines of each balloon; all of them count, not only those searched.
        terms: The terms; without a reading order this proves nothing.
        most: Distances looked at before it is given up.

    >>> from letterfit.outline import CaptionBox
    >>> from letterfit.place.terms import make_terms
    >>> menus, panel = [[CaptionBox(half_width=15, half_height=4)]] * 3, Rect(0, 0, 50, 29)
    >>> terms = make_terms(
    ...     panel, menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=())
    >>> exhausted(panel, menus, terms=terms)[1]
    'cells: none of 12 arrangements in 2 cells a shape stays within 26.0 mm of height'
    """
    if not terms.ordered or not 2 <= len(menus) <= MOST_BALLOONS:
        return None
    if max(map(len, menus)) > MOST_OUTLINES:
        return None
    room = panel.height - terms.margin.top - terms.margin.bottom
    cells = [cut(panel, menu, index, terms=terms, count=FIRST) for index, menu in enumerate(menus)]
    tried = looked = 0
    for turn in range(ROUNDS):
        table = _table(menus, cells, room=room, terms=terms)
        pairs = sum(down.size for row in table.downs for down in row)
        tried, looked = tried + pairs, looked + pairs + PAIR * _outline_pairs(cells)
        table = _bounded(table)
        for index in reversed(range(len(menus) - 1)):
            if table.is_empty:
                break
            told = _told(table, index)
            tried, looked = tried + told.tried, looked + told.looked
            table = _bounded(table.lowered(index, told.lowest))
            if looked > most:
                break
        if table.is_empty:
            return _proof(len(menus), tried, cells=FIRST << turn, room=room)
        if looked > most or sum(map(len, table.cells)) * 2 > MOST_CELLS:
            return None
        cells = [own.halved() for own in table.cells]
    return None


def _outline_pairs(cells: Sequence[Cells]) -> int:
    """How many pairs of outlines of two balloons there are."""
    counts = [len(np.unique(own.outline)) for own in cells]
    return (sum(counts) ** 2 - sum(count**2 for count in counts)) // 2


def _proof(size: int, tried: int, *, cells: int, room: float) -> tuple[Proof, str]:
    proved = Proof(name="cells", balloons=tuple(range(size)), needs=tried, holds=room, cells=cells)
    words = f"cells: none of {tried} arrangements in {cells} cells a shape stays within "
    return proved, f"{words}{room:.1f} mm of height"


@dataclass(frozen=True, slots=True, eq=False)
class _Table:
    """What is known of every cell of every balloon.

    Args:
        cells: Those of each balloon.
        highest: Per balloon and cell, the least y in any legal layout, mm from the margin.
        lowest: The same, the greatest.
        downs: downs[i][j - i - 1] is the least way down from each cell of balloon i to each of j.
    """

    cells: Sequence[Cells]
    highest: Sequence[Floats]
    lowest: Sequence[Floats]
    downs: Sequence[Sequence[Floats]]

    @property
    def is_empty(self) -> bool:
        """Whether some balloon has no cell left."""
        return not all(map(len, self.cells))

    def lowered(self, index: int, lowest: Floats) -> "_Table":
        """The same with more known of one balloon."""
        return replace(self, lowest=[*self.lowest[:index], lowest, *self.lowest[index + 1 :]])

    def after(self, index: int, cell: Ints) -> Floats:
        """The least ways down from cells of a balloon to every cell of those after it: (n, d)."""
        downs = [np.zeros((len(cell), 0)), *(down[cell] for down in self.downs[index])]
        return np.concatenate(downs, axis=1)


def _table(
    menus: Sequence[Sequence[Outline]], cells: Sequence[Cells], *, room: float, terms: Terms
) -> _Table:
    joined = terms.joined or (False,) * len(menus)
    downs = [
        [
            joined_downs(one, cells[j])
            if j == i + 1 and joined[j]
            else cell_downs((menus[i], menus[j]), (one, cells[j]), gap=terms.gap)
            for j in range(i + 1, len(menus))
        ]
        for i, one in enumerate(cells)
    ]
    lowest = [room - own.half_height + SLACK for own in cells]
    return _Table(cells, [own.top for own in cells], lowest, downs)


def _bounded(table: _Table) -> _Table:
    """The table with what any two balloons tell of each other, without the cells that drop out."""
    highest, lowest = list(table.highest), list(table.lowest)
    size = len(highest)
    for i in range(size):
        for j in range(i + 1, size):
            under = (highest[i][:, None] + table.downs[i][j - i - 1]).min(axis=0, initial=np.inf)
            highest[j] = np.maximum(highest[j], under)
    for i in reversed(range(size)):
        for j in range(i + 1, size):
            over = (lowest[j] - table.downs[i][j - i - 1]).max(axis=1, initial=-np.inf)
            lowest[i] = np.minimum(lowest[i], over)
    left = [np.flatnonzero(high <= low) for high, low in zip(highest, lowest, strict=True)]
    return _Table(
        [own.take(rows) for own, rows in zip(table.cells, left, strict=True)],
        [own[rows] for own, rows in zip(highest, left, strict=True)],
        [own[rows] for own, rows in zip(lowest, left, strict=True)],
        [
            [down[np.ix_(left[i], left[i + 1 + n])] for n, down in enumerate(row)]
            for i, row in enumerate(table.downs)
        ],
    )


@dataclass(frozen=True, slots=True, eq=False)
class _States:
    """Arrangements of a balloon and some after it.

    Args:
        start: Shape (n,): the cell of the first of them.
        lowest: Shape (n,), mm: the first can stand no lower than this.
        down: Shape (n, d), mm: the least ways down from it to every cell of the balloons to come.
    """

    start: Ints
    lowest: Floats
    down: Floats

    def take(self, rows: Ints) -> "_States":
        """The arrangements of the given rows."""
        return _States(self.start[rows], self.lowest[rows], self.down[rows])


@dataclass(frozen=True, slots=True)
class _Told:
    """What a search told: how low a balloon can stand in each cell, and how much was looked at."""

    lowest: Floats
    tried: int
    looked: int


def _told(table: _Table, index: int) -> _Told:
    """How low balloon `index` can stand in each of its cells if all after it are to go in."""
    highest, everywhere = table.highest[index], np.arange(len(table.cells[index]))
    lowest = np.full(len(everywhere), -np.inf)
    states = _States(everywhere, table.lowest[index], table.after(index, everywhere))
    tried = looked = 0
    for other in range(index + 1, len(table.cells)):
        looked += states.down.size
        states = replace(
            states, lowest=np.minimum(states.lowest, _room_to_come(table, states, other))
        )
        rows = _promising(lowest, states.start, states.lowest, highest=highest, most=WIDTH)
        states = states.take(rows)
        count = len(table.cells[other])
        down = states.down[:, :count]
        both = np.minimum(states.lowest[:, None], table.lowest[other] - down)
        row, cell = np.nonzero(both >= highest[states.start][:, None])
        tried += both.size
        most = min(ROUGH * WIDTH, NUMBERS // max(states.down.shape[1], 1))
        rows = _promising(lowest, states.start[row], both[row, cell], highest=highest, most=most)
        row, cell = row[rows], cell[rows]
        over = down[row, cell][:, None] + table.after(other, cell)
        start, least = states.start[row], both[row, cell]
        states = _States(start, least, np.maximum(states.down[row, count:], over))
    np.maximum.at(lowest, states.start, states.lowest)
    return _Told(np.minimum(lowest, table.lowest[index]), tried, looked)


def _room_to_come(table: _Table, states: _States, other: int) -> Floats:
    """How low the first of each arrangement can stand for each balloon from `other` on alone."""
    lowest = table.lowest[other:]
    first = np.cumsum([0, *map(len, lowest[:-1])])
    room = np.concatenate(lowest) - states.down
    result: Floats = np.maximum.reduceat(room, first, axis=1).min(axis=1)
    return result


def _promising(
    given_up: Floats, start: Ints, lowest: Floats, *, highest: Floats, most: int
) -> Ints:
    """The arrangements that leave most room to their first balloon; the others are given up.

    Args:
        given_up: Shape (c,), mm: the lowest that arrangements given up leave to each cell; changed.
        start: Shape (n,): the cell of the first balloon of each.
        lowest: Shape (n,), mm: the lowest it can stand in each.
        highest: Shape (c,), mm: the highest it can stand in each cell.
        most: How many are kept.
    """
    spare = lowest - highest[start]
    order = np.argsort(-spare, kind="stable")
    kept = order[: min(most, int((spare >= 0).sum()))]
    rest = order[len(kept) :]
    np.maximum.at(given_up, start[rest], lowest[rest])
    return np.sort(kept)
