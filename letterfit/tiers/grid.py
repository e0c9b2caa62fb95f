"""A page's grid as numbers: tiers of places, and what a change of it costs.

The change of a grid is the share of the page that passes from one place to another, to first order:

    change = sum over tiers t of |H_t - h_t| / (2 L) + (h_t / L) sum over places |V_p - w_p| / (2 W)

with h, w the sizes before and H, V after, L the heights of all tiers and W the widths of a tier's
places together.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Span:
    """A size that may change.

    Args:
        own: As it is, mm.
        least: The least it may be, mm.
        most: The most, mm.
    """

    own: float
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Row:
    """One tier.

    Args:
        height: Its height.
        widths: Its places' widths, in reading order.
    """

    height: Span
    widths: tuple[Span, ...]

    @property
    def width(self) -> float:
        """All its places' widths together, mm."""
        return sum(place.own for place in self.widths)


@dataclass(frozen=True, slots=True)
class Grid:
    """A grid shared out anew.

    Args:
        change: The share of the page that passes from one place to another.
        heights: Each tier's height, mm.
        widths: Each tier's places' widths, mm.
    """

    change: float
    heights: tuple[float, ...]
    widths: tuple[tuple[float, ...], ...]


def grid_of(
    rows: Sequence[Row], heights: Sequence[float], widths: Sequence[Sequence[float]]
) -> Grid:
    """A grid of these sizes, and by how much it changes the page's own."""
    whole = sum(row.height.own for row in rows)
    change = 0.0
    for row, height, own in zip(rows, heights, widths, strict=True):
        moved = sum(abs(w - p.own) for w, p in zip(own, row.widths, strict=True))
        change += abs(height - row.height.own) / (2 * whole)
        change += row.height.own / whole * moved / (2 * row.width)
    return Grid(change, tuple(heights), tuple(map(tuple, widths)))
