"""Habits: what letterers do one way or another, each an option with its default.

Which way is right is a matter of house style (common practice, no source); a book keeps to one.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from letterfit.errors import FontError

Emphasis = Literal["bold-italic", "as-marked", "plain"]
Dashes = Literal["as-typed", "double-hyphen", "em-dash"]
Ellipses = Literal["as-typed", "three-dots", "ellipsis-character"]
Quotes = Literal["as-typed", "curly", "straight"]
CrossbarIn = Literal["pronoun", "pronoun-and-initials"]

EMPHASES: tuple[Emphasis, ...] = get_args(Emphasis)
DASHES: tuple[Dashes, ...] = get_args(Dashes)
ELLIPSES: tuple[Ellipses, ...] = get_args(Ellipses)
QUOTES: tuple[Quotes, ...] = get_args(Quotes)
CROSSBAR_IN: tuple[CrossbarIn, ...] = get_args(CrossbarIn)

CROSSBARS = ("auto", "upper-slot", "lower-slot", "none")
"""Ways to a crossbar I besides the tag of an OpenType feature."""

MOST_KEPT = 1_000
"""More words with a case of their own than any book has."""

_FEATURE = re.compile(r"[a-z0-9]{4}")
_KEPT = re.compile(r"[^\W\d_](?:[^\W\d_]|['’-])*\*?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Habits:
    """What is done with marks, dashes, dots, quotes, the letter I and names.

    Args:
        emphasis: What the marks of a script mean. "bold-italic": the trade's one emphasis, however
            it was marked; "as-marked": `*so*` italic, `**so**` bold, `***so***` both; "plain":
            marks are taken out and nothing is emphasised.
        crossbar: Where the I with crossbars comes from. "auto": the alternate of a family known to
            have one; an OpenType feature's tag such as "ss01"; "upper-slot" or "lower-slot": a font
            of capitals that keeps it in its I or in its i; "none".
        crossbar_in: What gets it, in English: the "pronoun" and its short forms, or
            "pronoun-and-initials" with dots, such as A.I.
        dashes: "as-typed", or every break in speech as "double-hyphen" or "em-dash".
        ellipses: "as-typed", or every ellipsis as "three-dots" or one "ellipsis-character".
        quotes: "as-typed", "curly" (straight quotes and apostrophes become those of the language),
            or "straight".
        keep_case: Words with small letters that stay small among capitals, as they are lettered:
            "MacLAREN", "d'ARC". A star ends the beginning of a name, kept before a capital: "Mc*".

    Raises:
        FontError: When there is no such habit.

    >>> Habits(dashes="double-hyphen").dashes, Habits().keep_case
    ('double-hyphen', ('Mc*',))
    """

    emphasis: Emphasis = "bold-italic"
    crossbar: str = "auto"
    crossbar_in: CrossbarIn = "pronoun"
    dashes: Dashes = "as-typed"
    ellipses: Ellipses = "as-typed"
    quotes: Quotes = "as-typed"
    keep_case: tuple[str, ...] = ("Mc*",)

    def __post_init__(self) -> None:
        one_of("a meaning of emphasis marks", self.emphasis, EMPHASES)
        one_of("a habit of dashes", self.dashes, DASHES)
        one_of("a habit of ellipses", self.ellipses, ELLIPSES)
        one_of("a habit of quotes", self.quotes, QUOTES)
        one_of("a place for the crossbar I", self.crossbar_in, CROSSBAR_IN)
        if self.crossbar not in CROSSBARS and not _is_feature(self.crossbar):
            raise FontError(
                f"no crossbar I comes from {self.crossbar!r}",
                advice=f"choose from {', '.join(CROSSBARS)}, or a feature's tag such as ss01",
            )
        object.__setattr__(self, "keep_case", _checked_words(self.keep_case))


def one_of(what: str, value: object, known: Sequence[str]) -> None:
    """Complain unless the value is one of those known."""
    if value not in known:
        raise FontError(f"{what} is not {value!r}", advice=f"choose from {', '.join(known)}")


def _is_feature(tag: object) -> bool:
    return isinstance(tag, str) and _FEATURE.fullmatch(tag) is not None


def _checked_words(words: Sequence[str]) -> tuple[str, ...]:
    if isinstance(words, str):
        words = (words,)
    kept = tuple(words)
    if len(kept) > MOST_KEPT:
        raise FontError(
            f"{len(kept)} words keep their case, at most {MOST_KEPT} may",
            advice="list the names of this book alone",
        )
    for word in kept:
        if not isinstance(word, str) or not _KEPT.fullmatch(word) or word.upper() == word:
            raise FontError(
                f"{word!r} is no word with small letters among capitals",
                advice="give a name as it is lettered, MacLAREN, or a beginning of names, Mc*",
            )
    return kept
