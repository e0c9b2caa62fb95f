"""Figure room against a brute force over heights and left edges."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import Outline
from letterfit.place import PlacedOutline, figure_room
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


@pytest.mark.parametrize("aspect", [0.0, -1.0, float("nan"), float("inf")])
def test_impossible_aspects_are_refused(aspect: float) -> None:
    """An aspect that is no ratio raises, with advice."""
    with pytest.raises(PageError, match="width over height"):
        figure_room(PANEL, [], aspect=aspect)
