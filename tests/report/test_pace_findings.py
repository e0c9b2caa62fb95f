"""Limits of pace: one finding for each limit a page goes against, and none at the limit."""

from dataclasses import replace

import pytest

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.paper.model import PagePlan, Tier
from letterfit.report.limits import Limits
from letterfit.report.model import PanelReport
from letterfit.report.pace_findings import pace_findings
from tests.output import reports

Panels = list[list[int]]
"""A tier: words of each balloon, panel by panel."""


def found(tiers: list[Panels], *, limits: Limits, spread: bool = False) -> list[Finding]:
    """What is found on a page, or a spread, of these tiers."""
    rows = [Tier(tuple(Rect(10, 10, 20, 20) for _ in row)) for row in tiers]
    panels = [
        _panel(f"3.{n}", words) for n, words in enumerate([p for row in tiers for p in row], 1)
    ]
    paper = reports.SPREAD if spread else reports.PAPER
    plan = PagePlan(paper=paper, tiers=tuple(rows))
    return list(pace_findings(panels, plan, label="3", line=7, limits=limits))


def _panel(name: str, words: list[int]) -> PanelReport:
    said = [reports.balloon(f"{name}.{k}", " ".join(["TIDE"] * n)) for k, n in enumerate(words, 1)]
    return reports.panel(name, Rect(10, 10, 20, 20), *said)


FULL: list[Panels] = [[[5, 5], [5, 5]], [[2], []]]
"""20 words and 2 words in tiers of two panels each, at most 2 balloons a panel."""

AT_THE_LIMIT = Limits(words_per_tier=20, balloons_per_panel=2, panels_per_tier=2, panels_per_page=4)

FAULTS = {
    "words_per_tier": ("tier-words", "More words than 19 (house rules) in tier 1 (20)."),
    "balloons_per_panel": (
        "panel-balloons",
        "More balloons than 1 (house rules) in panels 3.1 (2), 3.2 (2).",
    ),
    "panels_per_tier": ("tier-panels", "More panels than 1 (house rules) in tiers 1 (2), 2 (2)."),
    "panels_per_page": ("page-panels", "4 panels on the page, over 3 (house rules)."),
}


def test_a_page_at_every_limit_is_left_in_peace() -> None:
    """As many as a limit says are not too many."""
    assert found(FULL, limits=AT_THE_LIMIT) == []


@pytest.mark.parametrize("name", FAULTS)
def test_one_more_than_a_limit_is_found_once(name: str) -> None:
    """Each limit, made less by one: one finding, on the page, that names the places."""
    code, message = FAULTS[name]
    less = replace(AT_THE_LIMIT, **{name: getattr(AT_THE_LIMIT, name) - 1}, house=(name,))
    (finding,) = found(FULL, limits=less)
    assert (finding.code, finding.message, finding.where) == (
        code,
        message,
        "3",
    )
    assert (finding.line, finding.severity) == (7, "warning")
    assert finding.advice


def test_a_spread_has_room_for_twice_as_much_in_its_tiers() -> None:
    """Tiers of a spread are two pages wide; a panel is a panel."""
    limits = Limits(words_per_tier=10, panels_per_tier=1, panels_per_page=2, balloons_per_panel=1)
    assert [f.code for f in found(FULL, limits=limits, spread=True)] == ["panel-balloons"]
    tight = replace(limits, words_per_tier=9, balloons_per_panel=2)
    assert [f.message for f in found(FULL, limits=tight, spread=True)] == [
        "More words than 18 (as asked for) in tier 1 (20)."
    ]


def test_many_places_are_one_finding() -> None:
    """Nine crowded panels: six are named, three counted."""
    (finding,) = found([[[1] * 5] * 3] * 3, limits=Limits())
    assert finding.message == (
        "More balloons than 4 (common practice) in panels 3.1 (5), 3.2 (5), 3.3 (5), 3.4 (5), "
        "3.5 (5), 3.6 (5) and 3 more."
    )


def test_the_default_grid_is_within_the_default_limits() -> None:
    """Up to sixteen panels a page, four a tier, are common practice (no source)."""
    limits = Limits()
    assert found([[[]] * 4] * 4, limits=limits) == []
    assert [f.code for f in found([[[]] * 5] * 4, limits=limits)] == ["tier-panels", "page-panels"]
