"""Outlines as tails see them: walked round, told by reaches, and how they face each other."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.model import PlacedOutline
from letterfit.place.tail_walk import (
    UNITS,
    along_units,
    box_reach,
    corners_reach,
    ellipse_reach,
    facing,
    gap_between,
    outline_reach,
    walk,
)
from letterfit.separation import gap
from tests.place.shapes import outlines


def at(x: float, y: float, outline: Outline) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=0, choice=0, outline=outline, x_mm=x, y_mm=y)


@given(outlines)
@settings(max_examples=40, deadline=None)
def test_walk_goes_once_round(outline: Outline) -> None:
    """Its length is the outline's perimeter, and every point of it lies on the line."""
    line = walk(outline)
    assert line.perimeter == pytest.approx(outline.perimeter_mm, rel=1e-3)
    for place in line.at(np.linspace(0, line.perimeter, 37)).tolist():
        assert outline.contains(place.real * 0.9999, place.imag * 0.9999)
        assert not outline.contains(place.real * 1.002, place.imag * 1.002)


@given(outlines, st.floats(-50, 200))
@settings(max_examples=60, deadline=None)
def test_one_point_is_that_of_many(outline: Outline, length: float) -> None:
    """The plain way along the line ends where the one for arrays does."""
    line = walk(outline)
    (many,) = line.at(np.array([length])).tolist()
    assert line.point(length) == pytest.approx(many, abs=1e-9)


@given(outlines, st.floats(-math.pi, math.pi))
@settings(max_examples=60, deadline=None)
def test_rays_leave_where_they_point(outline: Outline, angle: float) -> None:
    """The point of the line on a ray has the ray's own direction, to a thousandth."""
    line = walk(outline)
    place = line.point(line.towards(math.cos(angle), math.sin(angle)))
    off = math.remainder(math.atan2(place.imag, place.real) - angle, 2 * math.pi)
    assert abs(off) < 5e-3


@given(outlines, outlines, st.floats(-40, 40), st.floats(-40, 40))
@settings(max_examples=80, deadline=None)
def test_gap_is_never_said_too_large(one: Outline, two: Outline, dx: float, dy: float) -> None:
    """At most the true one, and near it where it is small against the outlines."""
    said, way = gap_between(at(0, 0, one), at(dx, dy, two))
    true = gap(one, two, dx=dx, dy=dy)
    assert said <= true + 1e-9
    assert said > true - 0.1 * (abs(true) + 1) - 0.3
    assert abs(way) == pytest.approx(1)


def test_round_outlines_face_each_other_in_a_point_and_boxes_along_a_side() -> None:
    """A disc's foot lies in the direction itself; a box's side is told by its two corners."""
    first, second = facing(Ellipse(half_width=5, half_height=5), 1 + 0j)
    assert abs(first - second) < 0.5
    ends = facing(CaptionBox(half_width=6, half_height=2), -1j)
    assert set(ends) == {-6 - 2j, 6 - 2j}


def test_reaches_are_support_functions() -> None:
    """Of a box, its corners and the ellipse in it, in every direction sampled."""
    box = Rect(2, 3, 8, 4)
    corners = np.array([2 + 3j, 10 + 3j, 10 + 7j, 2 + 7j])
    assert box_reach(box) == pytest.approx(corners_reach(corners))
    inside = at(6, 5, Ellipse(half_width=4, half_height=2))
    assert ellipse_reach(box) == pytest.approx(outline_reach(inside))
    assert along_units(corners)[1] == pytest.approx(10 * UNITS[0] + 3 * UNITS[1])
