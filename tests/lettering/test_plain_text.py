"""The short way of plain dialogue: the same words as the long way, or none."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering import measuring, plain_text
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.measuring import measure
from letterfit.lettering.plain_text import short_way
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.habits import Habits
from letterfit.lettering.words import Words
from tests.plays import play_names, speeches

WORDS = [
    "I",
    "I'M",
    "the",
    "GATE,",
    "wait!",
    "“No,”",
    "Mc",
    "McCoy",
    "Éa",
    "is",
    "it",
    "Mr.",
    "9",
    "x",
]
TEXTS = st.lists(st.sampled_from(WORDS), min_size=1, max_size=12).map(" ".join)


def long_way(text: str, lettering: Lettering) -> Words:
    """The text measured without the short way."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(measuring, "short_way", lambda *_: None)
        return measure(text, lettering)


def assert_same(short: Words, long: Words) -> None:
    """Text, pieces, prices, words and places, to the last bit."""
    assert (short.text, short.stretches, short.joiners) == (long.text, long.stretches, long.joiners)
    assert short.penalties.tolist() == long.penalties.tolist()
    assert short.word_counts.tolist() == long.word_counts.tolist()
    assert short.forced.tolist() == long.forced.tolist()
    assert short.starts.tolist() == long.starts.tolist()
    assert short.ends.tolist() == long.ends.tolist()


@settings(max_examples=60)
@given(TEXTS, st.booleans())
def test_plain_words_are_measured_as_by_the_long_way(text: str, capitals: bool) -> None:  # noqa: FBT001 - drawn
    """Pronouns, names that keep small letters, titles, quotes, numbers."""
    lettering = Lettering(case="upper" if capitals else "as-typed")
    assert_same(measure(text, lettering), long_way(text, lettering))


def test_speeches_are_measured_as_by_the_long_way() -> None:
    """And most of them do go the short way."""
    lettering = Lettering()
    way = short_way(lettering, "en")
    assert way is not None
    spoken = [speech.text for speech in speeches(play_names()[5])][:150]
    plain = [text for text in spoken if way.words(text) is not None]
    assert len(plain) > len(spoken) / 2
    for text in plain:
        assert_same(measure(text, lettering), long_way(text, lettering))


@pytest.mark.parametrize(
    "text", ["", " ", "a  b", "so *much*", "o\u0301x", "a\u00a0b", "A" * 31, "so--no"]
)
def test_what_is_not_plain_is_left_to_the_long_way(text: str) -> None:
    """Spaces together, emphasis, loose marks, no-break spaces, very long words, inner breaks."""
    way = short_way(Lettering(), "en")
    assert way is not None
    assert way.words(text) is None


@pytest.mark.parametrize(
    "lettering",
    [
        Lettering(habits=Habits(dashes="em-dash")),
        Lettering(breaks=BreakRules(hyphenate_english=True)),
        Lettering(tracking=0.02),
        Lettering(typeface="Bangers"),
    ],
)
def test_habits_that_look_at_more_than_a_word_have_no_short_way(lettering: Lettering) -> None:
    """Policies, hyphens, tracking, and faces in which letters look farther."""
    assert short_way(lettering, "en") is None


def test_letterings_without_end_are_not_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The memory is bounded, and forgetting changes nothing."""
    monkeypatch.setattr(plain_text, "MOST_WAYS", 3)
    widths = [measure("HOLD THE GATE", Lettering(size_pt=8)).width(0, 2) for _ in range(10)]
    assert len(set(widths)) == 1
    assert len(plain_text._WAYS) <= 3
