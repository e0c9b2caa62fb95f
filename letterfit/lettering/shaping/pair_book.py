"""A book of pairs: how far apart two letters stand in a face that looks no farther.

In a pairwise face (`plainness`) the place of a letter depends on the letter before it and nothing
else, so the advances of a text are those of its pairs, and a line is as wide as its pairs and its
last letter alone, wherever it is cut. HarfBuzz is asked once for each pair. What is not so simple
(another script, a ligature, a character from another face) is left to the long way; a test holds
that both give the same.

A book numbers its letters in one byte, so that a text is an array: ASCII letters have their own
numbers, others get theirs when they first come.
"""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt
import uharfbuzz as hb

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.plainness import is_pairwise
from letterfit.lettering.shaping.runs import LATIN_END
from letterfit.lettering.style.crossbar import crossbar_feature
from letterfit.lettering.words import Ints
from letterfit.outline import Floats

Codes = npt.NDArray[np.unsignedinteger[Any]]

ALONE = "\0"
"""Stands in a book for the end of a line; in no text."""

BARRED = "\x01"
"""Stands in a book for an I with crossbars; in no text."""

SPACE = ord(" ")

NO_LETTER = "\ufffd"
"""Has no number."""

LETTERS = 256
"""Letters of a book; a text with more wants the long way."""

TYPOGRAPHIC = "‘’‚“”„‹›–—…"
"""Marks of Latin text from elsewhere in Unicode."""

MIDDLE_DOT = "·"
"""Catalan fonts move it between two l's: it looks at both."""

UNASKED, LONG_WAY = math.nan, math.inf
"""What stands in a book for a pair nobody asked for yet, and for one that wants the long way: each
makes every sum that it is in its own."""


class Pens(NamedTuple):
    """Where the letters of a text stand, in font units.

    Args:
        before: Shape (n + 1,): the pen before each letter and after the last.
        pairs: The pairs of the book.
        codes: Shape (n + 1,): the number of each letter, and of the end.
    """

    before: Floats
    pairs: Floats
    codes: Codes

    def spans(self, starts: Ints, ends: Ints) -> tuple[Floats, Floats]:
        """Where stretches of letters start and where lines that end with them end."""
        last = ends - 1
        alone = self.pairs.take(self.codes.take(last))  # ALONE is number 0
        alone += self.before.take(last)
        return self.before.take(starts), alone


class PairBook:
    """The advance of a letter before another one, or at the end of a line, in font units.

    Args:
        face: A pairwise face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """

    def __init__(self, face: Face, language: str, crossbar: str) -> None:
        self.face, self.language, self.crossbar = face, language, crossbar
        self.engine = engine(face)
        self._feature = crossbar_feature(face.family, own=face.family, crossbar=crossbar)
        self._numbers = Numbers()
        self._pairs = np.full(LETTERS * LETTERS, UNASKED)

    def __reduce__(self) -> tuple[Callable[..., "PairBook | None"], tuple[Face, str, str]]:
        """Another process has a book of its own."""
        return pair_book, (self.face, self.language, self.crossbar)

    def advance(self, letter: str, following: str = ALONE) -> float:
        """The advance of a letter before another one; infinite where a pair wants the long way."""
        pens = self.pens(letter + following) if following != ALONE else self.pens(letter)
        return math.inf if pens is None else float(pens.before[1])

    def pens(self, text: str, crossbars: Sequence[int] = ()) -> Pens | None:
        """Where the letters of a text stand; None where it wants the long way.

        Args:
            text: One letter or more.
            crossbars: Where its I's with crossbars stand.
        """
        if not text.isascii():
            text = text.translate(self._numbers)
        try:
            letters = (text + ALONE).encode("latin-1")
        except UnicodeEncodeError:
            return None
        if crossbars:
            letters = _barred(letters, crossbars)
        count = len(letters) - 1
        # Every two neighbouring bytes as one number, the first letter in its lower half.
        pairs: Codes = np.ndarray((count,), "<u2", letters, 0, (1,))
        before = np.empty(count + 1)
        before[0] = 0.0
        inner = before[1:]
        np.add.accumulate(self._pairs.take(pairs), out=inner)
        if not before[count] < LONG_WAY:
            self._ask(pairs)
            np.add.accumulate(self._pairs.take(pairs), out=inner)
            if not before[count] < LONG_WAY:
                return None
        return Pens(before, self._pairs, np.frombuffer(letters, np.uint8))

    def _ask(self, pairs: Codes) -> None:
        """Ask for the pairs nobody asked for yet, and for their letters at the end of a line."""
        table = self._pairs
        for pair in np.unique(pairs[np.isnan(table[pairs])]).tolist():
            letter = self._numbers.letter(pair & 0xFF)
            table[pair] = self._asked(letter, self._numbers.letter(pair >> 8))
            table[pair & 0xFF] = self._asked(letter, ALONE)

    def _asked(self, letter: str, following: str) -> float:
        if not (self._is_simple(letter) and (following == ALONE or self._is_simple(following))):
            return LONG_WAY
        text = (letter + following).replace(ALONE, "").replace(BARRED, "I")
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.direction, buffer.script, buffer.language = "ltr", "Latn", self.language
        barred = [(k, k + 1, 1) for k, own in enumerate((letter, following)) if own == BARRED]
        self.engine.shape(buffer, {self._feature: barred} if self._feature and barred else None)
        if [info.cluster for info in buffer.glyph_infos] != list(range(len(text))):
            return LONG_WAY  # a ligature, or a letter made of several glyphs
        return float(buffer.glyph_positions[0].x_advance)

    def _is_simple(self, letter: str) -> bool:
        if letter == BARRED:
            return True
        known = self.engine
        is_latin = letter < LATIN_END and letter.isprintable() and letter != MIDDLE_DOT
        is_plain = is_latin or letter in TYPOGRAPHIC
        return is_plain and letter in known.chars and letter not in known.spelling


def _barred(letters: bytes, crossbars: Sequence[int]) -> bytes:
    """The letters with some I's as BARRED."""
    changed = bytearray(letters)
    for at in crossbars:
        changed[at] = ord(BARRED)
    return bytes(changed)


class Numbers(dict[int, str]):
    """The numbers of letters, as characters, by their code points: ASCII letters have their own.

    A letter that gets no number, because there are too many, keeps none that another has.
    """

    def __init__(self) -> None:
        super().__init__({code: chr(code) for code in range(128)})

    def __missing__(self, letter: int) -> str:
        if len(self) == LETTERS:
            return NO_LETTER
        self[letter] = chr(len(self))
        return self[letter]

    def letter(self, number: int) -> str:
        """The letter of a number."""
        return chr(list(self)[number])


@lru_cache(maxsize=32)
def pair_book(face: Face, language: str, crossbar: str) -> PairBook | None:
    """The book of a face; None for a face that is not known to be pairwise.

    Args:
        face: The face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """
    return PairBook(face, language, crossbar) if is_pairwise(face) else None
