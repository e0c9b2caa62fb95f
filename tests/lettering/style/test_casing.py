"""Capitals by language, against Unicode's data."""

import json
import lzma
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.style.casing import GEORGIAN, base_language, upper

DATA = Path(__file__).parents[2] / "data"
ICU = json.loads((DATA / "lettering" / "icu_capitals.json").read_text(encoding="utf-8"))
LISTED = lzma.decompress((DATA / "unicode" / "SpecialCasing-15.0.0.txt.xz").read_bytes())
SPECIAL = [
    [field.strip() for field in line.partition("#")[0].split(";")]
    for line in LISTED.decode("utf-8").splitlines()
    if line.partition("#")[0].strip()
]
"""Unicode 15, SpecialCasing.txt: code, lower, title, upper, conditions if any."""


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


def chars(codes: str) -> str:
    """The characters of a field of Unicode's data."""
    return "".join(chr(int(code, 16)) for code in codes.split())


def test_the_whole_of_special_casing() -> None:
    """Every mapping of SpecialCasing.txt that does not depend on its neighbours or language."""
    rows = [row for row in SPECIAL if not row[4]]
    assert len(rows) > 100
    for code, _, _, capitals, _ in rows:
        assert upper(chars(code), "en") == unicodedata.normalize("NFC", chars(capitals))


def test_special_casing_of_languages() -> None:
    """Its mappings for a language, each in the place it is meant for.

    The only upper-case mappings with a language are i in Turkish and Azerbaijani, and in Lithuanian
    the dot that goes away after i.
    """
    for code, lower, _, capitals, conditions, *_ in (row for row in SPECIAL if row[4]):
        language, _, context = conditions.partition(" ")
        if chars(capitals) == chars(code).upper() and language not in ("tr", "az"):
            continue  # such as the final sigma: the condition is about small letters
        before = "i" if context == "After_Soft_Dotted" else ""
        if language in ("tr", "az") and context:
            continue  # the dot after I is about small letters; see the words below
        found = upper(before + chars(code), language)
        assert found == unicodedata.normalize("NFC", before.upper() + chars(capitals)), (
            code,
            lower,
        )


@pytest.mark.parametrize("language", sorted(ICU["typed"]))
def test_capitals_are_those_of_icu(language: str) -> None:
    """Letters and words of ten languages, each set alone, as ICU's u_strToUpper has them."""
    typed, capitals = ICU["typed"][language].split(), ICU["capitals"][language].split()
    assert len(typed) == len(capitals)
    wrong = [
        (word, upper(word, language), wanted)
        for word, wanted in zip(typed, capitals, strict=True)
        if upper(word, language) != wanted
    ]
    assert wrong == []


@given(st.text(max_size=30))
def test_other_languages_follow_the_full_mapping(text: str) -> None:
    """Without a rule of its own a language has Unicode's full mapping, in form C."""
    assert upper(text, "en", georgian=True) == unicodedata.normalize("NFC", text.upper())
    if not GEORGIAN.search(text):
        assert upper(text, "en") == upper(text, "en", georgian=True)


@given(
    st.text("iıİj\u0307\u0301ßևŉ ﬁάή ab", max_size=12) | st.text(max_size=12),
    st.sampled_from(["en", "tr", "lt", "el", "hy", "nl"]),
)
def test_capitals_of_capitals_are_the_same(text: str, language: str) -> None:
    """Set again, nothing changes."""
    once = upper(text, language, keep=("Mc*", "d'ARC"))
    assert upper(once, language, keep=("Mc*", "d'ARC")) == once


def test_georgian_stays_unless_there_are_capitals() -> None:
    """Few fonts have the capitals that Unicode 11 gave it."""
    assert upper("ჭიშკარი, 9b", "ka") == "ჭიშკარი, 9B"
    assert upper("ჭიშკარი", "ka", georgian=True) == "ᲭᲘᲨᲙᲐᲠᲘ"
    assert upper("Ჭ", "ka") == "Ჭ"


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Old McCoy's gate", "OLD McCOY'S GATE"),
        ("Mcmillan, MCCOY, mccoy", "MCMILLAN, MCCOY, MCCOY"),
        ("EmcCoy", "EMCCOY"),
        ("Maclaren and MACLAREN and MacLaren", "MacLAREN AND MacLAREN AND MacLAREN"),
        ("MacLarens", "MACLARENS"),
        ("Jeanne d'arc, D'Arc!", "JEANNE d'ARC, d'ARC!"),
        ("McÉtienne", "McÉTIENNE"),
        ("Straße McCoy", "STRASSE McCOY"),
    ],
)
def test_names_keep_small_letters(typed: str, expected: str) -> None:
    """Listed words wherever they stand alone, and the beginning of a name before a capital."""
    assert upper(typed, "en", keep=("Mc*", "MacLAREN", "d'ARC")) == expected


def test_the_base_of_a_language_tag() -> None:
    """Script and region do not decide the capitals."""
    assert [base_language(tag) for tag in ("pt-BR", "sr_Latn_RS", "EN", "")] == [
        "pt",
        "sr",
        "en",
        "",
    ]
