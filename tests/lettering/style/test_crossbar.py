"""The crossbar I: which I is the pronoun."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.crossbar import (
    check_crossbar,
    crossbar_feature,
    pronouns,
    slot_letters,
)
from letterfit.lettering.style.habits import Habits
from tests.box_font import box_font


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
        ("A.I. AND I.D. AND F.B.I.", []),
        ("SO AM I. YES", [6]),
        ("I. I... I", [0, 3, 8]),
        ("II, III, IV, VI, XI", []),
        ("I, I!", [0, 3]),
        ("THAT'S I'S DOT", []),
    ],
)
def test_the_pronoun_and_its_short_forms(text: str, expected: list[int]) -> None:
    """I alone or before 'M, 'LL, 'D, 'VE; no I inside a word."""
    assert list(pronouns(text, "en")) == expected


def test_only_english_has_the_pronoun_i() -> None:
    """Italian "I" is an article."""
    assert pronouns("I PESCI", "it") == ()
    assert pronouns("I SEE", "en-GB") == (0,)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A.I. AND I.D., I SAY", [2, 9, 15]),
        ("F.B.I.", [4]),
        ("I.I.", [0, 2]),
        ("SO AM I.", [6]),
        ("AI, FBI", []),
        ("SEE WENNA.IT WAS", []),
    ],
)
def test_initials_may_have_crossbars_too(text: str, expected: list[int]) -> None:
    """Single letters with stops between them, where that is asked for (common practice)."""
    assert list(pronouns(text, "en", crossbar_in="pronoun-and-initials")) == expected


def test_where_the_barred_i_comes_from() -> None:
    """A known family's alternate wherever it sets a run; a user's feature in its own font alone."""
    assert crossbar_feature("Grandstander", own="Mine", crossbar="auto") == "ss01"
    assert crossbar_feature("Mine", own="Mine", crossbar="auto") is None
    assert crossbar_feature("Mine", own="Mine", crossbar="ss03") == "ss03"
    assert crossbar_feature("Other", own="Mine", crossbar="ss03") is None
    for other in ("none", "upper-slot", "lower-slot"):
        assert crossbar_feature("Grandstander", own="Grandstander", crossbar=other) is None


@given(st.text("Ii 'MAın", max_size=20))
def test_slots_hold_a_plain_and_a_barred_i(text: str) -> None:
    """Every I and i is drawn from the slot its role asks for; all else is left."""
    barred = pronouns(text, "en")
    upper = slot_letters(text, barred, crossbar="upper-slot")
    lower = slot_letters(text, barred, crossbar="lower-slot")
    assert upper is not None
    assert lower is not None
    for at, char in enumerate(text):
        if char in "Ii":
            assert (upper[at], lower[at]) == (("I", "i") if at in barred else ("i", "I"))
        else:
            assert upper[at] == lower[at] == char
    assert slot_letters(text, barred, crossbar="auto") is None


def test_a_font_that_has_no_such_i_is_told() -> None:
    """A feature that leaves I alone, and a second slot that holds a small letter."""
    ordinary = open_typeface("Grandstander")
    check_crossbar(ordinary, "ss01")
    check_crossbar(open_typeface("Bangers"), "upper-slot")
    with pytest.raises(FontError, match="no other I"):
        check_crossbar(ordinary, "ss19")
    with pytest.raises(FontError, match="small letters"):
        check_crossbar(ordinary, "lower-slot")
    for any_font in ("auto", "none"):
        check_crossbar(open_typeface(box_font()), any_font)


@pytest.mark.parametrize(
    ("crossbar", "pronoun", "plain"), [("upper-slot", 300, 500), ("lower-slot", 500, 300)]
)
def test_a_font_of_capitals_is_set_from_both_its_slots(
    crossbar: str, pronoun: int, plain: int
) -> None:
    """I is 300 units wide there and i 500; the text keeps its letters, whatever draws them."""
    font = open_typeface(box_font(characters="HIKNTi '"))
    lettering = Lettering(
        typeface=font, size_pt=72 / 25.4 * 1000, habits=Habits(crossbar=crossbar)
    )  # 1 unit = 1 mm
    words = measure("I think", lettering)
    line = words.line(0, len(words) - 1)
    assert line.text == "I THINK"
    assert line.width_mm == pytest.approx(pronoun + 300 + 600 + 600 + plain + 600 + 600)
