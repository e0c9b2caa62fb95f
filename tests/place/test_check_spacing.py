"""Distances of the checker against shapely: polygons of 20,000 corners, to a ten-thousandth mm."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LinearRing, MultiPoint, Point, Polygon, box

from letterfit.findings import Finding
from letterfit.geometry import Insets, Rect
from letterfit.geometry import Point as At
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.check_spacing import JOINT_TOLERANCE, region_gap, spacing_faults
from letterfit.place.checker import check_layout
from letterfit.place.model import PlacedOutline
from letterfit.place.terms import KeepClear, region_corners
from tests.place.hand_made import hand_made, joint
from tests.place.shapes import outline_polygon, outlines

NEAR = 1e-4
"""In mm: so near to a limit shapely's polygons may see it the other way."""

PANEL = Rect(4, -3, 70, 50)

places = st.tuples(st.floats(0, 78), st.floats(-8, 52))


@st.composite
def regions(draw: st.DrawFn) -> KeepClear:
    """A rectangle, or a convex polygon of three to eight corners, either way round."""
    x, y = draw(places)
    if draw(st.booleans()):
        return Rect(x, y, draw(st.floats(0.5, 30)), draw(st.floats(0.5, 20)))
    count = draw(st.integers(3, 8))
    a, b = draw(st.floats(1, 20)), draw(st.floats(1, 12))
    turn = draw(st.floats(0, 2 * math.pi))
    way = draw(st.sampled_from([1, -1]))
    angles = [turn + way * 2 * math.pi * k / count for k in range(count)]
    return tuple(At(x + a * math.cos(t), y + b * math.sin(t)) for t in angles)


@st.composite
def layouts(draw: st.DrawFn) -> tuple[PlacedOutline, ...]:
    """One to four outlines anywhere in and about the panel, now and then at the very limit."""
    placed: list[PlacedOutline] = []
    for index in range(draw(st.integers(1, 4))):
        outline = draw(outlines)
        x, y = draw(places)
        if draw(st.booleans()):  # at the margin, give or take a little more than is overlooked
            x = PANEL.x + 1.5 + outline.half_width + draw(st.sampled_from([-3, 3])) * NEAR
        placed.append(PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y))
    return tuple(placed)


def _found(placed: tuple[PlacedOutline, ...], clear: list[KeepClear]) -> set[tuple[str, str]]:
    corners = [region_corners(region) for region in clear]
    faults = spacing_faults(
        PANEL, placed, regions=corners, gap_mm=1.5, margin=Insets.even(1.5), overlap_mm=1.0
    )
    return {(fault.code, fault.where) for fault in faults}


@given(layouts(), st.lists(regions(), max_size=2))
@settings(max_examples=100, deadline=None)
def test_verdicts_agree_with_shapely(
    placed: tuple[PlacedOutline, ...], clear: list[KeepClear]
) -> None:
    """Inside or not, apart or not, clear or not: as shapely says, but within NEAR of the limit."""
    found = _found(placed, clear)
    polygons = [outline_polygon(item) for item in placed]
    shapely.prepare(polygons)  # an index over their sides
    frame = PANEL.inset(1.5)
    for number, (item, polygon) in enumerate(zip(placed, polygons, strict=True), start=1):
        left, top, right, bottom = polygon.bounds
        least = min(left - frame.x, top - frame.y, frame.right - right, frame.bottom - bottom)
        if abs(least) > NEAR:
            assert (("outside-panel", str(number)) in found) == (least < 0)
        deep = [_overlap(item, polygon, region) for region in clear]
        if all(deep):
            assert (("on-keep-clear", str(number)) in found) == any(depth > 0 for depth in deep)
    for (one, first), (two, second) in combinations(enumerate(polygons, start=1), 2):
        close = [shapely.dwithin(first, second, 1.5 + off) for off in (-NEAR, NEAR)]
        if close[0] == close[1]:
            assert (("too-close", f"{one}+{two}") in found) == close[0]


def _overlap(item: PlacedOutline, polygon: Polygon, region: KeepClear) -> float:
    """1 where an outline lies on a region by more than NEAR, -1 where it is so far off; else 0."""
    spot = Polygon([(p.x, p.y) for p in region_corners(region)])
    if not shapely.dwithin(polygon, spot, NEAR):
        return -1.0
    # Made smaller about its centre by this factor it lies inside itself by 2 NEAR everywhere.
    factor = 1 - 2 * NEAR / min(item.outline.half_width, item.outline.half_height)
    smaller = outline_polygon(replace(item, outline=item.outline.scaled(factor)))
    return 1.0 if smaller.intersects(spot) else 0.0


@given(
    outlines, st.lists(st.tuples(st.floats(-30, 30), st.floats(-25, 25)), min_size=3, max_size=6)
)
@settings(max_examples=60, deadline=None)
def test_distance_to_a_region_is_shapelys(
    outline: Outline, points: list[tuple[float, float]]
) -> None:
    """The true distance to a convex polygon that stands off, to NEAR."""
    hull = MultiPoint(points).convex_hull
    if not isinstance(hull, Polygon) or hull.area < 1:
        return
    item = PlacedOutline(index=0, choice=0, outline=outline, x_mm=0, y_mm=0)
    corners = np.array(hull.exterior.coords[:-1])
    apart = outline_polygon(item).distance(hull)
    measured = region_gap(outline, corners)
    assert measured == pytest.approx(apart, abs=NEAR) if apart > 0 else measured <= NEAR


