"""Where panels stand: exact sums, reading order, precedence, and plans that contradict."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.paper.grid import default_shape
from letterfit.paper.model import PagePlan
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.paper.plan import plan_page
from letterfit.paper.read_plans import parse_plans
from letterfit.paper.shapes import PageShape, TierShape
from letterfit.paper.sheet import Paper
from letterfit.script.model import ScriptPage, ScriptPanel

COMIC = Paper.named("us-comic")
PAPERS = st.sampled_from(["us-comic", "a4", "a5", "b5-jis", "b6-jis", "album"]).map(Paper.named)
RATIOS = st.floats(0.5, 2.0)
SHAPES = st.lists(
    st.builds(TierShape, st.lists(RATIOS, min_size=1, max_size=4).map(tuple), RATIOS),
    min_size=1,
    max_size=5,
).map(lambda tiers: PageShape(tiers=tuple(tiers)))


def page(
    panels: int, *, number: int = 3, spread: bool = False, plan: str | None = None
) -> ScriptPage:
    """A page of silent panels."""
    return ScriptPage(
        numbers=(number, number + 1) if spread else (number,),
        line=40,
        spread=spread,
        plan=plan,
        plan_line=None if plan is None else 41,
        panels=tuple(ScriptPanel(number=n, line=40 + 2 * n) for n in range(1, panels + 1)),
    )


def xy_cut(boxes: Sequence[Rect], order: Sequence[int], *, rtl: bool) -> list[int]:
    """The reading order by recursive X-Y cut: whole rows first, then columns.

    Source: Nagy and Seth, Hierarchical representation of optically scanned documents, 1984.
    """
    if len(order) < 2:
        return list(order)
    for low, high in ((1, 3), (0, 2)):
        edges = {i: (b.x, b.y, b.right, b.bottom) for i in order for b in [boxes[i]]}
        by_start = sorted(order, key=lambda i: (edges[i][low], i))
        for cut in range(1, len(by_start)):
            reach = max(edges[i][high] for i in by_start[:cut])
            if reach <= edges[by_start[cut]][low]:
                parts = [by_start[:cut], by_start[cut:]]
                if low == 0 and rtl:
                    parts.reverse()
                return [i for part in parts for i in xy_cut(boxes, part, rtl=rtl)]
    return list(order)


def check_plan(plan: PagePlan, shape: PageShape) -> None:
    """Panels inside the live area, tiers and panels with their gutters exactly filling it."""
    live, gutter = plan.paper.live, plan.paper.gutter_mm
    assert all(live.holds(panel) for panel in plan.panels)
    heights = sum(tier.height_mm for tier in plan.tiers)
    assert heights + gutter * (len(plan.tiers) - 1) == pytest.approx(live.height, abs=1e-9)
    for tier, stated in zip(plan.tiers, shape.tiers, strict=True):
        widths = [panel.width for panel in tier.panels]
        assert sum(widths) + gutter * (len(widths) - 1) == pytest.approx(live.width, abs=1e-9)
        assert len({(panel.y, panel.height) for panel in tier.panels}) == 1
        scale = widths[0] / stated.widths[0]
        assert widths == pytest.approx([scale * width for width in stated.widths])
    for upper, lower in pairwise(plan.tiers):
        assert lower.panels[0].y - upper.panels[0].bottom == pytest.approx(gutter, abs=1e-9)


@given(shape=SHAPES, paper=PAPERS, reading=st.sampled_from(["ltr", "rtl"]))
def test_any_plan_fills_the_live_area_exactly(shape: PageShape, paper: Paper, reading: str) -> None:
    """Whatever the ratios: gutters exact, sums exact, proportions kept, panels apart."""
    plan = plan_page(page(shape.panel_count), paper, plan=shape, reading=reading)
    check_plan(plan, shape)
    for tier in plan.tiers:
        ordered = tier.panels if reading == "ltr" else tier.panels[::-1]
        for left, right in pairwise(ordered):
            assert right.x - left.right == pytest.approx(plan.paper.gutter_mm, abs=1e-9)


@pytest.mark.parametrize("spread", [False, True])
@pytest.mark.parametrize("reading", ["ltr", "rtl"])
@pytest.mark.parametrize("count", range(1, 33))
def test_default_panels_read_in_script_order(count: int, reading: str, spread: bool) -> None:  # noqa: FBT001 - pytest passes it
    """A reader by recursive X-Y cut takes the panels of every default plan in script order."""
    plan = plan_page(page(count, spread=spread), COMIC, reading=reading)
    shuffled = sorted(range(count), key=lambda i: (i * 7 % 11, i))
    assert xy_cut(plan.panels, shuffled, rtl=reading == "rtl") == list(range(count))


def test_the_reader_of_the_tests_can_disagree() -> None:
    """The X-Y cut above is no rubber stamp: mirrored panels read the other way round."""
    plan = plan_page(page(4), COMIC)
    assert xy_cut(plan.panels, range(4), rtl=True) == [1, 0, 3, 2]


def test_default_grid_is_the_documented_table() -> None:
    """One to sixteen panels stand as the table says: commonly four tiers of three to four.

    Source: print_facts.json, trade_rules (common practice, no source).
    """
    assert {n: write_tiers(default_shape(n)) for n in (1, 2, 3, 4, 6, 9, 10, 12, 16)} == {
        1: "1",
        2: "1 / 1",
        3: "1 / 1 / 1",
        4: "2 / 2",
        6: "2 / 2 / 2",
        9: "3 / 3 / 3",
        10: "2 / 2 / 3 / 3",
        12: "3 / 3 / 3 / 3",
        16: "4 / 4 / 4 / 4",
    }
    for n in range(1, 60):
        counts = [len(tier.widths) for tier in default_shape(n).tiers]
        assert sum(counts) == n
        assert max(counts) <= 4
        assert max(counts) - min(counts) <= 1


def test_a_lower_tier_lets_another_be_higher() -> None:
    """The central use: what one tier gives up, the other gains, and nothing else moves."""
    even = plan_page(page(7), COMIC, plan="3 / 4")
    shifted = plan_page(page(7), COMIC, plan="3 @0.8 / 4 @1.2")
    lost = even.tiers[0].height_mm - shifted.tiers[0].height_mm
    assert lost == pytest.approx(0.1 * (COMIC.live.height - 3))
    assert shifted.tiers[1].height_mm - even.tiers[1].height_mm == pytest.approx(lost)
    assert [p.width for p in shifted.panels] == [p.width for p in even.panels]


def test_rtl_mirrors_the_page_in_its_live_area() -> None:
    """On a right-to-left page the first panel stands right; the page is its mirror image."""
    ltr, rtl = (plan_page(page(5), COMIC, plan="2:1 / 1:2:3", reading=r) for r in ("ltr", "rtl"))
    live = COMIC.live
    for a, b in zip(ltr.panels, rtl.panels, strict=True):
        assert b.x - live.x == pytest.approx(live.right - a.right)
        assert (b.y, b.width, b.height) == (a.y, a.width, a.height)


PLANS = parse_plans(
    '[all]\ntiers = "2/2"\n[page.5]\ntiers = "1 @2 / 3"\ngutter = 6', source="gate.toml"
)


def test_the_nearest_plan_wins() -> None:
    """The page's own line, then its entry in the plans, then the entry for all, then the grid."""
    own = plan_page(page(4, number=5, plan="4"), COMIC, plan=PLANS)
    entry = plan_page(page(4, number=5), COMIC, plan=PLANS)
    every = plan_page(page(4), COMIC, plan=PLANS)
    grid = plan_page(page(4), COMIC)
    assert [p.source for p in (own, entry, every, grid)] == ["script", "page", "all", "default"]
    assert [len(p.tiers) for p in (own, entry, every, grid)] == [1, 2, 2, 2]
    assert entry.paper.gutter_mm == 6
    assert not any(p.findings for p in (own, entry, every, grid))


