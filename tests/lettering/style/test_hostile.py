"""Hostile text: whatever stands in a balloon, it is measured, or refused in words."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.balloons import fit_balloon
from letterfit.errors import LetterfitError, OutlineError
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.cleaning import LONGEST_TEXT
from letterfit.lettering.style.habits import Habits

ODD = [
    *"\ud800\udfff\x00\x07\x7f\u0085\u00ad\u0301\u0323\u0489\u200b\u200d\u200e\u202a\u202e\u2028",
    *"\u2066\u2069\u2060\u3000\ue000\ufe0f\ufeff\ufffd\ufffe\U0010ffff\U000e0041",
    *"*_'\"-—….,!?()[]«» \n\tIiaßŉﬁαή123אעسกក水ー゛👩🏽❤",
]
HABITS = Habits(
    emphasis="as-marked",
    dashes="em-dash",
    ellipses="ellipsis-character",
    quotes="curly",
    crossbar_in="pronoun-and-initials",
    keep_case=("Mc*", "iI"),
)
LETTERING = Lettering(habits=HABITS, tracking=-0.05)


@given(st.lists(st.sampled_from(ODD), max_size=40).map("".join), st.booleans())
def test_any_characters_are_measured_or_refused(text: str, keep_lines: bool) -> None:  # noqa: FBT001 - drawn
    """Halves of characters, controls, marks, joiners, directions: finite widths, no other error."""
    try:
        words = measure(text, LETTERING, language="en", keep_lines=keep_lines)
    except LetterfitError:
        return
    assert np.isfinite(words.starts).all()
    assert not set(words.text) & set("\x00\x07\x7f\ud800\udfff")


@pytest.mark.parametrize(
    "text",
    [
        "o" + "\u0301" * 100_000,
        "o" * 1_000_000,
        "*" * 1_000_000,
        "*a _b " * 200_000,
        "\ud800" * 100_000,
        "\x00" * 1_000_000,
        "\n" * 1_000_000,
    ],
    ids=lambda text: f"{text[:2]!r}",
)
def test_what_no_balloon_can_hold_is_refused_at_once(text: str) -> None:
    """By its length, before it is looked at, with advice."""
    with pytest.raises(OutlineError, match="split it into balloons"):
        fit_balloon(text)


@pytest.mark.parametrize("mark", ["\u0301", "*", "_*", "\u200d", "\ufe0f", "\u202e", "'", '"', "I"])
def test_the_longest_text_of_one_mark_is_measured(mark: str) -> None:
    """A text at the limit that has nothing but one mark behind its only letter."""
    words = measure("o" + mark * ((LONGEST_TEXT - 1) // len(mark)), LETTERING)
    assert len(words) >= 1


@pytest.mark.parametrize("text", ["", " \n\t", "\x00\x07", "\u00a0", "\u200b\u2060", "\u202e"])
def test_nothing_to_see_is_no_balloon(text: str) -> None:
    """A text without a visible character is refused in words."""
    with pytest.raises(OutlineError, match="no text"):
        fit_balloon(text)
