"""The search for a grid: the least change of all that hold, however unsteady placing is."""

from collections.abc import Iterator
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.tiers.easing import sizes_of
from letterfit.tiers.grid import grid_of
from letterfit.tiers.ground import Size
from letterfit.tiers.model import TierLimits
from letterfit.tiers.search import nearest_grid, rows_of, too_small
from letterfit.tiers.table import Bools
from tests.tiers.told import Told, told

HEIGHTS, WIDTHS = (30.0, 40.0), ((20.0, 20.0), (40.0,))
LIMITS = TierLimits(tier_change=0.1, panel_change=0.15)


def unsteady(seed: int) -> dict[tuple[int, int], Bools]:
    """Which whole steps do in each place: any, but none that is smaller both ways than one not."""
    lot = np.random.default_rng(seed)
    tables = {}
    for place in ((0, 0), (0, 1), (1, 0)):
        does = lot.random((9, 9)) < lot.uniform(0.5, 1)
        for high, wide in product(range(7, -1, -1), repeat=2):
            does[high, wide] &= bool(does[high + 1 :, wide + 1 :].all())
        tables[place] = does
    return tables


def by_steps(tables: dict[tuple[int, int], Bools]) -> Told:
    """Places that are asked at whole steps only."""

    def does(place: tuple[int, int], size: Size) -> bool:
        wide, high = (
            round(size[0] - WIDTHS[place[0]][place[1]]),
            round(size[1] - HEIGHTS[place[0]]),
        )
        return bool(tables[place][high + 4, wide + 4])

    return told(HEIGHTS, WIDTHS, does)


def every_change(tables: dict[tuple[int, int], Bools]) -> Iterator[float]:
    """The changes of all grids of whole steps that hold, within the limits."""
    rows = rows_of(by_steps(tables), LIMITS)
    for high, wide in product(range(-3, 4), repeat=2):
        if (
            tables[0, 0][high + 4, wide + 4]
            and tables[0, 1][high + 4, 4 - wide]
            and tables[1, 0][4 - high, 4]
        ):
            heights = (HEIGHTS[0] + high, HEIGHTS[1] - high)
            yield grid_of(rows, heights, ((20.0 + wide, 20.0 - wide), (40.0,))).change


@settings(max_examples=200)
@given(st.integers(0, 2**32 - 1))
def test_at_whole_steps_no_grid_that_holds_changes_less(seed: int) -> None:
    """Places told by lot: the change found is the least over every grid, or there is none."""
    tables = unsteady(seed)
    found = nearest_grid(by_steps(tables), LIMITS, coarse=True)
    changes = list(every_change(tables))
    if found is None:
        assert not changes
    else:
        assert found.change == pytest.approx(min(changes))


def area(place: tuple[int, int], size: Size) -> bool:
    """Enough area, but for sizes that fail here and there just above it: by their digits."""
    need = {(0, 0): 700.0, (0, 1): 500.0, (1, 0): 1400.0}[place]
    spare = size[0] * size[1] / need - 1
    return spare >= 0 and not (spare < 0.02 and round(size[0] * 97 + size[1] * 89) % 3 == 0)


def test_finer_steps_find_what_a_smooth_page_needs() -> None:
    """By hand: 700 mm2 in a tier of 30 mm: 70/3 - 20 mm wider moves 30/70 of (70/3 - 20)/40."""
    ground = told(HEIGHTS, WIDTHS, lambda place, size: place != (0, 0) or size[0] * size[1] >= 700)
    found = nearest_grid(ground, TierLimits(tier_change=0.0, panel_change=0.25))
    assert found is not None
    least = 30 / 70 * (70 / 3 - 20) / 40
    assert least <= found.change <= least + 0.01 * 30 / 70 / 40


def test_what_is_found_holds_within_the_limits_and_all_adds_up() -> None:
    """An unsteady page: every size was told to do, and no size is asked twice."""
    ground = told(HEIGHTS, WIDTHS, area)
    limits = TierLimits()
    found = nearest_grid(ground, limits)
    assert found is not None
    assert ground.hold([sizes_of(ground, found)]) == [True]
    assert len(ground.asked) == len(set(ground.asked))
    assert sum(found.heights) == pytest.approx(sum(HEIGHTS))
    for row, height, own in zip(rows_of(ground, limits), found.heights, found.widths, strict=True):
        assert row.height.least <= height <= row.height.most
        assert sum(own) == pytest.approx(row.width)
        for place, width in zip(row.widths, own, strict=True):
            assert place.least <= width <= place.most


def test_a_page_on_which_all_is_well_is_asked_once_and_stays() -> None:
    """Every place is asked for at its own size, and for nothing else."""
    ground = told(HEIGHTS, WIDTHS, lambda _place, _size: True)
    found = nearest_grid(ground, TierLimits())
    assert found is not None
    assert (found.change, found.heights, found.widths) == (0, HEIGHTS, WIDTHS)
    assert len(ground.asked) == 3


def test_the_place_that_no_size_helps_is_told() -> None:
    """The first place that fails at the largest size and at others nearly as large."""
    ground = told(HEIGHTS, WIDTHS, lambda place, _size: place != (0, 1))
    assert too_small(ground, TierLimits()) is ground.spots[0][1]
    assert nearest_grid(ground, TierLimits()) is None
    lucky = told(HEIGHTS, WIDTHS, lambda place, size: place != (0, 1) or size[0] < 24.5)
    assert too_small(lucky, TierLimits()) is None
