"""How characters stand in vertical text: upright, turned, or side by side in one cell."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.lettering.vertical.stances import Stance, stances

TOGETHER, TURNED, UPRIGHT, STROKE = "together", "turned", "upright", "stroke"


def told(text: str, *, digits: int = 2) -> list[tuple[str, Stance]]:
    """The stretches of a text with how they stand."""
    return [(text[start:end], stance) for start, end, stance in stances(text, digits=digits)]


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("9番水門、潮位12。", ["9", "12"]),
        ("１２番、３番", ["１２"]),
        ("1日24時間", ["1", "24"]),
        ("何!?", ["!?"]),
        ("何！？", ["！？"]),
        ("待て!!!", ["!!!"]),
        ("え?", ["?"]),
        ("え？", []),
        ("待て!!!!", ["!", "!", "!", "!"]),
        ("待て！！！！", []),
        ("潮位30%", ["30", "%"]),
        ("Aさん", ["A"]),
        ("É班", ["É"]),
        ("A!!", ["A", "!!"]),
        ("何!! Aさん", ["!!", "A"]),
        ("E\u0301班", ["E\u0301"]),
    ],
)
def test_short_numbers_and_marks_stand_in_one_cell(text: str, cells: list[str]) -> None:
    """Numbers of two digits: JLREQ, 2.3.2 (from memory); marks: common practice, no source."""
    assert [part for part, stance in told(text) if stance == TOGETHER] == cells


@pytest.mark.parametrize(
    ("text", "turned"),
    [
        ("2026年", ["2026"]),
        ("3.5メートル", ["3.5"]),
        ("10:30に", ["10:30"]),
        ("LOCK 9を見ろ", ["LOCK 9"]),
        ("GATE12!?だ", ["GATE12!?"]),
        ("「OK!」", ["OK!"]),
        ("水位は100%", ["100%"]),
    ],
)
def test_longer_numbers_and_words_of_latin_are_turned(text: str, turned: list[str]) -> None:
    """Nothing is set in a cell inside a longer number or a Latin word, spaces included."""
    assert [part for part, stance in told(text) if stance == TURNED] == turned
    assert TOGETHER not in [stance for _, stance in told(text)]


def test_three_digits_share_a_cell_only_when_asked() -> None:
    """CSS Writing Modes Level 4, `text-combine-upright: digits 3` (from memory)."""
    assert told("潮位120") == [("潮位", UPRIGHT), ("120", TURNED)]
    assert told("潮位120", digits=3) == [("潮位", UPRIGHT), ("120", TOGETHER)]


def test_dots_and_dashes_are_strokes_outside_latin_words() -> None:
    """Dots and dashes run down the column; inside Latin words they belong to the word."""
    assert told("……待て――") == [("……", STROKE), ("待て", UPRIGHT), ("――", STROKE)]
    assert told("WELL…NO…") == [("WELL…NO", TURNED), ("…", STROKE)]


def test_marks_that_combine_stand_as_their_base_does() -> None:
    """UAX #50, 3.2 (from memory): a grapheme cluster stands as its base character."""
    assert told("か\u3099ne\u0301!") == [("か\u3099", UPRIGHT), ("ne\u0301!", TURNED)]
    assert told("👩\u200d🚒だ") == [("👩\u200d🚒だ", UPRIGHT)]


@given(st.text(st.sampled_from("あ、「」ー…—A b1290１２!?！？.:%\u0301\u3099\u200d"), max_size=24))
def test_stretches_follow_each_other_without_gaps(text: str) -> None:
    """No character is lost and none is in two stretches; a cell holds at most three."""
    found = stances(text)
    assert "".join(text[start:end] for start, end, _ in found) == text
    assert all(start < end for start, end, _ in found)
    assert all(
        sum(char not in "\u0301\u3099\u200d" for char in text[a:b]) <= 3
        for a, b, stance in found
        if stance == TOGETHER
    )
