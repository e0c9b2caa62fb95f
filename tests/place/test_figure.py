"""Figure room against a brute force over heights and left edges."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from letterfit.drawn.cloud import Cloud
from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import Ellipse, Floats, Outline, Superellipse
from letterfit.place.figure import figure_room, half_chord
from letterfit.place.model import PlacedOutline
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(5, 7, 90, 60)


def brute_force(placed: list[PlacedOutline], *, aspect: float, step: float) -> float:
    """The tallest box on a grid of heights and left edges that meets no polygon of 720 corners."""
    polygons = [np.array(outline_polygon(item, 720).exterior.coords) for item in placed]
    best = 0.0
    for height in np.arange(step, min(PANEL.height, PANEL.width / aspect), step):
        width = aspect * height
        lefts = np.arange(PANEL.x, PANEL.right - width + 1e-9, step)
        free = np.ones(len(lefts), dtype=np.bool_)
        for p in polygons:
            low = p[p[:, 1] > PANEL.bottom - height, 0]
            if len(low):
                free &= (lefts + width <= low.min()) | (lefts >= low.max())
        if free.any():
            best = float(height)
    return best


@given(
    st.lists(st.tuples(outlines, st.floats(10, 90), st.floats(10, 65)), min_size=1, max_size=4),
    st.sampled_from([1 / 3, 0.2, 0.8]),
)
@settings(max_examples=20, deadline=None)
def test_room_equals_brute_force(spots: list[tuple[Outline, float, float]], aspect: float) -> None:
    """No box of a fine grid is taller, and one of the grid comes within its step."""
    placed = [
        PlacedOutline(index=i, choice=0, outline=o, x_mm=x, y_mm=y)
        for i, (o, x, y) in enumerate(spots)
    ]
    exact = figure_room(PANEL, placed, aspect=aspect)
    found = brute_force(placed, aspect=aspect, step=0.2)
    # The polygons' corners lie up to 0.1 mm apart, so a span may come out shorter by that.
    assert found <= exact + 0.1 + 0.1 / aspect
    assert found >= exact - 0.2 - 0.2 / aspect


def test_row_along_the_top_leaves_what_is_below_it() -> None:
    """Under a full-width row the room is what is left of the height."""
    assert figure_room(PANEL, [Rect(5, 7, 90, 20)]) == pytest.approx(40, abs=1e-7)


def test_empty_panel_leaves_its_whole_height() -> None:
    """Nothing in the way: the panel's height, or what its width allows."""
    assert figure_room(PANEL, []) == 60
    assert figure_room(Rect(0, 0, 10, 60), []) == 30


def test_figure_stands_in_the_gap_between_two_piles() -> None:
    """Between piles that leave 12 mm the tallest 1:3 figure is 36 mm."""
    piles = [Rect(5, 7, 40, 60), Rect(57, 7, 38, 60)]
    assert figure_room(PANEL, piles) == pytest.approx(36, abs=1e-7)


def test_wedges_take_room_too() -> None:
    """A triangle pointing down to y = 40 over the whole width stops the figure at its tip."""
    wedge = (Point(5, 7), Point(95, 7), Point(50, 40))
    room = figure_room(PANEL, [wedge], aspect=0.5)
    assert 27 < room < 60
    # The box stands at the left wall: its top right corner meets the wedge's left side.
    height = PANEL.bottom - (7 + (0.5 * room) * 33 / 45)
    assert room == pytest.approx(height, abs=1e-6)


def test_floor_taken_leaves_no_room() -> None:
    """A strip along the whole floor leaves nothing."""
    assert figure_room(PANEL, [Rect(5, 60, 90, 7)]) == 0


