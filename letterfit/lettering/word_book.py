"""A book of words: each measured once in a plain face, and whole texts put together from them.

In a plain face the space takes no part in shaping (`plainness`), so a text of one run is exactly
its words side by side. Words come back, so most texts need little shaping. What is not so simple
(another script, a break inside a word, a character from another face) is left to the long way; a
test holds that both give the same.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate
from typing import Literal, NamedTuple

import numpy as np
import uharfbuzz as hb

from letterfit.lettering.crossbar import crossbar_feature
from letterfit.lettering.cutting import TextSetter
from letterfit.lettering.face import Face, engine
from letterfit.lettering.pieces import Pieces, Stretch
from letterfit.lettering.plainness import is_plain
from letterfit.lettering.runs import LATIN_END, Run
from letterfit.lettering.shaping import Shaped, Source, shape
from letterfit.lettering.words import Glyph, Ints, SetLine
from letterfit.outline import Floats

MOST_WORDS = 16_384
"""Words remembered in one face; beyond it all are forgotten."""

LONGEST_WORD = 30
"""Letters: a longer one has its finding, and is no word that comes back."""

BARRED = "\0"
"""What parts a word in a key from the offsets of its I's with crossbars; in no text."""


class BookWord:
    """A word as measured; how it is set is found out when it is asked for, and kept.

    Attributes:
        key: The word, followed by BARRED and the offsets of its I's with crossbars if it has any.
        units: Its advance in font units.
        line: The word at a size of 1 mm; None as long as nobody asked.
    """

    __slots__ = ("key", "line", "units")

    def __init__(self, key: str, units: float) -> None:
        self.key = key
        self.units = units
        self.line: SetLine | None = None


class WordBook:
    """The words of a plain face in one language.

    Args:
        face: The face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """

    __slots__ = ("_feature", "_source", "_words", "engine", "space")

    def __init__(self, face: Face, language: str, crossbar: str) -> None:
        self.engine = engine(face)
        self.space = round(face.advance_em(" ") * self.engine.upem)
        run = Run(0, 0, face, "Latn")
        self._source = Source(
            text="", runs=(run,), language=language, family=face.family, crossbar=crossbar
        )
        self._feature = crossbar_feature(face.family, own=face.family, crossbar=crossbar)
        self._words: dict[str, BookWord | Literal[False]] = {}

    def __reduce__(self) -> tuple[Callable[..., "WordBook | None"], tuple[Face, str, str]]:
        """Another process has a book of its own."""
        source = self._source
        return word_book, (source.runs[0].face, source.language, source.crossbar)

    def look_up(self, keys: Sequence[str]) -> list[BookWord] | None:
        """The words of these keys; None when one of them wants the long way."""
        known = self._words
        words = [known.get(key) for key in keys]
        if None in words:
            if len(known) + len(words) > MOST_WORDS:
                known.clear()
            known.update(self._measured([key for key in dict.fromkeys(keys) if key not in known]))
            words = [known[key] for key in keys]
        found = [word for word in words if word]
        return found if len(found) == len(words) else None

    def lines(self, words: Sequence[BookWord]) -> list[SetLine]:
        """The words as set, each from its own left end, at a size of 1 mm."""
        new = {word.key: word for word in words if word.line is None}
        if new:
            shaped, places = self._shaped(list(new))
            lines = TextSetter(shaped, em_mm=1.0).set_lines(places)
            for word, line in zip(new.values(), lines, strict=True):
                word.line = line
        return [word.line for word in words if word.line is not None]

    def _measured(self, keys: Sequence[str]) -> dict[str, BookWord | Literal[False]]:
        """New words, shaped side by side; False for one that wants the long way."""
        found: dict[str, BookWord | Literal[False]] = dict.fromkeys(keys, False)
        simple = [key for key in keys if self._is_simple(key.partition(BARRED)[0])]
        if simple:
            text, places, crossbars = _side_by_side(simple)
            clusters, pens = self._pens(text, crossbars)
            for key, (start, end) in zip(simple, places, strict=True):
                low, high = bisect_left(clusters, start), bisect_left(clusters, end)
                found[key] = BookWord(key, pens[high] - pens[low])
        return found

    def _pens(self, text: str, crossbars: Sequence[int]) -> tuple[list[int], list[float]]:
        """The offset in a text that each glyph begins at, and the sums of the advances before it.

        It is what `shape` finds, without what is wanted only when words are set.
        """
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.direction, buffer.script, buffer.language = "ltr", "Latn", self._source.language
        barred = {self._feature: [(at, at + 1, 1) for at in crossbars]} if self._feature else None
        self.engine.shape(buffer, barred if crossbars else None)
        advances = [position.x_advance for position in buffer.glyph_positions]
        clusters = [info.cluster for info in buffer.glyph_infos]
        return clusters, list(accumulate(advances, initial=0))

    def _is_simple(self, word: str) -> bool:
        if not 0 < len(word) <= LONGEST_WORD or max(word) >= LATIN_END or not word.isprintable():
            return False
        known = self.engine
        return known.chars.issuperset(word) and known.spelling.keys().isdisjoint(word)

    def _shaped(self, keys: Sequence[str]) -> tuple[Shaped, list[Stretch]]:
        """Words side by side, and where each stands."""
        text, places, crossbars = _side_by_side(keys)
        run = replace(self._source.runs[0], end=len(text))
        source = replace(self._source, text=text, runs=(run,), crossbars=crossbars)
        return shape(source), places


