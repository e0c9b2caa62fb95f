"""The quick question of many panels at once."""

import pytest

from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox
from letterfit.place.measured import Case
from letterfit.place.quick import attempts, can_place_cases
from letterfit.place.terms import KeepClear, make_terms

PANEL = Rect(0, 0, 40, 35)
TALL, FLAT = CaptionBox(half_width=12.5, half_height=7), CaptionBox(half_width=12.5, half_height=3)
CORNER = (Point(0, 0), Point(2, 0), Point(2, 2))


def case(outline: CaptionBox, *regions: KeepClear) -> Case:
    """Three balloons of one outline, in a panel where they go in only below each other."""
    menus = [[outline]] * 3
    terms = make_terms(PANEL, menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=regions)
    return Case(PANEL, menus, terms)


@pytest.mark.parametrize("outline", [TALL, FLAT])
def test_panels_with_more_and_with_fewer_tries_are_asked_together(outline: CaptionBox) -> None:
    """A region to keep clear is tried with its gap and without; a panel without one, once."""
    plain, clear = case(outline), case(outline, CORNER)
    tries = [len(list(attempts(one.panel, one.menus, terms=one.terms))) for one in (plain, clear)]
    assert tries == [1, 2]
    assert can_place_cases([plain, clear, plain]) == (outline is FLAT,) * 3
