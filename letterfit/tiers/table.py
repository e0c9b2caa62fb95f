"""The grid of least change at whole steps: exact, whatever sizes are open, and blind to panels.

Which sizes are open in a place is told size by size, for placing is not steady: a larger place may
fail where a smaller one does. A table over a tier's places and over the widths still owed finds its
cheapest widths at each height; one over tiers and over the heights still owed then finds the
cheapest heights that add up (dynamic programming over the sums: Bellman 1957). Of changes that cost
the same, the one is taken that shares them out: a small price on squares sees to it. Another keeps
sizes as they are that would hardly change.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from letterfit.tiers.grid import Row, Span

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]

EVENLY = 0.02
"""The price of a squared change, both as shares of the page: it breaks ties."""

TINY_MM = 0.25
TOUCHED = 1e-5
"""The price of changing a size by less than that: what hardly gains by it stays as it is."""

ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Window:
    """Sizes at whole steps round a middle one.

    Args:
        middle: The middle size, mm.
        steps: How many steps are tried to each side.
    """

    middle: float
    steps: int

    def sizes(self, step_mm: float) -> Floats:
        """All of them, growing, mm."""
        steps = np.arange(-self.steps, self.steps + 1, dtype=np.float64)
        result: Floats = self.middle + step_mm * steps
        return result


@dataclass(slots=True, eq=False)
class TierTable:
    """One tier's sizes and which of them are open in each place.

    Args:
        heights: Heights tried, growing, an odd number, the middle one owing nothing, mm.
        widths: For each place widths, as heights.
        height_price: What each height costs.
        width_prices: What each width costs, place by place.
        open: For each place which sizes may be taken: a row for each height, a column each width.
    """

    heights: Floats
    widths: tuple[Floats, ...]
    height_price: Floats
    width_prices: tuple[Floats, ...]
    open: tuple[Bools, ...]
    _best: Floats = field(init=False)
    _picks: list[Ints] = field(init=False)
    _stale: Bools = field(init=False)

    def __post_init__(self) -> None:
        """Nothing is found yet: every height is stale."""
        count = len(self.heights)
        self._best = np.full(count, np.inf)
        sums = 2 * self._reach + 1
        self._picks = [np.zeros((count, sums), dtype=np.int64) for _ in self.widths]
        self._stale = np.ones(count, dtype=np.bool_)

    @property
    def _reach(self) -> int:
        """As many steps can be owed or in hand: half of what all places can give together."""
        return sum(len(widths) // 2 for widths in self.widths) // 2

    def set_open(self, place: int, where: tuple[int, int], *, to: bool) -> None:
        """Open or close one size of a place: the number of its height and of its width."""
        self.open[place][where] = to
        self._stale[where[0]] = True

    def close(self, place: int, sizes: Bools) -> None:
        """Close many sizes of a place at once."""
        self._stale |= (self.open[place] & sizes).any(axis=1)
        self.open[place][sizes] = False

    def costs(self) -> Floats:
        """The least cost at each height; infinite where the widths do not add up."""
        if self._stale.any():
            self._find(np.flatnonzero(self._stale))
            self._stale[:] = False
        return self._best

    def picked(self, height: int) -> list[int]:
        """The number of each place's width at a height of finite cost."""
        self.costs()
        owed, taken = self._reach, []
        for pick, widths in zip(reversed(self._picks), reversed(self.widths), strict=True):
            taken.append(int(pick[height, owed]))
            owed -= taken[-1] - len(widths) // 2
        return taken[::-1]

    def _find(self, heights: Ints) -> None:
        """At some heights, which width is best in each place at each sum of widths so far."""
        best = np.full((len(heights), 2 * self._reach + 1), np.inf)
        best[:, self._reach] = self.height_price[heights]
        each = zip(self.width_prices, self.open, self._picks, strict=True)
        for price, is_open, picks in each:
            last = len(price) - 1
            dear = np.where(is_open[heights], price, np.inf)[:, None, ::-1]
            padded = np.pad(best, ((0, 0), (last // 2, last // 2)), constant_values=np.inf)
            sums = np.lib.stride_tricks.sliding_window_view(padded, last + 1, axis=1) + dear
            first: Ints = np.argmin(sums, axis=2)
            best = np.take_along_axis(sums, first[:, :, None], axis=2)[:, :, 0]
            picks[heights] = last - first
        self._best[heights] = best[:, self._reach]


def tier_table(
    row: Row, whole: float, *, height: Window, widths: Sequence[Window], step_mm: float
) -> TierTable:
    """The table of a tier, open in every size that its limits allow.

    Args:
        row: The tier.
        whole: The heights of all tiers together, mm.
        height: Which heights are tried.
        widths: Which widths, place by place.
        step_mm: The step of all of them.
    """
    heights = height.sizes(step_mm)
    own = tuple(window.sizes(step_mm) for window in widths)
    share = row.height.own / whole
    high = _within(heights, row.height)
    return TierTable(
        heights=heights,
        widths=own,
        height_price=_price(heights - row.height.own, whole),
        width_prices=tuple(
            share * _price(sizes - place.own, row.width)
            for sizes, place in zip(own, row.widths, strict=True)
        ),
        open=tuple(
            high[:, None] & _within(sizes, place)[None, :]
            for sizes, place in zip(own, row.widths, strict=True)
        ),
    )


def _price(moved: Floats, whole: float) -> Floats:
    share = moved / whole
    touched = TOUCHED * ((np.abs(moved) > ROUNDING) & (np.abs(moved) < TINY_MM))
    result: Floats = np.abs(share) / 2 + EVENLY * share**2 + touched
    return result


def _within(sizes: Floats, span: Span) -> Bools:
    result: Bools = (sizes >= span.least - ROUNDING) & (sizes <= span.most + ROUNDING)
    return result


def cheapest(tables: Sequence[TierTable]) -> list[int] | None:
    """The number of each tier's height in the cheapest grid; None where no heights add up."""
    reach = sum(len(table.heights) // 2 for table in tables)
    best = np.full(2 * reach + 1, np.inf)
    best[reach] = 0.0
    picks = []
    for table in tables:
        half = len(table.heights) // 2
        padded = np.pad(best, half, constant_values=np.inf)
        sums = np.lib.stride_tricks.sliding_window_view(padded, 2 * half + 1) + table.costs()[::-1]
        first: Ints = np.argmin(sums, axis=1)
        best = sums[np.arange(len(sums)), first]
        picks.append(2 * half - first)
    if not np.isfinite(best[reach]):
        return None
    owed, taken = 0, []
    for pick, table in zip(reversed(picks), reversed(tables), strict=True):
        taken.append(int(pick[reach + owed]))
        owed -= taken[-1] - len(table.heights) // 2
    return taken[::-1]
