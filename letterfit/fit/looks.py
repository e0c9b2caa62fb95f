"""The costs of looks: what a letterer holds against a stack, each one a ratio without units.

Everything that says which of two stacks is the better looking lives here (common practice, no
source). The cost of a stack is

    sum of lone_word or short_line, step and break_price over its lines
    + mean of unevenness over its lines
    + peak_place + aspect_departure.

The weights rank the terms: a lone word outweighs anything else; a step in the wrong direction
weighs somewhat more than a line that ends on "THE"; either outweighs uneven air and a slightly
unusual aspect.
"""

import math
from unicodedata import east_asian_width

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats

LONE_WORD = 100.0
"""More than all other costs of a stack together: a lone short word is taken only if it must be."""

SHORT_LINE = 50.0
"""A lone short word between longer lines is taken only if it must be, too, if nothing is worse."""

LOST = SHORT_LINE
"""Costs from which a word of the stack is lost."""

LONE_SLACK = 3.0
"""How many times the slack a balloon may take to be rid of a lone short word."""

SHORT_WORD = 3
"""Letters up to which a word alone on the first or last line looks lost."""

LONG_WORD = 7
"""Letters from which on a word can stand alone on the first or last line."""

THIN_WORD = 0.25
"""What a lone word just over SHORT_WORD letters costs; longer ones cost less."""

STEP = 3.0
"""What a wrong step as long as the outline is wide costs."""

LEAST_STEP = 0.1
"""The least wrong step counts as this share of the outline's width more than it is: it is seen."""

EQUAL = 1e-9
"""Lines that differ by this share of the outline's width are equally long."""

PRICE = 0.6
UNEVENNESS = 2.0
PEAK = 0.5
SECOND = 0.2
ASPECT = 5.0

COMFORTABLE: dict[str, tuple[float, float]] = {"caption": (1.8, 6.0)}
BALLOON = (1.3, 2.0)
"""Aspects that please: wider than tall; captions wider still."""


def letters(text: str) -> int:
    """The letters and digits of a text; a kanji or kana, as wide as two letters, counts for two.

    Source of the widths: UAX #11, East Asian Width, W and F.

    >>> letters("GATE 9!"), letters("待て！")
    (5, 4)
    """
    if text.isascii():
        return sum(map(str.isalnum, text))
    return sum(1 + (east_asian_width(char) in "WF") for char in text if char.isalnum())


def lone_word(letters: npt.ArrayLike, words: npt.ArrayLike) -> Floats:
    """The cost of a first or last line that is one word: lost if short, thin if not long.

    Args:
        letters: Letters and digits on the line.
        words: Words on the line.

    >>> lone_word([2, 5, 9, 3], [1, 1, 1, 2]).tolist()
    [100.0, 0.125, 0.0, 0.0]
    """
    count = np.asarray(letters)
    thin = THIN_WORD * np.maximum(LONG_WORD - count, 0) / (LONG_WORD - SHORT_WORD)
    cost = np.where(count <= SHORT_WORD, LONE_WORD, thin)
    return np.where(np.asarray(words) <= 1, cost, 0.0)


def short_line(letters: npt.ArrayLike, words: npt.ArrayLike) -> Floats:
    """The cost of a line between others that is one short word.

    Args:
        letters: Letters and digits on the line.
        words: Words on the line.

    >>> short_line([3, 5, 3], [1, 1, 2]).tolist()
    [50.0, 0.0, 0.0]
    """
    lone = (np.asarray(letters) <= SHORT_WORD) & (np.asarray(words) <= 1)
    return np.where(lone, SHORT_LINE, 0.0)


def step(excess: npt.ArrayLike) -> Floats:
    """The cost of two neighbouring lines in the wrong order for a stack that rises, then falls.

    Args:
        excess: By how much the line that should be the shorter is the longer, over the outline's
            width; 0 or less when the order is right.

    >>> step([-0.1, 0.0, 0.08]).tolist()
    [0.0, 0.0, 0.54]
    """
    over = np.asarray(excess, dtype=np.float64)
    result: Floats = np.where(over > EQUAL, STEP * (over + LEAST_STEP), 0.0)
    return result


def break_price(price: npt.ArrayLike) -> Floats:
    """The cost of a line's end where the text does not like to be broken.

    Args:
        price: The text's own price of the break: 0 costs nothing, 1 is hardly ever right.

    >>> break_price([0.0, 0.5]).tolist()
    [0.0, 0.3]
    """
    result: Floats = PRICE * np.asarray(price, dtype=np.float64)
    return result


