"""One stack's smallest outline over a range of aspects."""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.polish import asked, smallest_outline
from tests.fit.texts import airs, names, sampled_area

IDENTITIES: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "data" / "geometry_identities.json").read_text()
)
inks = st.lists(st.tuples(st.floats(0.5, 30), st.floats(0.5, 20)), min_size=1, max_size=6)
ranges = st.sampled_from([(1.0, 2.6), (0.4, 3.0), (1.0, 14.0), (1.7, 1.7), (0.3, 0.8)])


@settings(max_examples=20)
@given(inks, names, airs, ranges)
def test_no_sampled_aspect_is_better(
    places: list[tuple[float, float]], name: str, air: float, aspects: tuple[float, float]
) -> None:
    """Neither 400 aspects over the range nor 200 near the answer give less area."""
    points = np.array(places)
    outline = smallest_outline(points, name, aspects=aspects, air=air)
    wide = np.geomspace(*aspects, 400)
    near = np.clip(outline.aspect * np.geomspace(0.98, 1.02, 201), *aspects)
    assert aspects[0] * (1 - 1e-9) <= outline.aspect <= aspects[1] * (1 + 1e-9)
    for grid in (wide, near):
        best = sampled_area(points, name, air=air, aspects=grid)
        assert outline.area_mm2 <= best * (1 + 1e-6)


@settings(max_examples=20)
@given(inks, names, airs)
def test_where_to_look_first_changes_nothing(
    places: list[tuple[float, float]], name: str, air: float
) -> None:
    """A hint about the best aspect, right or wrong, leads to the same area."""
    points = np.array(places)
    plain = smallest_outline(points, name, aspects=(1.0, 5.0), air=air).area_mm2
    for near in ((1.0, 1.1), (2.0, 2.01), (4.9, 5.0)):
        hinted = smallest_outline(points, name, aspects=(1.0, 5.0), air=air, near=near)
        assert hinted.area_mm2 == pytest.approx(plain, rel=1e-9)


@given(inks, names, airs, st.floats(0.2, 2))
def test_the_slope_is_the_derivative(
    places: list[tuple[float, float]], name: str, air: float, log_aspect: float
) -> None:
    """Between the slopes at two near aspects lies the difference quotient, up to its curvature."""
    points = np.array(places)
    left = asked(points, name, log_aspect=log_aspect, air=air)
    right = asked(points, name, log_aspect=log_aspect + 1e-4, air=air)
    quotient = (right.log_area - left.log_area) / 1e-4
    low, high = sorted((left.slope, right.slope))
    assert low - 1e-3 <= quotient <= high + 1e-3


@pytest.mark.parametrize("case", IDENTITIES["min_circumscribed_ellipse_of_rect"])
def test_least_ellipse_round_a_rectangle(case: dict[str, float]) -> None:
    """Its area is pi w h / 2, its aspect the rectangle's (geometry_identities.json)."""
    corner = np.array([[case["w"] / 2, case["h"] / 2]])
    outline = smallest_outline(corner, "ellipse", aspects=(0.2, 9.0), air=0.0)
    assert outline.area_mm2 == pytest.approx(case["area"], rel=1e-9)
    assert outline.half_width == pytest.approx(case["a"], rel=1e-4)


def test_a_box_is_its_ink_and_air() -> None:
    """The least box round a corner is as wide and high as the corner and its air."""
    outline = smallest_outline(np.array([[10.0, 3.0]]), "caption", aspects=(1.0, 14.0), air=1.0)
    assert outline.half_width == pytest.approx(11, rel=1e-9)
    assert outline.half_height == pytest.approx(4, rel=1e-9)
    assert outline.area_mm2 == pytest.approx(4 * 11 * 4, rel=1e-9)


def test_rounded_rectangles_with_two_valleys_are_searched_whole() -> None:
    """A rounded rectangle whose area has a local least at aspect 1 and a lower one beyond."""
    points = np.array([[9.3, 3.9], [8.0, 6.7], [4.1, 9.5]])
    outline = smallest_outline(points, "rounded", aspects=(1.0, 3.2), air=1.2)
    best = sampled_area(points, "rounded", air=1.2, aspects=np.geomspace(1, 3.2, 3000))
    assert outline.area_mm2 <= best * (1 + 1e-7)
    assert math.isfinite(outline.area_mm2)
