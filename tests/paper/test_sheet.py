"""Paper sizes, against the standards' own figures."""

import json
import math
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.paper.sheet import Paper, paper_names

# Sizes: ISO 216 and JIS P 0138 as named entry by entry in the file; the US comic trim and the
# album are common practice, no source.
FACTS = json.loads((Path(__file__).parents[1] / "data" / "print_facts.json").read_text("utf-8"))
SIZES = {fact["name"]: fact for fact in FACTS["page_sizes_mm"]}
NAMES = {
    "a4": "ISO A4",
    "a5": "ISO A5",
    "b5-iso": "ISO B5",
    "b5-jis": "JIS B5",
    "b6-jis": "JIS B6",
    "us-comic": "US comic trim",
}


@pytest.mark.parametrize(("name", "fact"), NAMES.items())
def test_named_paper_has_the_size_of_its_standard(name: str, fact: str) -> None:
    """The trim is the published size to the micrometre."""
    assert Paper.named(name).trim == pytest.approx((SIZES[fact]["w"], SIZES[fact]["h"]), abs=1e-6)


def test_album_lies_in_the_range_of_european_albums() -> None:
    """An album is 220 to 240 mm wide and 290 to 320 mm high (common practice, no source)."""
    width, height = Paper.named("album").trim
    fact = SIZES["European album"]
    assert fact["w"][0] <= width <= fact["w"][1]
    assert fact["h"][0] <= height <= fact["h"][1]


def test_us_comic_has_the_bleed_and_live_area_of_the_trade() -> None:
    """1/8 in of bleed, 6 x 9 in live, in the middle (common practice, no source)."""
    paper, fact = Paper.named("us-comic"), SIZES["US comic trim"]
    live_w, live_h = (25.4 * side for side in fact["live_inches"])
    assert paper.bleed == pytest.approx(25.4 * fact["bleed_in"])
    assert (paper.live.width, paper.live.height) == pytest.approx((live_w, live_h))
    assert paper.live.centre.x == pytest.approx(paper.trim[0] / 2)
    assert paper.live.centre.y == pytest.approx(paper.trim[1] / 2)


@pytest.mark.parametrize("series", ["a", "b"])
def test_iso_sizes_halve_into_each_other(series: str) -> None:
    """ISO 216: half of a sheet is the next size, the odd millimetre dropped."""
    suffix = "-iso" if series == "b" else ""
    sheets = {"a": (3, 4, 5, 6), "b": (4, 5, 6)}[series]
    trims = [Paper.named(f"{series}{number}{suffix}").trim for number in sheets]
    for (width, height), smaller in pairwise(trims):
        assert smaller == (math.floor(height / 2), width)


def test_jis_and_iso_b_series_differ() -> None:
    """JIS B sheets are larger than ISO's of the same number: the two must not be mixed up."""
    for number in (4, 5, 6):
        iso, jis = (Paper.named(f"b{number}-{kind}").trim for kind in ("iso", "jis"))
        assert jis[0] > iso[0]
        assert jis[1] > iso[1]


@pytest.mark.parametrize("typed", ["US Comic", " us_comic ", "US-COMIC", "Us  comic"])
def test_names_forgive_capitals_and_spaces(typed: str) -> None:
    """However the name is typed, it is the same paper."""
    assert Paper.named(typed) == Paper.named("us-comic")


def test_unknown_paper_lists_the_names() -> None:
    """The message says which papers there are, and guesses."""
    with pytest.raises(PageError) as caught:
        Paper.named("b5-jsi")
    assert "did you mean b5-jis?" in caught.value.advice
    assert all(name in caught.value.advice for name in paper_names())


@pytest.mark.parametrize(
    ("typed", "trim"),
    [
        ("170x260mm", (170, 260)),
        ("170x260", (170, 260)),
        ("17 x 26 cm", (170, 260)),
        ("17,5×26cm", (175, 260)),
        ("6.625x10.25in", (168.275, 260.35)),
        ('8.5" x 11"', (215.9, 279.4)),
        ("612 x 792 pt", (215.9, 279.4)),
        ("170mm x 10in", (170, 254)),
    ],
)
def test_a_size_can_be_typed(typed: str, trim: tuple[float, float]) -> None:
    """Sizes are read in mm, cm, in and pt (1 in = 25.4 mm = 72 pt: print_facts.json)."""
    assert Paper.named(typed).trim == pytest.approx(trim, abs=1e-5)


@pytest.mark.parametrize(
    "typed",
    [
        *("", "x", "0x0", "6.625x10.25", "170x", "-170x260", "nanxnan", "1e3x1e3", "170x260km"),
        *("999999999x1mm", "9" * 5000 + "x1", "b5", "a" * 100_000),
    ],
)
def test_a_size_that_is_none_is_told(typed: str) -> None:
    """A slip is one line of error; a size in inches without the unit is asked for its unit."""
    with pytest.raises(PageError) as caught:
        Paper.named(typed)
    assert caught.value.advice
    assert len(str(caught.value)) < 400


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf, 1e6])
def test_numbers_out_of_range_make_no_paper(bad: float) -> None:
    """No side, bleed or gutter may be endless, negative or absurd."""
    for trim in ((bad, 200.0), (200.0, bad)):
        with pytest.raises(PageError):
            Paper(trim=trim)
    if bad:
        with pytest.raises(PageError):
            Paper(trim=(200, 300), bleed=bad)
        with pytest.raises(PageError):
            Paper(trim=(200, 300), gutter_mm=bad)


def test_a_live_area_may_be_four_numbers() -> None:
    """Left, top, width and height in mm are as good as a rectangle."""
    assert Paper(trim=(100, 120), live=(10, 12, 80, 90)).live == Rect(10, 12, 80, 90)


def test_a_live_area_outside_the_trim_is_told() -> None:
    """Lettering past the knife is no plan."""
    with pytest.raises(PageError, match="live area"):
        Paper(trim=(100, 100), live=Rect(10, 10, 91, 80))


@given(
    width=st.floats(20, 600),
    height=st.floats(20, 600),
)
def test_live_area_of_a_spread_spans_both_pages(width: float, height: float) -> None:
    """Outer margins stay, the fold is in the middle, and the strip kept clear lies round it."""
    page = Paper(trim=(width, height))
    both = page.spread()
    assert both.trim == (2 * width, height)
    assert both.live.x == page.live.x
    assert both.live.right - width == pytest.approx(page.live.right)
    assert both.spine is not None
    assert both.spine.centre.x == pytest.approx(width)
    assert both.spine.width < both.live.width / 2 + 1e-9
    assert both.spread() is both
