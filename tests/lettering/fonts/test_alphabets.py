"""Alphabets, against another project's survey of the world's writing."""

import json
from pathlib import Path
from string import ascii_letters

import pytest

from letterfit.lettering.fonts.alphabets import covered, languages, nearly_covered

SURVEY = Path(__file__).parents[2] / "data" / "lettering" / "alphabets.json"
"""Base and auxiliary letters beyond A to Z by language: Hyperglot 0.8.2, see the README there."""

DIFFERENCES = {
    "af": ("Ââ", "ÜÝüý"),
    "be": ("", "ИЩЪищъ"),
    "bg": ("", "ЀЍѐѝ"),
    "dsb": ("", "Řř"),
    "eu": ("Çç", "Üü"),
    "fo": ("", "Åå"),
    "gd": ("", "ÉÓéó"),
    "gl": ("Ïï", ""),
    "he": ("", "ּׁׂ"),
    "hsb": ("", "Śś"),
    "hy": ("", "և"),
    "ig": ("", "ÀÁÈÉÌÍÒÓÙÚàáèéìíòóùúĀāĒēĪīŃńŌōŪūẸẹ"),
    "it": ("", "ÁÍÓÚáíóú"),
    "ka": ("", "ᲐᲑᲒᲓᲔᲕᲖᲗᲘᲙᲚᲛᲜᲝᲞᲟᲠᲡᲢᲣᲤᲥᲦᲧᲨᲩᲪᲫᲬᲭᲮᲯᲰ"),
    "ky": ("", "ВФЦЩЬвфцщь"),
    "lb": ("", "ÂÈÊÎÔÖÛÜßâèêîôöûü"),
    "mk": ("", "ЀЍѐѝ"),
    "nl": ("", "ÂÈÊÔÛâèêôûĲĳ"),
    "oc": ("", "Ëë"),
    "pt": ("", "Èè"),
    "rm": ("ÌÙìù", "ÂÊÎÔÖÜâêîôöü"),
    "sl": ("", "ÄÖÜäöüĆćĐđ"),
    "sq": ("ÇËçë", ""),
    "sv": ("", "ÁËÜáëü"),
    "tr": ("", "ÂÎÛâîû"),
    "uk": ("", "Ээ"),
    "wo": ("", "Ãã"),
    "yo": ("ŃńǸǹ̀́̄Ḿḿ", "ĀāĒēĪīŌōŪū"),
}
"""Where the two sources disagree: letters that only ours asks for, and base letters of the survey
that ours does not ask for. They are stressed vowels, letters of loanwords and neighbours' letters;
the capitals of Georgian and the dots of Hebrew, which comics go without; and slips of either."""


@pytest.mark.parametrize("tag", json.loads(SURVEY.read_text(encoding="utf-8")))
def test_letters_are_those_of_another_survey(tag: str) -> None:
    """Ours are base or auxiliary letters there, and its base letters are ours, but as listed."""
    base, auxiliary = map(set, json.loads(SURVEY.read_text(encoding="utf-8"))[tag])
    ours = {char for char in languages()[tag].letters if not char.isascii() and char not in "¿¡"}
    found = tuple("".join(sorted(more)) for more in (ours - base - auxiliary, base - ours))
    assert found == DIFFERENCES.get(tag, ("", ""))


def test_most_alphabets_agree_in_full() -> None:
    """The list of differences is the exception."""
    surveyed = json.loads(SURVEY.read_text(encoding="utf-8"))
    assert len(surveyed) > 60
    assert len(DIFFERENCES) < len(surveyed) / 2


def test_every_language_has_a_name_and_letters() -> None:
    """Sorted by tag; English needs A to Z and nothing else."""
    assert list(languages()) == sorted(languages())
    assert all(language.name and language.letters for language in languages().values())
    assert languages()["en"].letters == frozenset(ascii_letters)


def test_capitals_are_those_of_the_language() -> None:
    """Turkish has two of I; German has no capital ß; Georgian and Cherokee stay as they are."""
    assert {"İ", "ı", "I", "i"} <= languages()["tr"].letters
    assert "ẞ" not in languages()["de"].letters
    assert "İ" not in languages()["de"].letters
    assert "\u1c90" not in languages()["ka"].letters


def test_a_language_is_covered_when_no_letter_is_lacking() -> None:
    """One missing letter makes it nearly covered, and is named."""
    german = languages()["de"].letters
    assert "de" in covered(german)
    assert "de" not in covered(german - {"Ü"})
    near = {language.tag: language.missing for language in nearly_covered(german - {"Ü"})}
    assert near["de"] == "Ü"
    assert "de" not in {language.tag for language in nearly_covered(german)}


def test_a_language_of_which_little_is_there_is_not_nearly_covered() -> None:
    """Latin letters say nothing of Greek; three letters in four are not a language."""
    latin = frozenset(ascii_letters)
    assert {"el", "he", "ja"}.isdisjoint(language.tag for language in nearly_covered(latin))
    assert "he" not in {
        language.tag for language in nearly_covered(frozenset("אבגדהוזחטיכלמנסעפצ"))
    }
