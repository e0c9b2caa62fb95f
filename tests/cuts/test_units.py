"""What an editor takes out first, and last."""

import pytest

from letterfit.cuts.tokens import tokens_of
from letterfit.cuts.units import LATE, units_of


def kinds(text: str, **tongue: str) -> dict[str, str]:
    """Each unit's words and its kind."""
    tokens = tokens_of(text)
    return {
        " ".join(tokens[k].text for k in unit.tokens): unit.kind
        for unit in units_of(tokens, language=tongue.get("language", "en"))
    }


@pytest.mark.parametrize(
    ("text", "words", "kind"),
    [
        ("It is very late.", "very", "intensifier"),
        ("Well, it is late.", "Well,", "discourse marker"),
        ("I think that we wait.", "that", "complementiser"),
        ("It is late, my lord.", "my lord.", "vocative"),
        ("It is late, you know.", "you know.", "discourse marker"),
        ("Look, look, the tide.", "Look,", "discourse marker"),
        ("Go on go on to the lock.", "Go on", "repeat"),
        ("She slowly shut the gate.", "slowly", "adverb"),
        ("Perhaps we are late, perhaps not.", "Perhaps", "hedge"),
        ("Shut it. Now go home.", "Shut it.", "sentence"),
        ("Hurry. And the tide is late.", "And", "discourse marker"),
        ("The gate's older than the board.", "than the board.", "phrase"),
        (
            "You leave the grain and the boots on your feet.",
            "and the boots on your feet.",
            "phrase",
        ),
    ],
)
def test_words_of_the_table_are_known(text: str, words: str, kind: str) -> None:
    """Each class of the table is found where it stands (common practice, no source)."""
    assert kinds(text)[words] == kind


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("I saw that man.", "that"),
        ("It is not very late.", "very"),
        ("Only the early fly.", "Only"),
        ("Well done that man.", "Well"),
        ("And you?", "And"),
        ("It stands between the gate and the weir.", "and the weir."),
        ("Nobody has come since we shut it.", "since we shut it."),
        ("The tide decides, not I. I only turn it.", "I."),
    ],
)
def test_what_only_looks_like_them_is_left(text: str, words: str) -> None:
    """A demonstrative, a denied intensifier, an adjective in -ly."""
    assert words not in kinds(text)


def test_meaning_goes_late() -> None:
    """A clause with a negation or a number costs more than its like without."""
    plain, denied = (
        next(u for u in units_of(tokens_of(text)) if (u.first, u.kind) == (3, "clause"))
        for text in ("It is late, and we wait.", "It is late, and never wait.")
    )
    assert denied.cost > max(plain.cost, LATE)


def test_other_languages_have_tables() -> None:
    """French and German fillers are known by their own rows."""
    assert kinds("Il est vraiment tard.", language="fr")["vraiment"] == "intensifier"
    assert kinds("Es ist wirklich kalt.", language="de-CH")["wirklich"] == "intensifier"
