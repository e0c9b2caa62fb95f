"""Capitals by language, against Unicode's data."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.casing import base_language, upper


@pytest.mark.parametrize(
    ("language", "typed", "capitals"),
    [
        # Unicode 15, SpecialCasing.txt: unconditional mappings
        ("de", "Straße", "STRASSE"),
        ("en", "\ufb01n", "FIN"),
        ("en", "\u0149", "\u02bcN"),
        ("hyw", "\u0587", "\u0535\u0552"),
        # the same, conditional mappings for tr and az
        ("tr", "ılık iris i\u0307", "ILIK İRİS İ"),
        ("az-Latn", "i", "İ"),
        # the same, conditional mappings for lt: the dot above goes, the accent stays
        (
            "lt",
            "i\u0307\u0300 i\u0307\u0301 i\u0307\u0303 j\u0307\u0301 \u012f\u0307\u0301",
            "Ì Í Ĩ J\u0301 Į\u0301",
        ),
        # CLDR, transform el-Upper: accents go, the diaeresis stays or appears, "ή" alone keeps it
        ("el", "άνθρωπος", "ΑΝΘΡΩΠΟΣ"),
        ("el", "μαΐου μάιος ρολόι", "ΜΑΪΟΥ ΜΑΪΟΣ ΡΟΛΟΪ"),
        ("el", "ή ναι, ήταν", "Ή ΝΑΙ, ΗΤΑΝ"),
        ("el", "ᾠδή", "ΩΙΔΗ"),
        ("nl", "ijs", "IJS"),
        ("fr", "déjà vu, œuvre", "DÉJÀ VU, ŒUVRE"),
    ],
)
def test_capitals_by_language(language: str, typed: str, capitals: str) -> None:
    """Each language's own rule, composed afterwards."""
    assert upper(typed, language) == unicodedata.normalize("NFC", capitals)


@given(st.text(max_size=30))
def test_other_languages_follow_the_full_mapping(text: str) -> None:
    """Without a rule of its own a language has Unicode's full mapping, in form C."""
    assert upper(text, "en") == unicodedata.normalize("NFC", text.upper())


def test_the_base_of_a_language_tag() -> None:
    """Script and region do not decide the capitals."""
    assert [base_language(tag) for tag in ("pt-BR", "sr_Latn_RS", "EN", "")] == [
        "pt",
        "sr",
        "en",
        "",
    ]
