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

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.latin_text import latin_buffer
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
        book: The book.
        codes: Shape (n + 1,): the number of each letter, and of the end.
    """

    before: Floats
    book: "PairBook"
    codes: Codes

    def spans(self, starts: Ints, ends: Ints) -> tuple[Floats, Floats]:
        """Where stretches of letters start and where lines that end with them end."""
        last = ends - 1
        alone = self.book.pairs.take(self.codes.take(last))  # ALONE is number 0
        alone += self.before.take(last)
        return self.before.take(starts), alone


class PairBook:
    """The advance of a letter before another one, or at the end of a line, in font units.

    Args:
        face: A pairwise face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.

    Attributes:
        pairs: Shape (LETTERS * LETTERS,): the advances; of letter a before letter b at a + 256 b.
        ids: Shape (LETTERS,): the glyph of each letter that was asked for.
        inks: Shape (LETTERS, 4), em: its ink box from its pen, y downwards.
        inked: Shape (LETTERS,): whether it has ink.
    """

    def __init__(self, face: Face, language: str, crossbar: str) -> None:
        self.face, self.language, self.crossbar = face, language, crossbar
        self.engine = engine(face)
        self._feature = crossbar_feature(face.family, own=face.family, crossbar=crossbar)
        self._numbers = Numbers()
        self.pairs = np.full(LETTERS * LETTERS, UNASKED)
        self.ids = np.zeros(LETTERS, dtype=np.int64)
        self.inks = np.full((LETTERS, 4), math.nan)
        self.inked = np.zeros(LETTERS, dtype=np.bool_)

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
        np.add.accumulate(self.pairs.take(pairs), out=inner)
        if not before[count] < LONG_WAY:
            self._ask(pairs)
            np.add.accumulate(self.pairs.take(pairs), out=inner)
            if not before[count] < LONG_WAY:
                return None
        return Pens(before, self, np.frombuffer(letters, np.uint8))

    def _ask(self, pairs: Codes) -> None:
        """Ask for the pairs nobody asked for yet, first for their letters at the end of a line."""
        asked = sorted(set(pairs[np.isnan(self.pairs[pairs])].tolist()))
        for number in sorted({part for pair in asked for part in (pair & 0xFF, pair >> 8) if part}):
            if math.isnan(self.pairs[number]):
                self._ask_alone(number)
        for pair in asked:
            first, second = pair & 0xFF, pair >> 8
            if second:
                self.pairs[pair] = self._advance(first, second)

    def _ask_alone(self, number: int) -> None:
        self.pairs[number] = LONG_WAY
        letter = self._numbers.letter(number)
        if not self._is_simple(letter):
            return
        (glyph, *more) = self._shaped(letter)
        if not more:
            self.ids[number], self.pairs[number] = glyph.glyph, glyph.advance
            self.inks[number] = self.engine.inks(self.ids[number : number + 1])[0]
            self.inked[number] = not math.isnan(self.inks[number, 0])

    def _advance(self, first: int, second: int) -> float:
        """The advance of a letter before another, if both are the glyphs that they are alone."""
        if math.isinf(self.pairs[first]) or math.isinf(self.pairs[second]):
            return LONG_WAY
        text = self._numbers.letter(first) + self._numbers.letter(second)
        glyphs = self._shaped(text)
        if [glyph.glyph for glyph in glyphs] != self.ids[[first, second]].tolist():
            return LONG_WAY  # a ligature, or a letter made of several glyphs
        if not all(glyph.is_on_its_pen for glyph in glyphs):
            return LONG_WAY
        return glyphs[0].advance

    def _shaped(self, letters: str) -> list["_Shaped"]:
        """Letters as HarfBuzz sets them."""
        buffer = latin_buffer(letters.replace(BARRED, "I"), language=self.language)
        barred = [(k, k + 1, 1) for k, letter in enumerate(letters) if letter == BARRED]
        self.engine.shape(buffer, {self._feature: barred} if self._feature and barred else None)
        glyphs = zip(buffer.glyph_infos, buffer.glyph_positions, strict=True)
        return [
            _Shaped(
                info.codepoint,
                float(place.x_advance),
                is_on_its_pen=not (place.x_offset or place.y_offset),
            )
            for info, place in glyphs
        ]

    def _is_simple(self, letter: str) -> bool:
        if letter == BARRED:
            return True
        known = self.engine
        is_latin = letter < LATIN_END and letter.isprintable() and letter != MIDDLE_DOT
        is_plain = is_latin or letter in TYPOGRAPHIC
        return is_plain and letter in known.chars and letter not in known.spelling


class _Shaped(NamedTuple):
    """One glyph: its number, its advance, and whether it stands where its pen does."""

    glyph: int
    advance: float
    is_on_its_pen: bool


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
