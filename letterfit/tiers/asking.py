"""A page's tables and what is known of their sizes: which to ask for next, and what was told.

Only what is a good deal smaller than a size that failed, both ways, is taken to fail unasked:
placing is not steady, and what is a little smaller may do all the same.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.tiers.grid import Grid, Row, grid_of
from letterfit.tiers.ground import Ground, Size
from letterfit.tiers.table import Bools, TierTable, Window, cheapest, tier_table

BATCH = 24
"""At most so many sizes are asked at once, and those of one grid more."""

Windows = Sequence[tuple[Window, Sequence[Window]]]
"""For each tier the heights to be tried, and the widths place by place."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One size of one place: its tier, its number there, and those of its height and width."""

    tier: int
    place: int
    where: tuple[int, int]


class Tables:
    """The tables of all tiers, and what was told of their sizes."""

    def __init__(
        self,
        ground: Ground,
        rows: Sequence[Row],
        windows: Windows,
        *,
        step_mm: float,
        spare_mm: float,
    ) -> None:
        """Tables of whole steps in the windows.

        Args:
            ground: The page's places; what was told of them before counts.
            rows: The tiers as they are.
            windows: The sizes tried.
            step_mm: The step.
            spare_mm: What is so much smaller than a size that fails is taken to fail.
        """
        whole = sum(row.height.own for row in rows)
        self.ground, self.rows = ground, rows
        self.tables = [
            tier_table(row, whole, height=height, widths=widths, step_mm=step_mm)
            for row, (height, widths) in zip(rows, windows, strict=True)
        ]
        self.good = [[np.zeros_like(one) for one in table.open] for table in self.tables]
        self.doubtful = [[np.zeros_like(one) for one in table.open] for table in self.tables]
        self.spare = spare_mm
        for tier, spots in enumerate(ground.spots):
            for place, spot in enumerate(spots):
                for size, well in sorted(spot.tried.items(), key=lambda told: not told[1]):
                    self._recall(tier, place, size, well=well)

    def _recall(self, tier: int, place: int, size: Size, *, well: bool) -> None:
        """See the table of a place in the light of what was told of some size."""
        table = self.tables[tier]
        same = (table.heights == size[1])[:, None] & (table.widths[place] == size[0])[None, :]
        if well:
            self.good[tier][place] |= same
            return
        self.doubtful[tier][place] |= _smaller(table, place, size, by=0.0)
        closed = same | _smaller(table, place, size, by=self.spare)
        table.close(place, closed & ~self.good[tier][place])

    def size(self, cell: Cell) -> Size:
        """Its width and height, mm."""
        table = self.tables[cell.tier]
        return (
            float(table.widths[cell.place][cell.where[1]]),
            float(table.heights[cell.where[0]]),
        )

    def cheapest(self) -> list[Cell] | None:
        """The cells of the cheapest grid of open sizes."""
        heights = cheapest(self.tables)
        if heights is None:
            return None
        return [
            Cell(tier, place, (height, width))
            for tier, (table, height) in enumerate(zip(self.tables, heights, strict=True))
            for place, width in enumerate(table.picked(height))
        ]

    def grid(self, cells: Sequence[Cell]) -> Grid:
        """The grid of a cell for every place."""
        heights = [0.0 for _ in self.tables]
        widths: list[list[float]] = [[] for _ in self.tables]
        for cell in cells:
            width, heights[cell.tier] = self.size(cell)
            widths[cell.tier].append(width)
        return grid_of(self.rows, heights, widths)

    def is_good(self, cell: Cell) -> bool:
        """Whether all was told to be well there."""
        return bool(self.good[cell.tier][cell.place][cell.where])

    def is_doubtful(self, cell: Cell) -> bool:
        """Whether all was told not to be well at a larger size."""
        return bool(self.doubtful[cell.tier][cell.place][cell.where])

    def put(self, cell: Cell, *, to: bool) -> None:
        """Open or close it."""
        self.tables[cell.tier].set_open(cell.place, cell.where, to=to)

    def ask(self, cells: Sequence[Cell]) -> None:
        """Have sizes tried, all together, and keep what is told."""
        asked = [(self.ground.spots[c.tier][c.place], self.size(c)) for c in cells]
        for cell, (_, size), well in zip(cells, asked, self.ground.tell(asked), strict=True):
            self._recall(cell.tier, cell.place, size, well=well)


def _smaller(table: TierTable, place: int, size: Size, *, by: float) -> Bools:
    """Which sizes are smaller by so much, or more, both ways."""
    low = table.heights <= size[1] - by + 1e-9
    narrow = table.widths[place] <= size[0] - by + 1e-9
    if len(narrow) == 1:
        narrow = table.widths[place] <= size[0] + 1e-9
    result: Bools = low[:, None] & narrow[None, :]
    return result


def asked_at_once(page: Tables, first: list[Cell]) -> list[Cell]:
    """The cells to ask at once: those of the cheapest grid, and what comes next if they fail."""
    asked = dict.fromkeys(first)
    closed: list[Cell] = []
    new = first
    while len(asked) < BATCH:
        doubtful = [cell for cell in new if page.is_doubtful(cell)]
        if not doubtful:
            break
        for cell in doubtful:
            page.put(cell, to=False)
            closed.append(cell)
        cells = page.cheapest()
        if cells is None:
            break
        new = [cell for cell in cells if not page.is_good(cell) and cell not in asked]
        asked |= dict.fromkeys(new)
    for cell in closed:
        page.put(cell, to=True)
    return list(asked)
