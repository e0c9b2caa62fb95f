"""The rules of comics text that price a line break, by the words on its two sides.

A rule holds where the piece of text before the break ends as it says and the piece after it starts
as it says. Of the rules that hold the first of `PRICED` sets the price; where none holds the break
costs `BreakPrices.ordinary`. All are common practice, no source.
"""

from collections.abc import Callable
from dataclasses import dataclass

from letterfit.lettering.breaks.phrases import (
    BARE_TITLES,
    NAME_ENDS,
    NUMBER_SIGNS,
    TITLES,
    UNITS,
    Phrases,
)
from letterfit.lettering.breaks.places import SPACES

SHY = "\u00ad"

HYPHENS = frozenset("-‐־֊/")
RESTS = frozenset(',;:.!?…—–―-)]}"”»›、。！？」』，：；）·;؟،؛۔।॥։።၊။')
QUOTES = "'\"‘’“”„«»‹›¡¿([ \n"
STOPS = ".,!?"
_ENDS = ".,:;!?…'\"’”»)—–-"

_UNSPACED = (("\u0e00", "\u0eff"), ("\u1000", "\u109f"), ("\u1780", "\u17ff"))
"""Thai, Lao, Burmese, Khmer: there a space is a pause."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakPrices:
    """What ending a line costs, ratios without a unit.

    0 is a break that costs nothing, 1 one that a letterer would not make while there is any other.

    Args:
        free: After punctuation, or before a word that opens a clause: the voice rests there.
        ordinary: Between two words of a clause: nothing wrong, but a rest is better.
        compound: After the hyphen of a compound: the line ends inside a word.
        phrase: Inside a phrase of Japanese, or inside a word of Chinese or Korean.
        weak_end: After an article, a preposition or I: the line ends on a word that leans on the
            next.
        number: Between a number and its unit.
        soft_hyphen: At a soft hyphen: a word is cut and gets a hyphen it does not have. Over 1:
            any other break is better.
        name: Between a title or an initial and the name: read alone, "MR." is another sentence's
            end.

    >>> import letterfit as lf
    >>> rules = lf.BreakRules(prices=BreakPrices(weak_end=0.2))
    >>> rules.prices.weak_end, rules.prices.ordinary
    (0.2, 0.1)
    """

    free: float = 0.0
    ordinary: float = 0.1
    compound: float = 0.4
    phrase: float = 0.4
    weak_end: float = 0.5
    number: float = 0.6
    soft_hyphen: float = 2.5
    name: float = 1.0


class Side:
    """One piece of text between two breaks, as the rules ask about it.

    Args:
        piece: Its characters, with the spaces that it ends in.
        phrases: The words of its language.
    """

    __slots__ = ("end", "first", "last", "phrases", "piece", "start")

    def __init__(self, piece: str, phrases: Phrases) -> None:
        word = piece.rstrip(SPACES)
        self.piece = piece
        self.phrases = phrases
        self.last = word.rpartition(" ")[2]
        self.first = word.partition(" ")[0]
        self.end = self.last.strip(QUOTES).lower()
        self.start = self.first.strip(QUOTES).lower()


@dataclass(frozen=True, slots=True)
class Priced:
    """A price rule: its halves are asked about the piece before the break and the piece after it.

    Args:
        name: What it is called.
        says: What it says, in one line.
        price: The field of `BreakPrices` that it sets.
        ends: Whether the piece before the break ends as the rule says; None when it may be any.
        starts: Whether the piece after the break starts as the rule says; None when it may be any.
    """

    name: str
    says: str
    price: str
    ends: Callable[[Side], bool] | None = None
    starts: Callable[[Side], bool] | None = None


def is_title(word: str) -> bool:
    """Whether a word is a title before a name, or an initial; "I." ends a sentence instead.

    >>> is_title("MR."), is_title("J."), is_title("MAST.")
    (True, True, False)
    """
    bare = word.strip(QUOTES)
    if not bare.endswith("."):
        return bare.lower() in BARE_TITLES
    if bare[:-1].lower() in TITLES:
        return True
    return len(bare) == 2 and bare[0].isalpha() and bare not in "I.i." and word[0] not in "'’"


def _starts_short(side: Side) -> bool:
    """Whether it starts with a part of one or two letters that ends the compound: "IN,"."""
    is_last = side.first[-1:] not in HYPHENS
    return is_last and 0 < len(side.start.rstrip(_ENDS)) <= 2


def _ends_short(side: Side) -> bool:
    """Whether it ends in a hyphen after one or two letters: "UH-", "RE-"."""
    return _ends_in_hyphen(side) and len(side.last.strip(QUOTES)) <= 3


def _ends_in_hyphen(side: Side) -> bool:
    return side.piece[-1:] in HYPHENS and side.piece[-2:] != "--"


def _is_pause(side: Side) -> bool:
    """Whether it ends in punctuation, or in the space that is a pause in scripts without others."""
    char = side.last[-1:]
    spaced = len(side.last) < len(side.piece) and side.piece[-1:] in SPACES
    return char in RESTS or (spaced and any(a <= char <= b for a, b in _UNSPACED))


def _starts_with_digit(side: Side) -> bool:
    return side.start[:1].isdigit()


PRICED = (
    Priced(
        "numbers",
        'Between a number and its unit, "40 | KM".',
        "number",
        lambda side: side.last[-1:].isdigit(),
        lambda side: side.start.rstrip(STOPS) in UNITS,
    ),
    Priced(
        "number_signs",
        'Between a sign for a number and the number, "NO. | 9".',
        "number",
        lambda side: side.end in NUMBER_SIGNS,
        _starts_with_digit,
    ),
    Priced(
        "names",
        'Between a title or an initial and the name, "MR. | SMITH".',
        "name",
        lambda side: is_title(side.last),
        lambda side: side.start[:1].isalpha(),
    ),
    Priced(
        "name_ends",
        'Between a name and what is always set with it, "SMITH | JR.".',
        "name",
        lambda side: side.last[-1:].isalpha() or side.last[-1:] == ",",
        lambda side: side.start.rstrip(STOPS) in NAME_ENDS,
    ),
    Priced(
        "soft_hyphens",
        "At a soft hyphen, where a word is cut.",
        "soft_hyphen",
        lambda side: side.piece.endswith(SHY),
    ),
    Priced(
        "short_heads",
        'After the part of one or two letters that begins a compound, "UH-|HUH".',
        "soft_hyphen",
        _ends_short,
    ),
    Priced(
        "short_tails",
        'Before the part of one or two letters that ends a compound, "HEIGH-|HO".',
        "soft_hyphen",
        _ends_in_hyphen,
        _starts_short,
    ),
    Priced(
        "compounds",
        'After the hyphen or slash of a compound, "WELL-|KNOWN".',
        "compound",
        _ends_in_hyphen,
    ),
    Priced("rests", 'After punctuation, "WELL, | NO".', "free", _is_pause),
    Priced(
        "weak_ends",
        'After a word that leans on the next, "THE | GATE".',
        "weak_end",
        lambda side: side.end in side.phrases.weak_ends,
    ),
    Priced(
        "leaners",
        'Before a word that leans on the one before it, as Russian "ЗНАЛ | БЫ".',
        "weak_end",
        None,
        lambda side: side.start.rstrip(STOPS) in side.phrases.leaners,
    ),
    Priced(
        "openers",
        'Before a word that opens a clause, "STOP | AND WAIT".',
        "free",
        None,
        lambda side: side.start in side.phrases.openers,
    ),
)
"""In order: the first rule that holds sets the price."""


def held(piece: str, phrases: Phrases) -> tuple[int, int]:
    """Which rules of `PRICED` hold for the end of a piece, and for its start: one bit each."""
    side = Side(piece, phrases)
    ending = starting = 0
    for k, rule in enumerate(PRICED):
        ending |= (rule.ends is None or rule.ends(side)) << k
        starting |= (rule.starts is None or rule.starts(side)) << k
    return ending, starting
