"""As many words from the front of a text as an outline holds."""

from letterfit.fit.most_words import most_words
from letterfit.outline import CaptionBox, Ellipse
from tests.words import box_words


def test_a_box_of_two_lines_holds_two_lines() -> None:
    """Width for two words, height for two lines: four words of seven."""
    words = box_words([5.0] * 7, space=1.0, leading=3.0, cap_height=2.0)
    box = CaptionBox(half_width=6.5, half_height=3.5)
    assert most_words(words, box, air=1.0) == (0, 2, 4)


def test_half_a_word_is_never_set() -> None:
    """A word of two pieces is set whole or not at all."""
    words = box_words([5.0, 5.0, 3.0], joiners=[" ", "", ""])
    box = CaptionBox(half_width=7.0, half_height=2.5)
    assert most_words(words, box, air=1.0) == (0, 1)


def test_nothing_fits_is_said() -> None:
    """An outline smaller than the first word holds no line."""
    words = box_words([5.0, 5.0])
    assert most_words(words, Ellipse(half_width=2, half_height=2), air=1.0) == (0,)


def test_a_forced_end_is_kept() -> None:
    """A line ends where the text says so though more would fit."""
    words = box_words([2.0, 2.0, 2.0], forced=[0])
    box = CaptionBox(half_width=9.0, half_height=3.5)
    assert most_words(words, box, air=1.0) == (0, 1, 3)
