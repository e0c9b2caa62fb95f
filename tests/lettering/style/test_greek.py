"""Greek capitals, against ICU's: the comparison itself stands with all languages' capitals."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.style.greek import greek_capitals

ALPHABET = "αάεέηήιίϊΐυύϋΰοόωώἄἢᾳᾴΆΉ ςβ.'"


@pytest.mark.parametrize(
    ("typed", "capitals"),
    [
        # Common words of the language, from memory
        ("άνθρωπος", "ΑΝΘΡΩΠΟΣ"),
        ("Μάιος", "ΜΑΪΟΣ"),
        ("ρολόι", "ΡΟΛΟΪ"),
        ("προϊστάμενος", "ΠΡΟΪΣΤΑΜΕΝΟΣ"),
        ("ή, ή.", "Ή, Ή."),
        ("τώρα ή ποτέ", "ΤΩΡΑ Ή ΠΟΤΕ"),
        ("ήρθε η ώρα", "ΗΡΘΕ Η ΩΡΑ"),
        ("ᾠδή", "ΩΙΔΗ"),
    ],
)
def test_words_in_capitals(typed: str, capitals: str) -> None:
    """No accents but that of "or"; a diaeresis where two vowels are two sounds."""
    assert unicodedata.normalize("NFC", greek_capitals(typed).upper()) == capitals


@given(st.text(ALPHABET, max_size=20))
def test_capitals_of_capitals_are_the_same(text: str) -> None:
    """Set again, nothing changes."""
    once = unicodedata.normalize("NFC", greek_capitals(text).upper())
    assert unicodedata.normalize("NFC", greek_capitals(once).upper()) == once


def test_a_long_text_is_read_once() -> None:
    """A hundred thousand letters that look for their neighbours take no time to speak of."""
    assert len(greek_capitals("ή·" * 50_000)) >= 100_000