def test_a_plan_for_all_pages_gives_way_with_a_note() -> None:
    """Where the plan for all has another number of panels, the grid is used, and it is said."""
    plan = plan_page(page(6), COMIC, plan=PLANS)
    assert (plan.source, write_tiers(plan.shape or default_shape(1))) == ("default", "2 / 2 / 2")
    (note,) = plan.findings
    assert (note.code, note.where, note.line) == ("plan-not-used", "3", 40)
    assert "4 panels" in note.message
    assert "6" in note.message


def test_a_plan_that_contradicts_its_page_is_told() -> None:
    """Page, plan, both numbers, and the line to look at."""
    with pytest.raises(PageError) as own:
        plan_page(page(5, plan="2/2"), COMIC)
    assert "page 3 has 4 panels, the script has 5 panels" in own.value.what
    assert own.value.line == 41
    with pytest.raises(PageError) as entry:
        plan_page(page(1, number=5), COMIC, plan=PLANS)
    assert "page 5 has 4 panels, the script has 1 panel" in entry.value.what
    assert (entry.value.source, entry.value.line) == ("gate.toml", 4)


def test_panels_too_small_to_letter_are_told() -> None:
    """A panel under 5 mm a side is a slip of the plan, and names its page and tier."""
    with pytest.raises(PageError, match=r"page 3: tier 2 has panels only 4\.\d mm high"):
        plan_page(page(2), COMIC, plan="1 / 1 @0.02")
    with pytest.raises(PageError, match="wide"):
        plan_page(page(64), COMIC, plan="64")
    with pytest.raises(PageError):
        plan_page(page(4000), COMIC)


def test_a_spread_is_laid_on_two_pages() -> None:
    """Its plan fills the live area of both pages; a plan by its first number goes to it."""
    plan = plan_page(page(4, number=4, spread=True), COMIC)
    assert plan.paper.trim[0] == 2 * COMIC.trim[0]
    check_plan(plan, parse_tiers("2/2"))
    spread = parse_plans('[page."4-5"]\ntiers = "1 / 3"')
    assert len(plan_page(page(4, number=4, spread=True), COMIC, plan=spread).tiers[1].panels) == 3


def test_a_page_without_panels_has_no_tiers() -> None:
    """Nothing to lay is no error."""
    assert plan_page(page(0), COMIC, plan=PLANS).panels == ()


def test_an_unknown_reading_direction_is_told() -> None:
    """A direction that is neither ltr nor rtl is no silent ltr."""
    with pytest.raises(PageError, match="reading direction"):
        plan_page(page(2), COMIC, reading="up")
