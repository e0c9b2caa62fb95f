"""Styling: from the script's text to the text as set, by all habits at once."""

import unicodedata
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import CASES, Case, Lettering
from letterfit.lettering.style.cleaning import LONGEST_TEXT
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.style.habits import CROSSBAR_IN, DASHES, ELLIPSES, EMPHASES, QUOTES, Habits
from letterfit.lettering.styling import Styled, styled
from tests.box_font import box_font

BOX = open_typeface(box_font())
HABITS = st.builds(
    Habits,
    emphasis=st.sampled_from(EMPHASES),
    crossbar_in=st.sampled_from(CROSSBAR_IN),
    dashes=st.sampled_from(DASHES),
    ellipses=st.sampled_from(ELLIPSES),
    quotes=st.sampled_from(QUOTES),
    keep_case=st.sampled_from([(), ("Mc*",), ("MacLAREN", "d'ARC", "Mc*")]),
)
LANGUAGES = st.sampled_from(["en", "de", "fr", "tr", "el", "lt", "nl", "hy", "ja", "he"])
WORDS = """I I'm *so* **so** _so_ *a **b** c* McCoy Maclaren d'Arc ß ŉ ﬁn ά ήι i̇ ǰ ev և ა 9 42 6"
'tis "no" -- — – ... … 3–4 A.I. F.B.I. *stray **** @*#! 水門 שלום \u0301 e\u0301"""
PIECES = st.sampled_from([*WORDS.split(), "", "\n"])
TEXTS = st.lists(PIECES, max_size=12).map(" ".join) | st.text(max_size=20)


def lettering(habits: Habits, case: Case) -> Lettering:
    """Box letters by these habits."""
    return Lettering(typeface=BOX, habits=habits, case=case)


def letters(text: str) -> str:
    """The letters and digits of a text without their case, for what is lost and what is not.

    Canonical composition and compatibility letters aside: capitals of "ŉ" and "ﬁ" are two letters.
    The accents that Greek and Lithuanian capitals drop are no letters.
    """
    loose = unicodedata.normalize("NFKD", text.replace("ԵՎ", "ԵՒ").replace("և", "եւ")).upper()
    loose = loose.replace("\u0130", "I").replace("ʼ", "")
    return "".join(c for c in unicodedata.normalize("NFKD", loose) if c.isalnum()).casefold()


@given(TEXTS, HABITS, st.sampled_from(CASES), LANGUAGES)
def test_no_letter_is_lost_by_any_habits(
    text: str, habits: Habits, case: Case, language: str
) -> None:
    """Letters and digits of the text as set are those typed, whatever the habits."""
    found = styled(text, lettering(habits, case), language=language)
    typed = text.replace("\u0345", "ι")  # the iota below becomes a letter
    assert letters(found.text) == letters(typed)


@given(TEXTS, HABITS, st.sampled_from(CASES), LANGUAGES, st.booleans())
def test_spans_join_to_the_text(
    text: str,
    habits: Habits,
    case: Case,
    language: str,
    keep_lines: bool,  # noqa: FBT001 - drawn
) -> None:
    """No span is empty, neighbours differ, crossbars stand on an I."""
    found = styled(text, lettering(habits, case), language=language, keep_lines=keep_lines)
    assert "".join(span.text for span in found.spans) == found.text
    assert all(span.text for span in found.spans)
    assert all(a.style != b.style for a, b in pairwise(found.spans))
    assert all(found.text[at] == "I" for at in found.crossbars)
    assert list(found.crossbars) == sorted(set(found.crossbars))
    if language != "en":
        assert found.crossbars == ()


@given(TEXTS, HABITS, st.sampled_from(CASES), LANGUAGES)
def test_setting_the_set_text_changes_nothing(
    text: str, habits: Habits, case: Case, language: str
) -> None:
    """Once the marks of emphasis are gone, all habits have had their way."""
    once = styled(text, lettering(habits, case), language=language)
    if not {"*", "_"} & set(once.text):
        assert styled(once.text, lettering(habits, case), language=language).text == once.text


def test_all_habits_at_once() -> None:
    """Dashes, ellipsis, quotes, names, emphasis and the pronoun in one balloon."""
    habits = Habits(
        emphasis="as-marked", dashes="em-dash", ellipses="ellipsis-character", quotes="curly"
    )
    text = '"**McCoy** *and* I...\nI\'m--"'
    found = styled(text, lettering(habits, "upper"), language="en")
    assert found == Styled(
        text="“McCOY AND I… I’M—”",
        spans=(
            Span("“", "regular"),
            Span("McCOY", "bold"),
            Span(" ", "regular"),
            Span("AND", "italic"),
            Span(" I… I’M—”", "regular"),
        ),
        crossbars=(11, 14),
    )


def test_a_pronoun_may_change_style_before_its_verb() -> None:
    """*I*'m is the pronoun too."""
    assert styled("*I*'m", lettering(Habits(), "upper"), language="en").crossbars == (0,)


def test_words_are_hyphenated_before_they_are_capitals() -> None:
    """Only where that is asked for: the break rules know a name by its capital."""
    plain = Lettering(typeface=BOX)
    cut = Lettering(typeface=BOX, breaks=BreakRules(hyphenate=True))
    text = "La marée *descend*."
    assert "\u00ad" not in styled(text, plain, language="fr").text
    found = styled(text, cut, language="fr")
    assert found.text.replace("\u00ad", "-") == "LA MA-RÉE DES-CEND."
    assert [span.style for span in found.spans] == ["regular", "bold italic", "regular"]


def test_georgian_capitals_are_taken_from_a_face_that_has_them() -> None:
    """A face with the small letters alone sets them as typed."""
    small, both = box_font(characters="ა Aa"), box_font(characters="აᲐ Aa")
    alone = Lettering(typeface=open_typeface(small, fallback=[both]))
    assert styled("ა", alone, language="ka").text == "ა"
    assert styled("ა", Lettering(typeface=both), language="ka").text == "Ა"
    assert styled("ა", Lettering(typeface=BOX), language="ka").text == "ა"


def test_no_text_gives_no_spans() -> None:
    """Nothing to set."""
    assert styled(" \n ", Lettering(typeface=BOX), language="en") == Styled("", (), ())


def test_a_text_too_long_for_a_balloon_is_refused() -> None:
    """With what to do about it, before anything slow is done."""
    with pytest.raises(OutlineError, match="goes into no balloon; split it"):
        styled("*" * (LONGEST_TEXT + 1), Lettering(typeface=BOX), language="en")
