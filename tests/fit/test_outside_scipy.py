"""Clearance and smallest ellipses by scipy, on ways that share nothing with support functions.

The distance from ink to outline is the least from its corners to points of the curve, found along
the curve. The smallest ellipse round ink at any aspect is a corner of a polygon: in the squares of
its half-axes, A and B, what a direction asks is a half-plane, A cos^2 t + B sin^2 t >= H(t)^2 (the
support of an ellipse; Boyd and Vandenberghe, Convex Optimization, section 2.3), the aspect's range
is two more, and log A + log B, being concave, is least at a vertex of what they leave.
"""

import math
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar
from scipy.spatial import HalfspaceIntersection

from letterfit.fit.dressing import first_fit_into, fit_words, fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.fit.polish import smallest_outline
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse, Floats, Superellipse
from letterfit.separation import clearance
from tests.fit.texts import ink_polygons
from tests.plays import play_names, speeches

RIGHT = 1e-3
"""mm: what a clearance may be off, on the safe side."""

TURN = np.linspace(0, math.pi / 2, 2001)
MOST = 1e7
"""mm2: larger than the square of any half-axis here."""


def distance_along(curve: Ellipse | Superellipse, x: float, y: float) -> float:
    """The least distance from a point to points of the curve |x/a|^n + |y/b|^n = 1, by scipy."""
    power = 1.0 if isinstance(curve, Ellipse) else 2 / curve.exponent

    def distance(s: float) -> float:
        across = curve.half_width * math.cos(s) ** power
        down = curve.half_height * math.sin(s) ** power
        return math.hypot(across - abs(x), down - abs(y))

    steps = np.linspace(0, math.pi / 2, 41).tolist()
    near = min(range(41), key=lambda k: distance(steps[k]))
    ends = steps[max(near - 1, 0)], steps[min(near + 1, 40)]
    found = minimize_scalar(distance, bounds=ends, method="bounded", options={"xatol": 1e-10})
    return min(float(found.fun), *map(distance, ends))


@cache
def dialogue() -> tuple[Words, ...]:
    """A speech of each of some plays, measured in the bundled typeface."""
    return tuple(measure(speeches(play)[60].text, Lettering()) for play in play_names()[::4])


def corners(words: Words, balloon: FittedBalloon) -> Floats:
    """The corners of all ink boxes where the balloon's lines put them."""
    boxes = ink_polygons(words, balloon).geoms
    return np.unique(np.concatenate([np.array(box.exterior.coords) for box in boxes]), axis=0)


@pytest.mark.parametrize("name", ["ellipse", "superellipse"])
def test_the_clearance_of_real_ink_is_its_distance(name: str) -> None:
    """Every glyph of a balloon: the clearance told is right to 0.001 mm and never too great."""
    for words in dialogue():
        found = fit_words(words, outline=name)
        assert found.clearance_mm >= 1.2
        check_clearance(words, found)


def test_the_clearance_in_given_outlines_is_the_distance() -> None:
    """In an ellipse with room to spare, by total fit and by first fit."""
    for words in dialogue():
        roomy = fit_words(words).outline.scaled(1.3)
        for fit in (fit_words_into, first_fit_into):
            check_clearance(words, fit(words, roomy))


def check_clearance(words: Words, balloon: FittedBalloon) -> None:
    """The balloon's clearance is its ink's, to 0.001 mm on the safe side."""
    outline = balloon.outline
    assert isinstance(outline, Ellipse | Superellipse)
    points = corners(words, balloon)
    scaled = np.abs(points / [outline.half_width, outline.half_height])
    far = points[np.argsort(-(scaled**2).sum(axis=1))[:16]]
    least = min(distance_along(outline, x, y) for x, y in far.tolist())
    assert least - RIGHT <= balloon.clearance_mm <= least + 1e-9


@settings(max_examples=60)
@given(
    st.sampled_from([0.0, 1.5, 2.5, 6.0]), st.floats(3, 40), st.floats(2, 20), st.floats(0.05, 0.95)
)
def test_the_clearance_of_a_point_is_its_distance(
    exponent: float, half_width: float, half_height: float, share: float
) -> None:
    """Ellipses and superellipses of many forms, points from near the centre to near the curve."""
    curve = (
        Superellipse(half_width=half_width, half_height=half_height, exponent=exponent)
        if exponent
        else Ellipse(half_width=half_width, half_height=half_height)
    )
    x, y = share * 0.7 * half_width, share * 0.65 * half_height
    assert clearance(curve, [[x, y]]) == pytest.approx(distance_along(curve, x, y), abs=1e-6)


def least_ellipse(points: Floats, *, air: float, aspects: tuple[float, float]) -> float:
    """The area of the least ellipse round points and air, its aspect free, by Qhull."""
    reach = (np.abs(points) @ np.stack([np.cos(TURN), np.sin(TURN)])).max(axis=0) + air
    low, high = aspects
    # Each row (p, q, r) is p A + q B + r <= 0.
    asked = np.stack([-(np.cos(TURN) ** 2), -(np.sin(TURN) ** 2), reach**2], axis=1)
    ends = [[-1.0, low**2, 0.0], [1.0, -(high**2), 0.0], [1.0, 0.0, -MOST], [0.0, 1.0, -MOST]]
    middle = MOST / 4 / high**2
    inside = np.array([middle * math.sqrt(low * high) ** 2, middle])
    vertices = HalfspaceIntersection(np.concatenate([asked, ends]), inside).intersections
    return float(math.pi * np.sqrt(vertices.prod(axis=1)).min())


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.floats(0.5, 30), st.floats(0.5, 20)), min_size=1, max_size=8),
    st.sampled_from([0.0, 0.4, 1.2, 3.0]),
    st.sampled_from([(1.0, 2.6), (0.3, 6.0), (0.9, 1.1)]),
)
def test_the_smallest_ellipse_is_a_vertex(
    places: list[tuple[float, float]], air: float, aspects: tuple[float, float]
) -> None:
    """Round any points, with any air: the area to 1e-6, from 2,001 half-planes."""
    points = np.array(places)
    found = smallest_outline(points, "ellipse", aspects=aspects, air=air)
    expected = least_ellipse(points, air=air, aspects=aspects)
    assert found.area_mm2 == pytest.approx(expected, rel=1e-6)


def test_the_balloon_of_a_speech_is_the_least_round_its_ink() -> None:
    """The smallest balloon's own stack, by scipy, is as small as it says."""
    for words in dialogue():
        found = fit_words(words, slack=0)
        expected = least_ellipse(corners(words, found), air=1.2, aspects=(1.0, 2.6))
        assert found.area_mm2 == pytest.approx(expected, rel=1e-6)
