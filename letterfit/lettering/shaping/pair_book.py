"""A book of pairs: how far apart two letters stand in a face that looks no farther.

In a pairwise face (`plainness`) the place of a letter depends on the letter before it and nothing
else, so the advances of a text are those of its pairs, and a line is as wide as its pairs and its
last letter alone, wherever it is cut. HarfBuzz is asked once for each pair. What is not so simple
(another script, a ligature, a character from another face) is left to the long way; a test holds
that both give the same.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import accumulate, pairwise
from typing import NamedTuple

import numpy as np
import uharfbuzz as hb

from letterfit.lettering.breaks.pieces import Pieces, Stretch
from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.plainness import is_pairwise
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.runs import LATIN_END, Run
from letterfit.lettering.shaping.shaping import Shaped, Source, shape
from letterfit.lettering.style.crossbar import crossbar_feature
from letterfit.lettering.words import Ints, SetLine
from letterfit.outline import Floats

BARRED = "\0"
"""Stands in a book for an I with crossbars; in no text."""

ALONE = ""
"""Stands in a book for the end of a line."""

TYPOGRAPHIC = "‘’‚“”„‹›–—…"
"""Marks of Latin text from elsewhere in Unicode."""

MIDDLE_DOT = "·"
"""Catalan fonts move it between two l's: it looks at both."""

LONG_WAY = math.nan
"""The advance before a pair that wants the long way: it makes every sum that it is in its own."""


class PairBook(dict[tuple[str, str], float]):
    """The advance of a letter before another one, or at the end of a line, in font units.

    Args:
        face: A pairwise face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """

    __slots__ = ("_feature", "crossbar", "engine", "face", "language")

    def __init__(self, face: Face, language: str, crossbar: str) -> None:
        super().__init__()
        self.face, self.language, self.crossbar = face, language, crossbar
        self.engine = engine(face)
        self._feature = crossbar_feature(face.family, own=face.family, crossbar=crossbar)

    def __reduce__(self) -> tuple[Callable[..., "PairBook | None"], tuple[Face, str, str]]:
        """Another process has a book of its own."""
        return pair_book, (self.face, self.language, self.crossbar)

    def __missing__(self, pair: tuple[str, str]) -> float:
        found = self._advance(*pair) if all(map(self._is_simple, pair)) else LONG_WAY
        self[pair] = found
        return found

    def letters(self, text: str, crossbars: Sequence[int]) -> Sequence[str]:
        """A text as the book has it: its I's with crossbars are letters of their own."""
        if not crossbars:
            return text
        letters = list(text)
        for at in crossbars:
            letters[at] = BARRED
        return letters

    def _is_simple(self, letter: str) -> bool:
        if letter in {ALONE, BARRED}:
            return True
        known = self.engine
        is_latin = letter < LATIN_END and letter.isprintable() and letter != MIDDLE_DOT
        is_plain = is_latin or letter in TYPOGRAPHIC
        return is_plain and letter in known.chars and letter not in known.spelling

    def _advance(self, letter: str, following: str) -> float:
        text = (letter + following).replace(BARRED, "I")
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.direction, buffer.script, buffer.language = "ltr", "Latn", self.language
        barred = [(k, k + 1, 1) for k, own in enumerate((letter, following)) if own == BARRED]
        self.engine.shape(buffer, {self._feature: barred} if self._feature and barred else None)
        if [info.cluster for info in buffer.glyph_infos] != list(range(len(text))):
            return LONG_WAY  # a ligature, or a letter made of several glyphs
        return float(buffer.glyph_positions[0].x_advance)


@lru_cache(maxsize=32)
def pair_book(face: Face, language: str, crossbar: str) -> PairBook | None:
    """The book of a face; None for a face that is not known to be pairwise.

    Args:
        face: The face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """
    return PairBook(face, language, crossbar) if is_pairwise(face) else None


@dataclass(frozen=True, eq=False)
class LateText:
    """A text that is shaped when it is first asked for, once for all sizes.

    Args:
        book: The pairs of its face.
        text: The text.
        crossbars: Where its I's with crossbars stand.
    """

    book: PairBook
    text: str
    crossbars: tuple[int, ...]

    @cached_property
    def shaped(self) -> Shaped:
        """The text as shaped."""
        book = self.book
        return shape(
            Source(
                text=self.text,
                runs=(Run(0, len(self.text), book.face, "Latn"),),
                language=book.language,
                family=book.face.family,
                crossbar=book.crossbar,
                crossbars=self.crossbars,
            )
        )


@dataclass(frozen=True, slots=True, eq=False)
class LateSetter:
    """Sets stretches of a text that is shaped when the first of them is asked for.

    Args:
        late: The text.
        em_mm: The type size.
    """

    late: LateText
    em_mm: float

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end."""
        late = self.late
        letters = late.book.letters(late.text, late.crossbars)
        lines = TextSetter(late.shaped, self.em_mm).set_lines(stretches)
        return [
            replace(line, width_mm=self._width(letters[start:end]))
            for line, (start, end) in zip(lines, stretches, strict=True)
        ]

    def _width(self, letters: Sequence[str]) -> float:
        """The advance of a line in mm: its last letter is followed by nothing."""
        book = self.late.book
        inner = sum(map(book.__getitem__, pairwise(letters)))
        return (inner + book[letters[-1], ALONE]) * (self.em_mm / book.engine.upem)

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of all stretches, each from its own left end, and how many each has."""
        return TextSetter(self.late.shaped, self.em_mm).ink(stretches)

    def scaled(self, factor: float) -> "LateSetter":
        """The same at `factor` times the size."""
        return replace(self, em_mm=self.em_mm * factor)


class BookText(NamedTuple):
    """A text measured by a book.

    Args:
        starts: Shape (n,), mm: where each piece starts.
        ends: Shape (n,), mm: where a line ends that ends with it.
        setter: Sets its lines.
    """

    starts: Floats
    ends: Floats
    setter: LateSetter


def book_text(
    pieces: Pieces, book: PairBook, crossbars: tuple[int, ...], *, em_mm: float
) -> BookText | None:
    """A text of one style measured by a book; None where it wants the long way.

    Args:
        pieces: The text cut where its lines may end.
        book: The pairs of its face.
        crossbars: Where its I's with crossbars stand.
        em_mm: The type size.
    """
    text = pieces.text
    if not len(pieces):
        return None
    letters = book.letters(text, crossbars)
    advances = map(book.__getitem__, pairwise(letters))
    pens = list(accumulate(advances, initial=0.0))
    ends = [pens[end - 1] + book[letters[end - 1], ALONE] for end in pieces.ends]
    if math.isnan(pens[-1] + ends[-1]):
        return None
    mm = em_mm / book.engine.upem
    starts = np.array([pens[start] for start in pieces.starts])
    setter = LateSetter(LateText(book, text, crossbars), em_mm)
    return BookText(starts * mm, np.array(ends) * mm, setter)
