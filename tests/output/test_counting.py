"""Numbers with their nouns."""

import pytest

from letterfit.output.counting import counted


@pytest.mark.parametrize(("number", "text"), [(0, "0 words"), (1, "1 word"), (2, "2 words")])
def test_only_one_is_singular(number: int, text: str) -> None:
    """One word, no words, two words."""
    assert counted(number, "word") == text
