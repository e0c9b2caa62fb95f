"""A closing caption: at the bottom where that costs nothing, else where all others hang."""

import pytest

from letterfit.geometry import Insets, Rect
from letterfit.place.checker import check_layout
from letterfit.place.model import Reading, Speaker
from letterfit.place.solver import place_outlines
from tests.place.shapes import captions, ellipses

WENNA = Speaker(name="WENNA")
WIDE = Rect(0, 0, 120, 70)


@pytest.mark.parametrize("reading", ["ltr", "rtl"])
def test_caption_that_comes_last_stands_at_the_bottom(reading: Reading) -> None:
    """Where a figure stands clear beside it (common practice, no source)."""
    menus = [ellipses(300), captions(160)]
    layout = place_outlines(WIDE, menus, speakers=[WENNA, None], reading=reading)
    last = layout.placed[1]
    assert last.y_mm + last.outline.half_height == pytest.approx(70 - 1.5)
    assert layout.figure_height_mm > 50
    assert check_layout(WIDE, layout, reading=reading) == ()


def test_caption_stays_up_where_the_figure_would_pay_for_it() -> None:
    """In a panel hardly wider than the caption, the figure's feet come first."""
    panel = Rect(0, 0, 44, 80)
    menus = [ellipses(300), captions(240, (6.0,))]
    layout = place_outlines(panel, menus, speakers=[WENNA, None])
    assert layout.placed[1].y_mm < 40
    assert check_layout(panel, layout) == ()


def test_opening_caption_and_a_caption_alone_hang_at_the_top() -> None:
    """Place and time are read first: top of the panel."""
    opening = place_outlines(WIDE, [captions(160), ellipses(300)], speakers=[None, WENNA])
    alone = place_outlines(WIDE, [captions(160)], speakers=[None])
    for layout in (opening, alone):
        assert layout.placed[0].y_mm < 10


def test_margins_may_differ_from_side_to_side() -> None:
    """Each side keeps its own, on mirrored pages too; the checker is told the same."""
    margins = Insets(top=4, right=2, bottom=3, left=9)
    readings: tuple[Reading, ...] = ("ltr", "rtl")
    for reading in readings:
        menus = [captions(160), ellipses(300), ellipses(250)]
        layout = place_outlines(
            WIDE, menus, speakers=[None, WENNA, WENNA], margin_mm=margins, reading=reading
        )
        assert layout.verdict == "placed"
        boxes = [(item.x_mm, item.y_mm, item.outline) for item in layout.placed]
        assert min(x - o.half_width for x, _, o in boxes) >= 9 - 1e-9
        assert max(x + o.half_width for x, _, o in boxes) <= 120 - 2 + 1e-9
        assert min(y - o.half_height for _, y, o in boxes) == pytest.approx(4)
        assert check_layout(WIDE, layout, margin_mm=margins, reading=reading) == ()
        faults = check_layout(WIDE, layout, margin_mm=Insets(top=5), reading=reading)
        assert "outside-panel" in {fault.code for fault in faults}
