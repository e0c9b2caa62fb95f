"""Stacks, bleeds and insets: where their panels stand, and what is refused."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.paper.laying import lay_page
from letterfit.paper.notation import parse_tiers
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper
from tests.paper.shapes import SHAPES
from tests.paper.test_plan import xy_cut

SHEET = Paper(trim=(120, 180), live=Rect(10, 10, 100, 160), bleed=3, gutter_mm=4)
LARGE = Paper.named("a3")


def rects(plan: str, *, reading: str = "ltr") -> list[tuple[float, float, float, float]]:
    """The panels of a plan on the sheet, as numbers."""
    tiers, _ = lay_page(parse_tiers(plan), SHEET, reading=reading)
    return [(p.x, p.y, p.width, p.height) for tier in tiers for p in tier.panels]


def test_a_tall_panel_stands_beside_two_stacked_ones() -> None:
    """2:1(1/1), by hand: 96 mm shared 64 and 32, the stack's 160 mm less a gutter shared evenly."""
    assert rects("2:(1/1)") == [(10, 10, 64, 160), (78, 10, 32, 78), (78, 92, 32, 78)]
    assert rects("(1/1):2") == [(10, 10, 32, 78), (10, 92, 32, 78), (46, 10, 64, 160)]
    assert rects("2:(1/1)", reading="rtl") == [
        (46, 10, 64, 160),
        (10, 10, 32, 78),
        (10, 92, 32, 78),
    ]


def test_a_bleeding_panel_runs_off_where_it_meets_the_live_area() -> None:
    """1~ / 2 / 1:1~, by hand: trimmed the first ends at the paper's edges, drawn 3 mm past them."""
    tiers, special = lay_page(parse_tiers("1~ / 2 / 1:1~"), SHEET)
    height = (160 - 8) / 3
    first, last = tiers[0].panels[0], tiers[2].panels[1]
    assert (first.x, first.y, first.right) == (0, 0, 120)
    assert first.bottom == pytest.approx(10 + height)
    assert (last.x, last.right, last.bottom) == (62, 120, 180)
    assert [planned.index for planned in special] == [0, 4]
    outer = special[0].bleed, special[1].bleed
    assert outer[0] is not None
    assert outer[1] is not None
    assert (outer[0].x, outer[0].y, outer[0].right) == (-3, -3, 123)
    assert (outer[1].x, outer[1].right, outer[1].bottom) == (62, 123, 183)
    assert [tier.height_mm for tier in tiers] == pytest.approx([height] * 3)


def test_a_panel_inside_the_page_bleeds_nowhere() -> None:
    """A panel that meets no edge of the live area stays as it is."""
    tiers, special = lay_page(parse_tiers("3 / 1:1~:1 / 3"), SHEET)
    assert tiers[1].panels[1].width == pytest.approx(92 / 3)
    assert special[0].bleed is None


def test_an_inset_stands_one_gutter_inside_its_corner_and_reads_next() -> None:
    """1[bottom-right 0.4x0.25] / 1, by hand: 40 mm by a quarter of 78, 4 mm from the borders."""
    tiers, special = lay_page(parse_tiers("1[bottom-right 0.4x0.25] / 1"), SHEET)
    host, inset = tiers[0].panels
    assert (inset.width, inset.height) == pytest.approx((40, 19.5))
    assert (host.right - inset.right, host.bottom - inset.bottom) == pytest.approx((4, 4))
    assert [(p.index, p.insets, p.host) for p in special] == [(0, (1,), None), (1, (), 0)]


def test_the_right_corner_is_right_on_every_page() -> None:
    """Corners are named as printed: a right-to-left page has its insets in the same ones."""
    plan = "1[bottom-right 0.4x0.25] / 1"
    assert rects(plan) == rects(plan, reading="rtl")


@given(SHAPES, st.sampled_from(["ltr", "rtl"]))
def test_panels_lie_apart_and_fill_what_gutters_leave(shape: PageShape, reading: str) -> None:
    """Panels never overlap but insets their hosts; each tier fills its box up to its gutters."""
    try:
        tiers, special = lay_page(shape, LARGE, reading=reading)
    except PageError:
        return  # slivers, or insets over each other
    panels = [panel for tier in tiers for panel in tier.panels]
    assert len(panels) == shape.panel_count
    hosts = {planned.index: planned.host for planned in special if planned.host is not None}
    for (i, one), (j, other) in combinations(enumerate(panels), 2):
        if hosts.get(j) == i:
            assert one.holds(other)
        elif hosts.get(i) is None and hosts.get(j) is None:
            assert one.common(other) is None or one.common(other).area_mm2 < 1e-6  # type: ignore[union-attr]
    own = [i for i in range(len(panels)) if i not in hosts]
    area = sum(max(0.0, _inside(panels[i])) for i in own)
    assert area < sum(tier.box.area_mm2 for tier in tiers if tier.box) + 1e-6


def _inside(panel: Rect) -> float:
    """The area of a panel in the live area."""
    common = panel.common(LARGE.live)
    return common.area_mm2 if common else 0.0


@given(SHAPES)
def test_mirrored_pages_have_the_same_panels_mirrored(shape: PageShape) -> None:
    """Right to left, every panel that holds no inset and is none stands mirrored on its page."""
    try:
        (one, special), (other, _) = (lay_page(shape, LARGE, reading=r) for r in ("ltr", "rtl"))
    except PageError:
        return
    insets = {planned.index for planned in special if planned.host is not None}
    left = [panel for tier in one for panel in tier.panels]
    right = [panel for tier in other for panel in tier.panels]
    for index, (panel, twin) in enumerate(zip(left, right, strict=True)):
        if index not in insets:
            assert twin.x == pytest.approx(LARGE.trim[0] - panel.right)
            assert (twin.y, twin.height) == (panel.y, panel.height)
            assert twin.width == pytest.approx(panel.width)


@pytest.mark.parametrize("reading", ["ltr", "rtl"])
@pytest.mark.parametrize(
    "plan",
    [
        "2:(1/1) / 3",
        "(1/1):2",
        "1:(1/2/1):1 / (2/1 @2):1",
        "3 / (2:(1/1) / 1):1",
        "(1/1 @1.2):(1/1)",
    ],
)
def test_stacked_pages_read_in_script_order(plan: str, reading: str) -> None:
    """A reader by recursive X-Y cut takes nested tiers as they are written (Nagy & Seth 1984)."""
    tiers, _ = lay_page(parse_tiers(plan), LARGE, reading=reading)
    panels = [panel for tier in tiers for panel in tier.panels]
    shuffled = sorted(range(len(panels)), key=lambda i: (i * 7 % 11, i))
    assert xy_cut(panels, shuffled, rtl=reading == "rtl") == list(range(len(panels)))


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        ("30", "the plan has panels only 0.0 mm wide"),
        ("1 / 1:(9/1)", "tier 2 has panels only 1.8 mm wide"),
        ("1:(64/1)", "the plan has panels only 0.0 mm wide"),
        ("1[top-left 0.04x0.3]", "tier 1 has panels only 4.0 mm wide"),
        ("1[top-left 0.95x0.3]", "leaves no gutter"),
        ("1[top-left 0.6x0.6][bottom-right 0.6x0.6]", "insets over each other"),
    ],
)
def test_panels_too_small_or_over_each_other_are_refused(plan: str, told: str) -> None:
    """What cannot be drawn is told with its tier."""
    with pytest.raises(PageError) as caught:
        lay_page(parse_tiers(plan), SHEET)
    assert told in caught.value.what
