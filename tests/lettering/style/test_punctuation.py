"""Punctuation: each policy, what it leaves alone, and that it settles."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.style.habits import DASHES, ELLIPSES, QUOTES, Dashes, Ellipses, Habits
from letterfit.lettering.style.punctuation import punctuate

HABITS = st.builds(
    Habits,
    dashes=st.sampled_from(DASHES),
    ellipses=st.sampled_from(ELLIPSES),
    quotes=st.sampled_from(QUOTES),
)


def settled(text: str, habits: Habits, language: str = "en") -> str:
    """The text by the habits."""
    return "".join(span.text for span in punctuate((Span(text, "regular"),), habits, language))


@pytest.mark.parametrize(
    ("dashes", "typed", "expected"),
    [
        ("double-hyphen", "Wait— no – go ― now", "Wait-- no -- go -- now"),
        ("double-hyphen", "1939–45, pages 3–9 and 3 – 9", "1939–45, pages 3–9 and 3 -- 9"),
        ("em-dash", "Wait-- no --- go – now", "Wait— no — go — now"),
        ("em-dash", "well-known, ---- and -", "well-known, ---- and -"),
        ("as-typed", "a -- b — c", "a -- b — c"),
    ],
)
def test_dashes(dashes: Dashes, typed: str, expected: str) -> None:
    """A break in speech becomes the one asked for; ranges, hyphens and rules stay."""
    assert settled(typed, Habits(dashes=dashes)) == expected


@pytest.mark.parametrize(
    ("ellipses", "typed", "expected"),
    [
        ("three-dots", "So… no….", "So... no...."),
        ("ellipsis-character", "So... no.... but.. ......", "So… no…. but.. ……"),
        ("as-typed", "So... no…", "So... no…"),
    ],
)
def test_ellipses(ellipses: Ellipses, typed: str, expected: str) -> None:
    """Three stops are an ellipsis; a fourth ends the sentence."""
    assert settled(typed, Habits(ellipses=ellipses)) == expected


def test_languages_keep_their_own_ways() -> None:
    """Long dashes and six dots of Chinese and Japanese; the dash that opens a Spanish speech."""
    habits = Habits(dashes="double-hyphen", ellipses="three-dots")
    assert settled("水門——閉鎖……", habits, "ja") == "水門——閉鎖……"
    assert settled("—Alto —dijo—.", habits, "es") == "—Alto --dijo--."
    assert settled("—and so", habits, "en") == "--and so"


@given(
    st.text("-–—―….'\" a1A", max_size=24),
    HABITS,
    st.sampled_from(["en", "fr", "de", "ja"]),
)
def test_policies_settle(text: str, habits: Habits, language: str) -> None:
    """Done again, nothing changes; letters, digits and spaces are all there."""
    once = settled(text, habits, language)
    assert settled(once, habits, language) == once
    assert [c for c in once if c.isalnum() or c == " "] == [
        c for c in text if c.isalnum() or c == " "
    ]


def test_policies_see_across_a_change_of_style() -> None:
    """Two hyphens of two styles are one dash, in the style of the first."""
    spans = (Span("NO-", "bold italic"), Span("- GO", "regular"))
    assert punctuate(spans, Habits(dashes="em-dash"), "en") == (
        Span("NO—", "bold italic"),
        Span(" GO", "regular"),
    )
    assert punctuate(spans, Habits(), "en") is spans
