"""Chords of the room that an outline leaves inside its air."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import unit_outline
from letterfit.fit.chords import Chords
from letterfit.outline import Ellipse, RoundedRect
from tests.fit.texts import names, polygon


@pytest.mark.parametrize("share", [0.0, 0.3, 0.9, 0.999, 0.999999])
def test_chords_of_an_ellipse_are_those_of_its_equation(share: float) -> None:
    """Without air both chords have a closed form, to 1e-8 mm even at the tip."""
    chords = Chords(Ellipse(half_width=60, half_height=20), 0.0)
    rest = math.sqrt(1 - share**2)
    assert chords.band(-20 * share, 0.0) == pytest.approx(60 * rest, abs=1e-8)
    assert chords.half_height_at(60 * share) == pytest.approx(20 * rest, abs=1e-8)


@settings(max_examples=40)
@given(names, st.floats(0.6, 3), st.floats(3, 20), st.floats(0, 0.4), st.floats(0, 0.95))
def test_chords_with_air_are_those_of_the_inner_parallel_body(
    name: str, aspect: float, half_height: float, air_share: float, place: float
) -> None:
    """Shapely's negative buffer of the outline, cut by a line across and by one upright."""
    outline = unit_outline(name, aspect).scaled(half_height)
    air = air_share * min(outline.half_width, outline.half_height)
    room = polygon(outline, corners=4000).buffer(-air, quad_segs=64)
    chords = Chords(outline, air)
    y, x = place * (outline.half_height - air), place * (outline.half_width - air)
    across = room.intersection(shapely.LineString([(-99, y), (99, y)])).length / 2
    upright = room.intersection(shapely.LineString([(x, -99), (x, 99)])).length / 2
    assert chords.band(y, 0.0) == pytest.approx(across, abs=2e-3)
    assert chords.half_height_at(x) == pytest.approx(upright, abs=2e-3)


def test_a_band_is_as_wide_as_at_its_edge_farther_from_the_centre() -> None:
    """Over and under the centre alike, and whichever edge it is."""
    chords = Chords(Ellipse(half_width=30, half_height=20), 1.0)
    for top, height, edge in ((-15.0, 3.0, -15.0), (4.0, 3.0, 7.0), (-2.0, 5.0, 3.0)):
        assert chords.band(top, height) == chords.band(edge, 0.0)
    assert np.isneginf(chords.band(16.5, 3.0))


def test_the_sides_of_a_box_are_exact() -> None:
    """Up to its very top a box is as wide as it is."""
    chords = Chords(RoundedRect(half_width=5, half_height=9, radius=0), 0.0)
    assert chords.band(-9.0, 18.0) == pytest.approx(5, rel=1e-12)
    assert chords.half_height_at(5.0) == pytest.approx(9, rel=1e-12)
