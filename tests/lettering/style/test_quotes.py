"""Quotes: which way straight marks turn, in every language's own marks."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.style.edits import edited
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.style.quotes import curly, quotation_marks, straight

CLDR = json.loads(
    (Path(__file__).parents[2] / "data" / "lettering" / "cldr_quotes.json").read_text("utf-8")
)
LANGUAGES = st.sampled_from(["en", "de", "fr", "fr-CH", "fi", "nl", "he", "ja", "uz", "ar", "hu"])
TYPED = st.text("\"\"\"'''ab ó6.,-—!?(“”’«» \u00a0", max_size=24)


def turned(text: str, language: str = "en") -> str:
    """The text with its quotes turned."""
    return "".join(
        span.text for span in edited([Span(text, "regular")], list(curly(text, language)))
    )


def test_every_language_has_the_marks_of_cldr() -> None:
    """All 766 locales of CLDR 48, each by the longest part of its tag."""
    locales = {tag: marks for marks, tags in CLDR["locales"].items() for tag in tags.split()}
    assert len(locales) > 700
    assert {tag: quotation_marks(tag) for tag in locales} == locales


def test_a_region_without_a_script_of_its_own_is_known() -> None:
    """Taiwan, Hong Kong and Macau write Traditional Chinese (CLDR, likely subtags)."""
    assert quotation_marks("zh-TW") == quotation_marks("zh-Hant") == "「」『』"
    assert quotation_marks("zh_CN") == quotation_marks("zh") == "“”‘’"


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ('"Hold," he said.', "“Hold,” he said."),
        ('He said "hold."', "He said “hold.”"),
        ("Don't. It's Wenna's.", "Don’t. It’s Wenna’s."),
        ("The pilots' barge", "The pilots’ barge"),
        ("'Hold', he said.", "‘Hold’, he said."),
        ("\"He said 'hold'\"", "“He said ‘hold’”"),
        ("'Tis the tide. 'Twas '98. Get 'em!", "’Tis the tide. ’Twas ’98. Get ’em!"),
        ("rock 'n' roll", "rock ’n’ roll"),
        ('"...Hold" and..."then"', "“...Hold” and...“then”"),
        ('Wait--"no"--go', "Wait--“no”--go"),
        ('("Hold")', "(“Hold”)"),
        ('"Hold--', "“Hold--"),
        ("6'2\" tall, 10' off", "6'2\" tall, 10' off"),
        ('"Nine 6" gates"', "“Nine 6” gates”"),
        ("' \" '", "' \" '"),
        ('a"b', 'a"b'),
        ("goin' an' comin'", "goin’ an’ comin’"),
        ("“Hold,” he said.", "“Hold,” he said."),
    ],
)
def test_english_quotes(typed: str, expected: str) -> None:
    """Opened and closed by their neighbours; apostrophes; feet and inches stay."""
    assert turned(typed) == expected


@pytest.mark.parametrize(
    ("language", "typed", "expected"),
    [
        ("de", "\"Halt!\" 'So', rief sie. Geht's?", "„Halt!“ ‚So‘, rief sie. Geht’s?"),
        ("fr", '"Halte !" L\'écluse', "«\u00a0Halte !\u00a0» L’écluse"),
        ("fr-CH", '"Halte!"', "«Halte!»"),
        ("es", '¿"Alto"? "¡Alto!"', "¿“Alto”? “¡Alto!”"),
        ("sv", '"Stopp!"', "”Stopp!”"),
        ("pl", '"Stój!"', "„Stój!”"),
        ("ja", '"止まれ"', "「止まれ」"),
        ("nl", "'s Avonds is 't stil. \"Stop!\"", "’s Avonds is ’t stil. ‘Stop!’"),
        ("he", 'צה"ל, ג\'ירפה, "שלום"', "צה\"ל, ג'ירפה, ”שלום”"),
    ],
)
def test_quotes_by_language(language: str, typed: str, expected: str) -> None:
    """The marks of CLDR; a geresh and gershayim within a Hebrew word are no quotes."""
    assert turned(typed, language) == expected


@given(TYPED, LANGUAGES)
def test_turning_again_changes_nothing(text: str, language: str) -> None:
    """What could not be told the first time cannot be told the second."""
    once = turned(text, language)
    assert turned(once, language) == once


@given(TYPED, LANGUAGES)
def test_only_quotes_are_changed(text: str, language: str) -> None:
    """Every other character stands where it stood, but for the spaces inside French quotes."""
    marks = dict.fromkeys(map(ord, "\"'\u00a0" + quotation_marks(language) + "’"))
    assert turned(text, language).translate(marks) == text.translate(marks)


def test_straight_quotes_are_those_of_a_typewriter() -> None:
    """Curly marks of any language; angle quotes are left."""
    text = "“a” „b‟ ‘c’ ‚d‛ «e»"
    edits = list(straight(text))
    assert edited([Span(text, "regular")], edits)[0].text == "\"a\" \"b\" 'c' 'd' «e»"


@pytest.mark.parametrize("text", ['"' * 100_000, "'a" * 50_000, "\"' " * 40_000, "6' 'a " * 20_000])
def test_a_long_text_is_read_once(text: str) -> None:
    """A hundred thousand quotes take no time to speak of."""
    assert len(turned(text)) == len(text)
