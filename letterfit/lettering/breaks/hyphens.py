"""Hyphens: soft hyphens put where the words of a language may be cut, when that is asked for.

The points come from the dictionaries of `pyphen` (Liang's patterns, "Word Hy-phen-a-tion by
Com-put-er", 1983; the files are those of LibreOffice). A point becomes a soft hyphen in the text,
so what follows treats it as one that was typed. Left whole are stutters, drawn-out words, names,
words with a digit or a typed soft hyphen, and short words; and so is a point where the language
would spell the word otherwise ("asszony", cut "asz-szony"), because the letters set are those of
the script.
"""

import re
from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

from letterfit.errors import FontError
from letterfit.lettering.breaks.prices import SHY
from letterfit.lettering.breaks.rules import BreakRules
from letterfit.lettering.breaks.stuttering import stutter_hyphens
from letterfit.lettering.style.casing import base_language

if TYPE_CHECKING:
    from pyphen import Pyphen

LEAST_LETTERS = 5
"""Letters of the shortest word that is cut: common practice, no source."""

MOST_LETTERS = 60
"""Letters of the longest; beyond it a word is a scream or a slip."""

BEFORE, AFTER = 2, 3
"""Letters left on each side of a point at least (plain TeX, \\lefthyphenmin, \\righthyphenmin)."""

NOUNS_IN_CAPITALS = frozenset({"de", "lb"})
"""Languages that write every noun with a capital: there a capital does not mean a name."""

_CHUNK = re.compile(r"[^\s—―–…/]+")
_WORD = re.compile(r"(?:[^\W\d_]|[\u0300-\u036f])+")
_NEVER = re.compile(
    r"[\d@_\\\u00ad]|([^\W\d_])\1{3}|([aeiouyäöüéаеиоуыэюя])\2\2|\.\w", re.IGNORECASE
)
"""Of a chunk: digits, addresses, typed soft hyphens, drawn-out letters (German has three consonants
in a row), abbreviations."""
_DIAERESIS = frozenset("äëïöüÄËÏÖÜ")
"""In Dutch it is lost at a point before it, "zee-egel" for "zeeëgel"; pyphen does not say so."""

_SHARP_S = frozenset("ß")
"""In capitals it is two letters with the point between them, "STRAS-SE" for "Stra-ße"."""

_ENDS_SENTENCE = re.compile(r"[.!?…:—―–]['\"’”»)]*\s*['\"‘“«(¡¿]*$|^\W*$")


def hyphenated(parts: Sequence[str], *, language: str, rules: BreakRules) -> tuple[str, ...]:
    """The parts of a text with a soft hyphen at every point where a word may be cut.

    Args:
        parts: A text as typed, before it is put in capitals, in parts, such as one for each style.
        language: BCP 47 tag; a language without a dictionary is left as it is.
        rules: Say whether words are hyphenated at all.

    Raises:
        FontError: When words shall be hyphenated and pyphen is not installed.

    >>> french = ["La marée ", "descend", ", capitaine !"]
    >>> cut = hyphenated(french, language="fr", rules=BreakRules(hyphenate=True))
    >>> [part.replace(SHY, "-") for part in cut]
    ['La ma-rée ', 'des-cend', ', ca-pi-taine !']
    """
    english = base_language(language) == "en"
    if not (rules.hyphenate_english if english else rules.hyphenate):
        return tuple(parts)
    points = hyphen_points("".join(parts), language=language)
    found, start = [], 0
    for part in parts:
        inside = (p - start for p in points if start < p <= start + len(part))
        found.append(SHY.join(part[a:b] for a, b in pairwise([0, *inside, len(part)])))
        start += len(part)
    return tuple(found)


def hyphen_points(text: str, *, language: str) -> tuple[int, ...]:
    """The offsets of a text, as typed, at which its words may be cut.

    Args:
        text: The text before it is put in capitals: there names can be told.
        language: BCP 47 tag.

    Raises:
        FontError: When pyphen is not installed.

    >>> hyphen_points("Ja, Hafenmeister!", language="de")
    (6, 9, 13)
    """
    dictionary = _dictionary(language)
    if dictionary is None:
        return ()
    shouted = text.upper() == text
    base = base_language(language)
    names, lost = base not in NOUNS_IN_CAPITALS, _DIAERESIS if base == "nl" else _SHARP_S
    found: list[int] = []
    for chunk in _CHUNK.finditer(text):
        if _NEVER.search(chunk[0]) or any(stutter_hyphens(chunk[0])):
            continue
        for match in _WORD.finditer(chunk[0]):
            word, at = match[0], chunk.start() + match.start()
            if not LEAST_LETTERS <= len(word) <= MOST_LETTERS:
                continue
            if not shouted and (word.isupper() or (names and _is_name(text, word, at))):
                continue
            # A point with data changes the spelling.
            points = [int(p) for p in dictionary.positions(word) if p.data is None]
            found += [at + p for p in points if word[p] not in lost]
    return tuple(found)


def _is_name(text: str, word: str, at: int) -> bool:
    """Whether a word has a capital that no beginning of a sentence gives it."""
    return word[0].isupper() and not _ENDS_SENTENCE.search(text[max(0, at - 8) : at])


@cache
def _dictionary(language: str) -> "Pyphen | None":
    try:
        import pyphen  # noqa: PLC0415 - optional, and reads its folder of dictionaries at import
    except ImportError as error:
        raise FontError(
            "hyphenation needs the package pyphen", advice="pip install pyphen"
        ) from error
    name = pyphen.language_fallback(language)
    return pyphen.Pyphen(lang=name, left=BEFORE, right=AFTER) if name else None
