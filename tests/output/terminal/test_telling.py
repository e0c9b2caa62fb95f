"""A finding in few words: with its panel's figures, ranked by how much it tells."""

from dataclasses import replace

import pytest

from letterfit.findings import Finding
from letterfit.output.terminal.telling import heading, place, tell
from letterfit.report.limits import Limits
from letterfit.report.model import PanelReport
from tests.output import reports


def crowded(coverage: float) -> PanelReport:
    """A panel of 71 words."""
    panel = reports.panel("1.1", reports.PAPER.live, reports.balloon("1.1.1", "HOLD."))
    return replace(panel, coverage=coverage, words=71)


def finding(code: str, where: str = "1.1") -> Finding:
    """A warning."""
    return Finding(code=code, severity="warning", message="Seen.", advice="Mend it.", where=where)


def test_words_over_the_limit_say_how_many_panels_they_want() -> None:
    """71 words at 35 a panel: 36 too many, or three panels."""
    what, todo, _ = tell(finding("panel-words"), crowded(0.2), Limits())
    assert what == "71 words (advice 35)"
    assert todo == "cut 36 words, or share them out over 3 panels"


@pytest.mark.parametrize(
    ("coverage", "told"),
    [(0.41, "41% under lettering (advice 33%)"), (0.334, "33.4% under lettering (advice 33.3%)")],
)
def test_cover_is_told_so_that_it_differs_from_its_limit(coverage: float, told: str) -> None:
    """Whole percents, and a decimal where they would look the same."""
    assert tell(finding("coverage"), crowded(coverage), Limits())[0] == told


def test_an_unknown_finding_speaks_for_itself() -> None:
    """Its message and advice are passed on, before all others."""
    assert tell(finding("odd"), crowded(0.2), Limits()) == ("Seen.", "Mend it.", 0)


def test_places_carry_their_figure() -> None:
    """A gathered finding names the panel and what was measured there."""
    panel = crowded(0.41)
    assert place(finding("coverage"), panel) == "1.1 (41%)"
    assert place(finding("panel-words"), panel) == "1.1 (71)"
    assert place(finding("balloon-words", "1.1.1"), panel) == "1.1.1 (1)"
    assert place(finding("odd"), panel) == "1.1"
    assert heading("odd-thing", Limits()) == "Odd thing"
