"""The clearance of ink in an ellipse, against samples of its support and against shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.nearest import ink_clearance
from letterfit.outline import CaptionBox, Ellipse
from letterfit.separation import clearance
from tests.fit.texts import polygon

sides = st.floats(0.5, 200)
shares = st.floats(0, 1)


@settings(max_examples=200)
@given(sides, sides, st.lists(st.tuples(shares, shares), min_size=1, max_size=9))
def test_it_is_the_sampled_clearance(
    half_width: float, half_height: float, places: list[tuple[float, float]]
) -> None:
    """Points inside and outside, wide ellipses and high ones, points on the axes."""
    outline = Ellipse(half_width=half_width, half_height=half_height)
    points = np.array(places) * [half_width, half_height]
    expected = clearance(outline, points)
    least = 1e-7 * max(half_width, half_height)
    assert ink_clearance(outline, points) == pytest.approx(expected, abs=least)


@given(st.floats(1, 4), shares, shares)
def test_it_is_the_distance_to_the_curve(aspect: float, across: float, up: float) -> None:
    """By shapely, to a polygon of the curve."""
    outline = Ellipse(half_width=10 * aspect, half_height=10)
    point = np.array([[6 * aspect * across, 6 * up]])
    distance = shapely.Point(*point[0]).distance(polygon(outline).exterior)
    assert ink_clearance(outline, point) == pytest.approx(distance, abs=1e-3)


def test_points_by_hand() -> None:
    """In the centre the short half-side; on the long axis up to the centre of curvature too."""
    outline = Ellipse(half_width=5, half_height=3)
    assert ink_clearance(outline, np.array([[0.0, 0.0]])) == 3
    assert ink_clearance(outline, np.array([[4.0, 0.0]])) == pytest.approx(1)
    assert ink_clearance(outline, np.array([[0.0, 2.0]])) == pytest.approx(1)
    tall = Ellipse(half_width=3, half_height=5)
    assert ink_clearance(tall, np.array([[0.0, 4.0]])) == pytest.approx(1)


def test_other_outlines_are_sampled() -> None:
    """A box has its own clearance."""
    box = CaptionBox(half_width=5, half_height=3)
    points = np.array([[1.0, 1.0], [2.0, 0.5]])
    assert ink_clearance(box, points) == clearance(box, points)