def peak_place(line: npt.ArrayLike, count: npt.ArrayLike) -> Floats:
    """The cost of the longest line standing outside the middle third of the stack.

    In a stack of two the first line should be the longest.

    Args:
        line: The longest line's number from the top, from 0.
        count: Lines of the stack.

    >>> peak_place([0, 1, 0, 1, 2], [2, 2, 3, 3, 5]).round(3).tolist()
    [0.0, 0.2, 0.083, 0.0, 0.0]
    """
    lines = np.asarray(count, dtype=np.float64)
    place = (np.asarray(line) + 0.5) / lines
    off = np.maximum(np.abs(place - 0.5) - 1 / 6, 0.0)
    of_two = np.where(place < 0.5, 0.0, SECOND)
    result: Floats = np.where(lines == 2, of_two, PEAK * off)
    return result


def unevenness(gap: npt.ArrayLike) -> Floats:
    """The cost of a line that leaves room: the square of its gap over the outline's half-width.

    Args:
        gap: Room between the line and the outline's air on one side, over the half-width.

    >>> unevenness([0.0, 0.1]).round(3).tolist()
    [0.0, 0.02]
    """
    room = np.maximum(np.asarray(gap, dtype=np.float64), 0.0)
    result: Floats = UNEVENNESS * room**2
    return result


def aspect_departure(aspect: npt.ArrayLike, name: str) -> Floats:
    """The cost of an aspect outside the comfortable range: its logarithm's distance, squared.

    Args:
        aspect: Width over height.
        name: The family of outlines.

    >>> aspect_departure([1.0, 1.5, 2.6], "ellipse").round(3).tolist()
    [0.344, 0.0, 0.344]
    """
    low, high = COMFORTABLE.get(name, BALLOON)
    log = np.log(np.asarray(aspect, dtype=np.float64))
    off = np.maximum(np.maximum(math.log(low) - log, log - math.log(high)), 0.0)
    result: Floats = ASPECT * off**2
    return result


# --- the same for one line or one outline, in plain floats: sooner where there are few


def step_of(excess: float) -> float:
    """`step` of one pair of lines.

    >>> step_of(-0.1), step_of(0.08)
    (0.0, 0.54)
    """
    return STEP * (excess + LEAST_STEP) if excess > EQUAL else 0.0


def peak_place_of(line: int, count: int) -> float:
    """`peak_place` of one stack.

    >>> peak_place_of(1, 2), peak_place_of(1, 3), round(peak_place_of(2, 3), 3)
    (0.2, 0.0, 0.083)
    """
    if count == 2:
        return SECOND * line
    return PEAK * max(abs((line + 0.5) / count - 0.5) - 1 / 6, 0.0)


def unevenness_of(gap: float) -> float:
    """`unevenness` of one line.

    >>> unevenness_of(-0.1), round(unevenness_of(0.1), 3)
    (0.0, 0.02)
    """
    return UNEVENNESS * max(gap, 0.0) ** 2


def lone_word_of(letters: int, words: int) -> float:
    """`lone_word` of one line.

    >>> lone_word_of(2, 1), lone_word_of(5, 1), lone_word_of(9, 1), lone_word_of(3, 2)
    (100.0, 0.125, 0.0, 0.0)
    """
    if words > 1:
        return 0.0
    if letters <= SHORT_WORD:
        return LONE_WORD
    return THIN_WORD * max(LONG_WORD - letters, 0) / (LONG_WORD - SHORT_WORD)


def short_line_of(letters: int, words: int) -> float:
    """`short_line` of one line.

    >>> short_line_of(3, 1), short_line_of(5, 1), short_line_of(3, 2)
    (50.0, 0.0, 0.0)
    """
    return SHORT_LINE if letters <= SHORT_WORD and words <= 1 else 0.0


def departure_of(aspect: float, name: str) -> float:
    """`aspect_departure` of one outline.

    >>> departure_of(1.5, "ellipse"), round(departure_of(2.6, "ellipse"), 3)
    (0.0, 0.344)
    """
    low, high = COMFORTABLE.get(name, BALLOON)
    return ASPECT * max(math.log(low / aspect), math.log(aspect / high), 0.0) ** 2
