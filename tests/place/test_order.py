"""The two readers of a page against published algorithms and figures."""

import json
from pathlib import Path
from typing import Any

import pytest

from letterfit.geometry import Rect
from letterfit.place import highest_first, reading_order

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
