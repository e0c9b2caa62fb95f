"""Outline and tail as one contour, against shapely's union of the two."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import Point as Dot
from shapely.geometry import Polygon

from letterfit.drawn.plain_lines import Squared
from letterfit.geometry import Point
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.output.svg.balloon_shape import BUBBLE_GAP_MM, bubbles, contour
from letterfit.output.svg.curves import chain, points_at
from letterfit.place.model import Tail

OUTLINES: tuple[Outline, ...] = (
    Ellipse(half_width=21, half_height=8),
    Superellipse(half_width=14, half_height=9, exponent=2.5),
    RoundedRect(half_width=16, half_height=7, radius=4.2),
    CaptionBox(half_width=16, half_height=5),
)
CENTRE = Point(60.0, 40.0)


def drawn(outline: Outline, tail: Tail | None) -> Polygon:
    """The contour as a polygon."""
    curves = chain(contour(outline, CENTRE, tail))
    return Polygon(points_at(curves, np.arange(48 * len(curves)) / 48))


def tail_at(outline: Outline, turn: float, *, reach: float, lean: float) -> Tail:
    """A tail 3 mm wide that leaves the outline square to it and bends to a side."""
    body = chain(outline.svg_path()) + np.array([CENTRE.x, CENTRE.y])
    dots = points_at(body, np.linspace(0, len(body), 4001))
    along = np.append(0, np.hypot(*np.diff(dots, axis=0).T).cumsum())
    where = turn * along[-1]

    def on(distance: float) -> Point:
        index = int(np.searchsorted(along, distance % along[-1]))
        return Point(float(dots[index, 0]), float(dots[index, 1]))

    middle, before, after = on(where), on(where - 0.5), on(where + 0.5)
    # Both paths run with the sun (y down): the outward normal is a quarter turn against it.
    angle = math.atan2(after.y - before.y, after.x - before.x) - math.pi / 2
    tip = Point(
        middle.x + reach * math.cos(angle + lean), middle.y + reach * math.sin(angle + lean)
    )
    bend = Point(middle.x + reach / 2 * math.cos(angle), middle.y + reach / 2 * math.sin(angle))
    return Tail(root=(on(where - 1.5), on(where + 1.5)), tip=tip, bend=bend)


def wedge(tail: Tail) -> Polygon:
    """The tail alone, tapering evenly along its axis: built here from the definition."""
    start, end = (np.array([p.x, p.y]) for p in tail.root)
    tip = np.array([tail.tip.x, tail.tip.y])
    middle = (start + end) / 2
    bend = (middle + tip) / 2 if tail.bend is None else np.array([tail.bend.x, tail.bend.y])
    t = np.linspace(0, 1, 200)[:, None]
    axis = (1 - t) ** 2 * middle + 2 * t * (1 - t) * bend + t**2 * tip
    half = (1 - t) * (end - start) / 2
    return Polygon(np.concatenate([axis + half, (axis - half)[::-1]])).buffer(0)


@given(
    outline=st.sampled_from(OUTLINES),
    turn=st.floats(0, 1),
    reach=st.floats(5, 25),
    lean=st.floats(-1.3, 1.3),
)
def test_the_contour_is_the_union_of_outline_and_tail(
    outline: Outline, turn: float, reach: float, lean: float
) -> None:
    """However the tail leaves, even along the outline, the contour encloses both, to 0.15 mm2."""
    tail = tail_at(outline, turn, reach=reach, lean=lean)
    body = drawn(outline, None)
    # A hook that bends back to within 2 mm of its own balloon is no tail.
    assume(body.distance(Dot(tail.tip.x, tail.tip.y)) >= 2)
    # A hook that leaves, comes back and leaves again is none either.
    assume(isinstance(wedge(tail).difference(body), Polygon))
    both = body.union(wedge(tail))
    assert isinstance(both, Polygon)
    union = Polygon(both.exterior)  # what the two shut in between them is drawn
    assert drawn(outline, tail).buffer(0).symmetric_difference(union).area < 0.15


@pytest.mark.parametrize("outline", OUTLINES)
def test_without_a_tail_the_contour_is_the_outline_in_its_place(outline: Outline) -> None:
    """The area is the outline's, the middle is the centre."""
    shape = drawn(outline, None)
    assert shape.area == pytest.approx(outline.area_mm2, rel=1e-3)
    assert shape.centroid.distance(Polygon([(60, 40), (60.001, 40), (60, 40.001)])) < 1e-3


def test_the_tip_of_the_tail_is_on_the_contour() -> None:
    """The wedge ends where the tail does."""
    tail = tail_at(OUTLINES[0], 0.3, reach=12, lean=0.2)
    curves = chain(contour(OUTLINES[0], CENTRE, tail))
    assert min(math.dist(p, (tail.tip.x, tail.tip.y)) for p in curves[:, 3]) < 1e-3


def test_a_tail_that_ends_inside_is_not_drawn() -> None:
    """A wedge folded into its own balloon would cut it: the outline stays whole."""
    outline = OUTLINES[0]
    tail = Tail(root=(Point(58.5, 47.9), Point(61.5, 47.9)), tip=Point(61, 44))
    assert contour(outline, CENTRE, tail) == contour(outline, CENTRE)


@given(reach=st.floats(0.1, 40), lean=st.floats(-0.5, 0.5))
def test_bubbles_shrink_and_never_touch(reach: float, lean: float) -> None:
    """From outline to head they get smaller, keep their gaps and stay between the two."""
    root = (Point(-1.5, 0.0), Point(1.5, 0.0))
    tail = Tail(root=root, tip=Point(reach * math.sin(lean), reach * math.cos(lean)))
    drops = bubbles(tail)
    assert [r for _, r in drops] == sorted((r for _, r in drops), reverse=True)
    edge, before = 0.0, Point(0.0, 0.0)
    for centre, radius in drops:
        assert before.distance(centre) - edge - radius >= BUBBLE_GAP_MM * 0.99
        edge, before = radius, centre
    if drops:
        assert before.distance(tail.tip) < reach


def test_machines_have_jagged_tails_inside_the_wedge() -> None:
    """A squared box's tail is a bolt: one contour, slimmer than the wedge, and to the same tip."""
    box = Squared(core=RoundedRect(half_width=16, half_height=8, radius=5))
    root = (Point(CENTRE.x + 2, CENTRE.y + 8), Point(CENTRE.x - 2, CENTRE.y + 8))
    tail = Tail(root=root, tip=Point(CENTRE.x - 3, CENTRE.y + 20))
    shape, body = drawn(box, tail), drawn(box, None)
    assert shape.is_valid
    assert shape.geom_type == "Polygon"
    bolt = shape.difference(body.buffer(1e-6))
    assert bolt.difference(wedge(tail).buffer(1e-6)).area < 1e-3
    assert bolt.area < 0.85 * wedge(tail).area
    assert shape.distance(Dot(tail.tip.x, tail.tip.y)) < 1e-6


def test_short_tails_of_machines_are_plain() -> None:
    """There is no room for a bolt in 5 mm."""
    box = Squared(core=RoundedRect(half_width=16, half_height=8, radius=5))
    root = (Point(CENTRE.x + 2, CENTRE.y + 8), Point(CENTRE.x - 2, CENTRE.y + 8))
    tail = Tail(root=root, tip=Point(CENTRE.x, CENTRE.y + 13))
    added = drawn(box, tail).difference(drawn(box, None).buffer(1e-6))
    assert added.area == pytest.approx(wedge(tail).area, rel=0.01)
