"""Tails taken off outlines: the body that is left, against the outline before the tail was on."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.existing.rings import is_inside
from letterfit.existing.shapes import path_pen
from letterfit.existing.tails import without_tails
from letterfit.families import FAMILIES
from letterfit.geometry import Point
from letterfit.outline import CaptionBox, Ellipse, Floats, Outline, RoundedRect, Superellipse
from letterfit.output.svg.balloon_shape import contour
from letterfit.place.model import Tail

CENTRE = Point(30, 30)


def ring(path: str) -> Floats:
    """The polygon of path data of one contour."""
    pen = path_pen(path)
    assert pen is not None
    chain = pen.chain()
    assert chain is not None
    (only,) = chain.polygons()
    return only


@st.composite
def tailed(draw: st.DrawFn) -> tuple[Outline, Tail]:
    """An outline and a tail that leaves it squarely, 5 to 30 mm long, straight or bent."""
    wide, high = draw(st.floats(6, 25)), draw(st.floats(5, 15))
    outline = draw(
        st.sampled_from(
            [
                Ellipse(half_width=wide, half_height=high),
                Superellipse(half_width=wide, half_height=high, exponent=2.5),
                RoundedRect(half_width=wide, half_height=high, radius=2),
                CaptionBox(half_width=wide, half_height=high),
            ]
        )
    )
    angle = draw(st.floats(0.35, np.pi - 0.35))  # from the lower half, not at a corner's very end
    middle = outline.boundary(np.array([angle]))[0]
    out = np.array([np.cos(angle), np.sin(angle)])
    if isinstance(outline, CaptionBox | RoundedRect):  # from their floor: corners have no tails
        middle = np.array([draw(st.floats(-0.3, 0.3)) * wide, high])
        out = np.array([0.0, 1.0])
    along = np.array([-out[1], out[0]])
    half = draw(st.floats(1, 2))
    spots = [CENTRE, *(Point(*(np.array([30, 30]) + middle + s * half * along)) for s in (1, -1))]
    reach = draw(st.floats(5, 30))
    tip = np.array([30, 30]) + middle + reach * out
    bend = None
    if draw(st.booleans()):
        sway = draw(st.floats(-0.2, 0.2)) * reach
        bend = Point(*(np.array([30, 30]) + middle + reach / 2 * out + sway * along))
    return outline, Tail(root=(spots[1], spots[2]), tip=Point(*tip), bend=bend)


@given(tailed())
@settings(max_examples=40, deadline=None)
def test_the_body_is_the_outline_before_its_tail(case: tuple[Outline, Tail]) -> None:
    """Within 0.1 mm for a curve, even at its sharp end, and a hundredth of its area."""
    outline, tail = case
    body = shapely.Polygon(without_tails(ring(contour(outline, CENTRE, tail))))
    bare = shapely.Polygon(ring(contour(outline, CENTRE)))
    assert body.symmetric_difference(bare).area <= 0.01 * bare.area
    if isinstance(outline, Ellipse | Superellipse):
        assert body.hausdorff_distance(bare) <= 0.1


@pytest.mark.parametrize("family", sorted(FAMILIES))
def test_an_outline_without_a_tail_stays_as_it_is(family: str) -> None:
    """Lobes of clouds and points of bursts are no tails."""
    bare = ring(contour(FAMILIES[family].within(16, 9), CENTRE))
    body = without_tails(bare)
    assert shapely.Polygon(body).area == pytest.approx(shapely.Polygon(bare).area)


@pytest.mark.parametrize("family", ["burst", "cloud"])
def test_no_lettering_is_cut_off(family: str) -> None:
    """Of a jagged outline with a tail all ink stays in the body, a millimetre from the core."""
    outline = FAMILIES[family].within(16, 9)
    tail = Tail(root=(Point(27, 36), Point(31, 36)), tip=Point(24, 60))
    core = shapely.Polygon(ring(contour(outline.core, CENTRE)))
    ink = np.array(core.buffer(-1).exterior.coords)
    body = without_tails(ring(contour(outline, CENTRE, tail)), ink)
    assert is_inside(ink, [body]).all()


def test_two_tails_come_off() -> None:
    """A balloon that two speak."""
    box = "M10 10H40V25H30L28 40L26 25H18L14 38L15 25H10Z"
    body = without_tails(ring(box))
    assert body[:, 1].max() == 25
    assert shapely.Polygon(body).area == pytest.approx(30 * 15)


def test_a_tail_between_joined_balloons_comes_off() -> None:
    """It lies inside the hull of the two, and is told by its length."""
    upper = shapely.Point(30, 20).buffer(12, quad_segs=64)
    lower = shapely.Point(30, 41).buffer(12, quad_segs=64)
    tail = shapely.Polygon([(20, 24), (22, 28), (8, 31)])
    joined = upper.union(lower)
    whole = shapely.get_exterior_ring(joined.union(tail))
    body = without_tails(shapely.get_coordinates(whole)[:-1])
    assert shapely.Polygon(body).symmetric_difference(joined).area < 0.5


def test_a_part_with_lettering_is_no_tail() -> None:
    """Words in a pointed part keep it on."""
    box = ring("M10 10H40V25H30L25 60L20 25H10Z")
    assert without_tails(box)[:, 1].max() == 25
    assert without_tails(box, np.array([[25.0, 40.0]]))[:, 1].max() == 60
