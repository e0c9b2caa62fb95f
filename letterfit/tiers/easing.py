"""A grid that holds, eased back towards the page's own as far as it still does.

The search takes it that a larger place does where a smaller one did. Placing is a search itself and
not so steady: often less change does as well. So grids between the one found and the page's own are
asked for as they are, with nothing taken for granted: all sizes eased together; then what one tier
gained and another lost, what one panel gained and its neighbour lost; then all together again.
"""

from collections.abc import Callable, Iterator, Sequence

from letterfit.tiers.grid import Grid, Row, grid_of
from letterfit.tiers.ground import Ground, Size, Spot

SHARES = tuple(k / 24 for k in range(24))
"""How much of a change is tried to be enough."""

TURNS = 2
"""How often all pairs of sizes are gone through."""

Easing = Callable[[Grid, float], Grid]
"""The grid that keeps a share of some part of a grid's change."""


def eased(ground: Ground, grid: Grid, rows: Sequence[Row]) -> Grid:
    """A grid of no more change that holds in every place, asked for as it is.

    Args:
        ground: The page's places.
        grid: A grid that holds.
        rows: The tiers as they were.
    """
    best = _least(ground, grid, _whole(rows))
    for _ in range(TURNS):
        before = best
        for easing in _pairs(rows):
            best = _least(ground, best, easing)
        best = _least(ground, best, _whole(rows))
        if best is before:
            break
    return best


def _least(ground: Ground, grid: Grid, easing: Easing) -> Grid:
    """The least of a change that holds; the grid itself where less does not."""
    every = [easing(grid, share) for share in SHARES]
    fewer = [one for one in every if one.change < grid.change - 1e-9]
    held = ground.hold([sizes_of(ground, one) for one in fewer])
    return next((one for one, does in zip(fewer, held, strict=True) if does), grid)


def _whole(rows: Sequence[Row]) -> Easing:
    """All sizes together."""

    def easing(grid: Grid, share: float) -> Grid:
        heights = [
            r.height.own + share * (h - r.height.own)
            for r, h in zip(rows, grid.heights, strict=True)
        ]
        widths = [
            [p.own + share * (w - p.own) for p, w in zip(row.widths, own, strict=True)]
            for row, own in zip(rows, grid.widths, strict=True)
        ]
        return grid_of(rows, heights, widths)

    return easing


def _pairs(rows: Sequence[Row]) -> Iterator[Easing]:
    """What one tier gained of another, and what one place gained of another of its tier."""
    heights = [row.height.own for row in rows]
    for i in range(len(rows)):
        for j in range(len(rows)):
            if i != j:
                yield _of_heights(rows, heights, i, j)
    for number, row in enumerate(rows):
        for i in range(len(row.widths)):
            for j in range(len(row.widths)):
                if i != j:
                    yield _of_widths(rows, number, i, j)


def _of_heights(rows: Sequence[Row], own: Sequence[float], gained: int, lost: int) -> Easing:
    def easing(grid: Grid, share: float) -> Grid:
        heights = _returned(grid.heights, own, gained, lost, share=share)
        return grid_of(rows, heights, grid.widths)

    return easing


def _of_widths(rows: Sequence[Row], number: int, gained: int, lost: int) -> Easing:
    own = [span.own for span in rows[number].widths]

    def easing(grid: Grid, share: float) -> Grid:
        widths = list(grid.widths)
        widths[number] = tuple(_returned(widths[number], own, gained, lost, share=share))
        return grid_of(rows, grid.heights, widths)

    return easing


def _returned(
    sizes: Sequence[float], own: Sequence[float], gained: int, lost: int, *, share: float
) -> list[float]:
    """Sizes of which one gives back what it gained of another, but for a share of it."""
    moved = max(min(sizes[gained] - own[gained], own[lost] - sizes[lost]), 0.0)
    result = list(sizes)
    result[gained] -= (1 - share) * moved
    result[lost] += (1 - share) * moved
    return result


def sizes_of(ground: Ground, grid: Grid) -> list[tuple[Spot, Size]]:
    """Every place and its size on a grid."""
    return [
        (spot, (width, height))
        for row, height, own in zip(ground.spots, grid.heights, grid.widths, strict=True)
        for spot, width in zip(row, own, strict=True)
    ]
