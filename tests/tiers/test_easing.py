"""A grid eased back: it still holds, changes no more, and all sums stay."""

import pytest

from letterfit.tiers.easing import eased, sizes_of
from letterfit.tiers.grid import grid_of
from letterfit.tiers.ground import ground_of
from letterfit.tiers.model import TierLimits
from letterfit.tiers.search import nearest_grid, rows_of
from tests.tiers.test_advise import page


@pytest.mark.parametrize(
    ("plan", "speeches"), [("2 / 1 / 2", "CLCC-"), ("2 / 2 / 2 / 2", "LCCCCC--")]
)
def test_what_is_eased_holds_and_changes_no_more(plan: str, speeches: str) -> None:
    """Tried at its very sizes; heights and each tier's widths add up to what they did."""
    before = page(plan, speeches)
    ground = ground_of(before, figure_mm=before.figure_height_mm + 3)
    limits = TierLimits()
    found = nearest_grid(ground, limits)
    assert found is not None
    rows = rows_of(ground, limits)
    less = eased(ground, found, rows)
    assert less.change <= found.change
    assert less.change == pytest.approx(grid_of(rows, less.heights, less.widths).change)
    if less is not found:
        assert ground.hold([sizes_of(ground, less)]) == [True]
    assert sum(less.heights) == pytest.approx(sum(row.height.own for row in rows))
    for row, widths in zip(rows, less.widths, strict=True):
        assert sum(widths) == pytest.approx(row.width)


def test_a_grid_that_changed_for_nothing_goes_back_all_the_way() -> None:
    """On a page where all is well as it is, a tier moved by 5 mm is moved back."""
    before = page("2 / 2", "CC--")
    ground = ground_of(before, figure_mm=20)
    rows = rows_of(ground, TierLimits())
    heights = (rows[0].height.own + 5, rows[1].height.own - 5)
    widths = tuple(tuple(place.own for place in row.widths) for row in rows)
    moved = grid_of(rows, heights, widths)
    assert moved.change > 0
    assert eased(ground, moved, rows).change == 0
