"""Tails: wedges that point at the mouth, stop short of it, and cross nothing."""

import math
from itertools import combinations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place import PlacedOutline, Speaker, Tail, place_outlines, tail_polygon
from letterfit.place.silhouette import figure_in, mouth_in
from letterfit.place.tails import with_tails
from letterfit.separation import clearance
from tests.place.shapes import ellipses, outline_polygon, outlines, wedge_polygon

PANEL = Rect(0, 0, 120, 80)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
BALLOON = Ellipse(half_width=16, half_height=9)


def at(index: int, x: float, y: float, outline: Outline = BALLOON) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


def tail_of(
    placed: list[PlacedOutline], speakers: list[Speaker | None], mouths: list[Point | None]
) -> list[Tail]:
    """The tails drawn, none of which crosses anything."""
    tailed, findings = with_tails(PANEL, placed, speakers=speakers, mouths=mouths)
    assert findings == ()
    return [item.tail for item in tailed if item.tail is not None]


@given(outlines, st.floats(25, 95), st.floats(40, 75))
@settings(max_examples=40, deadline=None)
def test_tail_roots_on_its_outline_and_stops_half_way(outline: Outline, x: float, y: float) -> None:
    """Roots stand on the outline; the tip is nearer to the mouth, but not at it."""
    item, mouth = at(0, 60, 15, outline), Point(x, y)
    (tail,) = tail_of([item], [WENNA], [mouth])
    roots = [[root.x - 60, root.y - 15] for root in tail.root]
    assert clearance(outline, roots) == pytest.approx(0, abs=0.02)
    root = Point(*np.mean([[p.x, p.y] for p in tail.root], axis=0))
    assert 0.1 * root.distance(mouth) < tail.tip.distance(mouth) < root.distance(mouth)
    assert tail.root[0].distance(tail.root[1]) <= 3.0 + 1e-9
    # What is drawn is one simple region that leaves the outline and does not come back.
    wedge, body = (
        wedge_polygon(
            PlacedOutline(index=0, choice=0, outline=outline, x_mm=60, y_mm=15, tail=tail)
        ),
        outline_polygon(item, 3000),
    )
    assert wedge.is_valid
    whole = wedge.union(body.buffer(2e-3))
    assert whole.geom_type == "Polygon"
    assert shapely.get_num_interior_rings(whole) == 0


def test_tail_points_at_the_mouth() -> None:
    """The end of the axis, drawn on, passes the mouth within a head's height of it."""
    mouth = Point(75, 60)
    (tail,) = tail_of([at(0, 60, 15)], [WENNA], [mouth])
    assert tail.bend is not None
    way = LineString(
        [
            (tail.tip.x, tail.tip.y),
            (
                tail.tip.x + 2 * (tail.tip.x - tail.bend.x),
                tail.tip.y + 2 * (tail.tip.y - tail.bend.y),
            ),
        ]
    )
    polygon = outline_polygon(at(0, mouth.x, mouth.y, Ellipse(half_width=6, half_height=6)), 200)
    assert way.intersects(polygon)


def test_tail_bends_round_a_balloon_in_its_way() -> None:
    """A balloon half in the way is passed, not crossed."""
    placed = [at(0, 60, 12), at(1, 50, 36, CaptionBox(half_width=9, half_height=4))]
    (tail,) = tail_of(placed, [WENNA, None], [Point(58, 70), None])
    wedge = wedge_polygon(
        PlacedOutline(index=0, choice=0, outline=BALLOON, x_mm=60, y_mm=12, tail=tail)
    )
    assert wedge.distance(outline_polygon(placed[1], 200)) > 0.29


def test_tail_that_cannot_go_is_reported() -> None:
    """Walled in on all sides the tail is drawn all the same, and said to cross."""
    walls = [
        at(1, 60, 27.5, CaptionBox(half_width=60, half_height=1)),
        at(2, 60, 0.5, CaptionBox(half_width=60, half_height=0.5)),
        at(3, 1.4, 14, CaptionBox(half_width=1.4, half_height=12)),
        at(4, 118.6, 14, CaptionBox(half_width=1.4, half_height=12)),
    ]
    tailed, findings = with_tails(
        PANEL,
        [at(0, 60, 13.7, CaptionBox(half_width=57, half_height=12.6)), *walls],
        speakers=[WENNA, None, None, None, None],
        mouths=[Point(60, 36), None, None, None, None],
    )
    assert tailed[0].tail is not None
    assert [(f.code, f.severity, f.where) for f in findings] == [("tail-crosses", "warning", "1")]


