"""Numbers as typed in headings."""

import json
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.script.numbers import GREATEST, number_of

WORDS: dict[str, list[str]] = json.loads(
    (Path(__file__).parents[1] / "data/scripts/number_words.json").read_text(encoding="utf-8")
)["words"]


@pytest.mark.parametrize("language", sorted(WORDS))
def test_every_number_word_to_ninety_nine_is_read(language: str) -> None:
    """The words that num2words (an independent library) spells mean the same to us."""
    assert [number_of(word) for word in WORDS[language]] == list(range(1, 100))


@pytest.mark.parametrize("language", sorted(WORDS))
def test_capitals_hyphens_and_missing_accents_do_not_matter(language: str) -> None:
    """TWENTY ONE, Twenty-one and VINGT-ET-UN typed without accents are the same number."""
    for value, word in enumerate(WORDS[language], start=1):
        bare = "".join(
            c for c in unicodedata.normalize("NFD", word) if not "\u0300" <= c <= "\u036f"
        )
        bare = unicodedata.normalize("NFC", bare)
        for typed in (word.upper(), word.title(), word.replace("-", " "), word.replace(" ", "-")):
            assert number_of(typed) == value
        assert number_of(bare) == value


def test_unicode_roman_numerals_and_digits_have_their_unicode_value() -> None:
    """Unicode's own numeric values: U+2160-216D, full-width digits, kanji one to nine."""
    signs = [*map(chr, range(0x2160, 0x216E)), *"１２３４５６７８９", *"一二三四五六七八九"]
    for sign in signs:
        assert number_of(sign) == unicodedata.numeric(sign), unicodedata.name(sign)


def test_roman_numerals_add_and_subtract() -> None:
    """Known values, from memory: 4, 9, 14, 19, 40, 49, 90, 99."""
    typed = {"IV": 4, "ix": 9, "XIV": 14, "XIX": 19, "XL": 40, "XLIX": 49, "XC": 90, "XCIX": 99}
    assert {text: number_of(text) for text in typed} == typed


@pytest.mark.parametrize(
    "text", ["", "0", "IIII", "VX", "IC", "li", "ci", "gate", "10000", "-1", "1.5"]
)
def test_what_is_no_number_is_none(text: str) -> None:
    """Irregular numerals, words that look like numerals, zero and too large numbers are refused."""
    assert number_of(text) is None


@given(st.integers(1, GREATEST))
def test_digits_mean_themselves(value: int) -> None:
    """Every number up to GREATEST in digits is itself."""
    assert number_of(str(value)) == value


@given(st.text(max_size=60))
def test_any_text_is_a_number_in_range_or_none(text: str) -> None:
    """Nothing makes it raise, and nothing makes it leave its range."""
    value = number_of(text)
    assert value is None or 1 <= value <= GREATEST
