"""Hyphens: where words are cut when that is asked for, and which words never are."""

import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.lettering.breaks import hyphens
from letterfit.lettering.breaks.breaks import line_breaks
from letterfit.lettering.breaks.hyphens import hyphen_points, hyphenated
from letterfit.lettering.breaks.prices import SHY, BreakPrices
from letterfit.lettering.breaks.rules import BreakRules

ON = BreakRules(hyphenate=True)


def cut(text: str, language: str) -> str:
    """The text with a bar at each point."""
    points = set(hyphen_points(text, language=language))
    return "".join("|" * (k in points) + char for k, char in enumerate(text))


@pytest.mark.parametrize(
    ("language", "expected"),
    [
        ("fr", "C'est ex|tra|or|di|naire, Madame."),
        ("fr-CA", "L'aé|ro|port est fermé ?"),
        ("de", "Der Ha|fen|meis|ter war|tet auf die Straßen|bahn."),
        ("de", "DER HA|FEN|MEIS|TER."),
        ("es", "¡Ex|tra|or|di|na|rio!"),
        ("ru", "Не|ве|ро|ят|ное"),
        ("en", "un|der|stand|ing"),
    ],
)
def test_words_are_cut_by_their_language(language: str, expected: str) -> None:
    """Punctuation is no part of a word; capitals are cut as small letters are."""
    assert cut(expected.replace("|", ""), language) == expected


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "rime mare"),  # under five letters
        ("fr", "B-B-Bonjour"),  # a stutter
        ("fr", "Nooooon"),  # drawn out
        ("fr", "voici Maréchal, Monsieur Durandal"),  # names
        ("fr", "un MINISTRE"),  # a word set off by capitals
        ("fr", "machine2000 exemple@maison www.maison.example sous_marine"),
        ("fr", f"extra{SHY}ordinaire"),  # its writer has said where
        ("hu", "asszony hosszú könnyű"),  # asz-szony: another spelling
        ("nl", "coëf"),
        ("xx", "extraordinaire"),  # no dictionary
    ],
)
def test_words_that_are_left_whole(language: str, text: str) -> None:
    """Each for its reason."""
    assert cut(text, language) == text


def test_a_point_where_dutch_drops_its_diaeresis_is_left_out() -> None:
    """Cut, "zeeëgel" is "zee-egel": other letters than those of the script."""
    assert cut("zeeëgeltje", "nl") == "zeeë|gel|tje"


def test_a_point_that_capitals_move_is_left_out() -> None:
    """ß is cut before as it is typed and inside as SS: in capitals "STRA-SSE" would be wrong."""
    assert cut("Straßenkreuzung", "de") == "Straßen|kreu|zung"
    assert cut("Strassenkreuzung", "de") == "Stras|sen|kreu|zung"


def test_parts_of_hard_compounds_are_cut_apart() -> None:
    """A hyphen ends a word; each part is cut by itself."""
    assert cut("porte-parapluies", "fr") == "porte-pa|ra|pluies"


def test_a_name_is_told_from_the_beginning_of_a_sentence() -> None:
    """A capital after a stop is no name; after a comma it is one, but in German a noun."""
    assert cut("Oui. Capitaine !", "fr") == "Oui. Ca|pi|taine !"
    assert cut("Oui, Capitaine !", "fr") == "Oui, Capitaine !"
    assert cut("Ja, Hafenmeister !", "de") == "Ja, Ha|fen|meis|ter !"


def test_hyphens_are_put_only_where_they_are_asked_for() -> None:
    """Off as it comes; on, English still is not cut; English has its own switch."""
    for language in ("fr", "en"):
        assert hyphenated(["capitaine"], language=language, rules=BreakRules()) == ("capitaine",)
    assert hyphenated(["capitaine"], language="en", rules=ON) == ("capitaine",)
    english = BreakRules(hyphenate_english=True)
    assert hyphenated(["understanding"], language="en-GB", rules=english) != ("understanding",)
    assert hyphenated(["capitaine"], language="fr", rules=english) == ("capitaine",)


def test_a_point_may_fall_between_two_styles() -> None:
    """The text is cut as one, then its parts are handed back: a soft hyphen ends the first."""
    assert hyphenated(["ca", "pitaine"], language="fr", rules=ON) == (f"ca{SHY}", f"pi{SHY}taine")


def test_a_cut_word_breaks_at_the_price_of_a_soft_hyphen() -> None:
    """What was put in is a break like one that was typed."""
    text = "".join(hyphenated(["capitaine"], language="fr", rules=ON)).upper()
    assert {turn.price for turn in line_breaks(text, language="fr")} == {BreakPrices().soft_hyphen}
    assert len(line_breaks(text, language="fr")) == 2


def test_without_pyphen_the_error_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The package is optional."""
    monkeypatch.setitem(sys.modules, "pyphen", None)
    hyphens._dictionary.cache_clear()
    with pytest.raises(FontError, match="pip install pyphen"):
        hyphenated(["capitaine"], language="fr", rules=ON)


@given(
    st.lists(st.text(alphabet=st.sampled_from("abeilnorstäéß -'’.!ABN2"), max_size=24), max_size=3),
    st.sampled_from(["fr", "de", "hu", "nl", "it", "pl"]),
)
def test_nothing_but_soft_hyphens_is_put_in(parts: list[str], language: str) -> None:
    """Taken out again, the text is as it was; two letters stay before a point and three after."""
    cut_parts = hyphenated(parts, language=language, rules=ON)
    assert [part.replace(SHY, "") for part in cut_parts] == parts
    text = "".join(parts)
    for at in hyphen_points(text, language=language):
        assert text[at - 2 : at].isalpha()
        assert text[at : at + 3].isalpha()
