"""The outline of two joined balloons, held against shapely's polygons and closed forms.

Shapely (GEOS) knows neither ellipses nor superellipses: each balloon is a polygon of 20,000 corners
on the curve, whose area is short by under 1e-7 of itself.
"""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from letterfit.errors import OutlineError
from letterfit.joined_outline import Joined
from letterfit.outline import CaptionBox, Ellipse, Outline, Superellipse
from letterfit.output.svg.curves import chain, points_at

CORNERS = 20_000

sides = st.floats(5, 40)


@st.composite
def balloons(draw: st.DrawFn) -> Outline:
    """Ellipses and superellipses of letterers' aspects and beyond."""
    width, height = draw(sides), draw(sides)
    if draw(st.booleans()):
        return Ellipse(half_width=width, half_height=height)
    exponent = draw(st.floats(1.5, 5))
    return Superellipse(half_width=width, half_height=height, exponent=exponent)


def polygon(outline: Outline, x: float, y: float) -> shapely.Polygon:
    """The outline about (x, y), its corners on the curve, by the curve's own equation."""
    n = outline.exponent if isinstance(outline, Superellipse) else 2.0
    turn = np.linspace(0, 2 * math.pi, CORNERS, endpoint=False)
    cos, sin = np.cos(turn), np.sin(turn)
    across = outline.half_width * np.sign(cos) * np.abs(cos) ** (2 / n)
    down = outline.half_height * np.sign(sin) * np.abs(sin) ** (2 / n)
    return shapely.Polygon(np.stack([x + across, y + down], axis=-1))


def union_of(joined: Joined) -> BaseGeometry:
    """The union by shapely, in the union's own frame."""
    above, below = joined.upper_centre, joined.lower_centre
    return polygon(joined.upper, above.x, above.y) | polygon(joined.lower, below.x, below.y)


@settings(max_examples=40)
@given(st.data())
def test_the_area_is_that_of_shapelys_union(data: st.DataObject) -> None:
    """Both families, all offsets with two crossings: within 1e-6 of the polygons' union."""
    joined = drawn(data)
    assert joined.area_mm2 == pytest.approx(union_of(joined).area, rel=1e-6)


def drawn(data: st.DataObject) -> Joined:
    """A union; one whose outlines happen not to cross twice is put a little nearer."""
    upper, lower = data.draw(balloons()), data.draw(balloons())
    turn = data.draw(st.floats(0.3, 2.8))
    reach = (upper.half_width + lower.half_width, upper.half_height + lower.half_height)
    for near in (0.9, 0.75, 0.6, 0.5, 0.4, 0.3):
        dx, dy = near * reach[0] * math.cos(turn), near * reach[1] * math.sin(turn)
        try:
            return Joined(upper=upper, lower=lower, dx=dx, dy=dy)
        except OutlineError:
            continue
    return Joined(upper=upper, lower=upper, dx=upper.half_width, dy=upper.half_height / 2)


def test_two_discs_have_the_lens_of_the_textbook() -> None:
    """Union of discs of radius r at distance d: 2 pi r^2 less the lens (Weisstein, from memory)."""
    radius, apart = 7.0, 9.0
    disc = Ellipse(half_width=radius, half_height=radius)
    joined = Joined(upper=disc, lower=disc, dx=0.0, dy=apart)
    lens = 2 * radius**2 * math.acos(apart / 2 / radius)
    lens -= apart / 2 * math.sqrt(4 * radius**2 - apart**2)
    assert joined.area_mm2 == pytest.approx(2 * math.pi * radius**2 - lens, rel=1e-13)
    assert joined.neck_mm == pytest.approx(2 * math.sqrt(radius**2 - apart**2 / 4), rel=1e-12)


@settings(max_examples=25)
@given(st.data())
def test_distances_are_shapelys(data: st.DataObject) -> None:
    """From points inside, the neck's included, to the union's outline; outside it is negative."""
    joined = drawn(data)
    union = union_of(joined)
    neck = np.mean([[p.x, p.y] for p in joined.crossings], axis=0)
    above = joined.upper_centre
    for share in (0.0, 0.3, 0.8, 1.0):
        x = above.x + share * (neck[0] - above.x)
        y = above.y + share * (neck[1] - above.y)
        expected = union.boundary.distance(shapely.Point(x, y))
        assert joined.clearance([[x, y]]) == pytest.approx(expected, abs=2e-4)
    far = [joined.half_width + 3, joined.half_height + 2]
    expected = union.distance(shapely.Point(far))
    assert joined.clearance([neck, far]) == pytest.approx(-expected, abs=2e-4)
    assert joined.clearance(np.zeros((0, 2))) == math.inf


