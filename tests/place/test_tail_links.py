"""Which balloons share a tail, and the narrow bridges between them."""

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from letterfit.drawn.burst import Burst
from letterfit.drawn.plain_lines import Squared
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect
from letterfit.place.model import PlacedOutline, Speaker
from letterfit.place.tail_links import bridge, chains, far_links, link_tails
from letterfit.place.tail_scene import Scene, scene_of
from letterfit.place.wedge import tail_polygon
from letterfit.separation import clearance
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(0, 0, 120, 80)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
BALLOON = Ellipse(half_width=14, half_height=8)


def at(index: int, x: float, y: float, outline: Outline = BALLOON) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


def scene(placed: Sequence[PlacedOutline], speakers: Sequence[Speaker | None]) -> Scene:
    """A panel in which all mouths are low down in the middle."""
    return scene_of(
        PANEL,
        placed,
        speakers=speakers,
        mouths=[None if speaker is None else Point(60, 70) for speaker in speakers],
        keep_clear=(),
        figures=(),
    )


def runs(placed: Sequence[PlacedOutline], speakers: Sequence[Speaker | None]) -> list[list[int]]:
    """The balloons of each chain."""
    return [list(chain.balloons) for chain in chains(scene(placed, speakers))]


def test_neighbours_of_one_voice_make_a_chain() -> None:
    """2 mm apart they are linked, 7 mm apart not; nor is another's balloon, nor a caption."""
    near, far = [at(0, 20, 12), at(1, 50, 12)], [at(0, 20, 12), at(1, 55, 12)]
    assert runs(near, [WENNA, WENNA]) == [[0, 1]]
    assert runs(near, [WENNA, PILOT]) == [[0], [1]]
    assert runs(near, [WENNA, None]) == [[0]]
    assert runs(far, [WENNA, WENNA]) == [[0], [1]]


def test_balloons_that_do_not_follow_each_other_are_not_linked() -> None:
    """Wenna, Pilot, Wenna: three chains, however near the third is to the first."""
    placed = [at(0, 20, 12), at(1, 90, 12), at(2, 20, 30)]
    assert runs(placed, [WENNA, PILOT, WENNA]) == [[0], [1], [2]]


def test_nothing_may_come_between_linked_balloons() -> None:
    """A caption's corner in the gap, and each has a tail of its own."""
    between = at(2, 35, 12, CaptionBox(half_width=0.4, half_height=6))
    placed = [at(0, 18.5, 12), at(1, 51.5, 12), between]
    assert runs(placed[:2], [WENNA, WENNA]) == [[0, 1]]
    assert runs(placed, [WENNA, WENNA, None]) == [[0], [1]]


def test_what_is_near_a_link_but_off_it_hinders_nothing() -> None:
    """A caption under the neck, a millimetre from it: nearer than a plain link would have it."""
    beside = at(2, 35, 17, CaptionBox(half_width=0.4, half_height=3))
    placed = [at(0, 18.5, 12), at(1, 51.5, 12), beside]
    view = scene(placed, [WENNA, WENNA, None])
    link = bridge(view, 0, 1)
    neck = Polygon([(p.x, p.y) for p in tail_polygon(link)])
    assert 0.5 < neck.distance(outline_polygon(beside, 400)) < 1.4
    assert [list(chain.balloons) for chain in chains(view)] == [[0, 1]]


def test_uneven_lines_and_other_manners_are_not_linked() -> None:
    """Bursts have no place for a neck; a machine's voice is not the speaker's own."""
    burst = Burst(core=Ellipse(half_width=12, half_height=7), points=14)
    box = Squared(core=RoundedRect(half_width=14, half_height=8, radius=5))
    for one, two, linked in (
        (burst, burst, False),
        (BALLOON, burst, False),
        (BALLOON, box, False),
        (box, box, True),
    ):
        gap = 3.0
        x = 20 + one.half_width + gap + two.half_width
        placed = [at(0, 20, 20, one), at(1, x, 20, two)]
        assert len(runs(placed, [WENNA, WENNA])) == (1 if linked else 2)


def test_all_but_the_carrier_lead_to_the_next_on_the_way_to_it() -> None:
    """Three in a row: whoever has the tail, the links run towards it."""
    placed = [at(0, 20, 12), at(1, 51, 12), at(2, 82, 12)]
    view = scene(placed, [WENNA] * 3)
    (chain,) = chains(view)
    for carrier, wanted in ((0, {1: 0, 2: 1}), (1, {0: 1, 2: 1}), (2, {0: 1, 1: 2})):
        links = {index: tail.to for index, tail in link_tails(view, chain, carrier)}
        assert links == wanted


def test_far_links_reach_a_neighbour_that_is_not_linked() -> None:
    """From 6 to 12 mm away, one voice: the way out where no tail runs clear."""
    view = scene([at(0, 20, 12), at(1, 58, 12)], [WENNA, WENNA])
    found = chains(view)
    assert len(found) == 2
    assert far_links(view, found, 0) == [(0, 1)]
    assert far_links(view, found, 1) == [(1, 0)]
    apart = scene([at(0, 20, 12), at(1, 70, 12)], [WENNA, WENNA])
    assert far_links(apart, chains(apart), 0) == []


@given(outlines, outlines, st.floats(-12, 12), st.floats(0.8, 6))
@settings(max_examples=80, deadline=None)
def test_bridges_run_from_outline_to_outline(
    one: Outline, two: Outline, lean: float, gap: float
) -> None:
    """Rooted on the first, ending a third of a millimetre off the second, running into neither."""
    lower = at(1, 60 + lean, 20 + one.half_height + gap + two.half_height, two)
    placed = [at(0, 60, 20, one), lower]
    tail = bridge(scene(placed, [WENNA, WENNA]), 0, 1)
    assert tail.to == 1
    spots = [[root.x - 60, root.y - 20] for root in tail.root]
    assert clearance(one, spots) == pytest.approx(0, abs=1e-6)
    tip = [[tail.tip.x - lower.x_mm, tail.tip.y - lower.y_mm]]
    assert -0.5 < clearance(two, tip) < 0
    wedge = Polygon([(p.x, p.y) for p in tail_polygon(tail)])
    assert wedge.intersection(outline_polygon(lower, 500)).area < 1e-6


def test_boxes_are_bridged_in_the_middle_of_what_faces() -> None:
    """Two boxes one over the other, moved sideways: half way along the sides they share."""
    box = CaptionBox(half_width=10, half_height=4)
    tail = bridge(scene([at(0, 50, 20, box), at(1, 58, 31, box)], [WENNA, WENNA]), 0, 1)
    assert (tail.root[0].x + tail.root[1].x) / 2 == pytest.approx(54, abs=0.3)
    assert tail.tip.x == pytest.approx(54, abs=0.3)
