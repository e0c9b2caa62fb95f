"""Numbers with their nouns and verbs."""

import pytest

from letterfit.counting import counted, does


@pytest.mark.parametrize(("number", "text"), [(0, "0 words"), (1, "1 word"), (2, "2 words")])
def test_only_one_is_singular(number: int, text: str) -> None:
    """One word, no words, two words."""
    assert counted(number, "word") == text


@pytest.mark.parametrize(("number", "verb"), [(0, "do"), (1, "does"), (2, "do")])
def test_only_one_does(number: int, verb: str) -> None:
    """One does not fit, none and two do not."""
    assert does(number) == verb
