"""Figure room by polygons, against the room of the placing and against boxes tried by shapely."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.figure import figure_room
from letterfit.report.standing_room import _greatest_least, standing_room

PANEL = np.array([[0.0, 0.0], [60.0, 0.0], [60.0, 40.0], [0.0, 40.0]])


@st.composite
def bodies(draw: st.DrawFn) -> list[Floats]:
    """Up to four convex polygons, round or cornered, that may hang over the panel's borders."""
    found = []
    for _ in range(draw(st.integers(0, 4))):
        count = draw(st.sampled_from([3, 4, 7, 60]))
        angles = (np.arange(count) + draw(st.floats(0, 1))) * 2 * math.pi / count
        a, b = draw(st.floats(1, 25)), draw(st.floats(1, 14))
        x, y = draw(st.floats(-5, 65)), draw(st.floats(-5, 35))
        found.append(np.stack([x + a * np.cos(angles), y + b * np.sin(angles)], axis=1))
    return found


@given(bodies(), st.sampled_from([1 / 3, 0.5, 1.0]))
@settings(max_examples=60, deadline=None)
def test_in_a_rectangle_it_is_the_room_of_the_placing(found: list[Floats], aspect: float) -> None:
    """Written apart: skylines and halving here, gaps and false position there."""
    corners = [tuple(Point(x, y) for x, y in body.tolist()) for body in found]
    expected = figure_room(Rect(0, 0, 60, 40), corners, aspect=aspect)
    got = standing_room(PANEL, found, aspect=aspect)
    assert got == pytest.approx(expected, abs=1e-5)


@given(st.lists(st.lists(st.floats(-9, 9), min_size=18, max_size=18), min_size=1, max_size=3))
@settings(max_examples=60, deadline=None)
def test_the_least_of_straight_functions_is_greatest_where_two_cross(
    many: list[list[float]],
) -> None:
    """Against the same at 20,001 places: never less, and more by no more than a step allows."""
    room = np.array(many).reshape(-1, 9, 2)
    places = np.linspace(0, 1, 20001)
    tried = room[..., :1] + (room[..., 1:] - room[..., :1]) * places
    sampled = float(tried.min(axis=1).max())
    assert sampled - 1e-9 <= _greatest_least(room) <= sampled + 18 / 20000


def test_a_panel_without_width_has_no_room() -> None:
    """Drawn as a line: nobody stands in it."""
    line = np.array([[30.0, 0.0], [30.0, 40.0], [30.0, 20.0]])
    assert standing_room(line, []) == 0


@st.composite
def slanting(draw: st.DrawFn) -> Floats:
    """A panel of four sides, its floor and its roof slanting."""
    a, b, c, d = (draw(st.floats(0, 12)) for _ in range(4))
    return np.array([[a / 3, a], [60.0 - b / 3, b], [60.0, 40.0 - c], [0.0, 40.0 - d]])


@given(slanting(), bodies())
@settings(max_examples=25, deadline=None)
def test_in_a_slanting_panel_the_box_stands_inside_and_no_taller_one_does(
    panel: Floats, found: list[Floats]
) -> None:
    """Boxes tried at 400 places by shapely: one 1.5 mm lower goes in, none 0.5 mm taller."""
    height = standing_room(panel, found)
    taken = shapely.unary_union([shapely.Polygon(body) for body in found])
    assert not _goes_in(panel, taken, height + 0.5)
    if height > 2:
        assert _goes_in(panel, taken, height - 1.5)


def _goes_in(panel: Floats, taken: shapely.Geometry, height: float) -> bool:
    """Whether some upright 1:3 box stands in the room clear of what is taken, by trying.

    Where the floor slants, nothing may lie between it and the box either.
    """
    room = shapely.buffer(shapely.Polygon(panel), 1e-6)
    left = np.linspace(0, 60 - height / 3, 400)
    right = left + height / 3
    (_, _, (x1, y1), (x0, y0)) = panel.tolist()
    floor = np.minimum(*(np.interp(x, [x0, x1], [y0, y1]) for x in (left, right)))
    boxes = shapely.box(left, floor - height, right, floor)
    down_to_floor = shapely.box(left, floor - height, right, np.full(len(left), 41.0))
    inside = shapely.intersection(taken, room)
    clear = shapely.area(shapely.intersection(down_to_floor, inside)) < 1e-6
    return bool((clear & shapely.contains(room, boxes)).any())


def test_a_body_between_two_gaps_leaves_the_wider_one() -> None:
    """By hand: 20 mm right of a pillar in a panel 40 high: 40 would want 13.3 mm."""
    pillar = np.array([[35.0, 0.0], [40.0, 0.0], [40.0, 40.0], [35.0, 40.0]])
    assert standing_room(PANEL, [pillar]) == 40
    assert standing_room(PANEL, [pillar, pillar - 20]) == pytest.approx(40)
    assert standing_room(PANEL, [pillar], aspect=1.0) == pytest.approx(35)


def test_nothing_stands_where_the_floor_is_taken() -> None:
    """A balloon as wide as the panel on its floor."""
    assert standing_room(PANEL, [PANEL + np.array([0.0, 30.0])]) == 0


def test_a_panel_with_an_arch_is_entered_from_its_lowest_storey() -> None:
    """A panel like an L lying down: the tall part is 20 wide, the low one 15 high."""
    shape = np.array([[0.0, 0.0], [20.0, 0.0], [20.0, 25.0], [60.0, 25.0], [60.0, 40.0], [0, 40.0]])
    assert standing_room(shape, []) == pytest.approx(40)
    assert standing_room(shape, [], aspect=0.6) == pytest.approx(20 / 0.6)
    assert standing_room(shape, [], aspect=2.0) == pytest.approx(15)
