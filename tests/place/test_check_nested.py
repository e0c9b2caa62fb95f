"""The checker's nested search: it shows what does not go in, and nothing of what does."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Insets, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.check_nested import none_goes_in
from letterfit.place.check_options import Option, Room, make_room, options
from letterfit.place.solver import place_outlines
from tests.place.hand_made import joint
from tests.place.shapes import outlines

ENOUGH = 100_000


def shown(
    width: float,
    height: float,
    menus: list[list[Outline]],
    *,
    joined: tuple[bool, ...] = (),
    overhangs: list[list[float]] | None = None,
    cells: int = 16,
    states: int = ENOUGH,
) -> bool:
    """Whether it is shown that these do not go into a panel of that size."""
    room = make_room(Rect(0, 0, width, height), margin_mm=1.5, gap_mm=1.5, overlap_mm=1)
    ways = options(room, menus, overhangs)
    meets = joined or (False,) * len(menus)
    return none_goes_in(room, ways, joined=meets, cells=cells, states=states)


def box(width: float, height: float) -> list[Outline]:
    """A menu of one caption box of that whole width and height."""
    return [CaptionBox(half_width=width / 2, half_height=height / 2)]


@pytest.mark.parametrize(("spare", "none"), [(-0.01, True), (0.01, False)])
def test_stack_needs_its_heights_and_gaps(spare: float, *, none: bool) -> None:
    """To a hundredth of a millimetre, for boxes of which no two stand side by side."""
    menus = [box(30, 10), box(30, 12), box(30, 8)]
    assert shown(50, 36 + spare, menus) == none


@pytest.mark.parametrize(("spare", "none"), [(-0.05, True), (0.05, False)])
def test_two_rows_of_three_need_their_widths(spare: float, *, none: bool) -> None:
    """Six equal boxes, three side by side and three under them: as wide and high as that is."""
    menus = [box(30, 10)] * 6
    assert shown(96 + spare, 24.6, menus, cells=64) == none
    assert shown(97, 24.5 + spare, menus, cells=64) == none


def test_joined_balloons_overlap_and_what_hangs_over_saves_height() -> None:
    """Both are granted: three boxes go in lower than without, and no lower than that."""
    menus = [box(30, 8), box(30, 8), box(30, 8)]
    assert shown(50, 29.9, menus)
    assert not shown(50, 30.1, menus)
    assert not shown(50, 27.6, menus, joined=(False, True, False))
    assert not shown(50, 26.6, menus, overhangs=[[2.0], [0.0], [0.0]])
    assert shown(50, 26.4, menus, overhangs=[[2.0], [0.0], [0.0]])


def test_it_ends_when_it_has_looked_at_so_many() -> None:
    """With too few states it says nothing; with enough it does."""
    menu: list[Outline] = [
        Ellipse(half_width=12, half_height=8),
        Ellipse(half_width=10, half_height=9.6),
    ]
    assert not shown(80, 34, [menu] * 5, states=50)
    assert shown(80, 34, [menu] * 5)


@given(st.lists(outlines, min_size=2, max_size=5), st.floats(50, 110), st.floats(40, 80))
@settings(max_examples=40, deadline=None)
def test_nothing_is_shown_of_a_layout_in_the_least_panel_that_takes_it(
    shapes: list[Outline], width: float, height: float
) -> None:
    """A panel cut down to a layout's own width and height still takes its balloons."""
    menus = [[shape] for shape in shapes]
    placed = place_outlines(Rect(0, 0, width, height), menus).placed
    if not placed:
        return
    right = max(item.x_mm + item.outline.half_width for item in placed)
    left = min(item.x_mm - item.outline.half_width for item in placed)
    bottom = max(item.y_mm + item.outline.half_height for item in placed)
    assert not shown(right - left + 3, bottom + 1.5, menus, cells=32, states=20_000)


@given(
    shapes=st.lists(outlines, min_size=2, max_size=2),
    side=st.floats(-0.5, 0.9),
    hangs=st.floats(0.1, 2),
)
@settings(max_examples=60, deadline=None)
def test_nothing_is_shown_of_a_joint_that_hangs_over(
    shapes: list[Outline], side: float, hangs: float
) -> None:
    """Two joined balloons, the first cut by the border, in the least room that takes them."""
    one, two = (CaptionBox(half_width=s.half_width, half_height=s.half_height) for s in shapes)
    room = Room(width=0, height=0, margin=Insets.even(1.5), gap=1.5, overlap=1)
    first = place_outlines(Rect(0, 0, 90, 60), [[one]]).placed[0]
    second = joint(first, two, dx=side * (one.half_width + two.half_width - 1), overlap_mm=1)
    if second.y_mm - first.y_mm < two.half_height:
        return
    ends = [(i.x_mm - i.outline.half_width, i.x_mm + i.outline.half_width) for i in (first, second)]
    width = max(end for _, end in ends) - min(start for start, _ in ends) + 3
    bottom = max(i.y_mm + i.outline.half_height for i in (first, second))
    shift = first.y_mm - one.half_height + hangs
    room = room._replace(width=width, height=bottom - shift + 1.5)
    ways = [[Option(one, hangs)], [Option(two, 0.0)]]
    assert not none_goes_in(room, ways, joined=[False, True], cells=32, states=ENOUGH)
