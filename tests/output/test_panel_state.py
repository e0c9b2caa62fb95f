"""How a panel stands at a glance."""

from dataclasses import replace

from letterfit.findings import Finding
from letterfit.output.panel_state import findings_of, state_of, states_of
from tests.output import reports


def finding(where: str, severity: str = "warning") -> Finding:
    """A finding somewhere."""
    return Finding(code="x", severity=severity, message="m", where=where)  # type: ignore[arg-type]


def test_the_three_states() -> None:
    """A panel that fits, one that fits against advice, one that does not fit."""
    spread, tight = reports.nasty().pages
    assert states_of(spread) == {"104-105.1": "doubt", "104-105.2": "fails"}
    assert states_of(tight) == {"106.1": "fits", "106.2": "fails"}


def test_a_finding_on_a_balloon_is_one_on_its_panel() -> None:
    """1.1.2 belongs to 1.1; 1.10 does not, although its name starts alike."""
    panel = reports.small().pages[0].panels[0]
    mine, other = finding("1.1.2"), finding("1.10")
    assert findings_of(panel, [mine, other]) == [mine]
    assert state_of(panel, [mine, other]) == "doubt"
    assert state_of(panel, [other]) == "fits"


def test_a_note_casts_no_doubt() -> None:
    """What is only worth knowing does not change how a panel stands."""
    panel = reports.small().pages[0].panels[0]
    assert state_of(panel, [finding("1.1", "note")]) == "fits"
    assert state_of(replace(panel, verdict="not found"), []) == "fails"
