"""The wedge of a tail as a region: polygon, area, and the bolt inside it."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Point as Dot
from shapely import Polygon

from letterfit.geometry import Point
from letterfit.place.model import Tail
from letterfit.place.wedge import bolt_polygon, side_curves, tail_polygon, wedge_area

tails = st.builds(
    lambda half, length, lean, bow: Tail(
        root=(Point(20 + half, 10), Point(20 - half, 10)),
        tip=Point(20 + lean, 10 + length),
        bend=Point(20 + lean / 2 + bow, 10 + length / 2),
    ),
    st.floats(0.6, 2),
    st.floats(5, 20),
    st.floats(-6, 6),
    st.floats(-4, 4),
)


def polygon(corners: tuple[Point, ...]) -> Polygon:
    """Corners as shapely sees them."""
    return Polygon([(p.x, p.y) for p in corners])


@given(tails)
@settings(max_examples=60, deadline=None)
def test_area_is_that_of_the_polygon(tail: Tail) -> None:
    """Shapely's area of a polygon of 1,000 chords a side is the closed form's."""
    fine = polygon(tail_polygon(tail, 1000))
    assume(fine.is_valid)
    assert wedge_area(tail) == pytest.approx(fine.area, rel=1e-5)


@given(tails)
@settings(max_examples=60, deadline=None)
def test_wedge_lies_in_the_hull_of_its_control_points(tail: Tail) -> None:
    """Which is what the plainest tail is held clear by."""
    hull = Polygon([p for curve in side_curves(tail) for p in curve]).convex_hull
    assert hull.buffer(1e-9).contains(polygon(tail_polygon(tail)))


@given(tails)
@settings(max_examples=60, deadline=None)
def test_bolt_stays_inside_its_wedge(tail: Tail) -> None:
    """From root to root over the tip; no corner leaves the wedge: what is clear stays clear."""
    wedge = polygon(tail_polygon(tail, 200))
    assume(wedge.is_valid)
    corners = bolt_polygon(tail)
    assert (corners[0], corners[-1]) == tail.root
    assert corners[3].distance(tail.tip) < 1e-9
    assert all(wedge.distance(Dot(p.x, p.y)) < 0.01 for p in corners)


def test_bolt_is_jagged_on_both_sides() -> None:
    """On a straight wedge both sides turn in and out again, and the bolt does not cross itself."""
    tail = Tail(root=(Point(22, 0), Point(18, 0)), tip=Point(20, 12))
    bolt = polygon(bolt_polygon(tail))
    assert bolt.is_valid
    assert bolt.area < 0.85 * wedge_area(tail)
    hull = bolt.convex_hull.area
    assert hull - bolt.area > 0.1 * hull
