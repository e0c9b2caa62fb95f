"""Tier advice on the terminal and as JSON: what is shown is what was advised."""

import json
from dataclasses import replace

import pytest

import letterfit as lf
from letterfit.paper.notation import parse_tiers, write_tiers
from letterfit.tiers.model import Outcome

SCRIPT = lf.parse_script("PAGE 1\nTIERS: 2 / 1\n\nPanel 1.\nWENNA: Hold.\n\nPanel 2.\n\nPanel 3.\n")


def advice(outcome: Outcome, *, plan: str = "2 / 1") -> lf.TierAdvice:
    """Advice on a page of three panels, run on another plan."""
    before = lf.preflight(SCRIPT).pages[0]
    page = replace(SCRIPT.pages[0], plan=plan)
    after = lf.preflight(replace(SCRIPT, pages=(page,))).pages[0]
    return lf.TierAdvice(
        outcome=outcome,
        figure_mm=40.04,
        change=0.0312,
        plan=after.plan,
        before=before,
        after=after,
        where="1.1",
        reason="panel 1.1 is in the way",
    )


def test_what_changes_is_shown_before_and_after() -> None:
    """Heights, widths, figures and the line that states it; what stays is an equals sign."""
    told = lf.tiers_to_text([advice("advised", plan="3:2 @1.2 / 1")])
    assert "PAGE 1  ! a figure of 40.0 mm in every panel: 3.1% of the page moves" in told
    assert "112.8  123.1  74.7 74.7" in told
    assert "112.8  102.5  152.4" in told
    assert " = " in told
    assert "in the script, line 2: TIERS: 3:2 @1.2 / 1" in told
    assert max(map(len, told.splitlines())) <= 80


def test_what_stays_and_what_cannot_be_are_one_line() -> None:
    """A tick, or a cross and the reason."""
    assert "✓ a figure of 40.0 mm in every panel as it is" in lf.tiers_to_text([advice("kept")])
    told = lf.tiers_to_text([advice("not found")])
    assert "✗ a figure of 40.0 mm in every panel: no grid found" in told
    assert "Panel 1.1 is in the way." in told


@pytest.mark.parametrize("outcome", ["kept", "advised", "not found"])
def test_json_has_every_panel_before_and_after(outcome: Outcome) -> None:
    """And the plan in the notation, which reads back."""
    one = advice(outcome, plan="3:2 @1.2 / 1")
    (page,) = json.loads(lf.tiers_to_json([one]))["pages"]
    assert (page["outcome"], page["figure_mm"], page["change_percent"]) == (outcome, 40.04, 3.1)
    assert one.plan.shape is not None
    assert write_tiers(parse_tiers(page["tiers"])) == write_tiers(one.plan.shape)
    for told, old, new in zip(page["panels"], one.before.panels, one.after.panels, strict=True):
        assert told["id"] == old.id
        assert told["before"]["width_mm"] == round(old.rect.width, 3)
        assert told["after"]["height_mm"] == round(new.rect.height, 3)
