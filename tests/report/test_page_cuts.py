"""Cuts of a page: its panels' own count towards it, and with them made every panel is right."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

import letterfit as lf
from tests.plays import play_script

SCRIPT = lf.parse_script(play_script("macbeth", pages=1, panels=(5,), per_panel=(3, 2, 4, 2)))
LIMITS = lf.Limits(words_per_page=120)
SPEECHES = (
    "WENNA: The tide board says two hours, old thing, but I say four, and so does the keeper.",
    "PILOT: Well, I really think that we ought to wait here a little longer, don't you?",
    "WENNA: Hold the gate now, because the barge is late and the water will not wait.",
)


def with_cuts(script: lf.Script, cuts: Sequence[lf.Cut]) -> lf.Script:
    """The script of one page with cuts made; its panels hold nothing but speeches."""
    left = {cut.where: cut.text for cut in cuts}
    (page,) = script.pages
    panels = []
    for number, panel in enumerate(page.panels, start=1):
        elements = tuple(
            replace(element, text=left.get(f"1.{number}.{k}", element.text))
            for k, element in enumerate(panel.elements, start=1)
        )
        panels.append(replace(panel, elements=elements))
    return replace(script, pages=(replace(page, panels=tuple(panels)),))


def test_a_page_of_a_play_is_right_with_its_cuts_made() -> None:
    """As proposed, and by the least number of words: placed, under all limits, and checked."""
    (page,) = lf.preflight(SCRIPT, limits=LIMITS, cuts=True).pages
    (proposal,) = page.cuts
    least = proposal.least
    assert least is not None
    panels = [one.least for own in page.panels for one in own.cuts if one.where == own.id]
    assert least.at_least == max(
        page.words - 120, sum(one.at_least for one in panels if one is not None)
    )
    assert least.proved
    for cuts in (proposal.cuts, least.cuts):
        words = sum(cut.words for cut in cuts)
        report = lf.preflight(with_cuts(SCRIPT, cuts), limits=LIMITS, check=True)
        (done,) = report.pages
        assert report.fits
        assert done.words == page.words - words <= 120
        assert all(one.words <= 35 and one.coverage <= 1 / 3 for one in done.panels)
    assert sum(cut.words for cut in least.cuts) == least.at_most


@pytest.mark.parametrize(("most_a_panel", "most_a_page"), [(20, 14), (12, 20)])
def test_what_its_panels_lose_counts_towards_the_page(most_a_panel: int, most_a_page: int) -> None:
    """Balloons that a panel's own cut has shortened are cut on from what is left of them."""
    typed = "PAGE 1\n\nPanel 1. The gate.\n\n" + "\n\n".join(SPEECHES[:2])
    typed += "\n\nPanel 2. The lock.\n\n" + SPEECHES[2]
    script = lf.parse_script(typed)
    limits = lf.Limits(words_per_panel=most_a_panel, words_per_page=most_a_page)
    (page,) = lf.preflight(script, limits=limits, cuts=True).pages
    (proposal,) = page.cuts
    assert proposal.least is not None
    assert proposal.least.at_least == page.words - most_a_page
    for cuts in (proposal.cuts, proposal.least.cuts):
        done = lf.preflight(with_cuts(script, cuts), limits=limits)
        assert done.fits
        assert done.pages[0].words == page.words - sum(cut.words for cut in cuts) <= most_a_page
        assert all(one.words <= most_a_panel for one in done.pages[0].panels)


def test_a_page_with_a_panel_that_no_cut_mends_says_what_is_proved() -> None:
    """Words enough can go, but one panel stays wrong: at least so many, and no more is said."""
    typed = "Panel 1. A stamp.\n\nWENNA: Notwithstanding.\n\nPanel 2. The lock.\n\n"
    typed += "PILOT: Ahoy there, open up the gate!\n"
    report = lf.preflight(
        lf.parse_script(f"PAGE 1\n\n{typed}"),
        plans=lf.parse_plans('[page.1]\ntiers = "1 @0.1 / 1"\n'),
        paper=lf.Paper.named("70x70mm"),
        limits=lf.Limits(words_per_page=5),
        cuts=True,
    )
    (page,) = report.pages
    assert page.panels[0].verdict == "impossible"
    (proposal,) = page.cuts
    assert proposal.least is not None
    assert proposal.least.at_most is None
    assert proposal.least.at_least >= page.words - 5
