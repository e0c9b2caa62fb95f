"""The reading order of pairs, as the checker holds it: below, or beside and not higher."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox
from letterfit.place.check_reading import reading_faults
from letterfit.place.model import PlacedOutline, Reading

PANEL = Rect(0, 0, 100, 60)
BOX = CaptionBox(half_width=10, half_height=4)


def at(index: int, x: float, y: float, *, joined: bool = False, over: float = 0) -> PlacedOutline:
    """A caption at its place."""
    return PlacedOutline(
        index=index, choice=0, outline=BOX, x_mm=x, y_mm=y, joined=joined, overhang_mm=over
    )


def out_of_order(placed: Sequence[PlacedOutline], *, reading: Reading = "ltr") -> bool:
    """Whether any pair is out of order."""
    return any(f.code == "order-pair" for f in reading_faults(PANEL, placed, reading=reading))


@pytest.mark.parametrize(
    ("dx", "dy", "kept"),
    [
        (-40, 8, True),  # wholly below, wherever across
        (-40, 7.99, False),
        (16, 0, True),  # beside, from 0.8 of the joint half-widths on
        (15.99, 0, False),
        (16, -0.01, False),  # and not higher
        (16, 7, True),
    ],
)
def test_rule_of_pairs_at_its_limits(dx: float, dy: float, *, kept: bool) -> None:
    """Each limit from both sides, and in the mirror for a page read right to left."""
    pair = at(0, 50, 20), at(1, 50 + dx, 20 + dy)
    assert out_of_order(pair) != kept
    mirrored = at(0, 50, 20), at(1, 50 - dx, 20 + dy)
    assert out_of_order(mirrored, reading="rtl") != kept


@pytest.mark.parametrize(
    ("dx", "dy", "kept"),
    [
        (0, 4, True),  # begins at the middle line of the one before
        (0, 3.99, False),
        (16, 0, True),
        (16, -0.01, False),
    ],
)
def test_joined_one_begins_below_the_middle_or_stands_beside(
    dx: float, dy: float, *, kept: bool
) -> None:
    """A joined pair may overlap down to the middle line; others may not."""
    joined = at(0, 50, 20), at(1, 50 + dx, 20 + dy, joined=True)
    assert out_of_order(joined) != kept
    apart = at(0, 50, 20), at(1, 50 + dx, 20 + dy)
    assert out_of_order(apart) != (kept and dx > 0)


def test_third_of_a_run_is_in_order_with_the_first_as_any_other() -> None:
    """Joined to the second, not to the first: below the first it must begin wholly below."""
    run = at(0, 50, 20), at(1, 50, 24, joined=True), at(2, 50, 28, joined=True)
    assert not out_of_order(run)
    low = replace(run[1], outline=CaptionBox(half_width=10, half_height=2), y_mm=22)
    third = at(2, 50, 26, joined=True)  # begins at the second's middle, 2 mm above the first's end
    faults = {f.where for f in reading_faults(PANEL, (run[0], low, third), reading="ltr")}
    assert "1+3" in faults
    assert "2+3" not in faults


def test_tops_at_the_border_are_level() -> None:
    """However far each hangs over, neither is higher; one inside is lower than both."""
    assert not out_of_order((at(0, 30, 3, over=1), at(1, 60, 1, over=3)))
    assert not out_of_order((at(0, 30, 3, over=1), at(1, 60, 5.5)))
    assert out_of_order((at(0, 30, 5.5), at(1, 60, 3, over=1)))


def test_every_pair_is_asked_not_only_neighbours() -> None:
    """The first and the last of three are out of order though both are in order with the second."""
    three = at(0, 70, 20), at(1, 60, 30), at(2, 85, 16)
    faults = {f.where for f in reading_faults(PANEL, three, reading="ltr")}
    assert "1+3" in faults


def test_reader_who_goes_astray_is_named() -> None:
    """The message says which reader, and in what order it takes them."""
    faults = list(reading_faults(PANEL, (at(0, 50, 40), at(1, 50, 10)), reading="ltr"))
    told = [fault.message for fault in faults if fault.code == "order-reader"]
    assert told == [
        "A reader of rows and columns takes them in the order 2, 1.",
        "A reader of highest first takes them in the order 2, 1.",
    ]
