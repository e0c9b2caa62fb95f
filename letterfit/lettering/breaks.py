"""Where a line may end: Unicode's line breaks, tailored to how comics are lettered.

The base is UAX #14 (Unicode 17) as ICU implements it. On top stand the rules of comics text, each
one function here: breaks that are *allowed* though Unicode forbids them, breaks that are
*forbidden* though Unicode allows them, and the *price* of each break that is left. The rules are
common practice, no source, except where one is named.

Prices are ratios without a unit: 0 is a break that costs nothing, 1 one that a letterer would not
make while there is any other.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from icu4py.breakers import LineBreaker

from letterfit.lettering.casing import base_language
from letterfit.lettering.phrases import BARE_TITLES, PHRASES, TITLES, UNITS, Phrases
from letterfit.lettering.units import index_of_units

FREE = 0.0
"""After punctuation, or before a word that opens a clause: the line ends where the voice rests."""
ORDINARY = 0.1
"""Between two words of a clause: nothing wrong, but a rest is better."""
COMPOUND = 0.4
"""After the hyphen of a compound: the line ends inside a word."""
WEAK_END = 0.5
"""After an article, a preposition or I: the line ends on a word that leans on the next."""
NUMBER = 0.6
"""Between a number and its unit."""
SOFT_HYPHEN = 0.8
"""At a soft hyphen: a word is cut and gets a hyphen it does not have."""
NAME = 1.0
"""Between a title or an initial and the name: read alone, "MR." is another sentence's end."""

SPACES = " \t\n\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2008\u2009\u200a\u205f\u3000"
"""White space that a line may end in (UAX #14, classes SP and BA); no-break spaces are not here."""

SHY = "\u00ad"

_LETTER = r"[^\W\d_]"
_DOTS_INSIDE = re.compile(r"(?<=[^\s.…])(?:\.{2,}|…+)(?=[^\s.…!?,;:'\"’”»)\]}])")
_DOTS_LEADING = re.compile(r"(?<![^\s'\"‘“«(¡¿])(?:\.{2,}|…+)")
_DOTS_ALONE = re.compile(r"(?<!\S)(?:\.{2,}|…+)(?!\S)")
_STUTTER = re.compile(
    rf"(?<!{_LETTER})(?=({_LETTER}){_LETTER}?[-‐–—])\1{_LETTER}?[-‐–—]+(?=\1)", re.IGNORECASE
)
_ONE_LETTER = re.compile(rf"(?<![^\W_]){_LETTER}[-‐](?={_LETTER})")
_DASH = re.compile(r"[–—―]|(?<!-)(?:-{2,}|-(?!\S))")
_DASH_FIRST = re.compile(r"(?:^|\n)['\"‘“«(]?(?:-{2,}|[–—―]+|-(?!\S))\s*")
_NOTES = re.compile(rf"[{SPACES}]*([♩♪♫♬]+)[{SPACES}]*")
_FRENCH_CLOSING = re.compile(r"(?<= )[!?:;%»]")
_FRENCH_OPENING = re.compile(r"« +")
_NEEDS_NO_TAILORING = re.compile(r"(?:[^\W_]|[ ,!?'’]|\.(?!\.))*")


class Break(NamedTuple):
    """A place where a line may end.

    Args:
        at: Offset in the text where the next line would begin.
        price: The price of ending a line there, a ratio >= 0.
        forced: Whether a line must end there.
    """

    at: int
    price: float
    forced: bool = False


def line_breaks(text: str, *, language: str = "en") -> tuple[Break, ...]:
    r"""All places where a line of the text may end, its end not counted.

    Args:
        text: As set, after upper-casing, without lone surrogates; "\n" is a forced line end.
        language: BCP 47 tag.

    Returns:
        Breaks in order, their offsets after the spaces that the line leaves hanging.

    >>> [text[b.at:] for text in ["NO...YES, MR. LOCK"] for b in line_breaks(text)]
    ['YES, MR. LOCK', 'MR. LOCK', 'LOCK']
    """
    offsets = set(unicode_breaks(text, language))
    if not _NEEDS_NO_TAILORING.fullmatch(text):
        offsets |= set(after_dots(text))
        for rule in FORBIDDEN:
            offsets.difference_update(rule(text))
    ends = sorted(at for at in offsets if 0 < at < len(text))
    base = base_language(language)
    pieces = [_piece(text[start:end], base) for start, end in pairwise([0, *ends, len(text)])]
    return tuple(
        Break(at, _price(before, after), text[at - 1] == "\n")
        for at, (before, after) in zip(ends, pairwise(pieces), strict=True)
    )


def unicode_breaks(text: str, language: str) -> list[int]:
    """UAX #14 line breaks as offsets of characters (ICU counts in UTF-16), the end included."""
    ends = [end for _, end in LineBreaker(text, language).segments()]
    index_of = index_of_units(text)
    return [index_of[end] for end in ends] if index_of else ends


def after_dots(text: str) -> Iterator[int]:
    """Allowed: after a run of dots between two words, "NO...YES"."""
    return (match.end() for match in _DOTS_INSIDE.finditer(text))


