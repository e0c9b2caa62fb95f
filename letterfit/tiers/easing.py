"""A grid that holds, eased back towards the page's own as far as it still does.

The search takes it that a larger place does where a smaller one did. Placing is a search itself and
not so steady: often less change does as well. So grids between the one found and the page's own are
asked for as they are, with nothing taken for granted: all sizes eased together; then what one tier
gained and another lost, what one panel gained and its neighbour lost; then all together again.
"""

from collections.abc import Callable, Iterator, Sequence

from letterfit.tiers.ground import Ground, Size, Spot
from letterfit.tiers.share import Row, Shared, change_of

SHARES = tuple(k / 24 for k in range(24))
"""How much of a change is tried to be enough."""

TURNS = 2
"""How often all pairs of sizes are gone through."""

Easing = Callable[[Shared, float], Shared]
"""The grid that keeps a share of some part of a grid's change."""


def eased(ground: Ground, shared: Shared, rows: Sequence[Row]) -> Shared:
    """A grid of no more change that holds in every place, asked for as it is.

    Args:
        ground: The page's places.
        shared: A grid that holds.
        rows: The tiers as they were.
    """
    best = _least(ground, shared, _whole(rows))
    for _ in range(TURNS):
        before = best
        for easing in _pairs(rows):
            best = _least(ground, best, easing)
        best = _least(ground, best, _whole(rows))
        if best is before:
            break
    return best


def _least(ground: Ground, shared: Shared, easing: Easing) -> Shared:
    """The least of a change that holds; the grid itself where less does not."""
    grids = [easing(shared, share) for share in SHARES]
    fewer = [grid for grid in grids if grid.change < shared.change - 1e-9]
    held = ground.hold([sizes_of(ground, grid) for grid in fewer])
    return next((grid for grid, does in zip(fewer, held, strict=True) if does), shared)


def _whole(rows: Sequence[Row]) -> Easing:
    """All sizes together."""

    def easing(shared: Shared, share: float) -> Shared:
        heights = [
            r.height + share * (h - r.height) for r, h in zip(rows, shared.heights, strict=True)
        ]
        widths = [
            [p.width + share * (w - p.width) for p, w in zip(row.places, own, strict=True)]
            for row, own in zip(rows, shared.widths, strict=True)
        ]
        return _grid(rows, heights, widths)

    return easing


def _pairs(rows: Sequence[Row]) -> Iterator[Easing]:
    """What one tier gained of another, and what one place gained of another of its tier."""
    heights = [row.height for row in rows]
    for i in range(len(rows)):
        for j in range(len(rows)):
            if i != j:
                yield _of_heights(rows, heights, i, j)
    for number, row in enumerate(rows):
        for i in range(len(row.places)):
            for j in range(len(row.places)):
                if i != j:
                    yield _of_widths(rows, number, i, j)


def _of_heights(rows: Sequence[Row], own: Sequence[float], gained: int, lost: int) -> Easing:
    def easing(shared: Shared, share: float) -> Shared:
        heights = _returned(shared.heights, own, gained, lost, share=share)
        return _grid(rows, heights, shared.widths)

    return easing


def _of_widths(rows: Sequence[Row], number: int, gained: int, lost: int) -> Easing:
    own = [place.width for place in rows[number].places]

    def easing(shared: Shared, share: float) -> Shared:
        widths = list(shared.widths)
        widths[number] = tuple(_returned(widths[number], own, gained, lost, share=share))
        return _grid(rows, shared.heights, widths)

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


def _grid(
    rows: Sequence[Row], heights: Sequence[float], widths: Sequence[Sequence[float]]
) -> Shared:
    return Shared(change_of(rows, heights, widths), tuple(heights), tuple(map(tuple, widths)))


def sizes_of(ground: Ground, grid: Shared) -> list[tuple[Spot, Size]]:
    """Every place and its size on a grid."""
    return [
        (spot, (width, height))
        for row, height, own in zip(ground.spots, grid.heights, grid.widths, strict=True)
        for spot, width in zip(row, own, strict=True)
    ]
