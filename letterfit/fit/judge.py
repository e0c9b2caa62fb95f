"""What the looks of one stack in its outline cost: every term of `letterfit.fit.looks`, summed."""

import math
from itertools import accumulate, pairwise

import numpy as np

from letterfit.fit import looks
from letterfit.fit.ink import Stack, begins_together
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

_TURN: Floats = np.linspace(0, np.pi / 2, 33)[:-1]
_ACROSS: Floats = np.cos(_TURN)
_RISE: Floats = np.tan(_TURN)
"""A chord's half-length is the least over these directions: long by under 0.2 % of it."""


def looks_cost(words: Words, stack: Stack, outline: Outline, *, air: float) -> float:
    """The cost of looks of a stack, a ratio; 0 when a letterer would have nothing to object.

    Args:
        words: The measured text.
        stack: First piece of every line, and the number of pieces.
        outline: The outline round it.
        air: The air that the outline keeps, mm.
    """
    departure = looks.departure_of(outline.aspect, outline.kind)
    if begins_together(words):
        return flush_cost(words, stack) + departure
    half = _half_widths(words, stack)
    chords = _half_chords(words, outline, count=len(half), air=air)
    width = outline.half_width
    gaps = [(chord - line) / width for chord, line in zip(chords, half, strict=True)]
    total = sum(map(looks.unevenness_of, gaps)) / len(half)
    total += _prices(words, stack)
    total += _lone_words(words, stack)
    total += _shape([line / width for line in half])
    return total + departure


def flush_cost(words: Words, stack: Stack) -> float:
    """The cost of looks of lines that begin together, their outline's aspect apart."""
    ragged = looks.unevenness(rag(np.array(_half_widths(words, stack)))).mean()
    return float(ragged) + _prices(words, stack) + _lone_words(words, stack)


def _prices(words: Words, stack: Stack) -> float:
    """The prices of a stack's breaks."""
    prices = words.cut.prices
    return looks.PRICE * sum(prices[end - 1] for end in stack[1:])


def _lone_words(words: Words, stack: Stack) -> float:
    """What lost words cost: on a stack's first and last line, and between them."""
    begun, last = words.cut.counts, len(stack) - 2
    cost = 0.0
    for line, (first, end) in enumerate(pairwise(stack) if last else ()):
        if any(begun[first + 1 : end]):
            continue
        term = looks.lone_word_of if line in (0, last) else looks.short_line_of
        cost += term(*words_on(words, first, end))
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


def _half_widths(words: Words, stack: Stack) -> list[float]:
    """Half the advances of the lines."""
    return [words.width(first, end - 1) / 2 for first, end in pairwise(stack)]


def _half_chords(words: Words, outline: Outline, *, count: int, air: float) -> list[float]:
    """Half the room between airs at each line's outer edge, for a line of capitals, in mm."""
    upper = range(count - 1, -1, -2)
    edges = [place * words.leading_mm / 2 + words.cap_height_mm / 2 for place in upper]
    clear = (outline.support(_TURN) - air) / _ACROSS
    half: list[float] = (clear - np.multiply.outer(edges, _RISE)).min(axis=1).tolist()
    return half + half[count // 2 - 1 :: -1] if count > 1 else half


def _shape(half: list[float]) -> float:
    """The cost of not rising to one longest line and falling after it, for the best such line."""
    rises = [looks.step_of(line - under) for line, under in pairwise(half)]
    falls = [looks.step_of(under - line) for line, under in pairwise(half)]
    upper = accumulate(rises, initial=0.0)
    lower = list(accumulate(falls[::-1], initial=0.0))[::-1]
    peaks = [looks.peak_place_of(line, len(half)) for line in range(len(half))]
    return min(map(math.fsum, zip(upper, lower, peaks, strict=True)))
