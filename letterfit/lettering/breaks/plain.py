"""Plain text cut at its breaks without ICU: words of letters, one space apart.

Where every word is letters (Latin, Greek, Cyrillic) with the usual marks round them, a line may
break exactly after each space (UAX #14, LB18: no other rule of it, and none of comics text, then
says anything) and after the dash, hyphen or dots that join two words, but not before dashes or dots
that stand alone. Each word is looked at once and remembered. A test holds that the breaks and
prices are those of the long way.
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import accumulate, pairwise
from typing import NamedTuple

from letterfit.lettering.breaks.phrases import (
    BARE_TITLES,
    NAME_ENDS,
    NUMBER_SIGNS,
    PHRASES,
    TITLES,
    UNITS,
    Phrases,
)
from letterfit.lettering.breaks.prices import PRICED, held
from letterfit.lettering.breaks.rules import BreakRules

_LETTERS = "A-Za-zÀ-ÖØ-öø-ɏΆΈ-ΊΌΎ-ΡΣ-ώЀ-ҁҊ-ԯ"
_TAIL = ".,:;!?…'\"’”)–—-"
_WORD = re.compile(
    rf"[\"'“‘(¡¿]{{0,2}}+(?:’|\.{{2,}}+|…++)?(?!\d\d\d)"  # what leads into the word
    rf"(?:(?:[{_LETTERS}]-)+[{_LETTERS}]++|[{_LETTERS}0-9])"  # "N-NO" and "X-RAY" hold no break
    rf"(?:[{_LETTERS}0-9'’]|[.,:;](?=[{_LETTERS}0-9]))*[{_TAIL}]*+"
)
_ALONE = re.compile(r"-++|–++|—++|\.{2,}+|…++")
_JOINT = r"(?:-++|–|—++|\.{2,}+|…++|/)"
_JOINED = re.compile(
    rf"[\"'“‘(¡¿]{{0,2}}+(?:[{_LETTERS}]{{4,}}+{_JOINT})+[{_LETTERS}]{{2,}}+[{_TAIL}]*+"
)
_PARTS = re.compile(rf"[^{_LETTERS}]*+[{_LETTERS}]++(?:{_JOINT}(?=[{_LETTERS}])|[{_TAIL}]*+$)")
_ONLY_LETTERS = re.compile(rf"[{_LETTERS}]{{2,}}+")

PRICE_BITS = len(PRICED)
"""Bits of a code for a word's end; as many above them are for its start."""

_ENDS = (1 << PRICE_BITS) - 1

JOINED = 1 << 2 * PRICE_BITS
"""The code of a word that breaks inside."""
ALONE = JOINED << 1
"""In the code of dashes or dots that stand alone: no line begins with them."""
STRANGE = JOINED << 2
"""The code of a word that is not plain."""

OWN_QUOTES = frozenset({"ja", "zh"})
"""Languages in which ICU reads “” as brackets, not as quotation marks that may stand either way."""

MOST_KNOWN = 8192
"""Words remembered for one language; beyond it all are forgotten."""

LONGEST_WORD = 30
"""Letters. No word in common use is longer in English: more is a slip, no plain word, and will not
break."""


_Part = tuple[int, int, int, int]
"""Of a part of a word: its length, the spaces after it, the words that start in it, its code."""


class PlainCut(NamedTuple):
    """A plain text cut at its breaks; every piece but the last is followed by one space or none.

    Args:
        starts: Where each piece starts.
        ends: Where each piece ends, its space left out.
        prices: The price of the break after each piece; one less than there are pieces.
        counts: How many words start in each piece.
    """

    starts: list[int]
    ends: list[int]
    prices: list[float]
    counts: list[int]


def plain_cut(text: str, language: str, rules: BreakRules) -> PlainCut | None:
    """Cut a plain text; None where it is not plain, or a rule that forbids or allows is off.

    Args:
        text: As set.
        language: The base language, such as "en".
        rules: The rules on top of Unicode's.

    >>> cut = plain_cut("WAIT HERE, AND WATCH.", "en", BreakRules())
    >>> cut.starts, cut.prices
    ([0, 5, 11, 15], [0.1, 0.0, 0.1])
    """
    if not rules.all_placed or language in OWN_QUOTES:
        return None
    known = known_words(language)
    words = text.split(" ")
    codes = list(map(known.__getitem__, words))
    highest = max(codes)
    if highest >= JOINED:
        return None if highest >= STRANGE else _joined_cut(words, known, rules.priced)
    starts, ends = [], []
    at = 0
    for word in words:
        starts.append(at)
        at += len(word)
        ends.append(at)
        at += 1
    table = rules.priced
    prices = [table[before & after >> PRICE_BITS] for before, after in pairwise(codes)]
    return PlainCut(starts, ends, prices, [1] * len(words))


