"""The proof by exhausted cells: it speaks of panels that cannot be filled, and of no others."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Insets, Rect
from letterfit.outline import CaptionBox, Outline
from letterfit.place.check_proofs import check_proof
from letterfit.place.exhaust import exhausted
from letterfit.place.solver import place_outlines
from letterfit.place.terms import Terms
from tests.benchmarks.panels import heavy_panels
from tests.place.shapes import ellipses, outlines

TERMS = Terms(
    gap=1.5,
    margin=Insets.even(1.5),
    reading="ltr",
    regions=(),
    speakers=(),
    limit=1.0,
    ordered=True,
    aspect=1 / 3,
)


def box(width: float, height: float) -> tuple[Outline, ...]:
    """A menu of one caption box of that whole width and height."""
    return (CaptionBox(half_width=width / 2, half_height=height / 2),)


@given(
    width=st.floats(40, 110),
    height=st.floats(30, 80),
    menus=st.lists(st.lists(outlines, min_size=1, max_size=3), min_size=2, max_size=5),
)
@settings(max_examples=20, deadline=None)
def test_proof_is_silent_where_a_layout_exists(
    width: float, height: float, menus: list[list[Outline]]
) -> None:
    """No panel that was filled is ever proved impossible."""
    panel = Rect(0, 0, width, height)
    if place_outlines(panel, menus).verdict == "placed":
        assert exhausted(panel, menus, terms=TERMS, most=1_000_000) is None


@pytest.mark.parametrize(("spare", "proved"), [(-0.1, True), (0.1, False)])
def test_three_boxes_that_must_stack_need_the_sum_of_their_heights(
    spare: float, *, proved: bool
) -> None:
    """Too wide to stand side by side: three heights and two gaps, or the proof that says so."""
    menus = [box(30, 10), box(30, 12), box(30, 8)]
    panel = Rect(0, 0, 50, 10 + 12 + 8 + 2 * 1.5 + 2 * 1.5 + spare)
    # Boxes one below the other with no gap between their x ranges need the gap down.
    assert (exhausted(panel, menus, terms=TERMS) is not None) == proved
    assert (place_outlines(panel, menus).verdict == "placed") != proved


def test_verdict_names_the_proof_and_its_figures() -> None:
    """The layout's reason carries the proof's name, the arrangements and the height."""
    menus = [ellipses(500), ellipses(500), ellipses(500)]
    layout = place_outlines(Rect(0, 0, 48, 50), menus)
    assert layout.verdict == "impossible"
    assert layout.reason.split(":")[0] in ("area", "cells")
    assert "of" in layout.reason


def test_without_reading_order_nothing_is_proved() -> None:
    """The bounds rest on the reading order: where it does not bind they say nothing."""
    menus = [box(30, 20), box(30, 20), box(30, 20)]
    panel = Rect(0, 0, 50, 40)
    assert exhausted(panel, menus, terms=TERMS) is not None
    assert exhausted(panel, menus, terms=replace(TERMS, ordered=False)) is None


@given(st.lists(outlines, min_size=2, max_size=6), st.floats(50, 110), st.floats(40, 80))
@settings(max_examples=30, deadline=None)
def test_proof_is_silent_in_the_least_panel_that_takes_a_layout(
    shapes: list[Outline], width: float, height: float
) -> None:
    """A panel cut down to a layout's own width and height still takes its balloons."""
    menus = [[shape] for shape in shapes]
    placed = place_outlines(Rect(0, 0, width, height), menus).placed
    if placed:
        right = max(item.x_mm + item.outline.half_width for item in placed)
        left = min(item.x_mm - item.outline.half_width for item in placed)
        bottom = max(item.y_mm + item.outline.half_height for item in placed)
        panel = Rect(0, 0, right - left + 3 + 1e-9, bottom + 1.5)
        assert exhausted(panel, menus, terms=TERMS, most=300_000) is None


@pytest.mark.parametrize("number", [144, 148, 170, 197])
def test_heavy_panels_without_room_are_proved_and_found_again(number: int) -> None:
    """Six to eight balloons over much of a panel, of which no search finds a layout."""
    task = heavy_panels()[number]
    layout = place_outlines(task.panel, task.menus, speakers=task.speakers)
    assert layout.verdict == "impossible"
    assert check_proof(task.panel, task.menus, layout) == ()


def test_proof_ends_when_it_has_looked_at_so_many() -> None:
    """With too little to look at it proves nothing, and says nothing."""
    task = heavy_panels()[144]
    assert exhausted(task.panel, task.menus, terms=TERMS, most=1000) is None
    assert exhausted(task.panel, task.menus, terms=TERMS) is not None
