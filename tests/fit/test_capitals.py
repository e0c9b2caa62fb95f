"""Lines of capitals in one outline, against every breaking of short texts."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import unit_outline
from letterfit.fit.capitals import SPARE, STEP, Capitals
from letterfit.fit.chords import Chords
from letterfit.fit.ink import Stack
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse, Outline
from tests.fit.texts import airs, all_stacks, names, texts
from tests.words import box_words

plain = texts().filter(lambda words: words.forced.sum() == 1)
aspects = st.floats(0.6, 3)
sizes = st.floats(3, 30)


def goes_in(words: Words, stack: Stack, room: list[float]) -> bool:
    """Whether every line of a stack is no longer than its room."""
    count = len(stack) - 1
    return count <= len(room) and all(
        words.width(stack[line], stack[line + 1] - 1) / 2 <= room[abs(2 * line + 1 - count)]
        for line in range(count)
    )


def holds(words: Words, outline: Outline, *, air: float, scale: float) -> bool:
    """Whether any breaking goes in, by enumeration."""
    room = Capitals.of(words, outline, air=air).room(scale)
    return any(goes_in(words, stack, room) for stack in all_stacks(words))


@settings(max_examples=40)
@given(plain, names, airs, aspects, sizes)
def test_a_room_is_no_less_than_the_chord(
    words: Words, name: str, air: float, aspect: float, size: float
) -> None:
    """The least that sixteen directions leave of it, at the capitals' outer edge."""
    outline = unit_outline(name, aspect).scaled(size)
    capitals = Capitals.of(words, outline, air=air)
    chords = Chords(outline, air)
    turn = np.arange(16) * math.pi / 32
    for place, half in enumerate(capitals.room(1.0)):
        edge = place * words.leading_mm / 2 + words.cap_height_mm / 2
        assert half >= chords.band(-edge, 0.0) - 1e-6
        left = (outline.support(turn) - air - edge * np.sin(turn)) / np.cos(turn)
        assert half == pytest.approx(left.min(), abs=1e-9)


@settings(max_examples=40)
@given(plain, names, airs, aspects, sizes)
def test_every_stack_that_goes_in_has_its_breaks_in_the_windows(
    words: Words, name: str, air: float, aspect: float, size: float
) -> None:
    """And where there are windows there is such a stack."""
    outline = unit_outline(name, aspect).scaled(size)
    capitals = Capitals.of(words, outline, air=air)
    room = capitals.room(1.0)
    for count in range(1, len(room) + 1):
        going = [s for s in all_stacks(words) if len(s) == count + 1 and goes_in(words, s, room)]
        windows = capitals.windows(count, room)
        assert (windows is not None) == bool(going)
        for stack in going:
            assert windows is not None
            assert all(place in window for place, window in zip(stack, windows, strict=True))


@settings(max_examples=40)
@given(plain, names, airs, aspects, sizes)
def test_words_keep_together_in_little_more_than_the_least_size(
    words: Words, name: str, air: float, aspect: float, size: float
) -> None:
    """Without what is to spare some stack goes in, at a step less none."""
    outline = unit_outline(name, aspect).scaled(size)
    scale = Capitals.of(words, outline, air=air).together()
    if scale is None:
        assert not holds(words, outline, air=air, scale=1 / SPARE / STEP)
        return
    assert scale <= 1
    assert holds(words, outline, air=air, scale=scale / SPARE)
    assert not holds(words, outline, air=air, scale=scale / SPARE / STEP)


@given(plain, names, airs, st.floats(1, 20))
def test_a_larger_outline_keeps_words_together_at_the_same_size(
    words: Words, name: str, air: float, factor: float
) -> None:
    """The size depends on the text and the form of the outline alone."""
    outline = unit_outline(name, 1.5).scaled(60.0)
    size = Capitals.of(words, outline, air=air).together()
    larger = Capitals.of(words, outline.scaled(factor), air=air).together()
    assert size is not None
    assert larger is not None
    assert larger * factor == pytest.approx(size, rel=1e-9)


def test_one_word_in_a_disc_by_hand() -> None:
    """Two halves of 3 and 4 mm make a radius of 5 mm and the air: between two sizes tried."""
    words = box_words([8.0], cap_height=6.0)
    scale = Capitals.of(words, Ellipse(half_width=50, half_height=50), air=1.0).together()
    assert scale is not None
    assert 6 * 0.997 <= scale * 50 / SPARE <= 6 * STEP


def test_an_outline_without_room_is_too_tight() -> None:
    """No scale up to 1 keeps the words together, and no line has room."""
    words = box_words([9.0])
    capitals = Capitals.of(words, Ellipse(half_width=2, half_height=1), air=1.0)
    assert capitals.together() is None
    assert capitals.most_lines(1.0) < 1
    assert not np.any(np.array(capitals.room(1.0)) > 0)
