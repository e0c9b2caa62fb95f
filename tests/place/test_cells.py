"""Cells: they cover all places, and ask for no more than the closest places in them do."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Insets, Rect
from letterfit.outline import CaptionBox, Outline
from letterfit.place.cells import cell_downs, cut, joined_downs
from letterfit.place.terms import Terms
from letterfit.separation import gap
from tests.place.shapes import outlines

PANEL = Rect(0, 0, 90, 60)
BOX = CaptionBox(half_width=10, half_height=4)


def terms(**changes: object) -> Terms:
    """Usual ones, but for some."""
    usual: dict[str, object] = {
        "gap": 1.5,
        "margin": Insets.even(1.5),
        "reading": "ltr",
        "regions": (),
        "speakers": (),
        "limit": 1.0,
        "ordered": True,
        "aspect": 1 / 3,
    }
    return Terms(**{**usual, **changes})  # type: ignore[arg-type]


def test_cells_cover_the_room_from_wall_to_wall() -> None:
    """Side by side, from the left margin to the right one; what is too wide has none."""
    wide = CaptionBox(half_width=44, half_height=4)
    cells = cut(PANEL, [wide, BOX], 0, terms=terms(), count=4)
    assert cells.outline.tolist() == [1] * 4
    assert cells.left[0] == pytest.approx(11.5)
    assert cells.right[-1] == pytest.approx(78.5)
    assert cells.left[1:].tolist() == pytest.approx(cells.right[:-1].tolist())


def test_an_outline_as_high_as_the_room_has_cells() -> None:
    """One of the very height between the margins stands in the panel; a higher one does not."""
    heights = (57 / 2, 57 / 2 + 0.001)
    menu = [CaptionBox(half_width=10, half_height=height) for height in heights]
    assert cut(PANEL, menu, 0, terms=terms(), count=4).outline.tolist() == [0] * 4


def test_halves_are_their_cell() -> None:
    """Both halves together reach as far as the cell did, and are of its outline."""
    cells = cut(PANEL, [BOX, CaptionBox(half_width=8, half_height=5)], 0, terms=terms(), count=3)
    halves = cells.halved()
    assert halves.outline.tolist() == np.repeat(cells.outline, 2).tolist()
    assert halves.left[::2].tolist() == cells.left.tolist()
    assert halves.right[1::2].tolist() == cells.right.tolist()
    assert halves.left[1::2].tolist() == halves.right[::2].tolist()


@given(
    one=outlines,
    two=outlines,
    places=st.tuples(st.floats(0, 1), st.floats(0, 1)),
    down=st.floats(-20, 20),
)
@settings(max_examples=300, deadline=None)
def test_no_legal_place_is_higher_than_cells_say(
    one: Outline, two: Outline, places: tuple[float, float], down: float
) -> None:
    """Wherever two outlines keep gap and order, the later is as far down as its cells ask."""
    cells = [cut(PANEL, [shape], i, terms=terms(), count=5) for i, shape in enumerate((one, two))]
    x, later = (
        own.left[0] + share * (own.right[-1] - own.left[0])
        for own, share in zip(cells, places, strict=True)
    )
    below = down >= one.half_height + two.half_height
    beside = later - x >= 0.8 * (one.half_width + two.half_width)
    beside &= down - two.half_height >= -one.half_height
    if not (below or beside) or gap(one, two, dx=later - x, dy=down) < 1.5:
        return
    asked = cell_downs(([one], [two]), (cells[0], cells[1]), gap=1.5)
    i, j = (
        min(int(np.searchsorted(own.right, at)), 4)
        for own, at in zip(cells, (x, later), strict=True)
    )
    assert asked[i, j] <= down + 1e-9


def test_box_under_box_asks_for_heights_and_gap() -> None:
    """One cell each, no room to move: both half-heights and the gap, to rounding."""
    tall = CaptionBox(half_width=43.5, half_height=6)
    cells = [cut(PANEL, [tall], i, terms=terms(), count=1) for i in (0, 1)]
    asked = cell_downs(([tall], [tall]), (cells[0], cells[1]), gap=1.5)
    assert asked[0, 0] == pytest.approx(13.5, abs=1e-5)


def test_joined_balloon_begins_below_the_middle() -> None:
    """Where it cannot stand right of the one before it; beside it, no higher than that one."""
    cells = [cut(PANEL, [BOX], i, terms=terms(), count=10) for i in (0, 1)]
    asked = joined_downs(cells[0], cells[1])
    assert asked[5, 0] == 4.0
    assert asked[0, 9] == 0.0