@given(
    st.lists(st.tuples(outlines, st.floats(10, 90), st.floats(10, 65)), min_size=1, max_size=4),
    st.integers(2, 4),
)
@settings(max_examples=60, deadline=None)
def test_several_boxes_are_as_tall_as_they_can_be(
    spots: list[tuple[Outline, float, float]], count: int
) -> None:
    """A hair lower so many find room side by side in what the polygons leave; a hair taller not."""
    placed = [
        PlacedOutline(index=i, choice=0, outline=o, x_mm=x, y_mm=y)
        for i, (o, x, y) in enumerate(spots)
    ]
    polygons = [np.array(outline_polygon(item, 6000).exterior.coords) for item in placed]
    height = figure_room(PANEL, placed, count=count)
    assert height <= figure_room(PANEL, placed) + 1e-6
    for tried, fits in ((height - 0.02, True), (height + 0.02, False)):
        if tried > 0:
            assert (tried <= PANEL.height and packed(polygons, height=tried) >= count) == fits


def packed(polygons: list[Floats], *, height: float) -> int:
    """How many boxes of 1:3 go side by side into what polygons leave of the floor."""
    edge, found = PANEL.x, 0
    spans = [p[p[:, 1] > PANEL.bottom - height, 0] for p in polygons]
    for low in sorted((s for s in spans if len(s)), key=lambda s: float(s.min())):
        found += int(max(min(float(low.min()), PANEL.right) - edge, 0.0) / (height / 3))
        edge = max(edge, float(low.max()))
    return found + int(max(PANEL.right - edge, 0.0) / (height / 3))


def test_one_disc_by_hand() -> None:
    """Beside a disc in the corner the box touches it: found again from the chord's equation."""
    disc = PlacedOutline(
        index=0, choice=0, outline=Ellipse(half_width=20, half_height=20), x_mm=25, y_mm=27
    )
    narrow = Rect(5, 7, 45, 60)
    height = figure_room(narrow, [disc])
    across = 25 + math.sqrt(20**2 - (67 - height - 27) ** 2)
    assert 50 - across == pytest.approx(height / 3, abs=1e-6)


def test_two_teeth_of_one_region_are_met_one_after_the_other() -> None:
    """A region with two lowest corners: the room jumps where the higher tooth comes in."""
    teeth = (Point(5, 7), Point(95, 7), Point(90, 30), Point(50, 10), Point(10, 47))
    room = figure_room(PANEL, [teeth], aspect=1.0)
    assert room == pytest.approx(brute_polygon(teeth), abs=0.05)


def brute_polygon(corners: tuple[Point, ...]) -> float:
    """The tallest square on a fine grid of heights beside the span of a polygon's lower part."""
    shape, best = Polygon([(p.x, p.y) for p in corners]), 0.0
    for height in np.arange(0.01, 60, 0.01):
        low = shape.intersection(box(-200, PANEL.bottom - height, 200, PANEL.bottom))
        left, right = (low.bounds[0], low.bounds[2]) if not low.is_empty else (95.0, 95.0)
        if max(left - PANEL.x, PANEL.right - right) >= height:
            best = float(height)
    return best


@pytest.mark.parametrize("lobes", [9, 16])
def test_chords_of_a_cloud_are_those_of_its_hull(lobes: int) -> None:
    """The point of the hull at each level, looked for in its support function."""
    cloud = Cloud(core=Superellipse(half_width=15, half_height=9), lobes=lobes)
    turn = np.linspace(0, math.pi / 2, 20_001)
    reach = cloud.support(turn)
    for share in (0.1, 0.5, 0.9, 0.99):
        v = share * cloud.half_height
        # The hull at a level: no direction cuts off (x, v); x is the least such bound.
        with np.errstate(divide="ignore"):
            bound = float(((reach - v * np.sin(turn)) / np.cos(turn)).min())
        assert half_chord(cloud, v) == pytest.approx(bound, abs=1e-3)
    assert half_chord(cloud, cloud.half_height) == 0


@pytest.mark.parametrize("aspect", [0.0, -1.0, float("nan"), float("inf")])
def test_impossible_aspects_are_refused(aspect: float) -> None:
    """An aspect that is no ratio raises, with advice."""
    with pytest.raises(PageError, match="width over height"):
        figure_room(PANEL, [], aspect=aspect)
