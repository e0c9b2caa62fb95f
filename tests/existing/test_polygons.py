"""Areas, unions, distances and insides of polygons, held against shapely."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import DrawingError
from letterfit.existing.model import Region
from letterfit.existing.rings import clipped, distances, hull, is_convex, is_inside, signed_area
from letterfit.existing.union import MOST_SIDES, covered_area
from letterfit.outline import Floats

ROOM = np.array([[0.0, 0.0], [60.0, 0.0], [60.0, 40.0], [0.0, 40.0]])
coordinates = st.floats(-20, 80).map(lambda v: round(v, 3))


@st.composite
def star(draw: st.DrawFn) -> Floats:
    """A simple polygon, star-shaped about a point, with up to twelve corners."""
    count = draw(st.integers(3, 12))
    x, y = draw(coordinates), draw(coordinates)
    turn = draw(st.floats(0, 1))
    reach = np.array(draw(st.lists(st.floats(1, 25), min_size=count, max_size=count)))
    angles = (np.arange(count) + turn) * 2 * math.pi / count
    return np.stack([x + reach * np.cos(angles), y + reach * np.sin(angles)], axis=1)


@given(st.lists(star(), min_size=1, max_size=5), star())
@settings(max_examples=40, deadline=None)
def test_the_covered_area_is_shapelys(rings: list[Floats], odd: Floats) -> None:
    """The union inside a rectangle, and inside any simple polygon, to 1e-6 mm2."""
    for room in (ROOM, odd):
        union = shapely.unary_union([shapely.Polygon(ring) for ring in rings])
        expected = union.intersection(shapely.Polygon(room)).area
        got = covered_area(room, [Region((ring,)) for ring in rings])
        assert got == pytest.approx(expected, abs=1e-6)


def test_rings_are_holes_by_either_rule() -> None:
    """A square in a square: a hole by the even-odd rule and where it runs the other way round."""
    square, inner = ROOM[:, ::1] / 2 + 5, ROOM / 4 + 8
    whole, hole = 600.0, 150.0
    assert covered_area(ROOM, [Region((square, inner), even_odd=True)]) == whole - hole
    assert covered_area(ROOM, [Region((square, inner[::-1]))]) == whole - hole
    assert covered_area(ROOM, [Region((square, inner))]) == whole


def test_a_ring_that_crosses_itself_counts_what_it_bounds() -> None:
    """A bow tie of two triangles: their areas do not cancel."""
    bow = np.array([[10.0, 10.0], [30.0, 30.0], [30.0, 10.0], [10.0, 30.0]])
    assert abs(signed_area(bow)) < 1e-9
    assert covered_area(ROOM, [Region((bow,))]) == pytest.approx(200)


def test_outlines_of_many_sides_are_measured_or_refused() -> None:
    """With 5,000 sides the area is right to a thousandth; past 10,000 an error says so."""
    turn = np.arange(2500) * 2 * math.pi / 2500
    disc = np.stack([20 + 9 * np.cos(turn), 20 + 9 * np.sin(turn)], axis=1)
    shifted = disc + np.array([6.0, 0.0])
    union = shapely.Polygon(disc).union(shapely.Polygon(shifted)).area
    got = covered_area(ROOM, [Region((disc,)), Region((shifted,))])
    assert got == pytest.approx(union, rel=1e-3)
    many = np.tile(disc, (MOST_SIDES // len(disc) + 1, 1))
    with pytest.raises(DrawingError, match="simplify"):
        covered_area(ROOM, [Region((many,))])


@given(star(), st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=20))
@settings(max_examples=40, deadline=None)
def test_insides_and_distances_are_shapelys(
    ring: Floats, points: list[tuple[float, float]]
) -> None:
    """For points off the sides by more than rounding."""
    body, spots = shapely.Polygon(ring), np.array(points)
    off = np.array([body.exterior.distance(shapely.Point(p)) for p in points])
    assert distances(spots, ring) == pytest.approx(off, abs=1e-9)
    clear = off > 1e-9
    held = [body.contains(shapely.Point(p)) for p in points]
    assert (is_inside(spots, [ring])[clear] == np.array(held)[clear]).all()


@given(star())
@settings(max_examples=40, deadline=None)
def test_hulls_and_convexity_are_shapelys(ring: Floats) -> None:
    """The hull's area; a star is convex where it is its own hull."""
    body = shapely.Polygon(ring)
    assert abs(signed_area(hull(ring))) == pytest.approx(body.convex_hull.area)
    spare = body.convex_hull.area - body.area
    if not 1e-8 < spare / body.area < 1e-4:
        assert is_convex(ring) == (spare <= 1e-6 * body.area)


@given(star())
@settings(max_examples=40, deadline=None)
def test_what_is_clipped_has_the_area_of_what_is_inside(ring: Floats) -> None:
    """The part of a polygon in a box, by shapely."""
    expected = shapely.Polygon(ring).intersection(shapely.box(0, 0, 60, 40)).area
    part = clipped(ring, (0, 0, 60, 40))
    assert (abs(signed_area(part)) if len(part) else 0.0) == pytest.approx(expected, abs=1e-6)
