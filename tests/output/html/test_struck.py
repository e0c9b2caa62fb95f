"""Struck words: those that a cut takes out, found again in the typed text."""

import re

from hypothesis import given
from hypothesis import strategies as st

from letterfit.cuts.mend import mended
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import joined, tokens_of
from letterfit.output.html.struck import all_but, struck

WORDS = st.lists(st.sampled_from(["hold", "the", "gate", "Toby,", "now.", "*so*"]), min_size=1)


def test_the_right_one_of_two_is_struck() -> None:
    """A word that comes twice is struck where the rest is what is left."""
    assert struck("The gate, the gate.", ["the"], left="The gate, gate.") == (
        "The gate, <del>the</del> gate."
    )
    assert struck("the gate the gate", ["the gate"], left="the gate") in (
        "<del>the gate</del> the gate",
        "the gate <del>the gate</del>",
    )


def test_runs_out_of_order_are_found_all_the_same() -> None:
    """Two cuts made one after the other name what goes in their own order."""
    text = "Well, hold the old gate now."
    assert struck(text, ["old", "Well,"], left="Hold the gate now.") == (
        "<del>Well,</del> hold the <del>old</del> gate now."
    )


def test_what_cannot_be_found_is_not_struck() -> None:
    """A text that is no part of the typed one gives nothing."""
    assert struck("Hold the gate.", ["now"], left="Another text.") is None


def test_markup_in_a_speech_stays_text() -> None:
    """What is struck and what stays is escaped."""
    assert struck("<b>so</b> R&D", ["R&D"], left="<b>so</b>") == (
        "&lt;b&gt;so&lt;/b&gt; <del>R&amp;D</del>"
    )


@given(WORDS, st.data())
def test_what_is_not_struck_is_what_is_left(typed: list[str], data: st.DataObject) -> None:
    """Whatever tokens go, the unstruck words are those of the text that is left."""
    tokens = tokens_of(" ".join(typed))
    gone = data.draw(st.sets(st.integers(0, len(tokens) - 1), max_size=len(tokens) - 1))
    left = mended(tokens, gone, table=cut_table("en"))
    removed = [tokens[k].text for k in sorted(gone)]
    shown = struck(" ".join(typed), removed, left=left)
    assert shown is not None
    kept = tokens_of(re.sub("<del>.*?</del>", "", shown))
    assert [token.bare for token in kept] == [token.bare for token in tokens_of(left)]
    both = re.sub("</?del>", "", shown)
    assert [token.bare for token in tokens_of(both)] == [token.bare for token in tokens]


def test_the_first_words_that_do_are_kept() -> None:
    """Without the removed runs, what stays is found from the left."""
    tokens = tokens_of("hold the gate the gate")
    assert all_but(tokens, ["the", "gate"]) == {0, 3, 4}
    assert all_but(tokens, ["gate", "hold"]) is None
    assert joined(tokens) == "hold the gate the gate"
