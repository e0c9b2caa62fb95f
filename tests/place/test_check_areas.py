"""Areas of the checker against shapely: cut by the border, shared by joined balloons, of tails."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, union_all
from shapely.affinity import translate

from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Whisper
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.check_areas import area_inside, cut_level, outside, polygon_area, shared_inside
from letterfit.place.check_claims import COVERAGE_TOLERANCE, wrong_claims
from letterfit.place.check_tails import slices
from letterfit.place.model import PlacedOutline, Tail
from tests.place.hand_made import hand_made, joint
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(-40, 0, 120, 60)
FRAME = box(PANEL.x, PANEL.y, PANEL.right, PANEL.bottom)


def at(outline: Outline, x: float, y: float, *, over: float = 0.0) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=0, choice=0, outline=outline, x_mm=x, y_mm=y, overhang_mm=over)


@given(outlines, st.floats(-1.2, 1.2))
@settings(max_examples=60, deadline=None)
def test_area_below_the_border_is_shapelys(outline: Outline, share: float) -> None:
    """Cut anywhere, or not at all, or gone altogether."""
    item = at(outline, 10, share * outline.half_height)
    expected = outline_polygon(item).intersection(FRAME).area
    # Its 2,880 corners lie on the outline: the polygon is smaller by 1e-5 of the area at most.
    assert area_inside(PANEL, item) == pytest.approx(expected, abs=1e-5 * outline.area_mm2)


@given(outlines, outlines, st.floats(-1, 1), st.floats(0.2, 3), st.floats(-0.5, 1.5))
@settings(max_examples=60, deadline=None)
def test_area_that_two_share_is_shapelys(
    first: Outline, second: Outline, side: float, overlap: float, high: float
) -> None:
    """The lens of a joined pair, whole or cut by the border."""
    one = at(first, 10, high * first.half_height)
    across = side * (first.half_width + second.half_width - overlap)
    two = joint(one, second, dx=across, overlap_mm=overlap)
    lens = outline_polygon(one).intersection(outline_polygon(two)).intersection(FRAME)
    assert shared_inside(PANEL, one, two) == pytest.approx(lens.area, abs=1e-2)


def test_area_of_what_does_not_meet_is_none() -> None:
    """Apart, or shared above the border only."""
    disc = Ellipse(half_width=5, half_height=5)
    assert shared_inside(PANEL, at(disc, 0, 10), at(disc, 12, 10)) == 0
    assert shared_inside(PANEL, at(disc, 0, -6), at(disc, 5, -6)) == 0


def _drawn(cloud: Cloud, x: float, y: float) -> Polygon:
    """A cloud as drawn: a fine polygon of its line, found by where each ray leaves it."""
    corners = []
    for t in np.linspace(0, 2 * math.pi, 360, endpoint=False):
        low, high = 0.0, 60.0
        for _ in range(16):
            middle = (low + high) / 2
            holds = cloud.contains(middle * math.cos(t), middle * math.sin(t))
            low, high = (middle, high) if holds else (low, middle)
        corners.append((x + low * math.cos(t), y + low * math.sin(t)))
    return Polygon(corners)


def test_line_round_a_core_is_measured_as_drawn() -> None:
    """A cloud that hangs over, and two joined: the line counts, not its hull."""
    cloud = Cloud(core=Ellipse(half_width=16, half_height=9), lobes=16)
    item = at(cloud, 10, 8)
    line = _drawn(cloud, 10, 8)
    expected = line.intersection(FRAME).area
    assert area_inside(PANEL, item) == pytest.approx(expected, abs=0.3)
    assert area_inside(PANEL, at(cloud, 10, 30)) == cloud.area_mm2
    lens = line.intersection(translate(line, 10, 14)).intersection(FRAME).area
    assert lens > 20
    assert shared_inside(PANEL, item, at(cloud, 20, 22)) == pytest.approx(lens, abs=0.3)


def test_dashed_line_is_its_outline() -> None:
    """A whisper covers what its line encloses."""
    shape = Ellipse(half_width=16, half_height=9)
    item = at(Whisper(core=shape), 10, 5)
    assert area_inside(PANEL, item) == pytest.approx(area_inside(PANEL, at(shape, 10, 5)), abs=0.3)


TAILS = {
    "straight": Tail(root=(Point(8, 18.7), Point(12, 18.7)), tip=Point(16, 34)),
    "bent": Tail(root=(Point(8, 18.7), Point(12, 18.7)), tip=Point(34, 40), bend=Point(12, 40)),
    "through the floor": Tail(root=(Point(8, 18.7), Point(12, 18.7)), tip=Point(10, 70)),
    "wound": Tail(root=(Point(8, 18.7), Point(12, 18.7)), tip=Point(30, 30), bend=Point(-9, 46)),
    "folded": Tail(root=(Point(8, 18.7), Point(12, 18.7)), tip=Point(-14, 15), bend=Point(2, 6)),
}


@pytest.mark.parametrize("name", TAILS)
def test_tail_outside_its_balloon_is_shapelys(name: str) -> None:
    """The union of the wedge's pieces, once where they lie on each other, inside the panel."""
    item = at(Ellipse(half_width=16, half_height=9), 10, 10)
    quads = slices(TAILS[name])
    wedge = union_all([Polygon(quad).convex_hull for quad in quads]).intersection(FRAME)
    expected = wedge.difference(outline_polygon(item)).area
    assert expected > 1
    # Off by a share of the slice's height to the power of 1.5: the balloon's end is round.
    deep = quads[..., 1].max() - quads[..., 1].min()
    assert outside(PANEL, item, quads) == pytest.approx(expected, abs=0.03 * (deep / 20) ** 1.5)


