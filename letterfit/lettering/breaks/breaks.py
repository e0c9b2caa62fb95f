"""Where a line may end: Unicode's line breaks, tailored to how comics are lettered.

The base is UAX #14 (Unicode 17) as ICU implements it, with its dictionaries for scripts without
spaces. On top stand the rules of `rules.RULES`. Plain text, which is most of dialogue, takes
the short way of `plain` to the same breaks.
"""

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from letterfit.lettering.breaks.icu import (
    FIRST_CJK,
    LONGEST_PHRASED,
    phrase_ends,
    unicode_breaks,
)
from letterfit.lettering.breaks.phrases import PHRASES
from letterfit.lettering.breaks.places import SPACES, is_inside_word
from letterfit.lettering.breaks.plain import plain_cut
from letterfit.lettering.breaks.prices import SHY, held
from letterfit.lettering.breaks.rules import INSIDE_PHRASES, BreakRules, asked_of
from letterfit.lettering.style.casing import base_language

__all__ = ["COMICS", "SHY", "SPACES", "Break", "line_breaks", "phrase_ends", "unicode_breaks"]

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
    plain = plain_cut(text, base_language(language), rules)
    if plain:
        return tuple(map(Break, plain.starts[1:], plain.prices))
    return ruled_breaks(text, language, rules)


def ruled_breaks(text: str, language: str, rules: BreakRules) -> tuple[Break, ...]:
    """The same by ICU and every rule, whatever the text."""
    if rules.phrases and len(text) > LONGEST_PHRASED:
        rules = replace(rules, phrases=False)
    offsets = set(unicode_breaks(text, icu_locale(language, rules)))
    forced = {at for at in offsets if text[at - 1] == "\n"} if "\n" in text else set()
    base = base_language(language)
    allowed, forbidden = asked_of(text, rules)
    for places in allowed:
        offsets.update(places(text, base))
    for places in forbidden:
        offsets.difference_update(places(text, base))
    ends = sorted(at for at in offsets | forced if 0 < at < len(text))
    prices = _prices(text, ends, base, rules)
    for k in _inside_phrases(text, ends, base, rules):
        prices[k] = rules.prices.phrase
    return tuple(map(Break, ends, prices, [at in forced for at in ends]))


def icu_locale(language: str, rules: BreakRules = COMICS) -> str:
    """The locale that ICU breaks a language by, with the keywords of UTS #35 (lb, lw).

    >>> icu_locale("ja-JP"), icu_locale("ko", BreakRules(phrases=True)), icu_locale("pt-BR")
    ('ja@lb=strict', 'ko@lw=phrase', 'pt')
    """
    base = base_language(language)
    phrases = "lw=phrase" if rules.phrases else ""
    if base == "ja":
        return ";".join(filter(None, [f"ja@lb={rules.japanese}", phrases]))
    return f"ko@{phrases}" if base == "ko" and phrases else base


def _prices(text: str, ends: list[int], language: str, rules: BreakRules) -> list[float]:
    sides = [_held(text[start:end], language) for start, end in pairwise([0, *ends, len(text)])]
    table = rules.priced
    return [table[before[0] & after[1]] for before, after in pairwise(sides)]


def _inside_phrases(text: str, ends: list[int], language: str, rules: BreakRules) -> list[int]:
    """Which breaks stand inside a phrase: inside a word or number where no phrase ends."""
    asked = INSIDE_PHRASES.name in rules and text and max(text) >= FIRST_CJK
    bounds = set(phrase_ends(text, language)) if asked else set()
    if not bounds:
        return []
    return [k for k, at in enumerate(ends) if at not in bounds and is_inside_word(text, at)]


def _held(piece: str, language: str) -> tuple[int, int]:
    """A piece of text between two breaks; words come back, so they are looked at once."""
    return (_seen if len(piece) <= LONGEST_SEEN else _look)(piece, language)


def _look(piece: str, language: str) -> tuple[int, int]:
    return held(piece, PHRASES.get(language, PHRASES["en"]))


_seen = lru_cache(maxsize=8192)(_look)
