"""What the tails of one panel see: all that they must keep off, and nothing of their own."""

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Ellipse, Floats
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.silhouette import head_in, mouth_in
from letterfit.place.tail_scene import Scene, scene_of
from letterfit.place.tail_walk import (
    DIRECTIONS,
    box_reach,
    corners_reach,
    ellipse_reach,
    outline_reach,
)

PANEL = Rect(0, 0, 120, 80)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
FIGURES = Rect(20, 30, 16, 48), Rect(60, 30, 16, 48)
BALLOON = Ellipse(half_width=14, half_height=8)
REGION = (Point(100, 60), Point(110, 60), Point(110, 70))


def scene() -> Scene:
    """Two of Wenna's balloons and one of Pilot's over their figures, and a region."""
    placed = [
        PlacedOutline(index=i, choice=0, outline=BALLOON, x_mm=x, y_mm=12)
        for i, x in enumerate((18, 60, 100))
    ]
    mouths = [mouth_in(FIGURES[0]), mouth_in(FIGURES[1]), mouth_in(FIGURES[0])]
    return scene_of(
        PANEL,
        placed,
        speakers=[WENNA, PILOT, WENNA],
        mouths=mouths,
        keep_clear=[REGION],
        figures=FIGURES,
    )


def holds(rows: Floats, row: Floats) -> bool:
    """Whether a reach is among many."""
    return any(np.allclose(one, row) for one in rows)


def test_a_tail_sees_all_but_its_own_balloon_and_the_one_it_leads_to() -> None:
    """Every other balloon, both heads and the region."""
    view = scene()
    bodies = view.bodies(0)
    assert bodies.shape == (2 + 2 + 1, DIRECTIONS)
    assert not holds(bodies, outline_reach(view.placed[0]))
    assert holds(bodies, outline_reach(view.placed[1]))
    assert all(holds(bodies, ellipse_reach(head_in(box))) for box in FIGURES)
    assert holds(bodies, corners_reach(np.array([complex(p.x, p.y) for p in REGION])))
    assert not holds(view.bodies(0, linked=1), outline_reach(view.placed[1]))


def test_only_the_figures_of_others_are_in_the_way() -> None:
    """Wenna's tails may reach over her own."""
    view = scene()
    own, other = (box_reach(figure.body) for figure in view.figures)
    assert holds(view.others(0), other)
    assert not holds(view.others(0), own)
    assert holds(view.others(1), own)


def test_tails_drawn_later_are_seen_at_once() -> None:
    """What was told before does not hide them; a tail is seen in two halves."""
    view = scene()
    before = len(view.bodies(1))
    tail = Tail(root=(Point(16, 19.9), Point(20, 19.9)), tip=Point(24, 28), bend=Point(18, 25))
    view.draw(tail, 0, Point(28, 36))
    assert len(view.bodies(1)) == before + 2
    view.draw(Tail(root=tail.root, tip=Point(10, 30)), 0, Point(28, 36))
    assert len(view.bodies(1)) == before + 3


def test_ways_of_the_same_mouth_do_not_cross_each_other() -> None:
    """Pilot's tail must not point across Wenna's way; Wenna's other tail may."""
    view = scene()
    tail = Tail(root=(Point(16, 19.9), Point(20, 19.9)), tip=Point(24, 28))
    view.draw(tail, 0, Point(28, 36))
    assert view.crossing_ways(1) == [(24 + 28j, 28 + 36j)]
    assert view.crossing_ways(2) == []
    assert len(view.between(1)) == len(view.between(2)) + 1


def test_a_mouth_without_a_figure_has_a_face_to_keep_off() -> None:
    """For others only: the speaker's own tail goes there."""
    mouth = Point(90, 60)
    item = PlacedOutline(index=0, choice=0, outline=BALLOON, x_mm=20, y_mm=12)
    view = scene_of(
        PANEL,
        [item, item],
        speakers=[WENNA, PILOT],
        mouths=[mouth, Point(30, 60)],
        keep_clear=(),
        figures=(),
    )
    face = box_reach(Rect(87.5, 57.5, 5, 5))
    assert holds(view.bodies(1), face)
    assert not holds(view.bodies(0), face)
