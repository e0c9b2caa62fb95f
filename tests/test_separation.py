"""True distances: against closed forms, shapely polygons and dense sampling."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from letterfit.families import FAMILIES
from letterfit.outline import CaptionBox, Ellipse, Floats, Outline, RoundedRect, Superellipse
from letterfit.separation import TOGETHER, clearance, clearances, foremost, gap, supports

TURN = np.linspace(0, 2 * math.pi, 4_001)[:-1]
AGREEMENT = 3e-4
"""A 4,000-gon lies inside its outline by less than this, mm: the tolerance against shapely."""

lengths = st.floats(2, 40)
shares = st.floats(-1.2, 1.2)


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Outlines of every family."""
    a, b = draw(lengths), draw(lengths)
    kind = draw(st.sampled_from(["ellipse", "superellipse", "rounded", "caption"]))
    if kind == "ellipse":
        return Ellipse(half_width=a, half_height=b)
    if kind == "superellipse":
        return Superellipse(half_width=a, half_height=b, exponent=draw(st.floats(1.6, 6)))
    if kind == "rounded":
        return RoundedRect(half_width=a, half_height=b, radius=draw(st.floats(0.05, 1)) * min(a, b))
    return CaptionBox(half_width=a, half_height=b)


def polygon(outline: Outline, dx: float = 0.0, dy: float = 0.0) -> shapely.Polygon:
    """The outline as a polygon of many corners on it, moved."""
    # Normals bunch where the outline is flat: spread the corners by the aspect.
    normals = np.arctan2(outline.half_width * np.sin(TURN), outline.half_height * np.cos(TURN))
    corners = outline.boundary(normals)
    if isinstance(outline, Superellipse):
        corners = np.concatenate([corners, even_corners(outline)])
        corners = corners[np.argsort(np.arctan2(corners[:, 1], corners[:, 0]), kind="stable")]
    return shapely.Polygon(corners + np.array([dx, dy]))


def even_corners(outline: Superellipse) -> Floats:
    """Points of a superellipse in even steps across and down: its flat sides hardly turn."""
    step = np.linspace(0, 1, 1_001)
    other = (1 - step**outline.exponent) ** (1 / outline.exponent)
    quarter = np.concatenate([np.stack([step, other], 1), np.stack([other, step], 1)])
    signs = np.array([[1, 1], [1, -1], [-1, 1], [-1, -1]])
    points = (quarter * signs[:, None]).reshape(-1, 2)
    result: Floats = points * [outline.half_width, outline.half_height]
    return result


def signed_distance(outline: Outline, x: float, y: float) -> float:
    """Distance to the outline's polygon by shapely, negative outside."""
    shape, point = polygon(outline), shapely.Point(x, y)
    distance = float(shape.exterior.distance(point))
    return distance if shape.contains(point) else -distance


@settings(max_examples=25)
@given(outlines(), st.floats(-0.95, 0.95), st.floats(-0.95, 0.95))
def test_clearance_of_a_point_is_its_distance(outline: Outline, u: float, v: float) -> None:
    """Inside and outside alike, it is shapely's distance to a 4,000-gon."""
    x, y = u * outline.half_width, v * outline.half_height
    expected = signed_distance(outline, x, y)
    assert clearance(outline, [[x, y]]) == pytest.approx(expected, abs=AGREEMENT)


@given(
    outlines(),
    st.lists(st.tuples(st.floats(-0.7, 0.7), st.floats(-0.7, 0.7)), min_size=1, max_size=12),
)
def test_clearance_of_many_is_the_least_of_each(
    outline: Outline, places: list[tuple[float, float]]
) -> None:
    """Leaving out points that others exceed never changes the answer."""
    points = np.array(places) * [outline.half_width, outline.half_height]
    each = min(clearance(outline, [point]) for point in points)
    assert clearance(outline, points) == pytest.approx(each, abs=1e-9)


@settings(max_examples=25)
@given(outlines(), st.floats(-0.9, 0.9), st.floats(-0.9, 0.9))
def test_clearance_is_the_least_over_all_directions(outline: Outline, u: float, v: float) -> None:
    """No direction of a dense sample comes under it, and one comes within 1e-6 mm."""
    x, y = u * outline.half_width, v * outline.half_height
    turn = np.linspace(0, 2 * math.pi, 100_001)
    dense = float((outline.support(turn) - x * np.cos(turn) - y * np.sin(turn)).min())
    found = clearance(outline, [[x, y]])
    assert found <= dense + 1e-9
    assert found == pytest.approx(dense, abs=1e-6)


