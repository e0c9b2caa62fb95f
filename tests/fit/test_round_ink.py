"""The least ellipse round ink, against samples of the same ellipse's support."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.bound import least_scale
from letterfit.fit.round_ink import least_ellipse
from letterfit.outline import Superellipse
from tests.fit.texts import airs

sides = st.floats(0.2, 8)
places = st.lists(st.tuples(st.floats(0, 30), st.floats(0, 20)), min_size=1, max_size=8)


@settings(max_examples=200)
@given(places, sides, sides, airs)
def test_it_is_the_scale_found_on_samples(
    corners: list[tuple[float, float]], a: float, b: float, air: float
) -> None:
    """A superellipse of exponent 2 is the ellipse, and is sampled: points on the axes as well."""
    points = np.array(corners)
    sampled = least_scale(points, Superellipse(half_width=a, half_height=b, exponent=2), air=air)
    scale, angle = least_ellipse(points, a=a, b=b, air=air)
    assert scale == pytest.approx(sampled.scale, rel=1e-8, abs=1e-8)
    reach = (points @ [math.cos(angle), math.sin(angle)]).max() + air
    there = reach / math.hypot(a * math.cos(angle), b * math.sin(angle))
    assert there == pytest.approx(scale, rel=1e-9, abs=1e-12)


def test_ink_in_the_centre_asks_for_its_air_alone() -> None:
    """The short half-side is the air, wide or high."""
    centre = np.zeros((1, 2))
    assert least_ellipse(centre, a=3, b=1, air=2)[0] == pytest.approx(2)
    assert least_ellipse(centre, a=1, b=4, air=2)[0] == pytest.approx(2)


def test_ink_on_the_long_axis_touches_beside_it() -> None:
    """Its air is a disc wider than the ellipse's end: it touches off the axis, unlike no air."""
    ink = np.array([[1.0, 0.0]])
    scale, angle = least_ellipse(ink, a=2, b=1, air=1)
    assert angle > 0.1
    assert scale > (1 + 1) / 2
    assert least_ellipse(ink, a=2, b=1, air=0) == pytest.approx((0.5, 0.0), abs=1e-6)
