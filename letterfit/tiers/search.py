"""From a page's places to the grid of least change: what is needed is asked, then shared out.

First in coarse steps over all that the limits allow, then in finer ones round what was found. Which
height does at a width is found by bisection, all places and widths side by side.
"""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from letterfit.tiers.ground import Ground, Size, Spot
from letterfit.tiers.model import TierLimits
from letterfit.tiers.share import Place, Row, Shared, least_change

STEPS_MM = (1.0, 0.2, 0.04, 0.01)
"""Steps of heights, coarse to fine; each a whole number of the next."""

WIDTHS = 4
"""Widths tried on each side of a place's own, and between two of those when it gets finer."""

SPARE_STEPS = 2
"""By so many coarser steps the finer search looks past what the coarser one found."""

ROUNDS = 8
"""How often a grid that does not hold what it promised is given up for another."""


def limits_of(spot: Spot, limits: TierLimits) -> tuple[Size, Size]:
    """The least and the greatest size of a place."""
    box = spot.box
    return (
        (box.width * (1 - limits.panel_change), box.height * (1 - limits.tier_change)),
        (box.width * (1 + limits.panel_change), box.height * (1 + limits.tier_change)),
    )


def too_small(ground: Ground, limits: TierLimits) -> Spot | None:
    """The first place in which all is not well however large the limits let it be."""
    spots = [spot for row in ground.spots for spot in row]
    sizes = [largest_of(spot, ground, limits) for spot in spots]
    ground.ask(zip(spots, sizes, strict=True))
    return next((s for s, size in zip(spots, sizes, strict=True) if not s.known(size)), None)


def shared_out(ground: Ground, limits: TierLimits, *, levels: int = len(STEPS_MM)) -> Shared | None:
    """The grid of least change in which all is well in every place, as far as that was asked.

    Args:
        ground: The page's places; what is found out of them stays known.
        limits: How far tiers and panels may change.
        levels: How many of the steps, coarse to fine, are gone through.

    Returns:
        Heights and widths; None where no change within the limits was found.
    """
    windows = [_window(row[0], limits, STEPS_MM[0]) for row in ground.spots]
    found: Shared | None = None
    for level, step in enumerate(STEPS_MM[:levels]):
        if found is not None:
            ratio = round(STEPS_MM[level - 1] / step)
            windows = [
                _nearer(row[0], height, step, ratio)
                for row, height in zip(ground.spots, found.heights, strict=True)
            ]
        _find_needs(ground, list(_widths(ground, limits, found, level)), step, windows)
        rows = rows_of(ground, limits)
        found = least_change(rows, step_mm=step, windows=windows)
        if found is None:
            return None
    return found


def largest_of(spot: Spot, ground: Ground, limits: TierLimits) -> Size:
    """As wide and as high as the limits let a place be: whole steps up, and no more than fits."""
    row = ground.spots[spot.tier]
    least = sum(limits_of(other, limits)[0][0] for other in row if other is not spot)
    whole = sum(other.box.width for other in row)
    width = min(limits_of(spot, limits)[1][0], whole - least)
    _, steps = _window(spot, limits, STEPS_MM[0])
    return (max(width, spot.box.width), spot.box.height + steps * STEPS_MM[0])


def _window(spot: Spot, limits: TierLimits, step: float) -> tuple[int, int]:
    """Steps by which a tier may shrink and grow."""
    steps = math.floor(spot.box.height * limits.tier_change / step)
    return -steps, steps


def _nearer(spot: Spot, height: float, step: float, ratio: int) -> tuple[int, int]:
    """Finer steps near the height that coarser ones led to."""
    at = round((height - spot.box.height) / step)
    return at - SPARE_STEPS * ratio, at + SPARE_STEPS * ratio


def _widths(
    ground: Ground, limits: TierLimits, found: Shared | None, level: int
) -> Iterator[tuple[Spot, float]]:
    """Places and the widths at which their needs are asked for."""
    for row in ground.spots:
        for index, spot in enumerate(row):
            own, most = spot.box.width, largest_of(spot, ground, limits)[0]
            reach = own * limits.panel_change if len(row) > 1 else 0.0
            if found is None:
                near = own + reach * np.arange(-WIDTHS, WIDTHS + 1) / WIDTHS
            else:
                at = found.widths[spot.tier][index]
                span = reach / WIDTHS**level
                near = at + span * np.arange(-WIDTHS, 2) / WIDTHS
            least = own - reach
            kept = [float(w) for w in near if least - 1e-9 <= w <= most + 1e-9]
            yield from ((spot, width) for width in dict.fromkeys([*kept, own]))


def _find_needs(
    ground: Ground,
    asked: Sequence[tuple[Spot, float]],
    step: float,
    windows: Sequence[tuple[int, int]],
) -> None:
    """Find the least number of steps at which all is well at each width, by bisection.

    What is found stays with the places: sizes at which all is well, and at which it is not.
    """
    ends = [windows[spot.tier] for spot, _ in asked]

    def size(k: int, steps: int) -> Size:
        spot, width = asked[k]
        return width, spot.box.height + steps * step

    ground.ask((asked[k][0], size(k, most)) for k, (_, most) in enumerate(ends))
    open_ = {
        k: (least - 1, most)
        for k, (least, most) in enumerate(ends)
        if asked[k][0].known(size(k, most))
    }
    while open_:
        middles = {k: (low + high) // 2 for k, (low, high) in open_.items() if high - low > 1}
        # Wider places first: what they cannot do, narrower ones need not be asked.
        ground.ask((asked[k][0], size(k, steps)) for k, steps in middles.items())
        open_ = {
            k: (open_[k][0], steps) if asked[k][0].known(size(k, steps)) else (steps, open_[k][1])
            for k, steps in middles.items()
        }


def rows_of(ground: Ground, limits: TierLimits) -> list[Row]:
    """The tiers as they are, with what is known of their places."""
    return [_row(row, limits) for row in ground.spots]


def _row(spots: Sequence[Spot], limits: TierLimits) -> Row:
    places = []
    for spot in spots:
        (least, _), (most, _) = limits_of(spot, limits)
        widths = np.array(sorted({width for width, _ in spot.good}))
        needs = np.array([spot.need(width) for width in widths.tolist()])
        if not len(widths):
            widths, needs = np.array([spot.box.width]), np.array([np.inf])
        places.append(Place(spot.box.width, least, most, widths, needs))
    return Row(spots[0].box.height, tuple(places))