def _side_by_side(keys: Sequence[str]) -> tuple[str, list[Stretch], tuple[int, ...]]:
    """A text of these words, where each stands in it, and where its I's with crossbars do."""
    places: list[Stretch] = []
    words: list[str] = []
    crossbars: list[int] = []
    at = 0
    for key in keys:
        word, _, barred = key.partition(BARRED)
        words.append(word)
        if barred:
            crossbars += [at + int(offset) for offset in barred.split()]
        places.append((at, at + len(word)))
        at += len(word) + 1
    return " ".join(words), places, tuple(crossbars)


@lru_cache(maxsize=32)
def word_book(face: Face, language: str, crossbar: str) -> WordBook | None:
    """The book of a face; None for a face that is not known to be plain.

    Args:
        face: The face.
        language: BCP 47 tag.
        crossbar: Where its I with crossbars comes from, see `Habits`.
    """
    return WordBook(face, language, crossbar) if is_plain(face) else None


@dataclass(frozen=True, slots=True, eq=False)
class BookSetter:
    """Sets stretches of a text that was put together from a book.

    Args:
        book: The book.
        words: The words of the text, one space apart.
        begins: Where each word begins in the text.
        starts: Where each word starts, font units.
        text: The text.
        em_mm: The type size.
    """

    book: WordBook
    words: Sequence[BookWord]
    begins: Sequence[int]
    starts: Floats
    text: str
    em_mm: float

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end; they begin and end as words do."""
        return [self._line(*self._span(stretch)) for stretch in stretches]

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of all stretches, each from its own left end, and how many each has."""
        spans = [self._span(stretch) for stretch in stretches]
        if all(end == first + 1 for first, end in spans):
            inks = [line.ink for line in self.book.lines([self.words[k] for k, _ in spans])]
        else:
            inks = [self._boxes(*span) for span in spans]
        sizes = np.array([len(ink) for ink in inks], dtype=np.int64)
        return np.concatenate([*inks, np.zeros((0, 4))]) * self.em_mm, sizes

    def scaled(self, factor: float) -> "BookSetter":
        """The same at `factor` times the size."""
        return replace(self, em_mm=self.em_mm * factor)

    def _span(self, stretch: Stretch) -> tuple[int, int]:
        """The number of a stretch's first word, and of the word after it."""
        start, end = stretch
        return bisect_left(self.begins, start), bisect_left(self.begins, end)

    def _shifts(self, first: int, end: int) -> Floats:
        """Where the words first .. end - 1 start from the first one's left end, em."""
        shifts: Floats = (self.starts[first:end] - self.starts[first]) / self.book.engine.upem
        return shifts

    def _boxes(self, first: int, end: int) -> Floats:
        """The ink boxes of words side by side at a size of 1 mm, from the first one's left end."""
        run = self.book.lines(self.words[first:end])
        boxes = np.concatenate([word.ink for word in run])
        boxes[:, ::2] += np.repeat(self._shifts(first, end), [len(word.ink) for word in run])[
            :, None
        ]
        return boxes

    def _line(self, first: int, end: int) -> SetLine:
        em_mm, run = self.em_mm, self.book.lines(self.words[first:end])
        shifts = self._shifts(first, end).tolist()
        glyphs = tuple(
            Glyph(face, glyph, (x + shift) * em_mm, y * em_mm, em_mm)
            for word, shift in zip(run, shifts, strict=True)
            for face, glyph, x, y, _, _ in word.glyphs
        )
        stop = self.begins[end] - 1 if end < len(self.begins) else len(self.text)
        width = (shifts[-1] + run[-1].width_mm) * em_mm
        return SetLine(
            self.text[self.begins[first] : stop], width, self._boxes(first, end) * em_mm, glyphs
        )


class BookText(NamedTuple):
    """A text put together from a book.

    Args:
        starts: Shape (n,), mm: where each word starts.
        ends: Shape (n,), mm: where it ends.
        setter: Sets its lines.
    """

    starts: Floats
    ends: Floats
    setter: BookSetter


def book_text(
    pieces: Pieces, book: WordBook, crossbars: Sequence[int], *, em_mm: float
) -> BookText | None:
    """A text of one style put together from a book; None where it wants the long way.

    Args:
        pieces: The text cut where its lines may end.
        book: The words of its face.
        crossbars: Where its I's with crossbars stand.
        em_mm: The type size.
    """
    text, begins = pieces.text, pieces.starts
    keys = [text[start:end] for start, end in zip(begins, pieces.ends, strict=True)]
    if " ".join(keys) != text:
        return None
    for at in crossbars:
        k = bisect_right(begins, at) - 1
        keys[k] += f"{' ' if BARRED in keys[k] else BARRED}{at - begins[k]}"
    words = book.look_up(keys)
    if words is None:
        return None
    advances = np.array([word.units for word in words])
    ends = np.cumsum(advances + book.space) - book.space
    starts = ends - advances
    mm = em_mm / book.engine.upem
    setter = BookSetter(book, words, begins, starts, text, em_mm)
    return BookText(starts * mm, ends * mm, setter)
