"""Where a page goes against the limits of pace: one finding for each limit, naming the places."""

from collections.abc import Iterator, Sequence

from letterfit.findings import Finding
from letterfit.paper.model import PagePlan
from letterfit.report.codes import found
from letterfit.report.limits import Limits
from letterfit.report.model import PanelReport
from letterfit.report.pace import tier_paces

MOST_PLACES = 6
"""So many places of a page are named; the rest are counted."""


def pace_findings(
    panels: Sequence[PanelReport], plan: PagePlan, *, label: str, line: int, limits: Limits
) -> Iterator[Finding]:
    """What a page has too much of: balloons in a panel, words or panels in a tier, panels.

    Args:
        panels: Its panels, in script order.
        plan: Where they stand.
        label: The page's label.
        line: Its line in the script.
        limits: What it is held against; those of tiers and pages count twice on a spread.
    """
    tiers, sheets = tier_paces(panels, plan.tiers), plan.paper.pages
    crowded = [
        (panel.id, len(panel.balloons))
        for panel in panels
        if len(panel.balloons) > limits.balloons_per_panel
    ]
    most = limits.words_per_tier * sheets
    wordy = [(str(n), tier.words) for n, tier in enumerate(tiers, start=1) if tier.words > most]
    widest = limits.panels_per_tier * sheets
    wide = [(str(n), tier.panels) for n, tier in enumerate(tiers, start=1) if tier.panels > widest]
    if crowded:
        yield found(
            "panel-balloons",
            f"More balloons than {limits.balloons_per_panel} "
            f"({limits.basis('balloons_per_panel')}) in {_places('panel', crowded)}.",
            advice="Join speeches, or share them out over more panels.",
            where=label,
            line=line,
        )
    if wordy:
        yield found(
            "tier-words",
            f"More words than {most} ({limits.basis('words_per_tier')}) in "
            f"{_places('tier', wordy)}.",
            advice="Cut words there, or give some to another tier.",
            where=label,
            line=line,
        )
    if wide:
        yield found(
            "tier-panels",
            f"More panels than {widest} ({limits.basis('panels_per_tier')}) in "
            f"{_places('tier', wide)}.",
            advice="Give the page another tier.",
            where=label,
            line=line,
        )
    if len(panels) > limits.panels_per_page * sheets:
        yield found(
            "page-panels",
            f"{len(panels)} panels on the page, over {limits.panels_per_page * sheets} "
            f"({limits.basis('panels_per_page')}).",
            advice="Give some panels to another page.",
            where=label,
            line=line,
        )


def _places(noun: str, places: Sequence[tuple[str, int]]) -> str:
    """The places, each with its number: "tier 2 (131)", "panels 1.2 (5), 1.4 (6)"."""
    named = ", ".join(f"{name} ({count})" for name, count in places[:MOST_PLACES])
    rest = len(places) - MOST_PLACES
    more = f" and {rest} more" if rest > 0 else ""
    return f"{noun}{'s' if len(places) > 1 else ''} {named}{more}"
