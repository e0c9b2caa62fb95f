"""What the looks of one stack in its outline cost: every term of `letterfit.fit.looks`, summed."""

import math
from itertools import accumulate, pairwise

import numpy as np

from letterfit.fit import looks
from letterfit.fit.ink import Stack, begins_together
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

DIRECTIONS = np.linspace(0, np.pi / 2, 33)[:-1]
"""A chord's half-length is the least over these directions: long by under 0.2 % of it."""


def looks_cost(words: Words, stack: Stack, outline: Outline, *, air: float) -> float:
    """The cost of looks of a stack, a ratio; 0 when a letterer would have nothing to object.

    Args:
        words: The measured text.
        stack: First piece of every line, and the number of pieces.
        outline: The outline round it.
        air: The air that the outline keeps, mm.
    """
    if begins_together(words):
        return flush_cost(words, stack) + float(
            looks.aspect_departure(outline.aspect, outline.kind)
        )
    count = len(stack) - 1
    half = _half_widths(words, stack)
    gaps = _half_chords(words, outline, count=count, air=air) - half
    total = looks.unevenness(gaps / outline.half_width).mean()
    total += _prices(words, stack)
    total += _lone_words(words, stack)
    total += _shape(half / outline.half_width)
    return float(total + looks.aspect_departure(outline.aspect, outline.kind))


def flush_cost(words: Words, stack: Stack) -> float:
    """The cost of looks of lines that begin together, their outline's aspect apart."""
    ragged = looks.unevenness(rag(_half_widths(words, stack))).mean()
    return float(ragged) + _prices(words, stack) + _lone_words(words, stack)


def _prices(words: Words, stack: Stack) -> float:
    """The prices of a stack's breaks."""
    return float(looks.break_price(words.penalties[np.array(stack[1:]) - 1]).sum())


def _lone_words(words: Words, stack: Stack) -> float:
    """What lost words cost: on a stack's first and last line, and between them."""
    last = len(stack) - 2
    cost = 0.0
    for line, (first, end) in enumerate(pairwise(stack) if last else ()):
        if words.word_counts[first + 1 : end].any():
            continue
        term = looks.lone_word if line in (0, last) else looks.short_line
        cost += float(term(*words_on(words, first, end)))
    return cost


def rag(half: Floats) -> Floats:
    """How much shorter than the longest line each line is, over its half; the last may be short.

    Args:
        half: Half the advances of lines that begin together.

    >>> rag(np.array([4.0, 3.0, 1.0])).tolist()
    [0.0, 0.125, 0.0]
    """
    result: Floats = (half.max() - half) / (2 * half.max())
    result[-1] = 0.0
    return result


def words_on(words: Words, first: int, end: int) -> tuple[int, int]:
    """The letters and digits, and the words, of the line of pieces first .. end - 1."""
    letters = looks.letters(words.slice_text(first, end - 1))
    return letters, 1 + int(words.word_counts[first + 1 : end].sum())


def _half_widths(words: Words, stack: Stack) -> Floats:
    """Half the advances of the lines."""
    lines = [words.width(first, end - 1) for first, end in pairwise(stack)]
    return np.array(lines) / 2


def _half_chords(words: Words, outline: Outline, *, count: int, air: float) -> Floats:
    """Half the room between airs at each line's outer edge, for a line of capitals, in mm."""
    places = np.abs(2 * np.arange(count) - (count - 1))
    edges = places * words.leading_mm / 2 + words.cap_height_mm / 2
    room = outline.support(DIRECTIONS) - air - edges[:, None] * np.sin(DIRECTIONS)
    result: Floats = (room / np.cos(DIRECTIONS)).min(axis=1)
    return result


def _shape(half: Floats) -> float:
    """The cost of not rising to one longest line and falling after it, for the best such line."""
    growth = np.diff(half)
    rises, falls = looks.step(np.stack([-growth, growth])).tolist()
    upper = accumulate(rises, initial=0.0)
    lower = list(accumulate(falls[::-1], initial=0.0))[::-1]
    return min(map(math.fsum, zip(upper, lower, looks.peak_places(len(half)), strict=True)))