@given(outlines, outlines, st.floats(-1, 1), st.floats(0.1, 2.0), st.floats(-0.01, 0.01))
@settings(max_examples=40, deadline=None)
def test_depth_of_joints_is_shapelys(
    first: Outline, second: Outline, side: float, overlap: float, off: float
) -> None:
    """The least way to push two bodies apart: the distance to the edge of their difference body.

    Source: Cameron and Culley, Determining the minimum translational distance between two convex
    polyhedra, ICRA 1986.
    """
    one = PlacedOutline(index=0, choice=0, outline=first, x_mm=30, y_mm=10)
    across = side * (first.half_width + second.half_width - overlap)
    two = joint(one, second, dx=across, overlap_mm=overlap)
    turn = np.linspace(0, 2 * math.pi, 20_000, endpoint=False)
    body = Polygon(first.boundary(turn) + second.boundary(turn)).convex_hull
    assert isinstance(body, Polygon)
    assert isinstance(body.exterior, LinearRing)
    depth = float(body.exterior.distance(Point(two.x_mm - one.x_mm, two.y_mm - one.y_mm)))
    asked = overlap + off
    faults = spacing_faults(
        Rect(-50, -50, 200, 200),
        (one, two),
        regions=(),
        gap_mm=1,
        margin=Insets.even(1),
        overlap_mm=asked,
    )
    codes = {fault.code for fault in faults}
    if abs(abs(depth - asked) - JOINT_TOLERANCE) > NEAR:
        assert ("joined-overlap" in codes) == (abs(depth - asked) > JOINT_TOLERANCE)


def _codes(findings: tuple[Finding, ...]) -> set[str]:
    return {finding.code for finding in findings}


def test_what_hangs_over_keeps_its_distances() -> None:
    """Above the border the whole outline still counts: for the sides and for its neighbours."""
    shape = Ellipse(half_width=12, half_height=6)
    hanging = PlacedOutline(
        index=0, choice=0, outline=shape, x_mm=20, y_mm=PANEL.y + 3, overhang_mm=3.0
    )
    beside = PlacedOutline(index=1, choice=0, outline=shape, x_mm=45.6, y_mm=PANEL.y + 7.5)
    near = PlacedOutline(index=1, choice=0, outline=shape, x_mm=45.2, y_mm=PANEL.y + 3.0)
    assert spacing_codes((hanging, beside)) == set()
    assert spacing_codes((hanging, near)) == {"too-close", "outside-panel"}


def spacing_codes(placed: tuple[PlacedOutline, ...]) -> set[str]:
    """The codes of the distances that are not kept."""
    return {code for code, _ in _found(placed, [])}


def test_members_of_a_joined_run_keep_the_gap_to_all_others() -> None:
    """The first and the third of a run are no pair: they keep the gap as any other two."""
    shape = CaptionBox(half_width=10, half_height=3)
    first = PlacedOutline(index=0, choice=0, outline=shape, x_mm=20, y_mm=6)
    second = joint(first, CaptionBox(half_width=10, half_height=2), dx=6, overlap_mm=1)
    third = joint(second, shape, dx=6, overlap_mm=1)
    assert spacing_codes((first, second, third)) == set()
    flat = joint(first, CaptionBox(half_width=10, half_height=1), dx=6, overlap_mm=1)
    last = joint(flat, shape, dx=6, overlap_mm=1)
    assert spacing_codes((first, flat, last)) == {"too-close"}


def test_region_is_met_by_its_side_and_by_its_corner() -> None:
    """A disc beside a long side, and one off a corner, by plane geometry."""
    disc = Ellipse(half_width=3, half_height=3)
    slanted = np.array([[4.0, -9.0], [16.0, 7.0], [16.0, -9.0]])
    # The line through (4, -9) and (16, 7): 4 x - 3 y = 43, at 43 / 5 from the centre.
    assert region_gap(disc, slanted) == pytest.approx(43 / 5 - 3, abs=1e-9)
    corner = np.array([[3.0, 4.0], [9.0, 4.0], [9.0, 9.0], [3.0, 9.0]])
    assert region_gap(disc, corner) == pytest.approx(2.0, abs=1e-9)
    assert region_gap(disc, corner - np.array([2.0, 3.0])) == pytest.approx(math.sqrt(2) - 3)


def test_checker_hears_of_regions_through_both_forms() -> None:
    """A rectangle and the polygon of its corners are the same region."""
    item = PlacedOutline(
        index=0, choice=0, outline=Ellipse(half_width=9, half_height=6), x_mm=30, y_mm=20
    )
    layout = hand_made(PANEL, (item,))
    spot = Rect(36, 20, 4, 4)
    both: list[KeepClear] = [spot, region_corners(spot)]
    assert [_codes(check_layout(PANEL, layout, keep_clear=[form])) for form in both] == [
        {"on-keep-clear"},
        {"on-keep-clear"},
    ]
    assert box(36, 20, 40, 24).intersects(outline_polygon(item))