def _joined_cut(words: list[str], known: "KnownWords", table: tuple[float, ...]) -> PlainCut:
    """Cut words some of which break inside."""
    parts = _attached([part for word in words for part in known.cut(word)])
    ends = list(accumulate(length + gap for length, gap, _, _ in parts))
    starts = [0, *ends[:-1]]
    return PlainCut(
        starts=starts,
        ends=[start + part[0] for start, part in zip(starts, parts, strict=True)],
        prices=[table[before[3] & after[3] >> PRICE_BITS] for before, after in pairwise(parts)],
        counts=[count for _, _, count, _ in parts],
    )


def _attached(parts: list[_Part]) -> list[_Part]:
    """Dashes and dots that stand alone put to what is before them; the first to what is after."""
    found = parts[:1]
    for length, gap, count, code in parts[1:]:
        before = found[-1]
        joined = before[0] + before[1] + length
        if code & ALONE:
            start = before[3] >> PRICE_BITS << PRICE_BITS
            found[-1] = (joined, gap, before[2], (start | code & _ENDS) & ~ALONE)
        elif before[3] & ALONE:
            found[-1] = (joined, gap, count, code)
        else:
            found.append((length, gap, count, code))
    return found


class KnownWords(dict[str, int]):
    """The words of one language: for each which price rules hold for its end and for its start."""

    __slots__ = ("common", "parts", "phrases", "special")

    def __init__(self, phrases: Phrases) -> None:
        super().__init__()
        self.phrases = phrases
        self.special = frozenset().union(
            phrases.weak_ends, phrases.openers, phrases.leaners,
            *(words for words in (TITLES, BARE_TITLES, NAME_ENDS, UNITS)),
            (sign.strip(".") for sign in NUMBER_SIGNS),
        )  # fmt: skip
        self.common: dict[str, int] = {}
        self.parts: dict[str, tuple[_Part, ...]] = {}

    def __missing__(self, word: str) -> int:
        if word.isalpha() and word.isascii() and word.lower() not in self.special:
            code = self._tailed("")  # most new words
        else:
            code = self._look(word)
        if len(word) > LONGEST_WORD:
            return STRANGE
        if len(self) >= MOST_KNOWN:
            self.clear()
        self[word] = code
        return code

    def _look(self, word: str) -> int:
        body = word.rstrip(_TAIL)
        if _ONLY_LETTERS.fullmatch(body) and body.lower() not in self.special:
            return self._tailed(word[len(body) :])
        if _WORD.fullmatch(word):
            return self.code(f"{word} ")
        if _ALONE.fullmatch(word):
            return ALONE | self.code(f"{word} ")
        return JOINED if _JOINED.fullmatch(word) else STRANGE

    def _tailed(self, tail: str) -> int:
        """The code of a word of letters that is nothing special, by the marks it ends in."""
        code = self.common.get(tail)
        if code is None:
            code = self.common[tail] = self.code(f"xyz{tail} ")
        return code

    def cut(self, word: str) -> tuple[_Part, ...]:
        """The parts of a word between the breaks inside it."""
        if self[word] != JOINED:
            return ((len(word), 1, int(not self[word] & ALONE), self[word]),)
        if word not in self.parts:
            if len(self.parts) >= MOST_KNOWN:
                self.parts.clear()
            self.parts[word] = tuple(self._cut(word))
        return self.parts[word]

    def _cut(self, word: str) -> Iterator[_Part]:
        begins = True
        parts = _PARTS.findall(word)
        for k, part in enumerate(parts, start=1):
            space = int(k == len(parts))
            yield len(part), space, int(begins), self.code(part + " " * space)
            begins = part[-1] in "—…" or part[-2:] in {"--", ".."}

    def code(self, piece: str) -> int:
        """Which price rules hold for a piece's end, one bit each, and above them for its start."""
        ending, starting = held(piece, self.phrases)
        return ending | starting << PRICE_BITS


def known_words(language: str) -> KnownWords:
    """The known words of a language.

    Args:
        language: The base language, such as "en".
    """
    return _with_phrases(PHRASES.get(language) or PHRASES["en"])


@cache
def _with_phrases(phrases: Phrases) -> KnownWords:
    return KnownWords(phrases)
