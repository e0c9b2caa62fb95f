"""The plainest tail: drawn only where nothing is near, and then as good as the best of many."""

import math

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as Dot
from shapely import Polygon, box

from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.silhouette import head_in, mouth_in
from letterfit.place.tail_plain import is_blocked, is_clear, plain_tail
from letterfit.place.tail_scene import Scene, scene_of
from letterfit.place.tail_shapes import Target
from letterfit.place.wedge import tail_polygon
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(0, 0, 120, 80)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
BALLOON = Ellipse(half_width=14, half_height=8)


def at(index: int, x: float, y: float, outline: Outline = BALLOON) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


def scene(
    placed: list[PlacedOutline],
    mouth: Point,
    *,
    figures: tuple[Rect, ...] = (),
    clear: Rect | None = None,
) -> Scene:
    """A panel in which the first balloon is Wenna's, the others are captions."""
    corners = (
        ((clear.x, clear.y), (clear.right, clear.y), (clear.right, clear.bottom)) if clear else ()
    )
    return scene_of(
        PANEL,
        placed,
        speakers=[WENNA, *[None] * (len(placed) - 1)],
        mouths=[mouth, *[None] * (len(placed) - 1)],
        keep_clear=[[Point(*corner) for corner in corners]] if corners else [],
        figures=figures,
    )


def region(tail: Tail) -> Polygon:
    """A tail as shapely sees it."""
    return Polygon([(p.x, p.y) for p in tail_polygon(tail, 64)])


@given(outlines, outlines, st.floats(20, 100), st.floats(10, 70), st.floats(20, 100))
@settings(max_examples=100, deadline=None)
def test_a_plain_tail_is_roomy(
    outline: Outline, near: Outline, x: float, y: float, goal: float
) -> None:
    """Shapely finds it inside the panel and 1.5 mm off every other balloon."""
    placed = [at(0, 60, 14, outline), at(1, x, y, near)]
    mouth = Point(goal, 66)
    tail = plain_tail(scene(placed, mouth), 0, Target(mouth, stop=2.0))
    if tail is not None:
        wedge = region(tail)
        assert wedge.is_valid
        assert box(0, 0, 120, 80).buffer(1e-9).covers(wedge)
        assert wedge.distance(outline_polygon(placed[1], 1000)) > 1.5 - 1e-6


@given(outlines, st.floats(20, 100), st.floats(30, 72), st.floats(0, 20))
@settings(max_examples=60, deadline=None)
def test_a_plain_tail_stops_before_what_it_points_at(
    outline: Outline, x: float, y: float, stop: float
) -> None:
    """By as much as is asked, or, where it is nearer, by three quarters of the way at least."""
    mouth = Point(x, y)
    tail = plain_tail(scene([at(0, 60, 14, outline)], mouth), 0, Target(mouth, stop=stop, share=1))
    if tail is not None:
        (first, last), tip = tail.root, tail.tip
        way = math.dist(((first.x + last.x) / 2, (first.y + last.y) / 2), (x, y))
        left = math.dist((tip.x, tip.y), (x, y))
        assert left >= min(stop, 0.74 * way) - 0.01


def test_most_tails_are_plain() -> None:
    """With nothing near, from straight above and from the side."""
    for x in (20, 45, 60, 100):
        mouth = Point(x, 60)
        assert plain_tail(scene([at(0, 60, 14)], mouth), 0, Target(mouth, stop=2.0)) is not None


def test_what_is_near_is_no_plain_case() -> None:
    """Heads, faces, regions, other tails and the border each refuse the same tail."""
    mouth = Point(60, 60)
    target, placed = Target(mouth, stop=2.0), [at(0, 60, 14)]
    tail = plain_tail(scene(placed, mouth), 0, target)
    assert tail is not None
    other = Rect(56, 30, 16, 48)
    blocked = [
        scene(placed, mouth, figures=(other,)),
        scene(placed, mouth, clear=Rect(55, 30, 10, 10)),
        scene([*placed, at(1, 60, 40, CaptionBox(half_width=9, half_height=3))], mouth),
    ]
    crossed = scene(placed, mouth)
    crossed.tails.append(Tail(root=(Point(50, 26), Point(50, 29)), tip=Point(70, 28)))
    for view in (*blocked, crossed):
        assert plain_tail(view, 0, target) is None
    assert not any(is_clear(view, tail, 0) for view in (*blocked, crossed))
    outside = Tail(root=tail.root, tip=Point(60, 81))
    assert not is_clear(scene(placed, mouth), outside, 0)


def test_own_head_is_kept_off_but_no_hindrance() -> None:
    """The tail to a figure's mouth ends before the head."""
    figure = Rect(50, 30, 16, 48)
    mouth = mouth_in(figure)
    tail = plain_tail(scene([at(0, 30, 14)], mouth, figures=(figure,)), 0, Target(mouth, stop=5.0))
    assert tail is not None
    head = head_in(figure)
    assert region(tail).distance(Dot(head.centre.x, head.centre.y)) > head.width / 2


def test_blocked_means_something_stands_in_the_rest_of_the_way() -> None:
    """Another's figure between tip and mouth blocks, one behind the mouth does not."""
    mouth = Point(90, 50)
    target = Target(mouth, stop=2.0)
    tail = Tail(root=(Point(30, 20), Point(32, 18)), tip=Point(50, 30))
    between, behind = Rect(62, 20, 18, 58), Rect(96, 20, 18, 58)
    assert is_blocked(scene([at(0, 20, 14)], mouth, figures=(between,)), tail, 0, target)
    assert not is_blocked(scene([at(0, 20, 14)], mouth, figures=(behind,)), tail, 0, target)
    assert is_blocked(scene([at(0, 20, 14), at(1, 70, 40)], mouth), tail, 0, target)
