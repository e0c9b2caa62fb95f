"""From a page's places to the grid of least change: what would cost less is refuted first.

At whole steps, every size is taken to do that is not known to fail. The cheapest grid of such sizes
is found exactly; its places are asked; what fails is known from then on. The first grid that holds
in every place is so the cheapest of all (lazy search: Dellin and Srinivasa, ICAPS 2016). Only what
is a good deal smaller than a size that failed is taken to fail unasked. First in coarse steps over
all that the limits allow, then in finer ones as far as less change can reach, then in yet finer
ones round what was found; `easing.py` has the last word.
"""

import math
from collections.abc import Iterator, Sequence

from letterfit.tiers.asking import Tables, Windows, asked_at_once
from letterfit.tiers.grid import Grid, Row, Span
from letterfit.tiers.ground import Ground, Size, Spot
from letterfit.tiers.model import TierLimits
from letterfit.tiers.table import Window

COARSE_MM = 1.0
"""The step over all that the limits allow."""

MIDDLE_MM = 0.25
"""The least step over all that less change can reach."""

MIDDLE_STEPS = 16
"""At most so many steps does a tier grow there; where it may grow more, steps are longer."""

FINER = 5
"""By how much each later step is finer."""

SPARE_MM = 1.0
"""What is so much smaller, both ways, than a size that fails is taken to fail unasked."""

FINE_SPARES = (10, 3)
"""The same in steps, at each of the finer ones."""

BESIDE = 10
"""So many of the finer steps are looked at to each side of what was found."""

ROUNDS = 8
"""How often a grid that does not hold what it promised is given up for another."""


def rows_of(ground: Ground, limits: TierLimits) -> list[Row]:
    """The tiers as they are, and how far each size may change."""
    tier, panel = limits.tier_change, limits.panel_change
    return [
        Row(
            _span(spots[0].box.height, tier),
            tuple(_span(spot.box.width, panel if len(spots) > 1 else 0.0) for spot in spots),
        )
        for spots in ground.spots
    ]


def _span(own: float, change: float) -> Span:
    return Span(own, own * (1 - change), own * (1 + change))


def too_small(ground: Ground, limits: TierLimits) -> Spot | None:
    """The first place in which all is well in no size that the limits allow, as far as was asked.

    The largest is asked for, and where it fails others nearly as large: placing is not steady.
    """
    every = [
        (spot, list(_large(spot, row, spots)))
        for row, spots in zip(rows_of(ground, limits), ground.spots, strict=True)
        for spot in spots
    ]
    ground.tell([(spot, sizes[0]) for spot, sizes in every])
    for spot, sizes in every:
        if not any(ground.tell([(spot, size)])[0] for size in sizes):
            return spot
    return None


def _large(spot: Spot, row: Row, spots: Sequence[Spot]) -> Iterator[Size]:
    """Sizes from the largest down to the place's own."""
    width, height = largest_of(spot, row, spots)
    for share in (1.0, 0.75, 0.5, 0.25, 0.0):
        yield (
            spot.box.width + share * (width - spot.box.width),
            spot.box.height + share * (height - spot.box.height),
        )


def largest_of(spot: Spot, row: Row, spots: Sequence[Spot]) -> Size:
    """As wide and as high as the limits let a place be, its neighbours giving what they may."""
    index = list(spots).index(spot)
    given = sum(w.own - w.least for k, w in enumerate(row.widths) if k != index)
    own = row.widths[index]
    return min(own.most, own.own + given), row.height.most


def nearest_grid(ground: Ground, limits: TierLimits, *, coarse: bool = False) -> Grid | None:
    """The grid of least change in which all is well in every place, as far as that was asked.

    Args:
        ground: The page's places; what is found out of them stays known.
        limits: How far tiers and panels may change.
        coarse: Whether whole millimetres are enough.

    Returns:
        Heights and widths; None where no change within the limits was found.
    """
    rows = rows_of(ground, limits)
    everything = _all_round(rows, math.inf, COARSE_MM)
    found = _sought(ground, rows, everything, step_mm=COARSE_MM, spare_mm=SPARE_MM)
    if found is None or coarse:
        return found
    whole = sum(row.height.own for row in rows)
    step = max(MIDDLE_MM, found.change * whole / MIDDLE_STEPS)
    less = _all_round(rows, found.change, step)
    found = _sought(ground, rows, less, step_mm=step, spare_mm=SPARE_MM) or found
    for spare in FINE_SPARES:
        step /= FINER
        found = _finer(ground, rows, found, step_mm=step, spare_mm=spare * step)
    return found


def _finer(
    ground: Ground, rows: Sequence[Row], found: Grid, *, step_mm: float, spare_mm: float
) -> Grid:
    """The least change near a grid, and, where that lies at the edge, near what is found there."""
    while True:
        near = _near(found, BESIDE)
        nearer = _sought(ground, rows, near, step_mm=step_mm, spare_mm=spare_mm)
        if nearer is None or nearer.change >= found.change:
            return found
        if _furthest(found, nearer) < (BESIDE - 0.5) * step_mm:
            return nearer
        found = nearer


def _furthest(one: Grid, other: Grid) -> float:
    """By how much two grids differ in any size, mm."""
    first, second = (
        (*grid.heights, *(width for own in grid.widths for width in own)) for grid in (one, other)
    )
    return max(abs(a - b) for a, b in zip(first, second, strict=True))


def _all_round(rows: Sequence[Row], change: float, step: float) -> Windows:
    """Sizes round the page's own, as far as the limits and a change let them go."""
    whole = sum(row.height.own for row in rows)

    def window(span: Span, reach: float) -> Window:
        return Window(span.own, math.floor(min(span.most - span.own, reach) / step + 1e-9))

    return [
        (
            window(row.height, change * whole),
            [window(span, change * whole / row.height.own * row.width) for span in row.widths],
        )
        for row in rows
    ]


def _near(grid: Grid, steps: int) -> Windows:
    """Sizes round a grid's."""
    return [
        (Window(height, steps), [Window(width, steps if len(own) > 1 else 0) for width in own])
        for height, own in zip(grid.heights, grid.widths, strict=True)
    ]


def _sought(
    ground: Ground, rows: Sequence[Row], windows: Windows, *, step_mm: float, spare_mm: float
) -> Grid | None:
    """The grid of least change at whole steps."""
    page = Tables(ground, rows, windows, step_mm=step_mm, spare_mm=spare_mm)
    while True:
        cells = page.cheapest()
        if cells is None:
            return None
        unknown = [cell for cell in cells if not page.is_good(cell)]
        if not unknown:
            return page.grid(cells)
        page.ask(asked_at_once(page, unknown))
