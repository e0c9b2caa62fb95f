"""One speech in two joined balloons: where it parts, and the whole way from text to outline.

A text is parted at the end of a sentence if it may be, else at a pause, else between two words; the
parts are to be alike in size, the union small and both stacks good-looking. A parting is only one
where both parts, set alone, read as the whole does: a mark of emphasis or a quotation that would be
torn rules it out.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from letterfit.errors import OutlineError
from letterfit.fit.joined import JoinedBalloon, fit_words_joined
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words

MOST_LINES = 8
"""Past so many lines a text wants two balloons (common practice, no source; advice)."""

MOST_WORDS = 40
"""And past about so many words (common practice, no source; advice)."""

MOST_TRIED = 6
"""Partings that are fitted: those that promise most by where they are and how even."""

PRICES = {"sentence": 0.0, "clause": 0.15, "words": 0.5}
"""What parting there costs, a ratio: as much as so large a share of area."""

UNLIKE = 0.5
"""What parts cost of which one is all and the other nothing, a ratio; it grows with the square."""

MOST_LOOKS = 0.3
"""The most that one stack's looks count for: a lone word is better than a torn sentence."""

TALL = 0.1
"""What each line past MOST_LINES in a part costs, a ratio."""

_CLOSERS = "\"'\u2019\u201d\u00bb)*_\u300d\u300f\uff09"
_SENTENCE = re.compile(
    rf"[.!?\u2026\u203d\u061f][{_CLOSERS}]*\s+|[\u3002\uff01\uff1f][{_CLOSERS}]*"
)
_CLAUSE = re.compile(rf"(?:[,;:\u060c\u061b\u2014\u2013]|--)[{_CLOSERS}]*\s+|\u3001[{_CLOSERS}]*")
_SPACE = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Parting:
    """A place where a text may part.

    Args:
        first: What stands before it.
        second: What stands after it.
        cost: A ratio: what the place and the unlikeness of the parts cost.
    """

    first: str
    second: str
    cost: float


def fit_joined(  # noqa: PLR0913 - keyword-only
    text: str | tuple[str, str],
    lettering: Lettering | None = None,
    *,
    outline: str = "ellipse",
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
    overlap_mm: float | None = None,
    reading: Literal["ltr", "rtl"] | None = None,
    language: str = "en",
) -> JoinedBalloon:
    """Set one speech in two joined balloons, the second lower and to one side.

    Args:
        text: The speech, emphasis marked as in a script, or its two parts. A speech that is not
            parted yet is parted at the end of a sentence or at a pause first, the parts alike in
            size, the union small.
        lettering: How to letter it; None is the bundled default.
        outline: The family of both: "ellipse" or "superellipse".
        aspect: Least and greatest width over height of each balloon, ratios; None for the family's
            own.
        slack: By what share, 0 or more, an area may exceed the least for the sake of looks.
        overlap_mm: How deep the balloons overlap, mm, at most the air; None for 0.8 of it.
        reading: "rtl" puts the second part to the left; None goes as the text reads.
        language: The text's language, a BCP 47 code.

    Returns:
        Both balloons and the union that is drawn. Every word is set; the ink of both parts keeps
        its air from the union's outline and stands in its own balloon only.

    Raises:
        OutlineError: When the text cannot be parted, the family cannot be joined, the reading
            is neither, or a number is out of its range.
        FontError: When the lettering cannot be used.

    >>> pair = fit_joined("The gate is shut. The tide turned an hour ago.")
    >>> pair.upper.text, pair.lower.text
    ('THE GATE IS SHUT.', 'THE TIDE TURNED AN HOUR AGO.')
    >>> pair.outline.dx > 0, pair.outline.dy > 0, round(pair.clearance_mm, 1)
    (True, True, 1.2)
    """
    if reading not in ("ltr", "rtl", None):
        raise OutlineError(f"no page reads {reading!r}", advice="choose ltr or rtl")
    chosen = lettering or Lettering()

    def joined(first: str, second: str) -> JoinedBalloon:
        upper, lower = (measure(part, chosen, language=language) for part in (first, second))
        return fit_words_joined(
            upper,
            lower,
            outline=outline,
            air_mm=chosen.air_mm,
            aspect=aspect,
            slack=slack,
            overlap_mm=overlap_mm,
            rtl=None if reading is None else reading == "rtl",
        )

    if not isinstance(text, str):
        return joined(*text)
    places = best_partings(text, chosen, language=language)
    return _best([(place.cost, joined(place.first, place.second)) for place in places])


def _best(tried: Sequence[tuple[float, JoinedBalloon]]) -> JoinedBalloon:
    """The pair that costs least: where it parts, its area over the least, looks, lines."""
    least = min(pair.area_mm2 for _, pair in tried)

    def cost(at: tuple[float, JoinedBalloon]) -> float:
        place, pair = at
        looks = sum(min(part.looks, MOST_LOOKS) for part, _ in pair.parts) / 2
        over = sum(max(0, len(part.lines) - MOST_LINES) for part, _ in pair.parts)
        return place + pair.area_mm2 / least - 1 + looks + TALL * over

    return min(tried, key=cost)[1]


def wants_two(fitted: FittedBalloon) -> bool:
    """Whether a balloon holds so much that letterers make it two (advice, no rule).

    Args:
        fitted: The balloon.
    """
    return len(fitted.lines) > MOST_LINES or fitted.words > MOST_WORDS


def best_partings(text: str, lettering: Lettering, *, language: str = "en") -> tuple[Parting, ...]:
    """The places where a text parts best, best first, at most six.

    Args:
        text: The text as typed.
        lettering: How it is lettered.
        language: A BCP 47 code.

    Raises:
        OutlineError: When it parts nowhere.

    >>> [place.first for place in best_partings("Shut it, now. Or drown.", Lettering())][:2]
    ['Shut it, now.', 'Shut it,']
    """
    whole = measure(text, lettering, language=language)
    found = sorted(_partings(text), key=lambda place: place.cost)
    kept: list[Parting] = []
    for place in found:
        price = _price(whole, place, lettering, language)
        if price is not None:
            kept.append(Parting(place.first, place.second, place.cost + price))
        if len(kept) == MOST_TRIED:
            break
    if not kept:
        raise OutlineError(
            "the text cannot be parted into two balloons", advice="give its two parts"
        )
    return tuple(sorted(kept, key=lambda place: place.cost))


def _partings(text: str) -> Iterator[Parting]:
    """Every place between two words or after a mark, by what it is and how even the parts are."""
    kinds: dict[int, str] = {}
    for kind, pattern in (("sentence", _SENTENCE), ("clause", _CLAUSE), ("words", _SPACE)):
        for match in pattern.finditer(text):
            kinds.setdefault(match.end(), kind)
    for place, kind in sorted(kinds.items()):
        first, second = text[:place].strip(), text[place:].strip()
        if first and second:
            unlike = abs(len(first) - len(second)) / (len(first) + len(second))
            yield Parting(first, second, PRICES[kind] + UNLIKE * unlike**2)


def _price(whole: Words, place: Parting, lettering: Lettering, language: str) -> float | None:
    """What ending a line there costs; None where none may end, or a part alone reads otherwise."""
    parts = [measure(part, lettering, language=language) for part in (place.first, place.second)]
    first, second = (words.text for words in parts)
    joins: Sequence[str] = (f"{first} {second}", first + second)
    if not all(map(len, parts)) or whole.text not in joins:
        return None
    for (_, end), penalty in zip(whole.stretches, whole.penalties.tolist(), strict=True):
        if end == len(first):
            return float(penalty)
    return None
