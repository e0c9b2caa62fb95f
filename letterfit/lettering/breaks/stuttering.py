"""Stutters: a speaker who begins a word again, and what is no stutter though it looks like one.

A stutter is one to three letters, a hyphen or dash, and a word that begins with the same letters:
"N-NO", "TH-THE", "STR-STRANGE"; of two letters the first alone need come again ("WH-WE"). With
dots it is a stutter only after one letter ("W...WAIT"); "NO...NOT ME" is a speaker who halts. A
syllable said again and again is none: "HA-HA-HA", "NO-NO", "BYE-BYE". Common practice, no source.
"""

import re
import unicodedata
from collections.abc import Iterator

_JOINT = re.compile(r"[-‐–—]++|\.{2,}+|…++")
_HEAD = 16
"""Characters before the hyphen in which the head is looked for: three letters and their accents."""
_FIRST = re.compile(r"[^\W\d_]")
_LETTERS = re.compile(r"(?:[^\W\d_][\u0300-\u036f]{0,4}+){1,8}")
_LAST = re.compile(r"(?:(?<![^\W_])(?<![^\W_]['’]))((?:[^\W\d_][\u0300-\u036f]{0,4}+){1,3})\Z")
_VOWELS = frozenset("aeiouyαεηιουωаеиоуыэюяёіїє")


def stutter_hyphens(text: str) -> Iterator[int]:
    """Where each hyphen of a stutter ends.

    >>> [list(stutter_hyphens(text)) for text in ("N-N-NO!", "TH-THE", "HA-HA", "W...WAIT")]
    [[2, 4], [3], [], [4]]
    """
    for joint in _JOINT.finditer(text):
        start, end = joint.span()
        if not _FIRST.match(text, end):
            continue
        head = _LAST.search(text[max(0, start - _HEAD) : start])
        word = _LETTERS.match(text, end)
        if head and word and _is_stutter(_bare(head[1]), _bare(word[0]), dots=joint[0][0] in ".…"):
            yield end


def _is_stutter(head: str, word: str, *, dots: bool) -> bool:
    if dots:
        return len(head) == 1 and word != head and word.startswith(head)
    if len(head) == 1:
        return word.startswith(head)
    if word == head:  # "TH-TH-THE", but "HA-HA"; "WE-WE-WELL" is held together at its end only
        return len(head) == 2 and _VOWELS.isdisjoint(head)
    return word.startswith(head if len(head) == 3 else head[0])


def _bare(letters: str) -> str:
    """The letters without case and accents."""
    if letters.isascii():
        return letters.lower()
    loose = unicodedata.normalize("NFD", letters.casefold())
    return "".join(char for char in loose if not unicodedata.combining(char))
