"""Marks and capitals after a cut, and a checker that trusts nothing."""

import pytest

from letterfit.cuts.faults import faults
from letterfit.cuts.mend import mended
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import tokens_of


@pytest.mark.parametrize(
    ("text", "gone", "left"),
    [
        ("Well, it is shut.", {0}, "It is shut."),
        ("Go now, Wenna.", {2}, "Go now."),
        ("Hold on, Wenna! It goes.", {2}, "Hold on! It goes."),
        ("The lock, Wenna, is shut.", {2}, "The lock is shut."),
        ("Wait, Wenna, the lock is shut.", {1}, "Wait, the lock is shut."),
        ("Shut it. Now! Go.", {2}, "Shut it. Go."),
        ("He left, and, to conclude, it is shut.", {3, 4}, "He left, and it is shut."),
        ("Very good. So be it.", {0}, "Good. So be it."),
        ("He said “go now”, and went.", {4}, "He said “go now”, went."),
        ("I was late really, and wet.", {3}, "I was late, and wet."),
    ],
)
def test_marks_are_mended(text: str, gone: set[int], left: str) -> None:
    """A mark moves to the word before; a sentence begins with a capital."""
    tokens = tokens_of(text)
    assert mended(tokens, gone, table=cut_table("en")) == left


@pytest.mark.parametrize(
    ("before", "after", "fault"),
    [
        ("Hold the gate.", "The hold gate.", "words were changed or moved"),
        ("Hold the gate.", "Hold a gate.", "words were changed or moved"),
        ('He said "stop now" twice.', 'He said "stop twice.', "a quote or bracket is left open"),
        ("Go (if you must) now.", "Go (if you now.", "a quote or bracket is left open"),
        ("It is *not so* easy.", "It is *not easy.", "a mark of emphasis is left alone"),
        ("Well, go, Wenna.", "Well, go,", "a mark is left dangling"),
        ("Well, go.", ", go.", "a mark is left dangling"),
        ("Hold the gate.", "Hold the", "the end has lost its mark"),
        ("Ask Mr. Smith now.", "Ask Mr. now.", "a name is changed"),
        ("Ask Mr. Smith now.", "Ask Smith now.", "a name is changed"),
        ("We met at Lock Nine.", "We met at Lock.", "a name is changed"),
    ],
)
def test_planted_faults_are_caught(before: str, after: str, fault: str) -> None:
    """Each kind of broken proposal is told."""
    assert fault in faults(before, after)


def test_a_speaker_in_capitals_is_a_name() -> None:
    """The script's own speakers count where capitals tell nothing."""
    text, left = "ASK BARGE PILOT NOW.", "ASK PILOT NOW."
    assert not faults(text, left)
    assert faults(text, left, names=("BARGE PILOT",)) == ("a name is changed",)


def test_a_whole_name_may_go() -> None:
    """A vocative goes whole; that changes no name."""
    assert not faults("Hold on, Mr. Smith!", "Hold on!")
