"""Tokens: counted as the report counts words, put together again as typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import letterfit as lf
from letterfit.cuts.tokens import joined, tokens_of
from letterfit.lettering.measuring import measure
from tests.plays import speeches

SPEECHES = [s.text for s in speeches("hamlet", max_words=40)]


@given(st.sampled_from(SPEECHES))
def test_a_text_is_put_together_as_it_was(text: str) -> None:
    """No word, no mark is lost."""
    assert joined(tokens_of(text)) == " ".join(text.split())


@given(st.sampled_from(SPEECHES))
def test_words_are_counted_as_the_report_does(text: str) -> None:
    """The weights of the tokens sum to the number of words that measuring finds."""
    words = measure(text, lf.Lettering())
    assert sum(token.words for token in tokens_of(text)) == words.count


@pytest.mark.parametrize(
    "text",
    ["It is *not so* easy.", "**Hold** on _there now_!", "s*** and 2*3 stay", "-- Well -- go ..."],
)
def test_emphasis_is_kept(text: str) -> None:
    """Marks of emphasis come back where they stood."""
    assert joined(tokens_of(text)) == text


def test_emphasis_stays_whole_when_a_word_goes() -> None:
    """What is left of an emphasised stretch keeps both its marks."""
    tokens = tokens_of("It is *not so easy* now.")
    assert joined([t for t in tokens if t.bare != "easy"]) == "It is *not so* now."