def test_tail_above_the_panel_covers_nothing_of_it() -> None:
    """Nothing inside the panel, nothing covered."""
    quads = slices(Tail(root=(Point(8, -18), Point(12, -18)), tip=Point(10, -30)))
    assert outside(PANEL, at(CaptionBox(half_width=5, half_height=2), 10, -17), quads) == 0


@given(
    st.lists(outlines, min_size=2, max_size=2),
    st.floats(-1, 1),
    st.floats(0, 0.8),
    st.sampled_from([1.0, 1.02, 0.98]),
)
@settings(max_examples=40, deadline=None)
def test_claim_of_coverage_is_held_to_the_union(
    shapes: list[Outline], side: float, hangs: float, wrong: float
) -> None:
    """A joined pair that hangs over: shapely's union passes, 2 % more or less of it does not."""
    one = at(shapes[0], 10, (1 - hangs) * shapes[0].half_height, over=hangs)
    across = side * (shapes[0].half_width + shapes[1].half_width - 1)
    two = joint(one, shapes[1], dx=across, overlap_mm=1)
    panel = Rect(-40, 0, 100, 45)
    layout = hand_made(panel, (one, two))
    claim = layout.coverage * wrong
    told = type(layout)(
        verdict="placed",
        placed=layout.placed,
        coverage=claim,
        figure_height_mm=layout.figure_height_mm,
    )
    codes = [fault.code for fault in wrong_claims(panel, told, regions=(), limit=1.0, aspect=1 / 3)]
    off = abs(claim - layout.coverage)
    if abs(off - COVERAGE_TOLERANCE) > 1e-5:
        assert codes == (["coverage"] if off > COVERAGE_TOLERANCE else [])


@given(outlines, st.floats(-1.5, 1.5))
@settings(max_examples=30, deadline=None)
def test_both_parts_of_a_cut_polygon_make_the_whole(outline: Outline, share: float) -> None:
    """What is below a line and what is above it add up."""
    corners = outline.boundary(np.linspace(0, 2 * math.pi, 400, endpoint=False))
    line = share * outline.half_height
    below, above = cut_level(corners, line), cut_level(-corners, -line)
    assert polygon_area(below) + polygon_area(above) == pytest.approx(polygon_area(corners))
