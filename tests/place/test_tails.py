"""Tails: wedges that point at the mouth, stop short of it, and cross nothing."""

import math
from itertools import combinations

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely import Point as Dot

from letterfit.drawn.cloud import Cloud
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.silhouette import body_in, head_in, mouth_in
from letterfit.place.solver import place_outlines
from letterfit.place.tails import with_tails
from letterfit.place.wedge import tail_polygon
from letterfit.separation import clearance
from tests.place.shapes import (
    ellipses,
    outline_polygon,
    outlines,
    panels,
    voices,
    wedge_polygon,
)

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
@example(RoundedRect(half_width=12, half_height=4, radius=2.4), 25.0, 48.0)
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


def test_neighbours_of_one_speaker_are_linked_and_have_one_tail() -> None:
    """The balloon nearer to the mouth has the tail, the other leads to it."""
    placed = [at(0, 20, 12), at(1, 54, 12)]
    mouth = Point(16, 55)
    first, second = tail_of(placed, [WENNA, WENNA], [mouth, mouth])
    assert first.to is None
    assert second.to == 0
    (first, second) = tail_of(placed, [WENNA, WENNA], [Point(60, 55), Point(60, 55)])
    assert (first.to, second.to) == (1, None)


def test_two_balloons_never_link_to_each_other() -> None:
    """Of two linked balloons one points at the mouth."""
    menus = [ellipses(350), ellipses(350)]
    for width in (30, 40, 60, 90, 150):
        layout = place_outlines(Rect(0, 0, width, 80), menus, speakers=[WENNA, WENNA])
        links = [item.tail.to for item in layout.placed if item.tail is not None]
        assert links != [1, 0]


def test_tails_keep_apart_from_each_other() -> None:
    """Tails whose ways to the mouths cross do not cross themselves; that their ways do is said."""
    placed = [at(0, 30, 12), at(1, 90, 12)]
    tailed, findings = with_tails(
        PANEL, placed, speakers=[WENNA, PILOT], mouths=[Point(70, 45), Point(50, 45)]
    )
    assert [f.code for f in findings] == ["tail-doubt"]
    tails = [item.tail for item in tailed if item.tail is not None]
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
    body = body_in(between)
    pierced = shapely.box(body.x, body.y, body.right, body.bottom)
    assert not wedge_polygon(clear).intersects(pierced)
    (free,) = tail_of([item], [PILOT], [mouth_in(own)])
    assert clear.tail is not None
    assert clear.tail.tip.x < free.tip.x


def run(*spots: tuple[float, float]) -> list[PlacedOutline]:
    """Balloons, each joined to the one before it."""
    return [
        PlacedOutline(
            index=i, choice=0, outline=BALLOON, x_mm=x, y_mm=y, joined=bool(i), overhang_mm=0.0
        )
        for i, (x, y) in enumerate(spots)
    ]


@given(st.floats(-14, 14), st.floats(-14, 14), st.floats(10, 110), st.floats(30, 78))
@settings(max_examples=60, deadline=None)
def test_joined_balloons_have_one_tail_outside_what_they_share(
    lean: float, other: float, x: float, y: float
) -> None:
    """One of three carries it; its root and its wedge keep off the other two."""
    placed = run((60, 10), (60 + lean, 25), (60 + lean + other, 40))
    mouth = Point(x, y)
    bodies = [outline_polygon(item, 400) for item in placed]
    if any(body.buffer(6).contains(Dot(x, y)) for body in bodies):
        return
    tailed, findings = with_tails(PANEL, placed, speakers=[WENNA] * 3, mouths=[mouth] * 3)
    carriers = [item for item in tailed if item.tail is not None]
    assert len(carriers) == 1
    if not findings:
        wedge = wedge_polygon(carriers[0])
        assert all(
            wedge.distance(body) > 0.2
            for body, item in zip(bodies, tailed, strict=True)
            if item.tail is None
        )


def test_the_joined_balloon_nearest_to_the_mouth_has_the_tail() -> None:
    """The last as a rule, the first where the mouth is beside it."""
    placed = run((60, 10), (64, 25))
    low, _ = with_tails(PANEL, placed, speakers=[WENNA] * 2, mouths=[Point(60, 70)] * 2)
    assert [item.tail is not None for item in low] == [False, True]
    high, _ = with_tails(PANEL, placed, speakers=[WENNA] * 2, mouths=[Point(20, 12)] * 2)
    assert [item.tail is not None for item in high] == [True, False]


