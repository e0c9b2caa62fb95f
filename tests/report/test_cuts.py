"""Cuts of panels and pages: enough, lettered anew, sound."""

from dataclasses import replace

import letterfit as lf
from letterfit.cuts.faults import faults
from letterfit.cuts.tokens import word_count
from letterfit.geometry import Rect
from letterfit.report.menus import menus_of
from letterfit.report.panel import PanelJob
from letterfit.report.setting import Setting
from letterfit.report.shortened import Shortened
from letterfit.script.model import Dialogue, ScriptPanel
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


def test_a_panel_is_told_the_least_number_of_words() -> None:
    """Over its limit of words alone, that is how many it is over; a removal of so many is shown."""
    panel = wordy().pages[0].panels[0]
    least = panel.cuts[0].least
    assert least is not None
    assert (least.at_least, least.at_most) == (panel.words - 35, panel.words - 35)
    assert sum(cut.words for cut in least.cuts) == panel.words - 35
    assert {one.where for one in least.gives} == {"1.1.1", "1.1.2"}


def test_a_page_counts_what_its_panels_need() -> None:
    """Two panels each over by their own, a page over by less: their sum is the page's least."""
    typed = WORDY + WORDY.replace("PAGE 1\n", "").replace("Panel 1", "Panel 2")
    report = lf.preflight(lf.parse_script(typed), limits=lf.Limits(words_per_page=90), cuts=True)
    (page,) = report.pages
    (proposal,) = page.cuts
    assert page.words == 104
    assert proposal.least is not None
    assert (proposal.least.at_least, proposal.least.at_most) == (34, 34)
    assert proposal.words_after <= 70
    own = [one for panel in page.panels for one in panel.cuts if one.where == panel.id]
    assert {cut.where for one in own for cut in one.cuts} <= {c.where for c in proposal.cuts}


def test_a_page_over_by_more_than_its_panels_takes_the_rest_elsewhere() -> None:
    """The sum is then what the page is over; every panel stays right with the cuts made."""
    typed = (
        WORDY + "\nPanel 2. The gate.\n\nPILOT: Open the gate, and be quick about it, will you?\n"
    )
    limits = lf.Limits(words_per_page=38)
    report = lf.preflight(lf.parse_script(typed), limits=limits, cuts=True)
    (page,) = report.pages
    (proposal,) = page.cuts
    assert proposal.least is not None
    over = page.words - 38
    assert over > 17
    assert (proposal.least.at_least, proposal.least.at_most) == (over, over)
    assert sum(cut.words for cut in proposal.least.cuts) == over
    assert proposal.words_after <= 38


def test_the_quick_look_at_areas_knows_joints() -> None:
    """Two joined balloons cover less than their sum: a limit between the two is not ruled out."""
    elements = tuple(
        Dialogue(kind="dialogue", text=text, line=k, speaker="WENNA")
        for k, text in enumerate(
            ("Nobody will come tonight.", "The tide turned long ago."), start=1
        )
    )
    rect = Rect(0, 0, 70, 60)
    job = PanelJob(panel=ScriptPanel(number=1, line=1, elements=elements), rect=rect, id="1")
    answers = []
    linked = Setting(lettering=lf.Lettering(), effects=lf.Lettering())
    for plain in (linked, replace(linked, same_speaker="joined")):
        case = job.case(menus_of(job.spots(), plain), plain)
        least = sum(menu.smallest.area_mm2 for menu in case.menus) / rect.area_mm2
        tight = replace(case, setting=replace(plain, limits=lf.Limits(coverage=0.995 * least)))
        answers.append(Shortened(tight, rect.area_mm2).answers([{}])[0])
    assert answers[0] == "wrong"
    assert answers[1] != "wrong"
