"""Stutters: what is one, and what only looks like one."""

import pytest

from letterfit.lettering.breaks.stuttering import stutter_hyphens


@pytest.mark.parametrize(
    "text",
    [
        "N-NO",
        "W-W-WAIT",
        "Th-the",
        "ST-STOP",
        "STR-STRANGE",
        "WH-WE",
        "TH-TH-THE",
        "É-ÉCOUTE",
        "E-ÉCOUTE",
        "I-I-I",
        "N–NO",
        "B--BUT",
        "'N-NO'",
        "W...WAIT",
        "W…WAIT",
        "Ч-ЧТО",
    ],
)
def test_a_stutter_is_found_at_each_of_its_hyphens(text: str) -> None:
    """One to three letters that begin the word again."""
    hyphens = sum(text[k] in "-–.…" and text[k + 1].isalpha() for k in range(len(text) - 1))
    assert len(list(stutter_hyphens(text))) == hyphens > 0


@pytest.mark.parametrize(
    "text",
    ["HA-HA-HA", "NO-NO", "BYE-BYE", "NO...NOT ME", "I...I", "X-RAY", "WELL-WATER", "DON'T-TELL",
     "NON-NATIVE", "A-", "-A", "3-3", "N- NO"],
)  # fmt: skip
def test_what_is_no_stutter_is_left_alone(text: str) -> None:
    """A syllable said again, a speaker who halts, a compound."""
    assert list(stutter_hyphens(text)) == []


def test_accents_without_end_hide_no_letter_for_long() -> None:
    """However many accents stand on a letter, the look back is short."""
    assert list(stutter_hyphens("N" + "\u0301" * 4 + "-NO")) == [6]
    assert list(stutter_hyphens("N" + "\u0301" * 1000 + "-NO")) == []
