"""Where the figures stand: clear of balloons, side by side, near those who speak."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as Dot
from shapely import box

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.figure import figure_room
from letterfit.place.model import PlacedOutline, Reading, Speaker
from letterfit.place.silhouette import head_in, mouth_in
from letterfit.place.solver import place_outlines
from letterfit.place.standing import standing_figures
from tests.place.shapes import ellipses, outline_polygon, outlines, wedge_polygon

PANEL = Rect(5, 7, 90, 60)
WENNA, PILOT, MATE = (Speaker(name=name) for name in ("WENNA", "PILOT", "MATE"))


def at(index: int, x: float, y: float, outline: Outline) -> PlacedOutline:
    """An outline somewhere in the panel."""
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


def stand(
    placed: list[PlacedOutline],
    speakers: list[Speaker | None],
    *,
    panel: Rect = PANEL,
    reading: Reading = "ltr",
) -> tuple[Rect, ...]:
    """The figures of the usual shape."""
    tallest = figure_room(panel, placed)
    return standing_figures(
        panel, placed, speakers=speakers, tallest=tallest, aspect=1 / 3, reading=reading
    )


@given(
    st.lists(st.tuples(outlines, st.floats(10, 90), st.floats(10, 65)), min_size=1, max_size=4),
    st.lists(st.sampled_from([WENNA, PILOT, MATE, None]), min_size=4, max_size=4),
)
@settings(max_examples=40, deadline=None)
def test_figures_stand_clear_on_the_floor(
    spots: list[tuple[Outline, float, float]], cast: list[Speaker | None]
) -> None:
    """All of one height, inside the panel, off every balloon and off each other; shapely agrees."""
    placed = [at(i, x, y, o) for i, (o, x, y) in enumerate(spots)]
    figures = stand(placed, cast[: len(placed)])
    tallest = figure_room(PANEL, placed)
    assert bool(figures) == (tallest >= 0.1)
    balloons = [outline_polygon(item, 720) for item in placed]
    for figure in figures:
        assert PANEL.holds(figure, tolerance=1e-6)
        assert figure.bottom == pytest.approx(PANEL.bottom)
        assert figure.height == pytest.approx(figures[0].height)
        assert figure.height <= tallest + 1e-9
        inside = box(figure.x, figure.y + 1e-3, figure.right, figure.bottom)
        assert all(inside.intersection(balloon).area < 1e-2 for balloon in balloons)
    for one, two in combinations(figures, 2):
        assert min(one.right, two.right) - max(one.x, two.x) < 1e-6
    if len(figures) == 1:
        assert figures[0].height == pytest.approx(tallest, rel=1e-5)


def test_lone_figure_stands_under_its_balloon() -> None:
    """Everywhere equally tall under a full row: it stands under who speaks, not at a wall."""
    row = [
        at(0, 25, 14, CaptionBox(half_width=20, half_height=7)),
        at(1, 70, 14, CaptionBox(half_width=25, half_height=7)),
    ]
    (left,) = stand(row, [WENNA, None])
    (right,) = stand(row, [None, WENNA])
    assert left.centre.x == pytest.approx(25)
    assert right.centre.x == pytest.approx(70)


def test_silent_panel_has_its_figure_in_the_middle() -> None:
    """Nobody speaks: the box stands in the middle of the panel."""
    (figure,) = stand([], [])
    assert figure.centre.x == pytest.approx(PANEL.centre.x)


def test_several_stand_in_order_of_first_speech_and_in_the_mirror_for_rtl() -> None:
    """Left to right for ltr, right to left for rtl, one box for each name."""
    placed = [
        at(i, x, 12, Ellipse(half_width=8, half_height=4)) for i, x in enumerate((20, 50, 80))
    ]
    figures = stand(placed, [PILOT, WENNA, PILOT])
    assert len(figures) == 2
    assert figures[0].x < figures[1].x
    mirrored = [at(i, 100 - item.x_mm, 12, item.outline) for i, item in enumerate(placed)]
    for one, two in zip(
        figures, stand(mirrored, [PILOT, WENNA, PILOT], reading="rtl"), strict=True
    ):
        assert one.x - PANEL.x == pytest.approx(PANEL.right - two.right, abs=1e-6)


def test_common_height_is_the_largest() -> None:
    """Two figures in 30 x 60 mm are 15 mm wide each: 45 mm, found by hand."""
    narrow = Rect(0, 0, 30, 60)
    placed = [
        at(0, 7, 4, Ellipse(half_width=4, half_height=2)),
        at(1, 22, 4, Ellipse(half_width=4, half_height=2)),
    ]
    one, two = stand(placed, [WENNA, PILOT], panel=narrow)
    assert [one.height, two.height] == pytest.approx([45, 45], rel=1e-5)


def test_one_stands_alone_where_there_is_no_room_for_two() -> None:
    """A shaft 6 mm wide takes one figure of 18 mm; two would be half as tall."""
    shaft = [
        at(0, 40, 37, CaptionBox(half_width=35, half_height=30)),
        at(1, 88, 37, CaptionBox(half_width=7, half_height=30)),
    ]
    (figure,) = stand(
        [*shaft, at(2, 78, 20, CaptionBox(half_width=2, half_height=2))], [None, None, WENNA]
    )
    assert figure.height == pytest.approx(18, rel=1e-5)


@given(
    st.floats(35, 120),
    st.floats(35, 110),
    st.floats(80, 500),
    st.lists(st.sampled_from([WENNA, PILOT]), min_size=1, max_size=3),
)
@settings(max_examples=25, deadline=None)
def test_tails_go_towards_the_heads_and_stop_short_of_them(
    width: float, height: float, area: float, cast: list[Speaker]
) -> None:
    """No tail enters a face, and one that is no link ends nearer its own mouth than it begins."""
    panel = Rect(0, 0, width, height)
    layout = place_outlines(panel, [ellipses(area)] * len(cast), speakers=cast)
    names = list(dict.fromkeys(s.name for s in cast))
    if layout.verdict != "placed" or layout.findings or len(layout.figures) != len(names):
        return
    for item, speaker in zip(layout.placed, cast, strict=True):
        assert item.tail is not None
        wedge = wedge_polygon(item)
        for figure in layout.figures:
            head = head_in(figure)
            inner = min(head.width, head.height) / 2
            assert wedge.distance(Dot(head.centre.x, head.centre.y)) > inner * 0.99
        if item.tail.to is None:
            mouth = mouth_in(layout.figures[names.index(speaker.name)])
            assert mouth.distance(item.tail.tip) < min(map(mouth.distance, item.tail.root))
