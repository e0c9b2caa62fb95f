"""Outlines in plain numbers against their own `contains`, `support`, and shapely."""

import math
from cmath import exp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiPoint
from shapely import Point as Dot

from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline
from letterfit.place.tail_body import (
    apart,
    are_apart,
    body_of,
    box_body,
    gauge,
    on_line,
    segment_meets,
)
from tests.place.shapes import outline_polygon, outlines

spots = st.complex_numbers(max_magnitude=40, allow_nan=False, allow_infinity=False)


def at(x: float, y: float, outline: Outline) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=0, choice=0, outline=outline, x_mm=x, y_mm=y)


@given(outlines, spots)
@settings(max_examples=200, deadline=None)
def test_gauge_is_one_on_the_line(outline: Outline, spot: complex) -> None:
    """A little inside that point the outline contains it, a little outside it does not."""
    if abs(spot) < 1e-3:
        return
    line = on_line(outline, spot)
    assert gauge(outline, line.real, line.imag) == pytest.approx(1)
    inside, outside = line * (1 - 1e-6), line * (1 + 1e-6)
    assert outline.contains(inside.real, inside.imag)
    assert not outline.contains(outside.real, outside.imag)


@pytest.mark.parametrize(
    "outline",
    [
        Whisper(core=Ellipse(half_width=9, half_height=5)),
        Squared(core=RoundedRect(half_width=9, half_height=5, radius=3)),
        Cloud(core=Superellipse(half_width=9, half_height=5), lobes=10),
    ],
    ids=lambda outline: outline.kind,
)
def test_gauge_of_drawn_outlines_is_that_of_their_hull(outline: Outline) -> None:
    """Points of the hull, by their normals, have a gauge of 1 to a thousandth."""
    for turn in range(40):
        x, y = outline.boundary(2 * math.pi * turn / 40).tolist()
        assert gauge(outline, x, y) == pytest.approx(1, abs=1e-3)


@given(outlines, st.lists(spots, min_size=3, max_size=5))
@settings(max_examples=200, deadline=None)
def test_bodies_are_never_farther_apart_than_said(outline: Outline, hull: list[complex]) -> None:
    """What is said of a hull and a body is at most shapely's distance: clear is clear."""
    item = at(3, -2, outline)
    said = apart(hull, body_of(item))
    points = MultiPoint([(p.real, p.imag) for p in hull]).convex_hull
    if said > 0:
        assert said <= points.distance(outline_polygon(item, 2000)) + 1e-9


@given(outlines, st.floats(0, 2 * math.pi), st.floats(0.1, 9))
@settings(max_examples=100, deadline=None)
def test_a_point_straight_off_a_round_line_is_told_well(
    outline: Outline, angle: float, away: float
) -> None:
    """From a point near an outline three quarters of the distance are seen, boxes aside."""
    if not isinstance(outline, Ellipse | Superellipse):
        return
    x, y = outline.boundary(angle).tolist()
    spot = complex(x + away * math.cos(angle), y + away * math.sin(angle))
    far = outline_polygon(at(0, 0, outline), 4000).distance(Dot(spot.real, spot.imag))
    assert apart([spot], body_of(at(0, 0, outline))) > 0.5 * far


@given(
    st.lists(spots, min_size=2, max_size=5),
    st.lists(spots, min_size=5, max_size=5),
    st.floats(0, 20),
)
@settings(max_examples=100, deadline=None)
def test_hulls_said_to_be_apart_are(one: list[complex], two: list[complex], by: float) -> None:
    """Shapely measures at least the distance asked for."""
    first, second = (
        MultiPoint([(p.real, p.imag) for p in hull]).convex_hull for hull in (one, two)
    )
    if are_apart(one, two, by=by):
        assert first.distance(second) > by - 1e-9


def test_hulls_side_by_side_are_told_apart() -> None:
    """Two tails hanging side by side, straight or aslant, are 6 mm apart and no more."""
    one = [0j, 3 + 0j, 1 + 5j, 2 + 5j, 1.5 + 10j]
    for turn in (1, exp(0.6j), exp(-1.1j)):
        first, second = ([p * turn for p in hull] for hull in (one, [p + 9 for p in one]))
        assert are_apart(first, second, by=5.0)
        assert not are_apart(first, second, by=6.1)


@given(outlines, spots, spots)
@settings(max_examples=150, deadline=None)
def test_segments_that_pass_through_are_seen(
    outline: Outline, start: complex, end: complex
) -> None:
    """Through nine tenths of an outline certainly; past the box round it never."""
    item = at(0, 0, outline)
    body = body_of(item)
    line = LineString([(start.real, start.imag), (end.real, end.imag)])
    if line.intersects(outline_polygon(at(0, 0, outline.scaled(0.95)), 500)):
        assert segment_meets((start, end), body)
    # A superellipse of exponent 3 reaches farthest beyond its ellipse: by 2^(1/6) along diagonals.
    whole = CaptionBox(half_width=1.13 * outline.half_width, half_height=1.13 * outline.half_height)
    if not line.intersects(outline_polygon(at(0, 0, whole), 8)):
        assert not segment_meets((start, end), body)


def test_box_bodies_hold_their_box() -> None:
    """Centre and half-sides; the ellipse in it when asked."""
    assert box_body(Rect(2, 3, 8, 4)) == (6, 5, 4, 2, math.inf)
    assert box_body(Rect(2, 3, 8, 4), exponent=2.0)[4] == 2