def leading_dots(text: str) -> Iterator[int]:
    """Forbidden: after dots that lead into a word, "...AND THEN"; they would end a line alone."""
    return (match.end() for match in _DOTS_LEADING.finditer(text))


def dots_alone(text: str) -> Iterator[int]:
    """Forbidden: before dots that stand alone, "WELL ... NO"."""
    return (match.start() for match in _DOTS_ALONE.finditer(text))


def stutters(text: str) -> Iterator[int]:
    """Forbidden: inside a stutter, one or two letters and the same letter again, "N-NO"."""
    return (match.end() for match in _STUTTER.finditer(text))


def one_letter_heads(text: str) -> Iterator[int]:
    """Forbidden: after a compound's head of one letter, "X-RAY"."""
    return (match.end() for match in _ONE_LETTER.finditer(text))


def before_dashes(text: str) -> Iterator[int]:
    """Forbidden: before a dash, "--", or a hyphen that stands alone: no line begins with one."""
    return (match.start() for match in _DASH.finditer(text))


def after_first_dash(text: str) -> Iterator[int]:
    """Forbidden: after a dash that opens the text: no line consists of one."""
    return (match.end() for match in _DASH_FIRST.finditer(text))


def notes(text: str) -> Iterator[int]:
    """Forbidden: between sung words and the notes round them; notes open and close in turn."""
    groups = list(_NOTES.finditer(text))
    for count, group in enumerate(groups):
        paired = count + 1 < len(groups) or not text[: group.start()].strip()
        if count % 2 == 0 and paired:
            yield group.end()
        else:
            yield group.start(1)
            yield group.start()  # a note against the word before it, without a space


def french_spaces(text: str) -> Iterator[int]:
    """Forbidden: between a word and the mark that French sets off by a space, "NON !", "« OUI"."""
    yield from (match.start() for match in _FRENCH_CLOSING.finditer(text))
    yield from (match.end() for match in _FRENCH_OPENING.finditer(text))


FORBIDDEN = (
    leading_dots,
    dots_alone,
    stutters,
    one_letter_heads,
    before_dashes,
    after_first_dash,
    notes,
    french_spaces,
)
"""The rules that take breaks away, in the order in which they are applied."""


class _Piece(NamedTuple):
    """What the price of a break wants to know of the text before it and after it.

    Args:
        ending: Price of a line that ends with it.
        before_name: The same where a letter follows.
        is_number: Whether it ends in a digit.
        is_unit: Whether it begins with a unit of measure.
        is_opener: Whether it begins with a word that opens a clause.
        is_word: Whether it begins with a letter.
    """

    ending: float
    before_name: float
    is_number: bool
    is_unit: bool
    is_opener: bool
    is_word: bool


def _price(before: _Piece, after: _Piece) -> float:
    """The price of ending a line between two pieces."""
    if before.is_number and after.is_unit:
        return NUMBER
    price = before.before_name if after.is_word else before.ending
    return FREE if price == ORDINARY and after.is_opener else price


def _piece(text: str, language: str) -> _Piece:
    """A piece of text between two breaks; words come back, so they are looked at once."""
    return (_seen if len(text) <= LONGEST_SEEN else _look)(text, language)


def _look(text: str, language: str) -> _Piece:
    phrases = PHRASES.get(language, PHRASES["en"])
    word = text.rstrip(SPACES)
    last, first = word.rpartition(" ")[2], word.partition(" ")[0]
    ending = _ending(last, phrases, spaced=len(word) < len(text))
    opener = first.strip(_QUOTES).lower()
    return _Piece(
        ending=ending,
        before_name=NAME if is_title(last) else ending,
        is_number=last[-1:].isdigit(),
        is_unit=first.rstrip(".,!?").lower() in UNITS,
        is_opener=opener in phrases.openers,
        is_word=first[:1].isalpha(),
    )


_seen = lru_cache(maxsize=8192)(_look)


def _ending(word: str, phrases: Phrases, *, spaced: bool) -> float:
    """The price of a line that ends with a word, whatever follows."""
    if word.endswith(SHY):
        return SOFT_HYPHEN
    if word[-1:] in _HYPHENS and not spaced and word[-2:] != "--":
        return COMPOUND
    if word[-1:] in _RESTS:
        return FREE
    return WEAK_END if word.strip(_QUOTES).lower() in phrases.weak_ends else ORDINARY


_RESTS = frozenset(',;:.!?…—―–-)]}"”»、。！？」』')
_HYPHENS = frozenset("-‐")
_QUOTES = "'\"‘’“”«»‹›„¡¿([ \n"

LONGEST_SEEN = 48
"""Characters. Longer pieces are not remembered: they would only fill the memory."""


def is_title(word: str) -> bool:
    """Whether a word is a title before a name, or an initial.

    >>> is_title("MR."), is_title("J."), is_title("MAST.")
    (True, True, False)
    """
    bare = word.strip(_QUOTES)
    if not bare.endswith("."):
        return bare.lower() in BARE_TITLES
    return bare[:-1].lower() in TITLES or (len(bare) == 2 and bare[0].isupper())
