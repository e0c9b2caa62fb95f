"""The short way: plain dialogue measured without styling, ICU or shaping.

Most dialogue is plainer than what the long way can do: words of letters, one space apart, in a face
where a letter looks no farther than the letter before it. Where a line may break then follows from
each word by itself (`breaks.plain`), and the text is as wide as its pairs of letters
(`shaping.pair_book`): a few dozen operations on whole arrays. What is not so plain (emphasis, a
word that breaks inside, another script, a habit that looks at more than one word) takes the long
way; tests hold that both give the same.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from unicodedata import is_normalized

import numpy as np

from letterfit.lettering.breaks.pieces import Pieces
from letterfit.lettering.breaks.plain import JOINED, OWN_QUOTES, PRICE_BITS, KnownWords, known_words
from letterfit.lettering.fonts.face import Face
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.pair_book import SPACE, Codes, PairBook, pair_book
from letterfit.lettering.shaping.pair_setter import PairSetter
from letterfit.lettering.style.casing import base_language, upper
from letterfit.lettering.style.cleaning import LONGEST_TEXT
from letterfit.lettering.style.crossbar import PLAIN_SLOT, pronouns
from letterfit.lettering.words import Ints, Words


class SpacedPieces(Pieces):
    """The pieces of a text of plain words, each one piece, one space apart.

    Args:
        text: The words.
        prices: The price of ending a line after each; the last is 0.
        begins: Shape (n,): where each piece begins in the text.
        finishes: Shape (n,): where it ends.
    """

    _begins: Ints
    _finishes: Ints

    def __init__(self, text: str, prices: list[float], begins: Ints, finishes: Ints) -> None:
        self.__dict__.update(text=text, prices=prices, _begins=begins, _finishes=finishes)

    def __len__(self) -> int:
        return len(self.prices)

    @cached_property
    def starts(self) -> list[int]:
        """Where each piece begins in the text."""
        found: list[int] = self._begins.tolist()
        return found

    @cached_property
    def ends(self) -> list[int]:
        """Where it ends."""
        found: list[int] = self._finishes.tolist()
        return found

    @cached_property
    def musts(self) -> list[bool]:
        """A line must end after the last alone."""
        return [False] * (len(self) - 1) + [True]

    @cached_property
    def counts(self) -> list[int]:
        """Each piece is a word."""
        return [1] * len(self)


@dataclass(frozen=True, slots=True, eq=False)
class ShortWay:
    """What plain texts are measured by in one lettering.

    Args:
        lettering: The lettering.
        language: BCP 47 tag.
        book: The pairs of its face.
        known: The words of its language.
        unit_mm: A font unit.
        cap_height_mm: Height of the ink of H.
    """

    lettering: Lettering
    language: str
    book: PairBook
    known: KnownWords
    unit_mm: float
    cap_height_mm: float

    def words(self, typed: str) -> Words | None:
        """The text measured; None where it wants the long way."""
        text = self._as_set(typed)
        codes = list(map(self.known.__getitem__, text.split(" ")))
        if max(codes) >= JOINED:
            return None
        habits = self.lettering.habits
        crossbars: tuple[int, ...] = ()
        if "I" in text:
            crossbars = pronouns(text, self.language, crossbar_in=habits.crossbar_in)
        pens = self.book.pens(text, crossbars)
        if pens is None:
            return None
        begins, finishes = _bounds(pens.codes)
        starts, ends = pens.spans(begins, finishes)
        starts *= self.unit_mm
        ends *= self.unit_mm
        table = self.lettering.breaks.priced
        prices = [table[before & after >> PRICE_BITS] for before, after in pairwise(codes)]
        prices.append(0.0)
        em_mm = self.lettering.em_mm
        return Words(
            cut=SpacedPieces(text, prices, begins, finishes),
            starts=starts,
            ends=ends,
            setter=PairSetter(text, pens, em_mm),
            leading_mm=self.lettering.leading * em_mm,
            cap_height_mm=self.cap_height_mm,
            size_pt=self.lettering.size_pt,
            flush=self.lettering.align == "start",
        )

    def _as_set(self, typed: str) -> str:
        """The text in its case; one word that is not plain where it cannot be told by words."""
        if len(typed) > LONGEST_TEXT or not (typed.isascii() or is_normalized("NFC", typed)):
            return ""
        if self.lettering.case == "as-typed":
            return typed
        return upper(typed, self.language, keep=self.lettering.habits.keep_case)


def _bounds(codes: Codes) -> tuple[Ints, Ints]:
    """Where words begin and end: between spaces, the first and the last at the text's own ends."""
    (spaces,) = (codes == SPACE).nonzero()
    count = len(spaces)
    begins, finishes = np.zeros(count + 1, np.int64), np.empty(count + 1, np.int64)
    begins[1:] = finishes[:count] = spaces
    begins[1:] += 1
    finishes[count] = len(codes) - 1  # less the end
    return begins, finishes


_WAYS: dict[tuple[int, str], tuple[Lettering, ShortWay | None]] = {}
"""By the identity of a lettering, which is kept with it: to compare letterings takes longer than to
measure in them."""

MOST_WAYS = 64


def short_way(lettering: Lettering, language: str) -> ShortWay | None:
    """What measures plain texts in a lettering; None where no text is plain.

    Args:
        lettering: How they are set.
        language: BCP 47 tag.
    """
    found = _WAYS.get((id(lettering), language))
    if found is None:
        if len(_WAYS) >= MOST_WAYS:
            _WAYS.clear()
        found = _WAYS[id(lettering), language] = (lettering, _short_way(lettering, language))
    return found[1]


def _short_way(lettering: Lettering, language: str) -> ShortWay | None:
    book = letter_book(lettering, language)
    if book is None or base_language(language) in OWN_QUOTES or not _is_wordwise(lettering):
        return None
    return ShortWay(
        lettering=lettering,
        language=language,
        book=book,
        known=known_words(base_language(language)),
        unit_mm=lettering.em_mm / book.engine.upem,
        cap_height_mm=lettering.em_mm * cap_height_em(book.face),
    )


def letter_book(lettering: Lettering, language: str) -> PairBook | None:
    """The pairs of a lettering's plain letters; None where letters do not stand by pairs alone.

    Args:
        lettering: The lettering.
        language: BCP 47 tag.
    """
    face, crossbar = lettering.typeface.styled("regular"), lettering.habits.crossbar
    if lettering.tracking or lettering.writing == "vertical":
        return None
    if face.style != "regular" or crossbar in PLAIN_SLOT:
        return None
    return pair_book(face, language, crossbar)


def _is_wordwise(lettering: Lettering) -> bool:
    """Whether all habits and rules look at one word at a time."""
    habits, breaks = lettering.habits, lettering.breaks
    return (
        habits.dashes == habits.ellipses == habits.quotes == "as-typed"
        and breaks.all_placed
        and not breaks.hyphenate
        and not breaks.hyphenate_english
    )


@lru_cache(maxsize=64)
def cap_height_em(face: Face) -> float:
    """The height of a face's capitals in em, measured once: every text asks for it."""
    return face.cap_height_em
