"""Where any order will do: what the script's order wastes, another order fills."""

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox
from letterfit.place.checker import check_layout
from letterfit.place.solver import place_outlines


def box(width: float, height: float) -> list[CaptionBox]:
    """A menu of one box."""
    return [CaptionBox(half_width=width / 2, half_height=height / 2)]


def test_small_boxes_first_in_the_script_do_not_spoil_the_room_of_large_ones() -> None:
    """Four small boxes and one that leaves them just a strip: placed, and legal."""
    menus = [box(9, 9)] * 4 + [box(30, 36)]
    panel = Rect(0, 0, 40, 36)
    layout = place_outlines(panel, menus, gap_mm=0, margin_mm=0, ordered=False)
    assert layout.verdict == "placed"
    assert check_layout(panel, layout, gap_mm=0, margin_mm=0, ordered=False) == ()
    assert [item.index for item in layout.placed] == [0, 1, 2, 3, 4]