@given(st.lists(st.tuples(outlines(), st.lists(st.tuples(shares, shares), max_size=4)), max_size=6))
def test_clearances_of_many_are_those_of_each(
    several: list[tuple[Outline, list[tuple[float, float]]]],
) -> None:
    """Of all families side by side, with points or none; and the same, whatever else is asked."""
    shapes = [outline for outline, _ in several]
    points = [
        np.array([(u * o.half_width, v * o.half_height) for u, v in own]).reshape(-1, 2)
        for o, own in several
    ]
    rooms = clearances(shapes, points)
    assert rooms == pytest.approx([clearance(*one) for one in zip(shapes, points, strict=True)])
    again = clearances(shapes * TOGETHER, points * TOGETHER)
    assert again == rooms * TOGETHER


@given(st.sampled_from(sorted(FAMILIES)), st.integers(0, 100))
def test_supports_of_many_are_those_of_each(name: str, seed: int) -> None:
    """Stretched outlines share one formula; it gives what each says of itself."""
    rng = np.random.default_rng(seed)
    shapes = [FAMILIES[name].make(a, b) for a, b in rng.uniform(3, 20, (4, 2))]
    t = rng.uniform(0, np.pi / 2, (4, 5))
    each = [outline.support(row) for outline, row in zip(shapes, t, strict=True)]
    np.testing.assert_allclose(supports(shapes, t), each, rtol=1e-12)


def test_clearance_in_a_disc_is_radius_less_distance() -> None:
    """A closed form: 10 less the distance 5 of the corner (3, 4)."""
    disc = Ellipse(half_width=10, half_height=10)
    assert clearance(disc, [[3, 4], [1, 1]]) == pytest.approx(5, abs=1e-12)


def test_clearance_is_not_that_of_the_smaller_ellipse() -> None:
    """The ellipse with half-axes a - m, b - m comes closer than m to the outline."""
    outer, m = Ellipse(half_width=30, half_height=10), 2.0
    t = np.linspace(0, 2 * math.pi, 721)
    inner = np.stack([(30 - m) * np.cos(t), (10 - m) * np.sin(t)], axis=-1)
    assert clearance(outer, inner) < m - 0.05


def test_clearance_of_no_points_is_infinite() -> None:
    """Nothing is as far from the outline as can be."""
    assert clearance(Ellipse(half_width=2, half_height=1), np.empty((0, 2))) == math.inf


@settings(max_examples=25)
@example(
    # Its flat top, seen from above.
    first=Ellipse(half_width=2.0, half_height=2.0),
    second=Superellipse(half_width=4.0, half_height=15.0, exponent=6.0),
    bearing=1.59375,
    far=2.0,
)
@given(outlines(), outlines(), st.floats(0, 2 * math.pi), st.floats(1.01, 3))
def test_gap_between_outlines_apart_is_their_distance(
    first: Outline, second: Outline, bearing: float, far: float
) -> None:
    """Shapely's distance between two 4,000-gons."""
    reach = far * sum(math.hypot(o.half_width, o.half_height) for o in (first, second))
    dx, dy = reach * math.cos(bearing), reach * math.sin(bearing)
    expected = polygon(first).distance(polygon(second, dx, dy))
    assert gap(first, second, dx=dx, dy=dy) == pytest.approx(expected, abs=2 * AGREEMENT)


def test_gap_of_overlapping_discs_is_minus_the_depth() -> None:
    """Discs of 5 whose centres are 8 apart overlap by 2."""
    disc = Ellipse(half_width=5, half_height=5)
    assert gap(disc, disc, dx=8, dy=0) == pytest.approx(-2, abs=1e-12)


@given(outlines(), outlines(), st.floats(-60, 60), st.floats(-60, 60))
def test_gap_is_the_same_seen_from_the_other(
    first: Outline, second: Outline, dx: float, dy: float
) -> None:
    """Exchanging the outlines and turning the offset round changes nothing."""
    there = gap(first, second, dx=dx, dy=dy)
    assert there == pytest.approx(gap(second, first, dx=-dx, dy=-dy), abs=1e-9)


@given(st.lists(st.tuples(st.floats(0, 9), st.floats(0, 9)), max_size=30))
def test_foremost_points_exceed_all_others(points: list[tuple[float, float]]) -> None:
    """Every point is exceeded both ways by one kept, and no kept one by another kept."""
    kept = foremost(np.array(points).reshape(-1, 2))
    for point in points:
        assert np.any(np.all(kept >= point, axis=1))
    for k, point in enumerate(kept):
        others = np.delete(kept, k, axis=0)
        assert not np.any(np.all(others >= point, axis=1))
