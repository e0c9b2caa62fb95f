"""The crossbar I: which I is the pronoun."""

import pytest

from letterfit.lettering.crossbar import pronouns


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("I", [0]),
        ("IT IS IN", []),
        ("I'M, I'LL, I'D, I’VE", [0, 5, 11, 16]),
        ("AM I? (I)", [3, 7]),
        ("I-I'LL", [0, 2]),
        ("I--NO", [0]),
        ("D'I L'I", []),
        ("I'SPY", []),
        ("HI-FI", []),
        ("B&I", []),
    ],
)
def test_the_pronoun_and_its_short_forms(text: str, expected: list[int]) -> None:
    """I alone or before 'M, 'LL, 'D, 'VE; no I inside a word."""
    assert list(pronouns(text, "en")) == expected


def test_only_english_has_the_pronoun_i() -> None:
    """Italian "I" is an article."""
    assert pronouns("I PESCI", "it") == ()
    assert pronouns("I SEE", "en-GB") == (0,)
