"""How the characters of a vertical text stand: upright, turned, or side by side in one cell.

Unicode says what stands upright and what is turned (`orientation`). On top
of it, as letterers of Japanese set them:

- one or two digits stand upright side by side in one cell, tate-chu-yoko (W3C JLREQ, 2.3.2; CSS
  Writing Modes Level 3, 9.1, `text-combine-upright`), however wide they were typed;
- so do two or three exclamation and question marks, and a lone one (common practice, no source);
- a Latin letter by itself stands upright, words of Latin are turned with their spaces, digits and
  punctuation (JLREQ, 2.3.2).
"""

import re
import unicodedata
from collections.abc import Iterator
from itertools import groupby
from typing import Literal

from letterfit.lettering.vertical.orientation import orientation

Stance = Literal["upright", "turned", "together", "stroke"]
"""Upright one under the other; turned by 90 degrees clockwise; upright side by side in one cell; or
dots and dashes, which are drawn along the column."""

DIGITS = 2
"""The longest number that is set in one cell."""

MARKS = 3
"""The most exclamation and question marks in one cell."""

STROKES = "…‥—―–‒⸺⸻~-_"

ROUND_WORDS = "…‥—―⸺⸻ "
"""What stands round a Latin word without being part of it."""

Kind = Literal["upright", "word", "loose"]
"""Unicode's U, Tu and Tr; R as part of Latin words; R apart from words."""

_WIDE = {code: code - 0xFEE0 for code in (*range(0xFF10, 0xFF1A), 0xFF01, 0xFF1F)}
_DIGIT_RUNS = re.compile(r"[0-9]+")
_MARK_RUNS = re.compile(r"[!?]+")
_BETWEEN_STROKES = re.compile(f"[^\0{ROUND_WORDS.strip()}]+")
_LONGER_NUMBER = re.compile(r"[0-9]+(?:[.,:/-][0-9]+)+")


def stances(text: str, *, digits: int = DIGITS) -> list[tuple[int, int, Stance]]:
    """Cut a text where the stance of its characters changes; each cell is a stretch of its own.

    Args:
        text: As set.
        digits: The longest number that is set in one cell.

    Returns:
        Stretches (start, end, stance) without gaps.

    >>> [(start, end, stance) for start, end, stance in stances("潮位12!?")]
    [(0, 2, 'upright'), (2, 4, 'together'), (4, 6, 'together')]
    >>> [(start, end, stance) for start, end, stance in stances("待て……LOCK 9だ")]
    [(0, 2, 'upright'), (2, 4, 'stroke'), (4, 10, 'turned'), (10, 11, 'upright')]
    """
    kinds, letters = _kinds(text)
    plain = narrow(text)
    cells = [*letters, *_numbers(plain, kinds, digits), *_marks(plain, kinds)]
    stands = [_stance(char, kind) for char, kind in zip(text, kinds, strict=True)]
    cell_of: dict[int, int] = {}
    for start, end in cells:
        cell_of.update(dict.fromkeys(range(start, end), start))
        stands[start:end] = ["together"] * (end - start)
    found: list[tuple[int, int, Stance]] = []
    for (stance, _), group in groupby(range(len(text)), lambda k: (stands[k], cell_of.get(k))):
        members = list(group)
        found.append((members[0], members[-1] + 1, stance))
    return found


def narrow(text: str) -> str:
    """The text with full-width digits, ! and ? as their plain forms, character for character.

    In a cell they stand side by side: CSS Writing Modes Level 3, 9.1.2, undoes full width there.

    >>> narrow("１２！？")
    '12!?'
    """
    return text.translate(_WIDE)


def _kinds(text: str) -> tuple[list[Kind], list[tuple[int, int]]]:
    """The kind of every character, and where a Latin letter stands by itself."""
    kinds: list[Kind] = []
    for char in text:
        follows = kinds and unicodedata.category(char) in {"Mn", "Mc", "Me", "Cf"}
        kinds.append(kinds[-1] if follows else "loose" if orientation(char) == "R" else "upright")
    letters: list[tuple[int, int]] = []
    last = 0
    for start, end in _latin("".join(map(_masked, text, kinds))):
        if _is_letter(text[start:end]):
            letters.append((start, end))
            continue
        if last and all(char in ROUND_WORDS for char in text[last:start]):
            start = last  # noqa: PLW2901 - dots between two words are theirs
        kinds[start:end] = ["word"] * (end - start)
        last = end
    return kinds, letters


def _masked(char: str, kind: Kind) -> str:
    return char if kind == "loose" else "\0"


def _latin(masked: str) -> Iterator[tuple[int, int]]:
    """Where Latin stands in a text whose upright characters are masked, letters and words."""
    for found in _BETWEEN_STROKES.finditer(masked):
        part = found[0].rstrip(" ").lstrip("!? ")  # marks before a word are not the word's
        if _is_letter(part.rstrip("!?")):
            part = part.rstrip("!?")
        if any(map(str.isalpha, part)):
            start = masked.index(part, found.start())
            yield start, start + len(part)


def _is_letter(text: str) -> bool:
    """Whether a text is one letter, with its accents."""
    composed = unicodedata.normalize("NFC", text)
    return len(composed) == 1 and composed.isalpha()


def _stance(char: str, kind: Kind) -> Stance:
    """How a character stands that is in no cell."""
    if kind == "upright":
        return "upright"
    return "stroke" if kind == "loose" and char in STROKES else "turned"


def _numbers(plain: str, kinds: list[Kind], digits: int) -> Iterator[tuple[int, int]]:
    """Numbers short enough for a cell, that are no part of a longer number or a Latin word."""
    longer = {k for found in _LONGER_NUMBER.finditer(plain) for k in range(*found.span())}
    for found in _DIGIT_RUNS.finditer(plain):
        start, end = found.span()
        if end - start <= digits and start not in longer and _takes_cell(kinds[start:end]):
            yield start, end
            if plain[end : end + 1] == "%" and kinds[end] == "loose":
                yield end, end + 1


def _marks(plain: str, kinds: list[Kind]) -> Iterator[tuple[int, int]]:
    """Exclamation and question marks in one cell; more than three stand one by one."""
    for found in _MARK_RUNS.finditer(plain):
        start, end = found.span()
        if end - start <= MARKS and _takes_cell(kinds[start:end]):
            yield start, end
        elif end - start > MARKS:
            yield from ((k, k + 1) for k in range(start, end) if kinds[k] == "loose")


def _takes_cell(kinds: list[Kind]) -> bool:
    """Whether characters are no part of a word, and more than one that stands anyway."""
    return "word" not in kinds and (len(kinds) > 1 or kinds[0] == "loose")
