"""The least change of a grid that gives every place what it needs: exact, and blind to panels.

A page is tiers of places. What a place needs is told as a table: for some widths, the least height
at which what stands there is as it should be. The change of a grid is the share of the page that
passes from one place to another, to first order:

    change = sum over tiers t of |H_t - h_t| / (2 L) + (h_t / L) sum over places |V_p - w_p| / (2 W)

with h, w the sizes before and H, V after, L the heights of all tiers and W the widths of a tier's
places together.
For a tier of a given height each place has a least width, and the least change of widths follows:
what those gain that are too narrow, R, over W, as long as the others can give it. So a tier's
cost is a function of its height alone, and a table over tiers and over what heights are still owed
finds the cheapest heights that add up (dynamic programming over the sums: Bellman 1957). Of changes
that cost the same, the one is taken that shares them out: a small price on squares sees to it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

EVENLY = 0.02
"""The price of a tier's squared change, as a share of the page's height squared: it breaks ties."""

ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """One place of a tier.

    Args:
        width: Its width, mm.
        least: The least width it may have, mm.
        most: The most, mm.
        widths: Widths whose needs are known, growing, mm.
        needs: For each the least height at which all is well, mm; infinite where none is known.
    """

    width: float
    least: float
    most: float
    widths: Floats
    needs: Floats

    def least_widths(self, heights: Floats) -> Floats:
        """The least width that does at each height; infinite where none is known to.

        Only widths from which on every wider one does as well: what is told of wider places holds.
        """
        worst = np.maximum.accumulate(self.needs[::-1])[::-1]
        does = worst[None, :] <= heights[:, None] + ROUNDING
        first = np.argmax(does, axis=1)
        widths = np.maximum(self.widths[first], self.least)
        result: Floats = np.where(does.any(axis=1), widths, np.inf)
        return result


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """One tier.

    Args:
        height: Its height, mm.
        places: Its places.
    """

    height: float
    places: tuple[Place, ...]

    @property
    def width(self) -> float:
        """All its places' widths together."""
        return sum(place.width for place in self.places)

    def widening(self, heights: Floats) -> Floats:
        """What places gain at each height, mm; infinite where the tier cannot be so high."""
        wanted = np.array([place.least_widths(heights) for place in self.places])
        own = np.array([place.width for place in self.places])[:, None]
        most = np.array([place.most for place in self.places])[:, None]
        possible = (wanted <= most + ROUNDING).all(axis=0)
        spare = np.where(np.isfinite(wanted), np.maximum(own - wanted, 0.0), 0.0).sum(axis=0)
        gained = np.where(np.isfinite(wanted), np.maximum(wanted - own, 0.0), 0.0).sum(axis=0)
        result: Floats = np.where(possible & (gained <= spare + ROUNDING), gained, np.inf)
        return result

    def shared_widths(self, height: float) -> tuple[float, ...]:
        """The widths of least change at a height: wide ones give in proportion to their spare."""
        at = np.array([height])
        wanted = np.array([place.least_widths(at)[0] for place in self.places])
        own = np.array([place.width for place in self.places])
        gained = np.maximum(wanted - own, 0.0)
        spare = np.maximum(own - wanted, 0.0)
        given = spare * (gained.sum() / spare.sum()) if gained.sum() > 0 else 0.0 * spare
        return tuple(float(width) for width in own + gained - given)


@dataclass(frozen=True, slots=True)
class Shared:
    """A grid shared out anew.

    Args:
        change: The share of the page that passes from one place to another.
        heights: Each tier's height, mm.
        widths: Each tier's places' widths, mm.
    """

    change: float
    heights: tuple[float, ...]
    widths: tuple[tuple[float, ...], ...]


def least_change(
    rows: Sequence[Row], *, step_mm: float, windows: Sequence[tuple[int, int]]
) -> Shared | None:
    """The grid of least change in which every place has what it needs.

    Args:
        rows: The tiers.
        step_mm: Tiers grow and shrink by whole steps.
        windows: For each tier the least and the most steps tried, such as (-20, 20).

    Returns:
        Heights that add up to what they did, so do each tier's widths; None where there is none.
    """
    whole = sum(row.height for row in rows)
    costs = [_costs(row, whole, step_mm, window) for row, window in zip(rows, windows, strict=True)]
    steps = _cheapest(costs, windows)
    if steps is None:
        return None
    heights = tuple(row.height + k * step_mm for row, k in zip(rows, steps, strict=True))
    widths = tuple(row.shared_widths(height) for row, height in zip(rows, heights, strict=True))
    return Shared(change_of(rows, heights, widths), heights, widths)


def change_of(
    rows: Sequence[Row], heights: Sequence[float], widths: Sequence[Sequence[float]]
) -> float:
    """The share of the page that passes from one place to another."""
    whole = sum(row.height for row in rows)
    change = 0.0
    for row, height, own in zip(rows, heights, widths, strict=True):
        moved = sum(abs(w - p.width) for w, p in zip(own, row.places, strict=True))
        change += abs(height - row.height) / (2 * whole)
        change += row.height / whole * moved / (2 * row.width)
    return change


def _costs(row: Row, whole: float, step: float, window: tuple[int, int]) -> Floats:
    """What each number of steps costs."""
    steps = np.arange(window[0], window[1] + 1)
    moved = steps * step / whole
    heights: Floats = row.height + steps * np.float64(step)
    widening = row.widening(heights)
    result: Floats = (
        np.abs(moved) / 2 + EVENLY * moved**2 + row.height / whole * widening / row.width
    )
    return result


def _cheapest(costs: Sequence[Floats], windows: Sequence[tuple[int, int]]) -> list[int] | None:
    """Numbers of steps, one for each tier, that add up to none, at the least cost."""
    low, best = 0, np.zeros(1)
    chosen: list[tuple[int, Ints]] = []
    for own, (least, _) in zip(costs, windows, strict=True):
        table = np.full((len(best) + len(own) - 1, len(own)), np.inf)
        for k, cost in enumerate(own):
            table[k : k + len(best), k] = best + cost
        picked: Ints = np.argmin(table, axis=1)
        best = table[np.arange(len(table)), picked]
        low += least
        chosen.append((low, picked))
    if not low <= 0 < low + len(best) or not np.isfinite(best[-low]):
        return None
    steps, owed = [], 0
    for (start, picked), (least, _) in zip(reversed(chosen), reversed(windows), strict=True):
        k = int(picked[owed - start]) + least
        steps.append(k)
        owed -= k
    return steps[::-1]
