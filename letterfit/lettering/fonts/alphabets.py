"""The letters that a language needs, and which of them a set of characters lacks.

The alphabets in `alphabets.json` are the main exemplar characters of Unicode CLDR 48.2 (npm
cldr-misc-full, Unicode License v3, beside it), small letters, a run of letters written as its
first and last with a hyphen between. Taken out by hand: the apostrophes that are letters in a few
languages, since everyone types them as the apostrophe, and the loose acute of a stressed Dutch ij,
which hardly any font has. Put in: the inverted marks of Spanish, Asturian and Galician spelling.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from string import ascii_lowercase

SMALL_ONLY = frozenset({"chr", "ka"})
"""Cherokee and Georgian: their capitals are newer than most of their fonts (Unicode 8 and 11)."""

DOTTED = frozenset({"az", "tr"})
"""Where the capital of i is İ (Unicode, SpecialCasing.txt)."""

NEARLY = 8
"""A language is nearly covered when no more letters than these are lacking, and fewer than a
quarter of them."""


@dataclass(frozen=True, slots=True)
class Language:
    """A language and its letters.

    Args:
        tag: Its BCP 47 code.
        name: Its English name.
        letters: All letters its texts need, small letters and capitals.
    """

    tag: str
    name: str
    letters: frozenset[str]


@dataclass(frozen=True, slots=True)
class NearLanguage:
    """A language that is nearly covered.

    Args:
        tag: Its BCP 47 code.
        name: Its English name.
        missing: The letters that are lacking, in order.

    >>> import letterfit as lf
    >>> near = lf.font_facts(lf.open_typeface("bangers")).nearly
    >>> [language.missing for language in near if language.tag == "ig"]
    ['Ṅṅ']
    """

    tag: str
    name: str
    missing: str


def covered(chars: frozenset[str]) -> tuple[str, ...]:
    """The tags of the languages whose letters are all there, sorted.

    >>> covered(frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"))[:3]
    ('ceb', 'en', 'id')
    """
    return tuple(tag for tag, language in languages().items() if language.letters <= chars)


def nearly_covered(chars: frozenset[str]) -> tuple[NearLanguage, ...]:
    """The languages of which only a few letters are lacking, sorted by tag.

    >>> latin = "abcdefghijklmnopqrstuvwxyz"
    >>> near = nearly_covered(frozenset(latin + latin.upper() + "äöüÄÖÜ"))
    >>> next(language.missing for language in near if language.tag == "de")
    'ß'
    """
    near = []
    for tag, language in languages().items():
        if len(language.letters) > len(chars) + NEARLY:
            continue  # thousands of Han need not be gone through
        missing = language.letters - chars
        if 0 < len(missing) <= min(NEARLY, len(language.letters) // 4):
            near.append(NearLanguage(tag, language.name, "".join(sorted(missing))))
    return tuple(near)


@cache
def languages() -> Mapping[str, Language]:
    """The languages by tag, sorted."""
    folder = resources.files("letterfit.lettering.fonts")
    text = folder.joinpath("alphabets.json").read_text("utf-8")
    return {tag: _language(tag, *entry) for tag, entry in json.loads(text).items()}


def _language(tag: str, name: str, written: str) -> Language:
    """Languages written with Latin letters need all of A to Z: for names, and for foreign words."""
    small = set(_letters(written))
    if "a" in small:
        small |= set(ascii_lowercase)
    capitals = set() if tag in SMALL_ONLY else {c for c in "".join(small).upper() if c.isalpha()}
    if tag in DOTTED:
        capitals.add("İ")
    return Language(tag, name, frozenset(small | capitals))


def _letters(written: str) -> Iterator[str]:
    """The letters of an alphabet as it is written in the file.

    >>> "".join(_letters("a-eäx-z"))
    'abcdeäxyz'
    """
    for k, char in enumerate(written):
        if char == "-" and 0 < k < len(written) - 1:
            yield from map(chr, range(ord(written[k - 1]) + 1, ord(written[k + 1])))
        else:
            yield char
