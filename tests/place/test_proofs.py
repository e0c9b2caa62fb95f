"""Proofs that a panel cannot be filled: right where they speak, silent where a layout exists."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.solver import place_outlines
from letterfit.separation import gap
from tests.place.shapes import ellipses, outlines


def box(width: float, height: float) -> tuple[Outline, ...]:
    """A menu of one caption box of that whole width and height."""
    return (CaptionBox(half_width=width / 2, half_height=height / 2),)


def test_shape_is_named_with_its_figures() -> None:
    """A balloon wider than the panel less its margins cannot go in, and the reason says by what."""
    layout = place_outlines(Rect(0, 0, 40, 30), [box(38, 5)])
    assert (layout.verdict, layout.reason.split(":")[0]) == ("impossible", "shape")
    assert "38.0 x 5.0 mm" in layout.reason
    assert "37.0 x 27.0 mm" in layout.reason


def test_outline_of_the_very_size_of_the_room_goes_in() -> None:
    """Exactly as wide and high as the panel less its margins is not too large."""
    layout = place_outlines(Rect(0, 0, 40, 30), [box(37, 27)])
    assert layout.verdict == "placed"


def test_coverage_is_named_with_its_figures() -> None:
    """Smallest outlines that cover more than the limit are refused with both areas."""
    layout = place_outlines(Rect(0, 0, 40, 30), [box(20, 10), box(20, 10)], coverage_limit=0.3)
    assert (layout.verdict, layout.reason) == ("impossible", "coverage: needs 400 of 360 mm2")


def test_area_counts_the_gap_by_steiner() -> None:
    """Boxes whose areas alone would go in, but not with half a gap round each of them."""
    menus = [box(12, 8)] * 8
    layout = place_outlines(Rect(0, 0, 40, 30), menus, gap_mm=3)
    assert (layout.verdict, layout.reason.split(":")[0]) == ("impossible", "area")
    room = 37 * 27 + (37 + 27) * 3 + math.pi * 1.5**2
    assert f"of {room:.0f} mm2" in layout.reason
    needed = 8 * (96 + 40 * 1.5 + math.pi * 1.5**2)
    assert f"needs {needed:.0f} " in layout.reason


def test_two_balloons_that_do_not_go_together_are_named() -> None:
    """Areas go in, but neither beside nor below each other do the two."""
    layout = place_outlines(Rect(0, 0, 40, 30), [box(25, 15), box(25, 15)])
    assert layout.verdict == "impossible"
    assert layout.reason == "pair: balloons 1 and 2 together do not go into 37.0 x 27.0 mm"


@pytest.mark.parametrize(("height", "verdict"), [(36.1, "impossible"), (36.2, "placed")])
def test_round_balloons_too_near_in_the_corners_do_not_go_together(
    height: float, verdict: str
) -> None:
    """Two discs of 20 mm, 17 mm apart across: in order, but nearer than the gap of 1.5 mm.

    Centres are 21.5 mm apart at least, so 13.16 mm down, in 33.16 mm between margins of 1.5 mm.
    """
    disc = (Ellipse(half_width=10, half_height=10),)
    layout = place_outlines(Rect(0, 0, 40, height), [disc, disc])
    assert layout.verdict == verdict
    if verdict == "impossible":
        assert layout.reason.split(":")[0] == "pair"


def _brute_force(
    panel: Rect, menus: Sequence[Sequence[Outline]], *, step: float, ordered: bool
) -> bool:
    """Whether two balloons go in somewhere on a grid of centres, tried one by one."""
    room = panel.inset(1.5)
    for one in menus[0]:
        for two in menus[1]:
            for x1, y1 in _centres(room, one, step):
                for x2, y2 in _centres(room, two, step):
                    below = y2 - y1 >= one.half_height + two.half_height
                    right = x2 - x1 >= 0.8 * (one.half_width + two.half_width)
                    high = y2 - two.half_height < y1 - one.half_height
                    if ordered and not (below or (right and not high)):
                        continue
                    if abs(x2 - x1) < 1e-9 and abs(y2 - y1) < 1e-9:
                        continue
                    if gap(one, two, dx=x2 - x1, dy=y2 - y1) >= 1.5:
                        return True
    return False


def _centres(room: Rect, outline: Outline, step: float) -> list[tuple[float, float]]:
    across = room.width - 2 * outline.half_width
    down = room.height - 2 * outline.half_height
    if across < 0 or down < 0:
        return []
    xs = room.x + outline.half_width + np.linspace(0, across, max(2, round(across / step)))
    ys = room.y + outline.half_height + np.linspace(0, down, max(2, round(down / step)))
    return [(float(x), float(y)) for x in xs for y in ys]


@given(
    width=st.floats(25, 60),
    height=st.floats(20, 45),
    one=outlines,
    two=outlines,
    ordered=st.booleans(),
)
@settings(max_examples=40, deadline=None)
def test_impossible_is_never_contradicted(
    width: float, height: float, one: Outline, two: Outline, *, ordered: bool
) -> None:
    """Where a brute force over a coarse grid finds a layout, the verdict is "placed"."""
    panel = Rect(0, 0, width, height)
    menus = [[one], [two]]
    layout = place_outlines(panel, menus, ordered=ordered)
    if layout.verdict != "placed":
        assert not _brute_force(panel, menus, step=6, ordered=ordered)


@given(st.lists(outlines, min_size=1, max_size=5), st.floats(1, 1.4))
@settings(max_examples=25, deadline=None)
def test_larger_panel_never_turns_placed_into_impossible(
    shapes: list[Outline], grow: float
) -> None:
    """A proof for the larger panel would contradict the layout of the smaller one."""
    menus = [[shape] for shape in shapes]
    small = place_outlines(Rect(0, 0, 70, 50), menus)
    large = place_outlines(Rect(0, 0, 70 * grow, 50 * grow), menus)
    if small.verdict == "placed":
        assert large.verdict != "impossible"


@pytest.mark.parametrize("count", [3, 12, 60])
def test_layouts_cut_from_a_grid_are_never_called_impossible(count: int) -> None:
    """Discs that a plain grid holds have no proof against them."""
    side = math.ceil(math.sqrt(count))
    radius = (60 - 3 - (side - 1) * 1.5) / side / 2
    menus = [[Ellipse(half_width=radius, half_height=radius)]] * count
    assert place_outlines(Rect(0, 0, 60, 60), menus).verdict != "impossible"


def test_menus_are_searched_for_the_outline_that_goes_in() -> None:
    """Only the narrowest outline of each menu goes in: found, not refused."""
    layout = place_outlines(Rect(0, 0, 30, 60), [ellipses(300), ellipses(300)])
    assert layout.verdict == "placed"
