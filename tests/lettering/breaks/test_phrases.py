"""Function words: lists that can be met, and that do not contradict themselves."""

import pytest

from letterfit.lettering.breaks.phrases import NAME_ENDS, NUMBER_SIGNS, PHRASES, TITLES, UNITS
from letterfit.lettering.style.casing import upper


@pytest.mark.parametrize("language", PHRASES)
def test_words_are_met_in_capitals(language: str) -> None:
    """Dialogue is compared in lower case after it was put in capitals: each word comes back."""
    phrases = PHRASES[language]
    words = phrases.weak_ends | phrases.openers | phrases.leaners
    lost = {w for w in words if upper(w, language).lower() not in words}
    assert lost <= ({"ki", "mi", "bir", "eğer", "çünkü"} if language == "tr" else set())


@pytest.mark.parametrize("language", PHRASES)
def test_no_word_both_ends_a_line_badly_and_begins_it_badly(language: str) -> None:
    """A word leans to one side."""
    phrases = PHRASES[language]
    assert not phrases.weak_ends & phrases.leaners
    assert not phrases.openers & phrases.leaners
    assert not phrases.weak_ends & phrases.openers


def test_lists_of_all_languages_are_in_lower_case() -> None:
    """Else they would never be met."""
    words = TITLES | UNITS | NAME_ENDS | NUMBER_SIGNS
    assert all(word == word.lower() for word in words)
