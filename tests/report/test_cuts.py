"""Cuts of panels and pages: enough, lettered anew, sound."""

import letterfit as lf
from letterfit.cuts.mend import faults
from letterfit.cuts.tokens import word_count
from tests.plays import play_script

WORDY = """PAGE 1

Panel 1. The lock at night.

WENNA: Well, I really think that we ought to wait here a little longer. Nobody has come, old thing.
The tide turned an hour ago, and the barge is late. I counted nine lamps on the water.

PILOT: Ahoy, the lock! Are you asleep in there? Open up, Wenna, or we lose the tide.
"""


def wordy() -> lf.ScriptReport:
    """A panel over its limit, and a balloon over its own."""
    return lf.preflight(lf.parse_script(WORDY), cuts=True)


def test_a_crowded_panel_gets_cuts_that_are_enough() -> None:
    """Made together they bring the panel under its limits; figures before and after are true."""
    panel = wordy().pages[0].panels[0]
    whole = next(one for one in panel.cuts if one.where == panel.id)
    assert whole.words == panel.words > 35
    assert whole.words_after <= 35
    assert whole.least_words == panel.words - 35
    for cut in whole.cuts:
        assert cut.after.words == word_count(cut.text)
        before = next(b for b in panel.balloons if b.id == cut.where)
        assert before.fitted.words - cut.words == cut.after.words
    for element in lf.parse_script(WORDY).pages[0].panels[0].elements:
        cut_here = next((c for c in whole.cuts if word_count(element.text) == c.before.words), None)
        if cut_here is not None:
            assert faults(element.text, cut_here.text, names=("WENNA", "PILOT")) == ()


def test_the_script_with_the_cuts_made_is_within_its_limits() -> None:
    """Preflight of the shortened script finds what was promised."""
    script = lf.parse_script(WORDY)
    panel = lf.preflight(script, cuts=True).pages[0].panels[0]
    whole = next(one for one in panel.cuts if one.where == panel.id)
    left = {cut.where: cut.text for cut in whole.cuts}
    typed = "\n\n".join(
        f"{element.speaker}: {left.get(f'{panel.id}.{number}', element.text)}"
        for number, element in enumerate(script.pages[0].panels[0].elements, start=1)
    )
    again = lf.preflight(lf.parse_script(f"PAGE 1\n\nPanel 1. The lock.\n\n{typed}\n"))
    done = again.pages[0].panels[0]
    assert done.words == whole.words_after
    assert done.verdict == "placed"
    assert not [f for f in again.all_findings if f.code == "panel-words"]
    assert whole.coverage is not None
    assert abs(done.coverage - whole.coverage[1]) < 1e-9


def test_a_balloon_over_its_limit_gets_its_own() -> None:
    """One or two choices, each within the limit."""
    panel = wordy().pages[0].panels[0]
    own = [one for one in panel.cuts if one.where == "1.1.1"]
    assert 1 <= len(own) <= 2
    assert all(one.words_after <= 25 < one.words for one in own)


def test_a_panel_that_does_not_fit_gets_cuts_that_place_it() -> None:
    """An impossible panel, its cuts made, is placed: cover then is known."""
    small = lf.Paper.named("48x44mm")
    panel = lf.preflight(lf.parse_script(WORDY), paper=small, cuts=True).pages[0].panels[0]
    assert panel.verdict != "placed"
    whole = panel.cuts[0]
    assert whole.where == panel.id
    assert whole.cuts
    assert whole.coverage is not None
    assert 0 < whole.coverage[1] < whole.coverage[0]


def test_a_page_over_its_limit_gets_cuts_across_its_panels() -> None:
    """They bring the page down to its limit, with no more than a few words to spare."""
    script = lf.parse_script(play_script("hamlet", pages=1, panels=(6,), per_panel=(1,)))
    words = sum(panel.words for panel in lf.preflight(script).pages[0].panels)
    limits = lf.Limits(words_per_page=words - 5)
    (proposal,) = lf.preflight(script, limits=limits, cuts=True).pages[0].cuts
    assert proposal.least_words == 5
    assert proposal.words_after <= words - 5
    assert proposal.words - proposal.words_after == sum(cut.words for cut in proposal.cuts)


def test_nothing_is_proposed_unasked_or_unneeded() -> None:
    """Without the option no report has cuts; a short script has none at all."""
    assert lf.preflight(lf.parse_script(WORDY)).pages[0].panels[0].cuts == ()
    short = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Shut it.\n"
    page = lf.preflight(lf.parse_script(short), cuts=True).pages[0]
    assert page.cuts == page.panels[0].cuts == ()
