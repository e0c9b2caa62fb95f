"""The two readers of a page against published algorithms and figures."""

import ast
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect
from letterfit.place import order
from letterfit.place.model import PlacedOutline, Reading
from letterfit.place.order import highest_first, reading_boxes, reading_order, reads_in_order
from tests.place.hand_made import joint
from tests.place.shapes import outlines

# Source: recursive X-Y cut, Nagy and Seth, ICPR 1984, run over random tiered pages and named
# layouts; human figures: doi 10.3389/fpsyg.2013.00186.
CASES = json.loads(
    (Path(__file__).parents[1] / "data" / "order_cases.json").read_text(encoding="utf-8")
)
BLOCKAGE = "blockage: stack left, tall right"


def boxes(corners: list[list[float]]) -> list[Rect]:
    """Rectangles from left, top, right, bottom."""
    return [Rect(x0, y0, x1 - x0, y1 - y0) for x0, y0, x1, y1 in corners]


@pytest.mark.parametrize("case", CASES["tiered_random"])
def test_both_readers_take_tiered_pages_tier_by_tier(case: dict[str, Any]) -> None:
    """On a page of tiers the readers agree with the stated order, in both directions."""
    page = boxes(case["boxes"])
    for reader in (reading_order, highest_first):
        assert list(reader(page, reading="ltr")) == case["ltr"]
        assert list(reader(page, reading="rtl")) == case["rtl"]


@pytest.mark.parametrize("name", CASES["named"])
def test_cutting_reader_takes_named_layouts_as_stated(name: str) -> None:
    """Each named layout is read as the file states, mirrored too."""
    case = CASES["named"][name]
    page = boxes(case["boxes"])
    expected = tuple(case["ltr"] or case["xycut"])
    assert reading_order(page) == expected
    assert reading_order(page) == tuple(case["xycut"])
    mirrored = [Rect(-box.right, box.y, box.width, box.height) for box in page]
    assert reading_order(mirrored, reading="rtl") == expected
    if "rtl" in case:
        assert reading_order(page, reading="rtl") == tuple(case["rtl"])


def test_readers_differ_where_people_differ() -> None:
    """A stack beside one tall box splits the readers, as it splits people (about 65 to 32 %)."""
    page = boxes(CASES["named"][BLOCKAGE]["boxes"])
    assert reading_order(page) == (0, 1, 2)
    assert highest_first(page) == (0, 2, 1)


def test_rounding_does_not_decide_who_is_higher() -> None:
    """Tops a rounding error apart are level: the left one comes first where nothing can be cut."""
    chain = [Rect(0, 5e-15, 10, 20), Rect(11, 0, 10, 20), Rect(5, 15, 11, 20)]
    assert reading_order(chain) == (0, 1, 2)


def test_no_boxes_are_read_in_no_order() -> None:
    """An empty page has an empty order."""
    assert reading_order([]) == highest_first([]) == ()


def _called(name: str) -> set[str]:
    """Every function and class of order.py that a function comes to call."""
    tree = ast.parse(Path(order.__file__ or "").read_text(encoding="utf-8"))
    bodies = {n.name: n for n in tree.body if isinstance(n, ast.FunctionDef)}
    found, left = set(), [name]
    while left:
        found.add(here := left.pop())
        names = {n.id for n in ast.walk(bodies[here]) if isinstance(n, ast.Name)}
        left.extend((names & set(bodies)) - found)
    return found


def test_readers_share_no_code() -> None:
    """Neither reader comes to call a function that the other one calls."""
    one, other = _called("reading_order"), _called("highest_first")
    assert one & other == set()
    assert {"_cut", "_mirrored"} < one
    assert "reading_order" in _called("reads_in_order")  # the walk over the code does find calls


WIDE = Ellipse(half_width=15, half_height=6)
UPPER = PlacedOutline(index=0, choice=0, outline=WIDE, x_mm=30, y_mm=12)


def shared(one: Rect, two: Rect) -> float:
    """The area in mm2 that two boxes share, but for rounding."""
    common = one.common(two)
    return common.area_mm2 if common else 0.0


