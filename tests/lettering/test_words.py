"""Measured words: candidate lines, their advances and their support functions."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Glyph, ResetLine, Words
from tests.lettering.oracle import DIALOGUE
from tests.words import box_line, box_words

WIDTHS = st.lists(st.floats(0.5, 20), min_size=1, max_size=7)


@given(widths=WIDTHS, space=st.floats(0, 3), rtl=st.booleans(), data=st.data())
@settings(max_examples=40)
def test_advances_are_those_of_the_lines_set(
    widths: list[float], space: float, data: st.DataObject, *, rtl: bool
) -> None:
    """For every candidate line the advance is the line's own; no line runs over a forced break."""
    forced = data.draw(st.lists(st.integers(0, len(widths) - 1), max_size=2))
    words = box_words(widths, space=space, overhang=0.3, forced=forced, rtl=rtl)
    _check_advances(words)


@pytest.mark.parametrize("text", [DIALOGUE[5], DIALOGUE[6], DIALOGUE[8]])
def test_advances_of_real_lettering_are_those_of_the_lines_set(text: str) -> None:
    """The same with a real face, with emphasis and lines set anew."""
    _check_advances(measure(text.replace("MY", "*my*"), Lettering(typeface="Balsamiq Sans")))


def _check_advances(words: Words) -> None:
    count = len(words)
    advances = words.advances(count)
    for i in range(count):
        for r in range(count):
            if i + r >= count or words.forced[i : i + r].any():
                assert advances[i, r] == math.inf
            else:
                assert advances[i, r] == pytest.approx(_width_set(words, i, i + r))


def _width_set(words: Words, first: int, last: int) -> float:
    """The width of a line by the setter, which does not ask `Words.width`."""
    anew = words.reshaped.get((first, last))
    if isinstance(anew, ResetLine):
        return anew.setter.set_lines([anew.stretch])[0].width_mm
    if anew is not None:
        return anew.width_mm
    stretch = (words.stretches[first][0], words.stretches[last][1])
    return words.setter.set_lines([stretch])[0].width_mm


def test_a_reshaped_line_replaces_the_slice() -> None:
    """Advance and line are those of the line set anew."""
    other = box_line("XY", 7.5, height=9)
    words = box_words([3, 4], reshaped={(0, 1): other})
    assert words.line(0, 1) is other
    assert words.advances(2)[0].tolist() == [3, 7.5]


def test_the_width_alone_is_that_of_the_line_set() -> None:
    """Every line's width, reshaped or sliced, is the advance of the line as set."""
    words = measure("Hold. The gate--hold the gate!", Lettering())
    count = len(words)
    for first in range(count):
        for last in range(first, count):
            assert words.width(first, last) == words.line(first, last).width_mm
            assert words.width(first, last) == pytest.approx(_width_set(words, first, last))


def test_pieces_of_right_to_left_text_stand_from_right_to_left() -> None:
    """The first piece is rightmost, and gaps stay where they were."""
    words = box_words([3, 5, 2], space=1, rtl=True)
    assert words.line(0, 2).ink[:, [0, 2]].tolist() == [[9, 12], [3, 8], [0, 2]]
    assert words.line(1, 2).ink[:, [0, 2]].tolist() == [[3, 8], [0, 2]]


def test_glyphs_move_and_scale() -> None:
    """A glyph's place scales with its size."""
    glyph = Glyph("Box Regular", 7, 1.5, -0.5, 3.0)
    assert glyph.moved(2) == Glyph("Box Regular", 7, 3.5, -0.5, 3.0)
    assert glyph.scaled(2) == Glyph("Box Regular", 7, 3.0, -1.0, 6.0)


def test_scaled_words_scale_their_reshaped_lines() -> None:
    """Nothing is left at the old size."""
    words = box_words([3, 4], reshaped={(0, 1): box_line("XY", 7.5)}).scaled(2)
    assert words.line(0, 1).width_mm == 15
    assert words.advances(1).tolist() == [[6], [8]]
    assert (words.leading_mm, words.cap_height_mm, words.size_pt) == (6, 4, 20)
