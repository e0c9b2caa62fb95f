"""Pressing: what it finds is legal, and it fills a panel that leaves half a millimetre."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import Ellipse, Outline
from letterfit.place.checker import check_layout
from letterfit.place.press import pressed
from letterfit.place.settle import decode
from letterfit.place.solver import place_outlines
from tests.place.posed import posed
from tests.place.shapes import outlines


def oval(half_width: float, half_height: float) -> list[Outline]:
    """A menu of one ellipse."""
    return [Ellipse(half_width=half_width, half_height=half_height)]


@given(st.lists(st.lists(outlines, min_size=1, max_size=3), min_size=2, max_size=5))
@settings(max_examples=15, deadline=None)
def test_what_is_pressed_into_a_panel_is_legal_there(menus: list[list[Outline]]) -> None:
    """Every layout found decodes as legal in the panel itself, no higher and no lower."""
    problem = posed((Rect(0, 0, 70, 42), menus))
    found = pressed(problem, 0)
    batch, legal = decode(problem, found.panel, x=found.x, outline=found.outline, fine=True)
    assert legal.all()
    np.testing.assert_allclose(batch.y, found.y, atol=1e-9)


def test_three_rows_that_leave_half_a_millimetre_are_placed() -> None:
    """Two, one tucked under the shoulder of the first, then two: nothing else goes in."""
    panel = Rect(0, 0, 92.12, 64.89)
    menus = [oval(16.35, 13.31), oval(25.47, 9.8), oval(22.08, 8.49)]
    menus += [oval(18.73, 11.42), oval(23.55, 12.02)]
    layout = place_outlines(panel, menus)
    assert layout.verdict == "placed"
    assert check_layout(panel, layout) == ()
    lower = place_outlines(Rect(0, 0, 92.12, 64.89 - 1.2), menus)
    assert lower.verdict != "placed"