@pytest.mark.parametrize("dx", [0.0, 8.0, 16.0, 22.0, 25.0, 27.9])
def test_joined_pair_is_read_in_the_order_of_the_script(dx: float) -> None:
    """Below, lower right, and right: boxes that overlap are parted, and both readers agree."""
    lower = joint(UPPER, Ellipse(half_width=14, half_height=6), dx=dx, overlap_mm=1)
    assert reads_in_order((UPPER, lower), reading="ltr")
    one, two = reading_boxes((UPPER, lower))
    assert shared(one, two) < 1e-9
    mirrored = tuple(replace(item, x_mm=-item.x_mm) for item in (UPPER, lower))
    assert reads_in_order(mirrored, reading="rtl")
    # The other way round the later one comes first to at least one reader.
    swapped = (replace(lower, index=0, joined=False), replace(UPPER, index=1, joined=True))
    assert not reads_in_order(swapped, reading="ltr")


def test_joined_pair_that_steps_back_is_in_doubt() -> None:
    """Lower, but so far left that only a line down parts the two: a reader of columns takes it."""
    lower = joint(UPPER, WIDE, dx=-28.5, overlap_mm=1)
    assert lower.y_mm > UPPER.y_mm
    assert not reads_in_order((UPPER, lower), reading="ltr")


def test_only_joined_boxes_are_parted() -> None:
    """Two that are not joined and overlap all the same are shown as they are."""
    lower = replace(joint(UPPER, WIDE, dx=8, overlap_mm=1), joined=False)
    one, two = reading_boxes((UPPER, lower))
    assert shared(one, two) > 1


def test_boxes_keep_their_outer_sides_and_split_what_they_share() -> None:
    """Overlap of 4 by 2 mm: parted by a level line in the middle of the 2 mm; else untouched."""
    box = CaptionBox(half_width=10, half_height=4)
    one = PlacedOutline(index=0, choice=0, outline=box, x_mm=10, y_mm=4)
    two = replace(one, index=1, x_mm=26, y_mm=10, joined=True)
    first, second = reading_boxes((two, one))
    assert (first.bottom, second.y) == pytest.approx((7, 7))
    assert (first.x, first.y, first.right) == pytest.approx((0, 0, 20), abs=1e-5)
    assert (second.x, second.right, second.bottom) == pytest.approx((16, 36, 14), abs=1e-5)


def test_what_hangs_over_is_read_from_the_border_down() -> None:
    """Of two at the border the left one comes first, however far each hangs over."""
    panel = Rect(0, 20, 90, 50)
    left = PlacedOutline(index=0, choice=0, outline=WIDE, x_mm=20, y_mm=25, overhang_mm=1.0)
    right = PlacedOutline(
        index=1,
        choice=0,
        outline=Ellipse(half_width=15, half_height=12),
        x_mm=60,
        y_mm=26,
        overhang_mm=6.0,
    )
    for shown in (panel, None):
        tops = [box.y for box in reading_boxes((left, right), panel=shown)]
        assert tops == pytest.approx([20, 20], abs=1e-5)
        assert reads_in_order((left, right), reading="ltr", panel=shown)
    unsaid = (replace(left, overhang_mm=0.0), replace(right, overhang_mm=0.0))
    assert not reads_in_order(unsaid, reading="ltr")


@given(
    outlines,
    outlines,
    st.floats(-1, 1),
    st.floats(0, 2),
    st.sampled_from(["ltr", "rtl"]),
)
@example(
    Ellipse(half_width=3, half_height=3),
    RoundedRect(half_width=11, half_height=3, radius=1.8),
    0,
    0,
    "ltr",
)
@settings(max_examples=30, deadline=None)
def test_parted_boxes_are_boxes_that_do_not_meet(
    first: Outline, second: Outline, side: float, overlap: float, reading: Reading
) -> None:
    """Whatever is joined, each keeps a box, and the two boxes have nothing in common."""
    one = PlacedOutline(index=0, choice=0, outline=first, x_mm=0, y_mm=0)
    across = side * (first.half_width + second.half_width - overlap)
    two = joint(one, second, dx=across, overlap_mm=overlap)
    boxes = reading_boxes((one, two))
    assert shared(*boxes) < 1e-9
    assert sorted(highest_first(boxes, reading=reading)) == [0, 1]
    whole = [2 * (o.half_width + o.half_height) for o in (first, second)]
    assert all(0 < b.width + b.height < w for b, w in zip(boxes, whole, strict=True))
