"""Cleaning: white space, control characters and composed letters."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.lettering.style.cleaning import LONGEST_TEXT, MOST_MARKS, clean, piled_marks


@pytest.mark.parametrize(
    ("typed", "folded", "kept"),
    [
        ("  a \t b  ", "a b", "a b"),
        ("a\r\nb\rc\n\n d", "a b c d", "a\nb\nc\nd"),
        ("a\u2028b\u2029c\u0085d\x0be", "a b c d e", "a\nb\nc\nd\ne"),
        ("e\u0301te\u0301", "été", "été"),
        ("a\u00a0 \u202fb", "a\u00a0 \u202fb", "a\u00a0 \u202fb"),
        ("a\x00\x07b\x7f", "ab", "ab"),
        ("a\ud800b", "a\ufffdb", "a\ufffdb"),
        ("\n\n", "", ""),
    ],
)
def test_white_space_and_controls(typed: str, folded: str, kept: str) -> None:
    """Folded as a paragraph, or with its line ends kept."""
    assert clean(typed, keep_lines=False) == folded
    assert clean(typed, keep_lines=True) == kept


@given(st.text(max_size=40), st.booleans())
def test_no_visible_character_is_lost(text: str, keep_lines: bool) -> None:  # noqa: FBT001 - drawn
    """All characters that are neither white space nor controls are still there, in order."""

    def visible(chars: str) -> str:
        kinds = {char: unicodedata.category(char) for char in chars}
        return "".join(c for c in chars if kinds[c] != "Cc" and not c.isspace())

    composed = unicodedata.normalize("NFC", text)
    expected = visible("".join("\ufffd" if "\ud800" <= c <= "\udfff" else c for c in composed))
    assert visible(clean(text, keep_lines=keep_lines)) == expected


def test_a_letter_keeps_thirty_combining_marks() -> None:
    """As many as the stream-safe text format allows (UAX #15); the others are counted."""
    pile = "o" + "\u0323" * 200 + "n"
    assert unicodedata.normalize("NFD", clean(pile, keep_lines=False)) == (
        "o" + "\u0323" * MOST_MARKS + "n"
    )
    assert piled_marks(pile) == 200 - MOST_MARKS
    assert piled_marks("o" + "\u0323" * MOST_MARKS) == 0
    assert piled_marks("—" * 200) == piled_marks("\u200d" * 200) == 0


def test_marks_are_counted_across_joiners() -> None:
    """A zero-width joiner does not begin a new letter."""
    assert piled_marks("o" + "\u0323\u200d" * 50) == 50 - MOST_MARKS


@given(st.text("ao\u0301\u0323\u0489\ufe0f\u200d—", max_size=120), st.booleans())
def test_cleaning_again_changes_nothing(text: str, keep_lines: bool) -> None:  # noqa: FBT001 - drawn
    """Whatever piles up."""
    once = clean(text, keep_lines=keep_lines)
    assert clean(once, keep_lines=keep_lines) == once


def test_the_longest_text_is_taken_and_a_longer_one_refused() -> None:
    """With advice, and at once: a megabyte is not looked at."""
    assert len(clean("a" * LONGEST_TEXT, keep_lines=False)) == LONGEST_TEXT
    with pytest.raises(OutlineError) as caught:
        clean("a" * 1_000_000, keep_lines=False)
    assert "split" in caught.value.advice
