"""Joined balloons as one line: against shapely's union, and on the drawn page."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import label
from shapely.geometry import Polygon
from shapely.ops import unary_union

from letterfit.fit.joined import height_for
from letterfit.geometry import Point, Rect
from letterfit.outline import Ellipse, Outline, Superellipse
from letterfit.output.svg.balloon import runs
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.curves import chain, points_at
from letterfit.output.svg.joined_run import Part, run_contour
from letterfit.output.svg.page import to_svg
from letterfit.report.model import BalloonReport
from tests.output import reports
from tests.output.svg import raster

DISC = Ellipse(half_width=5, half_height=5)
DEEP = 0.96


def loops(data: str) -> list[Polygon]:
    """Each closed loop of path data as a polygon."""
    found = []
    for part in data.split("M")[1:]:
        curves = chain(f"M{part}")
        found.append(Polygon(points_at(curves, np.arange(64 * len(curves)) / 64)))
    return found


def area(data: str) -> float:
    """What is filled by the nonzero rule where inner loops run against the outer one."""
    first, *holes = sorted(loops(data), key=lambda one: -one.area)
    return float(first.area - sum(hole.area for hole in holes))


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """An ellipse or a superellipse such as dialogue has."""
    a, b = draw(st.floats(6, 20)), draw(st.floats(4, 9))
    if draw(st.booleans()):
        return Ellipse(half_width=a, half_height=b)
    return Superellipse(half_width=a, half_height=b, exponent=2.5)


@st.composite
def strings(draw: st.DrawFn) -> list[Part]:
    """Two to four balloons, each below the one before it and to one side, overlapping a little."""
    parts: list[Part] = [(draw(outlines()), Point(60, 40), None)]
    for _ in range(draw(st.integers(1, 3))):
        before, centre, _ = parts[-1]
        own = draw(outlines())
        dx = draw(st.floats(-0.8, 0.8)) * (before.half_width + own.half_width)
        dy = height_for(before, own, dx=dx, deep=DEEP)
        parts.append((own, Point(centre.x + dx, centre.y + dy), None))
    return parts


@settings(max_examples=30)
@given(strings())
def test_the_line_is_that_of_the_union(parts: list[Part]) -> None:
    """It encloses what shapely's union of the outlines does, to a share of a thousandth."""
    single = [loops(contour(*part))[0] for part in parts]
    union = unary_union(single)
    assert area(run_contour(parts)) == pytest.approx(union.area, rel=1e-3)
    shared = sum(one.intersection(two).area for one, two in pairwise(single))
    assert shared > 0


def test_two_discs_by_hand() -> None:
    """A lens of half-angle t has the area r^2 (2 t - sin 2 t): 2 pi r^2 less it is the union's."""
    half = math.acos(0.7)
    expected = 50 * math.pi - 25 * (2 * half - math.sin(2 * half))
    data = run_contour([(DISC, Point(0, 0), None), (DISC, Point(7, 0), None)])
    assert area(data) == pytest.approx(expected, rel=1e-3)
    assert data.count("M") == data.count("Z") == 1


def test_a_ring_leaves_its_gap_open() -> None:
    """Three discs in a triangle with a hole in the middle: an inner loop, run the other way."""
    spots = [Point(9 * math.cos(a) / 1.732, 9 * math.sin(a) / 1.732) for a in (0, 2.0944, 4.1888)]
    parts: list[Part] = [(DISC, spot, None) for spot in spots]
    data = run_contour(parts)
    union = unary_union([loops(contour(*part))[0] for part in parts])
    assert isinstance(union, Polygon)
    assert len(union.interiors) == 1
    outer, inner = loops(data)
    assert outer.exterior.is_ccw != inner.exterior.is_ccw
    assert area(data) == pytest.approx(union.area, rel=1e-3)


def test_balloons_that_do_not_meet_are_two_lines() -> None:
    """Nothing is strung together that does not touch; one inside another is not drawn."""
    apart = run_contour([(DISC, Point(0, 0), None), (DISC, Point(20, 0), None)])
    assert apart.count("M") == 2
    small = Ellipse(half_width=1, half_height=1)
    assert run_contour([(DISC, Point(0, 0), None), (small, Point(1, 0), None)]) == contour(
        DISC, Point(0, 0)
    )


def joined_pair() -> tuple[BalloonReport, BalloonReport]:
    """Two balloons that overlap by most of the air, the second with the tail."""
    spot = Point(40, 40)
    below = height_for(reports.ROUND, reports.ROUND, dx=12, deep=DEEP)
    other = Point(52, 40 + below)
    second = reports.balloon("1.1.2", "HOLD IT.", at=other, tail=reports.tail_down(other))
    return reports.balloon("1.1.1", "HOLD.", at=spot), replace(second, joined=True)


def drawn(*balloons: BalloonReport) -> str:
    """A page with one panel of these balloons."""
    return to_svg(reports.page(1, reports.panel("1.1", Rect(8, 34, 100, 60), *balloons)))


def test_a_run_is_drawn_as_one_outline() -> None:
    """One path and one tail; each balloon's lettering is still a group of its own."""
    svg = drawn(*joined_pair())
    root = raster.parse(svg)
    assert len(raster.named(root, "outline")) == 1
    assert len(raster.named(root, "dialogue")) == 2
    ids = [one.get("id") for one in raster.named(root, "dialogue")]
    assert ids == ["balloon-1.1.1", "balloon-1.1.2"]
    apart = drawn(*(replace(one, joined=False) for one in joined_pair()))
    assert len(raster.named(raster.parse(apart), "outline")) == 2


def test_the_neck_is_white() -> None:
    """Between both balloons no line is drawn: the inside is one piece, and was two."""

    def rooms(svg: str) -> int:
        root = raster.alone(svg, lambda element: "outline" in raster.classes(element))
        for path in raster.named(root, "outline"):
            path.set("fill", "none")
        empty = raster.render(root, dpi=300) < 0.5
        return int(label(empty)[1]) - 1  # all that lies outside is one more

    one, two = joined_pair()
    assert rooms(drawn(one, two)) == 1
    assert rooms(drawn(one, replace(two, joined=False))) > 1


def test_balloons_are_gathered_in_runs() -> None:
    """A run ends where a balloon is not joined to the one before it."""
    one, two = joined_pair()
    assert runs([one, two, one, two, two, one]) == [[one, two], [one, two, two], [one]]


def test_the_border_cuts_outlines_and_spares_ink() -> None:
    """What hangs over is not drawn above the panel; without the cut it would be."""
    rect = Rect(8, 34, 100, 60)
    spot = Point(40, rect.y + reports.ROUND.half_height - 2)
    inside = reports.balloon("1.1.1", "HOLD IT NOW.", at=spot)
    over = replace(inside, overhang_mm=2.0)
    for balloon, reaches in ((over, False), (inside, True)):
        svg = drawn(balloon)
        # The clip path must stay for the cut to be drawn.
        root = raster.alone(svg, lambda e: "clipPath" in e.tag or "outline" in raster.classes(e))
        covered = raster.render(root, dpi=150)
        above = covered[: int((rect.y - 0.2) / 25.4 * 150)]
        assert bool(above.max() > 0.5) is reaches
    one, two = joined_pair()
    for run in ((one, two), (replace(one, overhang_mm=1.0), two)):
        paths = raster.named(raster.parse(drawn(*run)), "outline")
        assert bool(paths[0].get("clip-path")) is bool(run[0].overhang_mm)
    cut = [one for one in raster.parse(drawn(over)).iter() if one.get("clip-path")]
    assert [one.get("class") for one in cut] == ["outline"]
