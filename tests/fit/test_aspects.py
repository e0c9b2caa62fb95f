"""The range of aspects in cells."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.families import FAMILIES
from letterfit.fit.aspects import STEP, aspect_range, cells, few_cells, fine_cells, unit_outline
from letterfit.fit.bound import least_scale
from tests.fit.texts import airs, names


@given(names, st.floats(0.2, 3), st.floats(1, 9), st.integers(1, 400))
def test_cells_cover_the_range(name: str, low: float, ratio: float, pieces: int) -> None:
    """Cells meet, start and end with the range, and are no wider than the step."""
    grid = cells(name, low, low * ratio, pieces=pieces)
    assert grid.ends() == pytest.approx((low, low * ratio))
    assert np.all(np.diff(np.log(grid.edges)) <= STEP * max(1, pieces / 300) + 1e-9)
    middles = [outline.aspect for outline in grid.shapes.outlines]
    np.testing.assert_allclose(middles, grid.aspects, rtol=1e-12)


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.floats(0.5, 30), st.floats(0.5, 20)), min_size=1, max_size=6),
    names,
    airs,
    st.tuples(st.floats(0.3, 5), st.floats(1.001, 1.5), st.floats(0, 1)),
)
def test_what_fits_in_a_cell_is_within_reach_of_its_middle(
    places: list[tuple[float, float]],
    name: str,
    air: float,
    cell: tuple[float, float, float],
) -> None:
    """Ink that has an outline of area A in a cell asks for at most `reach(A)` at its middle."""
    low, ratio, share = cell
    points = np.array(places)
    grid = few_cells(name, low, low * ratio, 1)
    there = unit_outline(name, low * ratio**share)
    area = there.scaled(least_scale(points, there, air=air).scale).area_mm2
    middle = least_scale(points, grid.shapes.outlines[0], air=air).scale
    assert middle <= grid.reach(area)[0] * (1 + 1e-7)


def test_split_cells_are_the_cell() -> None:
    """The parts of a cell begin and end where it does."""
    grid = cells("ellipse", 1.0, 2.6, pieces=9)
    parts = grid.split(3, parts=4)
    assert parts.ends() == pytest.approx(grid.ends(3))
    assert parts.width == pytest.approx(grid.width / 4)
    fine = fine_cells("ellipse", 1.0, 2.6, len(grid.aspects))
    assert fine.width == pytest.approx(grid.width / 8)


def test_a_single_aspect_is_one_cell() -> None:
    """A range of one aspect has one cell without width."""
    grid = cells("ellipse", 1.5, 1.5, pieces=9)
    assert grid.aspects == pytest.approx([1.5])
    assert grid.width == 0


@pytest.mark.parametrize("name", FAMILIES)
def test_a_family_has_its_own_range(name: str) -> None:
    """None asks for the family's own aspects."""
    assert aspect_range(name, None) == FAMILIES[name].aspect


@pytest.mark.parametrize(
    "aspect", [(2.0, 1.0), (0.0, 1.0), (-1.0, 2.0), (math.nan, 2.0), (1.0, math.nan), (1, math.inf)]
)
def test_ranges_that_are_none_are_refused(aspect: tuple[float, float]) -> None:
    """Reversed, zero, negative, NaN and infinite aspects raise OutlineError."""
    with pytest.raises(OutlineError, match="is no range"):
        aspect_range("ellipse", aspect)


def test_unknown_families_are_refused() -> None:
    """The error names the families there are."""
    with pytest.raises(OutlineError, match="ellipse"):
        aspect_range("star", None)
