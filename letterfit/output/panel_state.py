"""How a panel stands at a glance (it fits, perhaps against advice, or not), by its own findings."""

from collections.abc import Sequence
from typing import Literal

from letterfit.findings import Finding
from letterfit.report.model import PageReport, PanelReport

State = Literal["fits", "doubt", "fails"]


def state_of(panel: PanelReport, findings: Sequence[Finding]) -> State:
    """How a panel stands.

    Args:
        panel: The panel.
        findings: What was found on its page.

    Returns:
        "fails" when it is not placed, "doubt" when an error or a warning names it or one of its
        balloons, "fits" otherwise.
    """
    if panel.verdict != "placed":
        return "fails"
    own = findings_of(panel, findings)
    return "doubt" if any(finding.severity != "note" for finding in own) else "fits"


def findings_of(panel: PanelReport, findings: Sequence[Finding]) -> list[Finding]:
    """The findings on a panel or on one of its balloons."""
    inside = f"{panel.id}."
    return [f for f in findings if f.where == panel.id or f.where.startswith(inside)]


def own_findings(page: PageReport) -> list[Finding]:
    """The findings of a page that are on none of its panels."""
    own = {id(f) for panel in page.panels for f in findings_of(panel, page.findings)}
    return [finding for finding in page.findings if id(finding) not in own]


def states_of(page: PageReport) -> dict[str, State]:
    """How each panel of a page stands, by its id."""
    return {panel.id: state_of(panel, page.findings) for panel in page.panels}
