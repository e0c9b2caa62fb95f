"""Where a line may end: Unicode's line breaks, tailored to how comics are lettered.

The base is UAX #14 (Unicode 17) as ICU implements it, with its dictionaries for scripts without
spaces. On top stand the rules of `break_rules.RULES`.
"""

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from icu4py.breakers import LineBreaker

from letterfit.lettering.break_places import SPACES
from letterfit.lettering.break_prices import PRICED, SHY
from letterfit.lettering.break_rules import BreakRules
from letterfit.lettering.casing import base_language
from letterfit.lettering.phrases import PHRASES
from letterfit.lettering.units import index_of_units

__all__ = ["SHY", "SPACES", "Break", "line_breaks", "unicode_breaks"]

COMICS = BreakRules()
"""All rules on."""

LONGEST_SEEN = 48
"""Characters. Longer pieces are not remembered: they would only fill the memory."""


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


def line_breaks(
    text: str, *, language: str = "en", rules: BreakRules = COMICS
) -> tuple[Break, ...]:
    r"""All places where a line of the text may end, its end not counted.

    Args:
        text: As set, after upper-casing, without lone surrogates; "\n" is a forced line end.
        language: BCP 47 tag.
        rules: The rules on top of Unicode's.

    Returns:
        Breaks in order, their offsets after the spaces that the line leaves hanging.

    >>> [text[b.at:] for text in ["NO...YES, MR. LOCK"] for b in line_breaks(text)]
    ['YES, MR. LOCK', 'MR. LOCK', 'LOCK']
    """
    offsets = set(unicode_breaks(text, icu_locale(language, rules)))
    for rule in rules.allowed:
        offsets.update(rule(text))
    for rule in rules.forbidden:
        offsets.difference_update(rule(text))
    ends = sorted(at for at in offsets if 0 < at < len(text))
    base = base_language(language)
    sides = [_sides(text[start:end], base) for start, end in pairwise([0, *ends, len(text)])]
    return tuple(
        Break(at, rules.priced[ending & starting], text[at - 1] == "\n")
        for at, ((ending, _), (_, starting)) in zip(ends, pairwise(sides), strict=True)
    )


def unicode_breaks(text: str, locale: str) -> list[int]:
    """UAX #14 line breaks as offsets of characters (ICU counts in UTF-16), the end included."""
    ends = [end for _, end in LineBreaker(text, locale).segments()]
    index_of = index_of_units(text)
    return [index_of[end] for end in ends] if index_of else ends


def icu_locale(language: str, rules: BreakRules = COMICS) -> str:
    """The locale that ICU breaks a language by, with the keywords of UTS #35 (lb, lw).

    >>> icu_locale("ja-JP"), icu_locale("fr", BreakRules(phrases=True))
    ('ja@lb=strict', 'fr')
    """
    base = base_language(language)
    if base not in {"ja", "ko", "zh"}:
        return base
    phrases = ";lw=phrase" if rules.phrases else ""
    return f"{base}@lb={rules.japanese}{phrases}"


def _sides(piece: str, language: str) -> tuple[int, int]:
    """A piece of text between two breaks; words come back, so they are looked at once."""
    return (_seen if len(piece) <= LONGEST_SEEN else _look)(piece, language)


def _look(piece: str, language: str) -> tuple[int, int]:
    """Which rules of `PRICED` hold for the piece's end and for its start, one bit each."""
    phrases = PHRASES.get(language, PHRASES["en"])
    ending = starting = 0
    for k, rule in enumerate(PRICED):
        ending |= (rule.ends is None or rule.ends(piece, phrases)) << k
        starting |= (rule.starts is None or rule.starts(piece, phrases)) << k
    return ending, starting


_seen = lru_cache(maxsize=8192)(_look)
