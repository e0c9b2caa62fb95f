"""The room an outline leaves after its air."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.fit.room import Room
from letterfit.outline import CaptionBox, Ellipse

TURN = np.linspace(0, 2 * math.pi, 73)


@given(st.floats(2, 30), st.floats(2, 30), st.floats(0.1, 1.5))
def test_support_is_less_by_the_air(a: float, b: float, air: float) -> None:
    """H - m, and the boundary moves in by m along its normals."""
    outer = Ellipse(half_width=a, half_height=b)
    room = Room.inside(outer, air=air)
    assert room is not None
    np.testing.assert_allclose(room.support(TURN), outer.support(TURN) - air)
    moved = outer.boundary(TURN) - room.boundary(TURN)
    np.testing.assert_allclose(np.hypot(*moved.T), air, rtol=1e-9)


def test_no_room_is_left_by_too_much_air() -> None:
    """Air of half the height leaves nothing."""
    assert Room.inside(Ellipse(half_width=9, half_height=2), air=2.0) is None


def test_points_with_air_are_inside() -> None:
    """A point is in the room when its distance to the outline is the air or more."""
    room = Room.inside(CaptionBox(half_width=10, half_height=5), air=1.0)
    assert room is not None
    assert room.contains(8.9, 3.9)
    assert not room.contains(9.1, 0.0)


def test_the_room_of_a_disc_is_a_disc() -> None:
    """Radius and area of the smaller disc."""
    room = Room.inside(Ellipse(half_width=5, half_height=5), air=2.0)
    assert room is not None
    assert room.half_width == 3
    assert room.area_mm2 == pytest.approx(9 * math.pi)
    assert room.svg_path() == room.outer.svg_path()
