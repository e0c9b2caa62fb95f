"""The rules of comics text that price a line break, by the words on its two sides.

A rule holds where the text before the break ends as it says and the text after it begins as it
says. Of the rules that hold the first of `PRICED` sets the price; where none holds the break costs
`BreakPrices.ordinary`. All are common practice, no source.
"""

from collections.abc import Callable
from dataclasses import dataclass

from letterfit.lettering.break_places import SPACES
from letterfit.lettering.phrases import BARE_TITLES, TITLES, UNITS, Phrases

SHY = "\u00ad"

_RESTS = frozenset(',;:.!?…—―–-)]}"”»、。！？」』')
_HYPHENS = frozenset("-‐")
_QUOTES = "'\"‘’“”«»‹›„¡¿([ \n"


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakPrices:
    """What ending a line costs, ratios without a unit.

    0 is a break that costs nothing, 1 one that a letterer would not make while there is any other.

    Args:
        free: After punctuation, or before a word that opens a clause: the voice rests there.
        ordinary: Between two words of a clause: nothing wrong, but a rest is better.
        compound: After the hyphen of a compound: the line ends inside a word.
        phrase: Inside a phrase of Japanese, or a word of Chinese or Korean.
        weak_end: After an article, a preposition or I: the line ends on a word that leans on the
            next.
        number: Between a number and its unit.
        soft_hyphen: At a soft hyphen: a word is cut and gets a hyphen it does not have.
        name: Between a title or an initial and the name: read alone, "MR." is another sentence's
            end.
    """

    free: float = 0.0
    ordinary: float = 0.1
    compound: float = 0.4
    phrase: float = 0.4
    weak_end: float = 0.5
    number: float = 0.6
    soft_hyphen: float = 0.8
    name: float = 1.0


@dataclass(frozen=True, slots=True)
class Priced:
    """A price rule: its halves are asked about the piece before the break and the piece after it.

    Args:
        name: What it is called.
        says: What it says, in one line.
        price: The field of `BreakPrices` that it sets.
        ends: Whether the piece before the break ends as the rule says; its spaces are on it.
        starts: Whether the piece after the break starts as the rule says; None when it may be any.
    """

    name: str
    says: str
    price: str
    ends: Callable[[str, Phrases], bool] | None
    starts: Callable[[str, Phrases], bool] | None = None


def _last(piece: str) -> str:
    return piece.rstrip(SPACES).rpartition(" ")[2]


def _first(piece: str) -> str:
    return piece.partition(" ")[0].rstrip(SPACES)


def _ends_in_digit(piece: str, _: Phrases) -> bool:
    return _last(piece)[-1:].isdigit()


def _starts_with_unit(piece: str, _: Phrases) -> bool:
    return _first(piece).rstrip(".,!?").lower() in UNITS


def _ends_in_title(piece: str, _: Phrases) -> bool:
    return is_title(_last(piece))


def _starts_with_letter(piece: str, _: Phrases) -> bool:
    return piece[:1].isalpha()


def _ends_in_soft_hyphen(piece: str, _: Phrases) -> bool:
    return piece.endswith(SHY)


def _ends_in_hyphen(piece: str, _: Phrases) -> bool:
    return piece[-1:] in _HYPHENS and piece[-2:] != "--"


def _ends_in_rest(piece: str, _: Phrases) -> bool:
    return _last(piece)[-1:] in _RESTS


def _ends_weakly(piece: str, phrases: Phrases) -> bool:
    return _last(piece).strip(_QUOTES).lower() in phrases.weak_ends


def _starts_with_opener(piece: str, phrases: Phrases) -> bool:
    return _first(piece).strip(_QUOTES).lower() in phrases.openers


PRICED = (
    Priced(
        "numbers",
        'Between a number and its unit, "40 | KM".',
        "number",
        _ends_in_digit,
        _starts_with_unit,
    ),
    Priced(
        "names",
        'Between a title or an initial and the name, "MR. | SMITH".',
        "name",
        _ends_in_title,
        _starts_with_letter,
    ),
    Priced("soft_hyphens", "At a soft hyphen.", "soft_hyphen", _ends_in_soft_hyphen),
    Priced(
        "compounds", 'After the hyphen of a compound, "WELL-|KNOWN".', "compound", _ends_in_hyphen
    ),
    Priced("rests", "After punctuation.", "free", _ends_in_rest),
    Priced(
        "weak_ends", 'After a word that leans on the next, "THE | GATE".', "weak_end", _ends_weakly
    ),
    Priced(
        "openers", 'Before a word that opens a clause, "| AND".', "free", None, _starts_with_opener
    ),
)
"""In order: the first rule that holds sets the price."""


def is_title(word: str) -> bool:
    """Whether a word is a title before a name, or an initial.

    >>> is_title("MR."), is_title("J."), is_title("MAST.")
    (True, True, False)
    """
    bare = word.strip(_QUOTES)
    if not bare.endswith("."):
        return bare.lower() in BARE_TITLES
    return bare[:-1].lower() in TITLES or (len(bare) == 2 and bare[0].isupper())
