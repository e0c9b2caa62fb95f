"""Cleaning: white space, control characters and composed letters."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.cleaning import clean


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
