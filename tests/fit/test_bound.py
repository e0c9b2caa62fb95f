"""The exact scale of an outline round ink."""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import unit_outline
from letterfit.fit.bound import least_scale
from letterfit.separation import clearance
from tests.fit.texts import airs, names, polygon

IDENTITIES: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "data" / "geometry_identities.json").read_text()
)
some_points = st.lists(st.tuples(st.floats(0, 30), st.floats(0, 20)), min_size=1, max_size=8)


@given(some_points, names, airs, st.floats(0.5, 8))
def test_clearance_at_the_least_scale_is_the_air(
    places: list[tuple[float, float]], name: str, air: float, aspect: float
) -> None:
    """The other way round: the true distance in the outline found is the air asked for."""
    points = np.array(places) + 0.01
    unit = unit_outline(name, aspect)
    touch = least_scale(points, unit, air=air)
    assert clearance(unit.scaled(touch.scale), points) == pytest.approx(air, abs=1e-6)


@settings(max_examples=20)
@given(some_points, names, st.floats(0.3, 3), st.floats(0.5, 5))
def test_shapely_measures_the_same_air(
    places: list[tuple[float, float]], name: str, air: float, aspect: float
) -> None:
    """Discs of air round the points touch a 4,000-gon of the outline, to 0.001 mm."""
    points = np.array(places) + 0.01
    unit = unit_outline(name, aspect)
    shape = polygon(unit.scaled(least_scale(points, unit, air=air).scale), corners=4000)
    import shapely  # noqa: PLC0415 - only this test

    least = min(shape.exterior.distance(shapely.Point(*p)) for p in points.tolist())
    assert least == pytest.approx(air, abs=1e-3)


@pytest.mark.parametrize("case", IDENTITIES["min_circumscribed_ellipse_of_rect"])
def test_ellipse_round_a_rectangle(case: dict[str, float]) -> None:
    """The least ellipse round a rectangle has half-axes w/sqrt 2, h/sqrt 2 (elementary)."""
    corner = np.array([[case["w"] / 2, case["h"] / 2]])
    touch = least_scale(corner, unit_outline("ellipse", case["w"] / case["h"]), air=0.0)
    assert touch.scale == pytest.approx(case["b"], rel=1e-12)


def test_a_disc_of_air_needs_distance_plus_air() -> None:
    """Round the corner (3, 4) with air 1 the disc has radius 6, touched in its direction."""
    touch = least_scale(np.array([[3.0, 4.0]]), unit_outline("ellipse", 1.0), air=1.0)
    assert touch.scale == pytest.approx(6.0, rel=1e-12)
    assert touch.angle == pytest.approx(math.atan2(4, 3), abs=1e-6)


def test_a_box_needs_its_sides() -> None:
    """A caption's side distance is the air: 10 + 2 across decides over 1 + 2 down."""
    touch = least_scale(np.array([[10.0, 1.0]]), unit_outline("caption", 2.0), air=2.0)
    assert touch.scale == pytest.approx(6.0, rel=1e-12)