def test_captions_have_no_tail_joined_or_not() -> None:
    """Nobody speaks them."""
    tailed, findings = with_tails(
        PANEL, run((60, 10), (64, 25)), speakers=[None] * 2, mouths=[None] * 2
    )
    assert [item.tail for item in tailed] == [None, None]
    assert findings == ()


def test_thoughts_are_not_linked_to_speeches() -> None:
    """The same speaker thinks and speaks side by side: bubbles for one, a tail for the other."""
    cloud = Cloud(core=Ellipse(half_width=14, half_height=8), lobes=14)
    placed = [at(0, 26, 14), at(1, 62, 14, cloud)]
    tails = tail_of(placed, [WENNA, WENNA], [Point(50, 70)] * 2)
    assert [tail.to for tail in tails] == [None, None]
    alike = [at(0, 26, 14), at(1, 62, 14)]
    links = [tail.to for tail in tail_of(alike, [WENNA, WENNA], [Point(50, 70)] * 2)]
    assert links in ([1, None], [None, 0])


def test_off_panel_speaker_with_a_mouth_is_pointed_to_at_the_nearest_border() -> None:
    """Wherever the mouth is, in or out of the panel, the tail ends on the border near it."""
    off = Speaker(name="KEEPER", off_panel=True)
    for mouth, side in ((Point(-9, 30), 0.0), (Point(118, 30), 120.0)):
        (tail,) = tail_of([at(0, 60 + (side - 60) / 2, 20)], [off], [mouth])
        assert tail.tip.x == pytest.approx(side, abs=1e-6)


def test_off_panel_tails_can_be_seen() -> None:
    """A balloon against the border has a tail of 5 mm and more all the same."""
    off = Speaker(name="KEEPER", off_panel=True)
    (tail,) = tail_of([at(0, 17.5, 20)], [off], [None])
    middle = Point((tail.root[0].x + tail.root[1].x) / 2, (tail.root[0].y + tail.root[1].y) / 2)
    assert middle.distance(tail.tip) > 5


@given(panels, st.lists(outlines, min_size=1, max_size=4), st.data())
@settings(max_examples=80, deadline=None)
def test_tails_keep_every_rule_unless_said(
    panel: Rect, shapes: list[Outline], data: st.DataObject
) -> None:
    """Rooted on their outline, inside the panel, off balloons, tails and faces; shapely agrees."""
    speakers = data.draw(voices(len(shapes)))
    layout = place_outlines(panel, [[shape] for shape in shapes], speakers=speakers)
    told = {finding.where for finding in layout.findings}
    frame = shapely.box(panel.x, panel.y, panel.right, panel.bottom).buffer(1e-6)
    bodies = [outline_polygon(item, 1000) for item in layout.placed]
    wedges = {
        i: wedge_polygon(item) for i, item in enumerate(layout.placed) if item.tail is not None
    }
    for i, wedge in wedges.items():
        item = layout.placed[i]
        assert speakers[i] is not None
        assert item.tail is not None
        spots = [[root.x - item.x_mm, root.y - item.y_mm] for root in item.tail.root]
        assert clearance(item.outline, spots) == pytest.approx(0, abs=0.02)
        if str(i + 1) in told:
            continue
        assert frame.covers(wedge)
        assert wedge.is_valid
        assert all(
            wedge.distance(body) > 0.15
            for j, body in enumerate(bodies)
            if j not in (i, item.tail.to)
        )
        assert all(wedge.distance(head_polygon(box)) > 0.15 for box in layout.figures)
    for (i, one), (j, two) in combinations(wedges.items(), 2):
        if not {str(i + 1), str(j + 1)} & told:
            assert one.distance(two) > 0


def head_polygon(box: Rect) -> Polygon:
    """A figure's head as shapely sees it."""
    head = head_in(box)
    ellipse = Ellipse(half_width=head.width / 2, half_height=head.height / 2)
    return outline_polygon(at(0, head.centre.x, head.centre.y, ellipse), 200)


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