def test_the_distance_of_the_neck_is_to_a_crossing() -> None:
    """In the lens neither balloon's own outline counts: the union's is farther, and true."""
    disc = Ellipse(half_width=5, half_height=5)
    joined = Joined(upper=disc, lower=disc, dx=8, dy=0)
    assert joined.clearance([[0, 0]]) == pytest.approx(3.0, abs=1e-9)


@settings(max_examples=8)
@given(st.data())
def test_the_path_is_one_closed_contour_on_the_outline(data: st.DataObject) -> None:
    """Few curves, and its dots lie on shapely's outline to 0.2 % of its size."""
    joined = drawn(data)
    path = joined.svg_path()
    curves = chain(path)
    dots = points_at(curves, np.linspace(0, len(curves), 400, endpoint=False))
    exterior = union_of(joined).boundary
    size = max(joined.half_width, joined.half_height)
    off = shapely.distance(exterior, shapely.points(dots)).max()
    assert path.count("M") == path.count("Z") == 1
    assert path.count("C") + path.count("A") <= 34
    assert off < 2e-3 * size


def test_ellipses_are_drawn_by_two_arcs() -> None:
    """Exact: no curve of the union of two ellipses is approximated."""
    oval = Ellipse(half_width=15, half_height=8)
    path = Joined(upper=oval, lower=oval, dx=9, dy=13).svg_path()
    assert (path.count("A"), path.count("C"), path.count("L")) == (2, 0, 0)


@settings(max_examples=25)
@given(st.data(), st.floats(0.2, 5))
def test_scaling_scales_everything(data: st.DataObject, factor: float) -> None:
    """Lengths by the factor, the area by its square."""
    joined = drawn(data)
    large = joined.scaled(factor)
    assert large.area_mm2 == pytest.approx(joined.area_mm2 * factor**2, rel=1e-9)
    assert large.neck_mm == pytest.approx(joined.neck_mm * factor, rel=1e-9)
    assert large.half_width == pytest.approx(joined.half_width * factor)


@settings(max_examples=8)
@given(st.data())
def test_support_and_containment_are_the_unions(data: st.DataObject) -> None:
    """The support is that of shapely's hull; a point is inside where shapely says so."""
    joined = drawn(data)
    union = union_of(joined)
    turn = np.linspace(0, 2 * math.pi, 37)
    corners = np.array(union.convex_hull.boundary.coords)
    expected = (corners @ np.stack([np.cos(turn), np.sin(turn)])).max(axis=0)
    assert joined.support(turn) == pytest.approx(expected, rel=1e-5, abs=1e-5)
    for x in np.linspace(-1, 1, 9) * joined.half_width:
        dot = shapely.Point(x, 0.31 * joined.half_height)
        if union.boundary.distance(dot) > 1e-3:
            assert joined.contains(dot.x, dot.y) == union.contains(dot)


def test_the_frame_is_the_middle_of_the_box() -> None:
    """The union's box is symmetric about its own origin."""
    upper, lower = (Ellipse(half_width=a, half_height=9) for a in (20, 12))
    joined = Joined(upper=upper, lower=lower, dx=14, dy=15)
    left, top, right, bottom = union_of(joined).bounds
    assert (left, top) == pytest.approx((-right, -bottom), abs=1e-5)
    assert joined.half_width == pytest.approx(right, abs=1e-5)


@pytest.mark.parametrize(
    ("dx", "dy"), [(50.0, 0.0), (0.0, 0.0), (math.nan, 1.0), (1.0, math.inf), (41.0, 0.0)]
)
def test_what_does_not_cross_twice_is_refused(dx: float, dy: float) -> None:
    """Apart, one on the other, or nowhere."""
    oval = Ellipse(half_width=20, half_height=10)
    with pytest.raises(OutlineError):
        Joined(upper=oval, lower=oval, dx=dx, dy=dy)


def test_a_cross_is_refused() -> None:
    """Two outlines that cross four times have no neck."""
    wide, tall = Ellipse(half_width=20, half_height=6), Ellipse(half_width=6, half_height=20)
    with pytest.raises(OutlineError):
        Joined(upper=wide, lower=tall, dx=0, dy=1)


def test_a_caption_is_refused() -> None:
    """Only ellipses and superellipses are joined."""
    box, oval = (kind(half_width=9, half_height=5) for kind in (CaptionBox, Ellipse))
    with pytest.raises(OutlineError, match="caption"):
        Joined(upper=oval, lower=box, dx=5, dy=8)
