"""The height that no figure exceeds: above every layout, and tight where a balloon settles it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Outline
from letterfit.place.bounds import figure_bounds
from letterfit.place.figure import figure_room
from letterfit.place.model import PlacedOutline
from letterfit.place.solver import place_outlines
from letterfit.place.terms import make_terms
from tests.place.shapes import outlines


def bound(panel: Rect, menus: list[list[Outline]], aspect: float = 1 / 3) -> float:
    """That of one panel."""
    terms = make_terms(
        panel,
        menus,
        gap_mm=1.5,
        margin_mm=1.5,
        reading="ltr",
        keep_clear=(),
        figure_aspect=aspect,
    )
    return figure_bounds([panel], [menus], terms=[terms])[0]


@given(outlines, st.floats(0, 1), st.floats(0, 1), st.floats(0.2, 1.2))
@settings(max_examples=200, deadline=None)
def test_no_place_of_a_balloon_leaves_a_taller_figure(
    shape: Outline, across: float, down: float, aspect: float
) -> None:
    """Wherever in the panel the one balloon stands, inside its margin."""
    panel = Rect(0, 0, 60, 45)
    move_x, move_y = 60 - 3 - 2 * shape.half_width, 45 - 3 - 2 * shape.half_height
    item = PlacedOutline(
        index=0,
        choice=0,
        outline=shape,
        x_mm=1.5 + shape.half_width + across * move_x,
        y_mm=1.5 + shape.half_height + down * move_y,
    )
    room = figure_room(panel, [item], aspect=aspect)
    assert room <= bound(panel, [[shape]], aspect) + 1e-6


@given(st.lists(st.lists(outlines, min_size=1, max_size=3), min_size=1, max_size=4))
@settings(max_examples=40, deadline=None)
def test_layouts_stay_under_their_bound(menus: list[list[Outline]]) -> None:
    """The solver's own figure is never over what is proved."""
    panel = Rect(0, 0, 100, 60)
    layout = place_outlines(panel, menus)
    assert layout.figure_height_mm <= bound(panel, menus) + 1e-6


def test_wide_box_settles_the_figure() -> None:
    """A caption as wide as the panel leaves what is under it, and no more."""
    menus: list[list[Outline]] = [[CaptionBox(half_width=28.5, half_height=6)]]
    assert bound(Rect(0, 0, 60, 40), menus) == pytest.approx(40 - 1.5 - 12)


def test_areas_bound_a_figure_as_wide_as_the_panel() -> None:
    """A square figure beside balloons of half the panel's area has at most the other half."""
    menus: list[list[Outline]] = [[CaptionBox(half_width=20, half_height=5)]] * 4
    assert bound(Rect(0, 0, 60, 60), menus, aspect=1.0) <= (3600 - 1600) ** 0.5 + 1e-9
