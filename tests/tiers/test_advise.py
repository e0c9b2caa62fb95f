"""Tier advice: what it promises holds when the page is run again; what cannot be is told."""

from dataclasses import replace
from pathlib import Path

import pytest

import letterfit as lf
from letterfit.paper.notation import write_tiers
from letterfit.report.model import PageReport

LONG = (
    "The tide turned an hour ago, and nobody has come to ask why the gate is shut, so I shall "
    "keep it shut until somebody does, and then we shall see."
)
CALM = "Hold on, then."
PAPER = lf.Paper.named("a5")


def script(plan: str, speeches: str, *, text: str = LONG) -> lf.Script:
    """A page of one panel for each character: L has the long text, C a calm word, - nothing."""
    said = {"L": f"WENNA: {text}\n", "C": f"WENNA: {CALM}\n", "-": ""}
    panels = "".join(f"Panel {n}.\n{said[one]}\n" for n, one in enumerate(speeches, start=1))
    return lf.parse_script(f"PAGE 1\nTIERS: {plan}\n\n{panels}", source="gate.txt")


def page(plan: str, speeches: str, *, reading: lf.Reading = "ltr") -> PageReport:
    """The report of such a page."""
    return lf.preflight(script(plan, speeches), paper=PAPER, reading=reading).pages[0]


def holds(report: PageReport, figure_mm: float) -> bool:
    """Whether every panel is placed, not crowded, and has room for the figure."""
    limit = lf.Limits().coverage
    return all(
        panel.verdict == "placed"
        and panel.coverage <= limit
        and panel.figure_height_mm >= figure_mm - 1e-6
        for panel in report.panels
    )


CASES = [
    ("2 / 2 / 2 / 2", "LCCCCC--", "ltr", 3.0),
    ("3 / 3 / 3", "CCLC-CCCC", "ltr", 1.5),
    ("2 / 1 / 2", "CLCC-", "rtl", 3.0),
    ("2:(1/1) / 2", "CLCC-", "ltr", 1.5),
    ("1~[bottom-right 0.3x0.4] / 2 / 3", "CCLC---", "ltr", 3.0),
]
"""Plans, speeches, the order of reading, and by how much the figure is to grow, mm."""


@pytest.mark.parametrize(("plan", "speeches", "reading", "more_mm"), CASES)
def test_promised_figures_stand_when_the_plan_is_read_again(
    tmp_path: Path, plan: str, speeches: str, reading: lf.Reading, more_mm: float
) -> None:
    """The plan goes to TOML and back, the script is run on it: every panel holds its figure."""
    before = page(plan, speeches, reading=reading)
    figure = before.figure_height_mm + more_mm
    advice = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=figure))
    assert advice.outcome == "advised"
    assert holds(advice.after, figure)
    assert not holds(before, figure)
    shape = advice.plan.shape
    assert shape is not None
    file = tmp_path / "plan.toml"
    file.write_text(lf.plans_to_toml(lf.Plans(pages=((1, shape),))), encoding="utf-8")
    bare = script(plan, speeches)
    bare = replace(bare, pages=(replace(bare.pages[0], plan=None),))
    plans = lf.parse_plans(file.read_text(encoding="utf-8"))
    again = lf.preflight(bare, paper=PAPER, plans=plans, reading=reading).pages[0]
    assert holds(again, figure)
    assert again.panels == advice.after.panels
    live, gutter = PAPER.live, PAPER.gutter_mm
    heights = [tier.height_mm for tier in again.plan.tiers]
    assert sum(heights) + gutter * (len(heights) - 1) == pytest.approx(live.height)


def test_limits_are_kept() -> None:
    """No tier and no panel changes by more than it may; with 0 widths stay."""
    before = page("2 / 2 / 2 / 2", "LCCCCC--")
    asked = lf.TierLimits(tier_change=0.2, panel_change=0, figure_mm=before.figure_height_mm + 2)
    advice = lf.tier_advice(before, limits=asked)
    assert advice.outcome == "advised"
    for old, new in zip(before.plan.tiers, advice.plan.tiers, strict=True):
        assert abs(new.height_mm / old.height_mm - 1) <= 0.2 + 1e-6
        assert [p.width for p in new.panels] == pytest.approx([p.width for p in old.panels])


def test_a_page_that_is_as_it_should_be_is_kept() -> None:
    """Nothing is changed where nothing has to be."""
    before = page("2 / 2", "CC-C")
    advice = lf.tier_advice(before)
    assert (advice.outcome, advice.change) == ("kept", 0)
    assert advice.plan is before.plan
    assert lf.advise_tiers(before) is before.plan


def test_what_is_in_the_way_is_named() -> None:
    """A panel too small at any size the limits allow, or tiers that cannot all grow."""
    before = page("2 / 2 / 2 / 2", "LCCCCC--")
    figure = before.figure_height_mm
    little = lf.TierLimits(tier_change=0.01, panel_change=0.01, figure_mm=figure + 3)
    stuck = lf.tier_advice(before, limits=little)
    assert stuck.outcome == "not found"
    assert stuck.where == "1.1"
    assert "panel 1.1 holds a figure of" in stuck.reason
    assert "mm, the most that the limits allow" in stuck.reason
    owed = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=figure + 10))
    assert owed.outcome == "not found"
    assert "cannot give" in owed.reason
    plan = lf.advise_tiers(before, limits=little)
    (note,) = plan.findings
    assert (note.code, note.where) == ("no-grid", "1.1")


def test_a_larger_change_is_never_advised_where_one_tier_does() -> None:
    """By hand: all but the first tier have room to give; none but it grows, widths stay."""
    before = page("1 / 2 / 2 / 2", "C------", reading="ltr")
    figure = before.figure_height_mm + 1.5
    advice = lf.tier_advice(before, limits=lf.TierLimits(figure_mm=figure))
    if advice.outcome == "advised":
        assert advice.change <= 0.05


def test_the_same_page_gets_the_same_advice() -> None:
    """Run twice, the plan is the same to the last digit."""
    before = page("2 / 2", "CL--")
    asked = lf.TierLimits(figure_mm=before.figure_height_mm + 2)
    one, other = (lf.tier_advice(before, limits=asked) for _ in range(2))
    assert one.outcome == other.outcome == "advised"
    assert one.plan.shape is not None
    assert other.plan.shape is not None
    assert write_tiers(one.plan.shape) == write_tiers(other.plan.shape)


def test_a_report_without_its_setting_is_refused() -> None:
    """A page that preflight did not report, or that has no panels, has no grid to shift."""
    before = page("2 / 2", "CC-C")
    with pytest.raises(lf.PageError, match="does not say how it was lettered"):
        lf.tier_advice(replace(before, setting=None))
    bare = replace(before, plan=replace(before.plan, shape=None))
    with pytest.raises(lf.PageError, match="no panels"):
        lf.tier_advice(bare)


@pytest.mark.parametrize(
    "wrong",
    [
        {"tier_change": 1.0},
        {"tier_change": -0.1},
        {"panel_change": float("nan")},
        {"figure_mm": -1.0},
        {"figure_mm": float("inf")},
    ],
)
def test_limits_out_of_their_range_are_refused(wrong: dict[str, float]) -> None:
    """Shares from 0 to under 1, heights of 0 or more."""
    with pytest.raises(lf.PageError):
        lf.TierLimits(**wrong)
