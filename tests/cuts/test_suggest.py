"""Proposals for one text: sound, true when fitted again, the least missed first."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.cuts.faults import faults
from tests.plays import speeches

LONG = [s.text for s in speeches("hamlet", max_words=45) if len(s.text.split()) > 27][:60]
SOME = [s.text for s in speeches("hamlet") if 8 <= len(s.text.split()) <= 22][:80]


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(LONG))
def test_cuts_for_a_limit_are_sound_and_enough(text: str) -> None:
    """The checker finds nothing, the limit is kept, and fitting again gives the same figures."""
    for cut in lf.suggest_cuts(text, most_words=25, most=3):
        assert faults(text, cut.text) == ()
        assert cut.after.words <= 25
        assert cut.least is not None
        assert cut.words == cut.before.words - cut.after.words >= cut.least.at_least
        again = lf.fit_balloon(cut.text)
        assert (again.area_mm2, len(again.lines)) == (cut.after.area_mm2, len(cut.after.lines))


@settings(max_examples=8, deadline=None)
@given(st.sampled_from(SOME), st.floats(0.7, 0.95))
def test_cuts_for_an_outline_fit_it(text: str, share: float) -> None:
    """Each proposal really fits, and none has fewer words than are proved to be needed."""
    outline = lf.fit_balloon(text).outline.scaled(share)
    for cut in lf.suggest_cuts(text, outline=outline, most=3):
        assert lf.fit_into(cut.text, outline=outline).fits
        assert cut.least is not None
        assert cut.least.proved
        if "by measure alone" not in cut.kinds:
            assert faults(text, cut.text) == ()


def test_what_wins_most_comes_first() -> None:
    """Without a limit: single words and phrases that save a line or area, each fitted anew."""
    cuts = lf.suggest_cuts("Hold on just a little longer, old thing, or the sea comes in.")
    assert cuts[0].area_saved_mm2 > 0
    assert all(len(cut.removed) == 1 for cut in cuts)
    assert cuts[0].lines_saved == max(cut.lines_saved for cut in cuts) or cuts[0].lines_saved >= 1


def test_an_editor_takes_fillers_first() -> None:
    """Three fillers go before a clause with the meaning does (common practice, no source)."""
    text = "Well, I really think that the lock is just not safe."
    cut = lf.suggest_cuts(text, most_words=9)[0]
    assert "not safe" in cut.text
    assert set(cut.kinds) <= {"discourse marker", "intensifier", "complementiser"}


def test_names_are_not_changed_first() -> None:
    """Nobody is called half by name while anything else will do."""
    text = "The pilot said that Mr. Smith of Lock Nine will really hold it."
    for cut in lf.suggest_cuts(text, most_words=11):
        assert "Mr. Smith" in cut.text
        assert "Lock Nine" in cut.text


def test_a_text_within_its_limit_needs_none() -> None:
    """Then nothing is proposed."""
    assert lf.suggest_cuts("Shut it.", most_words=25) == ()


def test_a_limit_under_one_is_refused() -> None:
    """No text has fewer words than one."""
    with pytest.raises(lf.OutlineError, match="limit of 0 words"):
        lf.suggest_cuts("Shut it.", most_words=0)


@pytest.mark.parametrize("text", ["水門は閉まっている。", "“ ” “ a", "a" * 300, "- - go -"])
def test_odd_texts_neither_hang_nor_crash(text: str) -> None:
    """A text without spaces has nothing that could be taken out."""
    assert lf.suggest_cuts(text, most_words=1) == ()


def test_a_text_without_words_is_refused() -> None:
    """There is nothing to fit."""
    with pytest.raises(lf.OutlineError, match="no text"):
        lf.suggest_cuts(" ", most_words=1)