def test_mouth_behind_a_balloon_is_doubtful() -> None:
    """A wall between balloon and mouth: the tail stops before it, and readers are warned."""
    wall = at(1, 60, 34, CaptionBox(half_width=60, half_height=4))
    tailed, findings = with_tails(
        PANEL, [at(0, 60, 14), wall], speakers=[WENNA, None], mouths=[Point(60, 60), None]
    )
    assert not wedge_polygon(tailed[0]).intersects(outline_polygon(wall, 100))
    assert [(f.code, f.severity, f.where) for f in findings] == [("tail-doubt", "warning", "1")]


def test_off_panel_tail_ends_at_the_nearer_side() -> None:
    """Who speaks from off the panel is pointed to through the panel's border."""
    off = Speaker(name="KEEPER", off_panel=True)
    (left,) = tail_of([at(0, 25, 20)], [off], [None])
    assert left.tip.x == pytest.approx(PANEL.x, abs=1e-6)
    (right,) = tail_of([at(0, 95, 20)], [off], [None])
    assert right.tip.x == pytest.approx(PANEL.right, abs=1e-6)


def test_mouth_outside_the_panel_is_pointed_to_as_far_as_the_border() -> None:
    """A mouth given below the panel: the tail goes down to the border and no farther."""
    (tail,) = tail_of([at(0, 60, 60)], [WENNA], [Point(60, 200)])
    assert tail.tip.y == pytest.approx(PANEL.bottom, abs=1e-6)


def test_second_balloon_of_a_speaker_links_to_the_first_when_the_mouth_is_far() -> None:
    """Two in a row of one speaker: the far one leads to its neighbour, which has the tail."""
    placed = [at(0, 20, 12), at(1, 54, 12)]
    mouth = Point(16, 55)
    first, second = tail_of(placed, [WENNA, WENNA], [mouth, mouth])
    assert first.to is None
    assert second.to == 0
    assert (
        0
        < outline_polygon(placed[0], 3000).distance(
            wedge_polygon(
                PlacedOutline(index=1, choice=0, outline=BALLOON, x_mm=54, y_mm=12, tail=second)
            )
        )
        < 0.5
    )


def test_two_balloons_never_link_to_each_other() -> None:
    """Of two linked balloons one points at the mouth."""
    menus = [ellipses(350), ellipses(350)]
    for width in (30, 40, 60, 90, 150):
        layout = place_outlines(Rect(0, 0, width, 80), menus, speakers=[WENNA, WENNA])
        links = [item.tail.to for item in layout.placed if item.tail is not None]
        assert links != [1, 0]


def test_tails_keep_apart_from_each_other() -> None:
    """Two tails that would cross are drawn so that they do not."""
    placed = [at(0, 30, 12), at(1, 90, 12)]
    tails = tail_of(placed, [WENNA, PILOT], [Point(70, 45), Point(50, 45)])
    pair = [
        wedge_polygon(
            PlacedOutline(
                index=i, choice=0, outline=BALLOON, x_mm=item.x_mm, y_mm=item.y_mm, tail=tail
            )
        )
        for i, (item, tail) in enumerate(zip(placed, tails, strict=True))
    ]
    assert all(one.distance(two) > 0.29 for one, two in combinations(pair, 2))


def test_tail_stays_out_of_another_speakers_figure() -> None:
    """With a figure between balloon and mouth the tail ends before it, and that is said."""
    between, own = Rect(50, 20, 18, 54), Rect(75, 20, 18, 54)
    item = at(0, 20, 45)
    (clear,), findings = with_tails(
        PANEL, [item], speakers=[PILOT], mouths=[mouth_in(own)], figures=[between, own]
    )
    assert [f.code for f in findings] == ["tail-doubt"]
    body = figure_in(between)
    pierced = shapely.box(body.x, body.y, body.right, body.bottom)
    assert not wedge_polygon(clear).intersects(pierced)
    (free,) = tail_of([item], [PILOT], [mouth_in(own)])
    assert clear.tail is not None
    assert clear.tail.tip.x < free.tip.x


def test_polygon_follows_the_two_curved_sides() -> None:
    """Corners of the polygon lie on quadratic Beziers with control points half a root apart."""
    tail = Tail(root=(Point(0, 0), Point(4, 0)), tip=Point(10, 20), bend=Point(2, 12))
    corners = tail_polygon(tail, n=8)
    assert len(corners) == 17
    s = 3 / 8
    x = (1 - s) ** 2 * 0 + 2 * s * (1 - s) * (2 - 1) + s**2 * 10
    y = 2 * s * (1 - s) * 12 + s**2 * 20
    assert (corners[3].x, corners[3].y) == pytest.approx((x, y))
    back = corners[-1 - 3]
    assert (back.x, back.y) == pytest.approx((x + 4 * (1 - s), y))
    assert math.isclose(corners[8].x, 10)
