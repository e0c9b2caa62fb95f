"""A panel's task in arrays for the slow search: distances in fine tables, layouts in batches.

Nothing of the library's search is used. Distances down between two outlines come from boundary
points of their sum, 0.001 rad apart, read at places that lie dense where the curve is steep, and
NUDGE is added: a layout found here is legal to the plain rules.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.outline import CaptionBox, Outline
from letterfit.place.model import PlacedOutline
from tests.benchmarks.panels import Task
from tests.place.reference.objective import (
    CORNER,
    COVER,
    CROSSING,
    FIGURE,
    HIGH,
    LEAN,
    LOOKS,
    MOUTH,
    REACH,
    TALLEST,
    in_panel,
    looks_price,
    standings,
)
from tests.place.reference.rules import BESIDE

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.intp]
Bools = npt.NDArray[np.bool_]

GAP, MARGIN, ASPECT = 1.5, 1.5, 1 / 3

NUDGE = 2e-4
"""Added to every distance down, mm: more than the tables can be wrong by."""

PLACES = 512
"""Steps of a table, even in the root of what is left to touching side by side."""

_NORMALS = np.linspace(math.pi / 2, 0, 1600)


@dataclass(frozen=True, slots=True, eq=False)
class Layouts:
    """n layouts of j balloons: centres in mm and numbers of outlines, each of shape (j, n).

    Balloons first: sums and extremes over a few balloons then run over many layouts at once.
    """

    x: Floats
    y: Floats
    o: Ints

    def __len__(self) -> int:
        return int(self.x.shape[1])

    @property
    def size(self) -> int:
        """The number of balloons placed."""
        return len(self.x)

    def take(self, rows: Ints) -> "Layouts":
        """Those of the given numbers."""
        x, y = np.take(self.x, rows, axis=1), np.take(self.y, rows, axis=1)
        return Layouts(x, y, np.take(self.o, rows, axis=1))

    def joined(self, x: Floats, y: Floats, o: Ints) -> "Layouts":
        """Each with one balloon more."""
        return Layouts(
            np.concatenate([self.x, x[None]]),
            np.concatenate([self.y, y[None]]),
            np.concatenate([self.o, o[None]]),
        )


def nothing(count: int) -> Layouts:
    """That many empty layouts."""
    return Layouts(np.zeros((0, count)), np.zeros((0, count)), np.zeros((0, count), np.intp))


class Board:
    """One task, all outlines of all menus numbered through."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.width, self.height = task.panel.width, task.panel.height
        self.size = task.size
        outlines = [outline for menu in task.menus for outline in menu]
        ends = np.cumsum([len(menu) for menu in task.menus])
        self.menus = [
            np.array([o for o in range(end - len(menu), end) if self._enters(outlines[o])], np.intp)
            for end, menu in zip(ends, task.menus, strict=True)
        ]
        self.start = [int(end - len(menu)) for end, menu in zip(ends, task.menus, strict=True)]
        self.a = np.array([o.half_width for o in outlines])
        self.b = np.array([o.half_height for o in outlines])
        self.boxy = np.array([isinstance(o, CaptionBox) for o in outlines])
        looks = np.array([looks_price(o) for o in outlines])
        self.fixed = LOOKS * looks + np.array([o.area_mm2 for o in outlines]) * (
            COVER / (self.width * self.height)
        )
        places = standings(task.panel, task.speakers)
        self.lean = [p.x for p in places]
        self.aside = [p.off for p in places]
        self.aspect = ASPECT * (2 if len(in_panel(task.speakers)) > 1 else 1)
        self.tallest = min(TALLEST * self.height, self.width / self.aspect)
        self.row = np.full((len(outlines), len(outlines)), -1, np.intp)
        self.table = self._tables(outlines)

    def _enters(self, outline: Outline) -> bool:
        wide, high = self.width - 2 * MARGIN, self.height - 2 * MARGIN
        return 2 * outline.half_width <= wide and 2 * outline.half_height <= high

    def _tables(self, outlines: list[Outline]) -> Floats:
        disc = GAP * np.stack([np.cos(_NORMALS), np.sin(_NORMALS)], axis=-1)
        edges = [outline.boundary(_NORMALS) + disc / 2 for outline in outlines]
        share = 1 - (np.arange(PLACES + 1) / PLACES) ** 2
        rows: list[Floats] = []
        for later in range(1, self.size):
            for earlier in range(later):
                for two in self.menus[later]:
                    for one in self.menus[earlier]:
                        x, y = (edges[one] + edges[two]).T
                        self.row[one, two] = len(rows)
                        rows.append(np.interp(share * x[-1], x, y) + NUDGE)
        return np.array(rows).reshape(-1, PLACES + 1)

    def needs(self, dx: Floats, *, one: Ints, two: Ints) -> Floats:
        """The least distance down of two centres dx apart across; 0 where none is needed."""
        share = np.sqrt(np.maximum(1 - np.abs(dx) / (self.a[one] + self.a[two] + GAP), 0)) * PLACES
        step = np.minimum(share.astype(np.intp), PLACES - 1)
        part = share - step
        flat = self.table.ravel()
        at = self.row[one, two] * (PLACES + 1) + step
        return np.where(share > 0, flat[at] * (1 - part) + flat[at + 1] * part, 0.0)

    def settle(self, placed: Layouts, *, x: Floats, o: Ints, floor: Floats | None = None) -> Floats:
        """The least legal y of one balloon more in each layout; infinite where there is none.

        Args:
            placed: n layouts.
            x: Shape (n,).
            o: Shape (n,).
            floor: Shape (n,): y may not be less.
        """
        b = self.b[o]
        y = MARGIN + b if floor is None else np.maximum(MARGIN + b, floor)
        if placed.size:
            dx = x - placed.x
            need = self.needs(dx, one=placed.o, two=o[None])
            wide = self.a[placed.o] + self.a[o]
            before = self.b[placed.o]
            below = placed.y + np.maximum(before + b, need)
            least = np.where(dx >= BESIDE * wide, placed.y - before + b, below).max(axis=0)
            y = np.maximum(y, least)
            row = (placed.y + before).max(axis=0) + b
            y = np.where((dx <= -wide).any(axis=0), np.maximum(y, row), y)
            low, high = placed.y - need, placed.y + need
            for _ in range(placed.size + 1):
                held = (y > low) & (y < high)
                if not held.any():
                    break
                y = np.where(held, high, y).max(axis=0)
        result: Floats = np.where(y + b <= self.height - MARGIN + 1e-9, y, np.inf)
        return result

    def decode(self, x: Floats, o: Ints, *, floor: Floats) -> tuple[Layouts, Bools]:
        """Layouts of given x and outlines, each balloon as high as it may stand; which are legal.

        Args:
            x: Shape (k, n).
            o: Shape (k, n).
            floor: Shape (k, n): y may not be less.
        """
        layouts = nothing(x.shape[1])
        good = np.ones(x.shape[1], np.bool_)
        for i in range(self.size):
            y = self.settle(layouts, x=x[i], o=o[i], floor=floor[i])
            good &= np.isfinite(y)
            layouts = layouts.joined(x[i], np.where(np.isfinite(y), y, 1e6), o[i])
        return layouts, good

    def own(self, index: int, *, x: Floats, y: Floats, o: Ints) -> Floats:
        """What a balloon costs by itself."""
        cost = self.fixed[o] + (y + self.b[o]) * (HIGH / (self.size * self.height))
        lean = self.lean[index]
        left, right = x - self.a[o] - MARGIN, self.width - MARGIN - self.a[o] - x
        if lean is not None:
            cost += np.abs(x - lean) * (LEAN / (self.size * self.width))
        elif self.aside[index]:
            cost += np.minimum(left, right) * (LEAN / (self.size * self.width))
        elif self.boxy[o[:1]].any():
            away = np.minimum(left, right) / 2 if index else left
            cost += away * (CORNER / (self.size * self.width))
        return np.asarray(cost, np.float64)

    def owns(self, layouts: Layouts) -> Floats:
        """The sum of what all balloons cost by themselves."""
        total = np.zeros(len(layouts))
        for i, (x, y, o) in enumerate(zip(layouts.x, layouts.y, layouts.o, strict=True)):
            total += self.own(i, x=x, y=y, o=o)
        return total

    def stands(self, layouts: Layouts, height: Floats) -> Bools:
        """Whether a figure of that height stands clear in each layout."""
        down = np.maximum((self.height - height - layouts.y) / self.b[layouts.o], 0)
        reach = self.a[layouts.o]
        if self.boxy.any():
            round_ = reach * np.sqrt(np.maximum(1 - down * down, 0))
            reach = np.where(self.boxy[layouts.o], reach, round_)
        else:
            reach = reach * np.sqrt(np.maximum(1 - down * down, 0))
        reach = np.where(down < 1, reach, -np.inf)
        width = self.aspect * height
        left, right = layouts.x - reach - width + 1e-9, layouts.x + reach
        free = np.zeros(len(layouts), np.bool_)
        for edge in (np.zeros(len(layouts)), *right):
            held = ((edge > left) & (edge < right)).any(axis=0)
            free |= ~held & (edge + width <= self.width + 1e-9) & (edge >= 0)
        return free

    def rooms(self, layouts: Layouts, *, halvings: int = 10) -> Floats:
        """The tallest figure of each layout, mm, from below."""
        low, high = np.zeros(len(layouts)), np.full(len(layouts), self.tallest)
        top = self.stands(layouts, high)
        for _ in range(halvings):
            middle = (low + high) / 2
            good = self.stands(layouts, middle)
            low, high = np.where(good, middle, low), np.where(good, high, middle)
        return np.where(top, self.tallest, low)

    def tails(self, layouts: Layouts) -> Floats:
        """The price of what the straight tails run into, of the balloons placed so far."""
        count = np.zeros(len(layouts))
        x, y, o = layouts.x, layouts.y, layouts.o
        across, down = 1 / self.a[o], 1 / self.b[o]
        ways = {
            i: (REACH * (lean - x[i]), REACH * (MOUTH * self.height - y[i]))
            for i, lean in enumerate(self.lean[: layouts.size])
            if lean is not None
        }
        for i, (dx, dy) in ways.items():
            for j in range(layouts.size):
                if i != j:
                    px, py = (x[i] - x[j]) * across[j], (y[i] - y[j]) * down[j]
                    vx, vy = dx * across[j], dy * down[j]
                    far = np.maximum(vx * vx + vy * vy, 1e-12)
                    along = np.clip(-(px * vx + py * vy) / far, 0, 1)
                    count += (px + along * vx) ** 2 + (py + along * vy) ** 2 < 1
                if i < j and j in ways:
                    (du, dv), ex, ey = ways[j], x[j] - x[i], y[j] - y[i]
                    turn = dx * dv - dy * du
                    turn = np.where(np.abs(turn) < 1e-9, np.inf, turn)
                    s, t = (ex * dv - ey * du) / turn, (ex * dy - ey * dx) / turn
                    count += (s > 0) & (s < 1) & (t > 0) & (t < 1)
        return CROSSING * count if self.size > 1 else np.zeros(len(layouts))

    def cost(self, layouts: Layouts) -> Floats:
        """The whole cost, figures told to a thousandth."""
        room = self.rooms(layouts)
        return self.owns(layouts) + self.tails(layouts) + FIGURE * (TALLEST - room / self.height)

    def placed(self, layouts: Layouts) -> tuple[PlacedOutline, ...]:
        """The first layout as values."""
        items = []
        for i in range(self.size):
            choice = int(layouts.o[i, 0]) - self.start[i]
            items.append(
                PlacedOutline(
                    index=i,
                    choice=choice,
                    outline=self.task.menus[i][choice],
                    x_mm=float(layouts.x[i, 0]),
                    y_mm=float(layouts.y[i, 0]),
                )
            )
        return tuple(items)
