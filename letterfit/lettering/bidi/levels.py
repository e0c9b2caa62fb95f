"""The order of mixed text: embedding levels by the Unicode Bidirectional Algorithm.

The whole of UAX #9 (revision 50, Unicode 17) but for L3 and L4, which are the shaper's. Levels
belong to a text and do not change with its line breaks; the order belongs to a line. Classes of
characters are those of Unicode 17 on every Python (see `classes`).
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from letterfit.lettering.bidi.classes import BRACKET, PLAIN, bidi_letters
from letterfit.lettering.bidi.explicit import (
    REMOVED,
    explicit,
    first_direction,
    formatting,
    matching_ends,
)
from letterfit.lettering.bidi.resolving import resolved_levels
from letterfit.lettering.style.casing import base_language

FROM_THE_RIGHT = frozenset({"ar", "arc", "ckb", "dv", "fa", "he", "ps", "sd", "ug", "ur", "yi"})
"""Languages written from right to left (Unicode CLDR 48, characterOrder; from memory)."""

_PARAGRAPH = re.compile("[^B]*B?")
_SPACES = "WijkqlropdX"
_SPACING = re.compile(f"[{_SPACES}]+[GB]?|[GB]")
_ISOLATES_ARE_NEUTRAL = str.maketrans("ijkq", "OOOO")
_NO_REMOVED = str.maketrans("", "", REMOVED)
_SPECIAL = re.compile("[lropdijkqX]")


@dataclass(frozen=True, slots=True)
class Levels:
    """Embedding levels of a text.

    Args:
        base: The level of the text as a whole: 0 from left to right, 1 from right to left.
        levels: One level for each character; odd ones read from right to left.
    """

    base: int
    levels: bytes

    @property
    def rtl(self) -> bool:
        """Whether the text as a whole reads from right to left."""
        return self.base % 2 == 1

    @property
    def plain(self) -> bool:
        """Whether all of it reads from left to right, at one level."""
        return not self.levels.strip(b"\0")


def embedding_levels(text: str, *, base: int | None = None) -> Levels:
    """The embedding levels of a text, after rule I2.

    Args:
        text: The text, one paragraph; where a paragraph separator stands in it, what follows is
            resolved by itself at the same base.
        base: 0 or 1, the level of the paragraph (HL1); None takes it from the first strong
            character outside isolates (P2, P3).

    Returns:
        A level for each character, at most 126. Explicit formatting and boundary neutrals, which
        X9 removes, have the level of what stands before them, or at the very start of what stands
        after them, so that they cut no run in two (section 5.2).

    >>> found = embedding_levels("אב OK 12")
    >>> found.base, list(found.levels)
    (1, [1, 1, 1, 2, 2, 2, 2, 2])
    """
    if not base and (text.isascii() or PLAIN.fullmatch(text)):
        return Levels(0, bytes(len(text)))
    letters = bidi_letters(text)
    if base is None:
        base = first_direction(letters, matching_ends(letters))
    if "B" not in letters:
        return Levels(base, _paragraph(text, letters, base))
    parts = [match.span() for match in _PARAGRAPH.finditer(letters)]
    return Levels(
        base,
        b"".join(_paragraph(text[start:end], letters[start:end], base) for start, end in parts),
    )


def balloon_levels(text: str, *, language: str = "en") -> Levels:
    """The embedding levels of a balloon's words, which read as most of their letters do.

    A Hebrew balloon that begins with a Latin name stays a Hebrew one. UAX #9 lets a higher protocol
    set the paragraph's level (HL1); where letters are even, the first one decides (P2, P3).

    Args:
        text: The words.
        language: BCP 47 tag; in a language that is written from the right, one letter of its own
            is enough.

    >>> balloon_levels("Wenna, בואי הנה!").base, embedding_levels("Wenna, בואי הנה!").base
    (1, 0)
    """
    if text.isascii() or PLAIN.fullmatch(text):
        return Levels(0, bytes(len(text)))
    letters = bidi_letters(text)
    if base_language(language) in FROM_THE_RIGHT and ("R" in letters or "A" in letters):
        return embedding_levels(text, base=1)
    lean = leaning(text)
    return embedding_levels(text, base=int(lean > 0) if lean else None)


def leaning(text: str) -> int:
    """How many more letters of a text read from right to left than from left to right.

    Letters are the strong characters of UAX #9, table 4.

    >>> leaning("Wenna: בואי!"), leaning("12?!")
    (-1, 0)
    """
    letters = bidi_letters(text)
    return letters.count("R") + letters.count("A") - letters.count("L")


def _paragraph(text: str, letters: str, base: int) -> bytes:
    """The levels of one paragraph whose level is known."""
    side = "LR"[base % 2]
    if not BRACKET.search(text):
        text = ""  # its characters matter for brackets alone
    if not _SPECIAL.search(letters):
        return resolved_levels(letters, text, level=base, sos=side, eos=side)
    shown = letters.translate(_NO_REMOVED)
    if text and len(shown) < len(letters):
        text = "".join([c for c, k in zip(text, letters, strict=True) if k not in REMOVED])
    told = explicit(formatting(letters), base)
    neutral = told.overridden(shown).translate(_ISOLATES_ARE_NEUTRAL)
    levels = bytearray(told.levels)
    for runs, level, sos, eos in told.sequences:
        part = "".join([neutral[start:end] for start, end in runs])
        chars = "".join([text[start:end] for start, end in runs]) if text else ""
        found = resolved_levels(part, chars, level=level, sos=sos, eos=eos)
        at = 0
        for start, end in runs:
            levels[start:end] = found[at : at + end - start]
            at += end - start
    return _with_removed(letters, levels, base) if len(shown) < len(letters) else bytes(levels)


def _with_removed(letters: str, shown: Sequence[int], base: int) -> bytes:
    """Levels of all characters from those of the shown ones."""
    if not shown:
        return bytes([base]) * len(letters)
    levels, place, level = bytearray(), 0, shown[0]
    for letter in letters:
        if letter not in REMOVED:
            level, place = shown[place], place + 1
        levels.append(level)
    return bytes(levels)


def line_levels(text: str, levels: Levels, *, start: int = 0, end: int | None = None) -> bytes:
    """The levels of one line of a text: white space at its end goes back to the base (L1).

    Args:
        text: The whole text.
        levels: Its levels.
        start: Where the line begins.
        end: Where it ends; None at the text's end.

    >>> list(line_levels("אב a  ב", embedding_levels("אב a  ב"), start=0, end=6))
    [1, 1, 1, 2, 1, 1]
    """
    line = levels.levels[start:end]
    base = bytes([levels.base])
    if not line.strip(base):
        return line
    letters = bidi_letters(text[start:end])
    kept = len(letters.rstrip(_SPACES))
    line = line[:kept] + base * (len(line) - kept)
    if "G" in letters or "B" in letters:
        return _parted(line, letters, base)
    return line


def _parted(line: bytes, letters: str, base: bytes) -> bytes:
    """Separators, and white space before them, go back to the base too (L1)."""
    levels = bytearray(line)
    for match in _SPACING.finditer(letters):
        if match[0][-1] in "GB":
            levels[match.start() : match.end()] = base * len(match[0])
    return bytes(levels)


def visual_order(levels: Sequence[int]) -> tuple[int, ...]:
    """The places of a line's characters, or runs, from left to right (L2).

    Args:
        levels: The level of each character or run of one line, in the order of the text.

    >>> visual_order([1, 1, 1, 2, 2])
    (3, 4, 2, 1, 0)
    """
    order = list(range(len(levels)))
    row = bytes(levels)
    if not row.strip(b"\0"):
        return tuple(order)
    for level in range(max(row, default=0), _lowest_odd(row) - 1, -1):
        for match in _at_least(level).finditer(row):
            order[match.start() : match.end()] = order[match.start() : match.end()][::-1]
    return tuple(order)


def _lowest_odd(row: bytes) -> int:
    return min((level for level in set(row) if level % 2), default=256)


@cache
def _at_least(level: int) -> re.Pattern[bytes]:
    """Stretches at a level or higher."""
    return re.compile(b"[" + re.escape(bytes([level])) + b"-\xff]+")
