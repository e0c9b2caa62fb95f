"""Stutters: a speaker who begins a word again, and what is no stutter though it looks like one.

A stutter is one to three letters, a hyphen or dash, and a word that begins with the same letters:
"N-NO", "TH-THE", "STR-STRANGE"; of two letters the first alone need come again ("WH-WE"). With
dots it is a stutter only after one letter ("W...WAIT"); "NO...NOT ME" is a speaker who halts. A
syllable said again and again is none: "HA-HA-HA", "NO-NO", "BYE-BYE". Common practice, no source.
"""

import re
import unicodedata
from collections.abc import Iterator

_LETTER = r"(?:[^\W\d_][\u0300-\u036f]*+)"
_JOINT = r"(?:[-‐–—]++|\.{2,}+|…++)"
_HEAD = re.compile(rf"(?<![^\W_])(?<![^\W_]['’])({_LETTER}{{1,3}}+)({_JOINT})(?={_LETTER})")
_REST = re.compile(rf"{_LETTER}{{1,8}}")
_VOWELS = frozenset("aeiouyαεηιουωаеиоуыэюяёіїє")


def stutter_hyphens(text: str) -> Iterator[int]:
    """Where each hyphen of a stutter ends.

    >>> [list(stutter_hyphens(text)) for text in ("N-N-NO!", "TH-THE", "HA-HA", "W...WAIT")]
    [[2, 4], [3], [], [4]]
    """
    return (match.end() for match in _HEAD.finditer(text) if _is_stutter(text, match))


def _is_stutter(text: str, match: re.Match[str]) -> bool:
    head = _bare(match[1])
    rest = _REST.match(text, match.end())
    word = _bare(rest[0] if rest else "")
    if match[2][0] in ".…":
        return len(head) == 1 and word != head and word.startswith(head)
    if len(head) == 1:
        return word.startswith(head)
    if word == head:  # "TH-TH-THE", but "HA-HA"; "WE-WE-WELL" is held together at its end only
        return len(head) == 2 and _VOWELS.isdisjoint(head)
    return word.startswith(head if len(head) == 3 else head[0])


def _bare(letters: str) -> str:
    """The letters without case and accents."""
    loose = unicodedata.normalize("NFD", letters.casefold())
    return "".join(char for char in loose if not unicodedata.combining(char))
