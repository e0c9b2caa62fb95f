"""What ICU says of a text: its line breaks, its phrases, its clusters, as offsets of characters."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from icu4py.breakers import BaseBreaker, CharacterBreaker, LineBreaker, WordBreaker

from letterfit.lettering.breaks.units import index_of_units
from letterfit.lettering.style.casing import base_language

FIRST_CJK = "\u1100"
"""Below it stands no character of Chinese, Japanese or Korean (Unicode 17, Blocks.txt)."""

LONGEST_PHRASED = 2000
"""Characters. In a longer text phrases are not looked for: ICU's search takes the square of the
time, and no balloon holds it."""


def unicode_breaks(text: str, locale: str) -> list[int]:
    """UAX #14 line breaks, the end included.

    Args:
        text: The text.
        locale: An ICU locale, such as "en" or "ja@lb=strict".
    """
    return _ends(text, LineBreaker(text, locale))


def cluster_ends(text: str) -> list[int]:
    """The ends of what a reader takes for one character (UAX #29)."""
    return _ends(text, CharacterBreaker(text, "en"))


def clusters(text: str) -> Iterator[tuple[int, int]]:
    r"""The same, each as (start, end).

    >>> list(clusters("e\u0301a"))
    [(0, 2), (2, 3)]
    """
    return pairwise([0, *cluster_ends(text)])


def phrase_ends(text: str, language: str) -> list[int]:
    """Where phrases of Japanese end, or words of Chinese and Korean.

    Japanese and Korean by ICU's phrase breaks (UTS #35, `lw=phrase`), Chinese by its dictionary.

    Args:
        text: The text.
        language: BCP 47 tag.

    Returns:
        Nothing for another language, or for a text too long.
    """
    base = base_language(language)
    asked = base in {"ja", "ko", "zh"} and 0 < len(text) <= LONGEST_PHRASED
    return list(_phrases(text, base)) if asked else []


@lru_cache(maxsize=64)
def _phrases(text: str, language: str) -> tuple[int, ...]:
    """Asked twice of each text: which breaks are forbidden, and what the others cost."""
    if language == "zh":
        return tuple(_ends(text, WordBreaker(text, language)))
    return tuple(unicode_breaks(text, f"{language}@lw=phrase"))


def _ends(text: str, breaker: BaseBreaker) -> list[int]:
    """ICU counts in UTF-16."""
    ends = [end for _, end in breaker.segments()]
    index_of = index_of_units(text)
    return [index_of[end] for end in ends] if index_of else ends
