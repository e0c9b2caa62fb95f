"""Emphasis marks: `*so*`, `**so**`, `_so_` or `***so***` in a script.

By default all of them mean the trade's one emphasis, bold italic (common practice, no source). They
pair and nest by the rules of CommonMark 0.31.2, section 6.2, those of its underscore for both
characters: a mark inside a word is none ("2*3", "snake_case"). What CommonMark does not know is a
curse: "****" and "@#*!" keep their stars, as does anything without a letter between its marks.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.style.habits import Emphasis

EMPHASIS: Style = "bold italic"

LONGEST_MARK = 3
"""A run of more marks is no emphasis: "****" stands for a curse."""

SHOWN = 24
"""How much of a text a stray mark is shown with, characters."""

UNSPACED_FROM = "\u0e00"
_UNSPACED = re.compile(
    "[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3005-\u3007\u3040-\u30ff\u3400-\u9fff"
    "\uf900-\ufaff\uff66-\uff9d\U00020000-\U0003ffff]"
)
"""Thai, Lao, Burmese, Khmer, Japanese and Chinese letters."""

_MARKS = re.compile(r"[*_]+")
_RUN = re.compile(r"\*+|_+")
_WORD = re.compile(r"\S+")
_LETTER = re.compile(r"[^\W_]")
_CURSE = re.compile("[@#$%&§¶^~+=<>|/€£¥†‡☠💣💥🌀\\\\]")
_MASKED = re.compile(r"(?<!\w)\w{1,2}\*{2,3}(?!\w)")
_COMMON = frozenset({"", " ", ".", ",", "!", "?", "-"})
_STYLES: dict[tuple[bool, bool], Style] = {
    (False, False): "regular",
    (False, True): "bold",
    (True, False): "italic",
    (True, True): "bold italic",
}


class Span(NamedTuple):
    """A stretch of text in one style."""

    text: str
    style: Style


class Turn(NamedTuple):
    """One end of an emphasis: where its marks stand, and whether it opens (+1) or closes (-1)."""

    start: int
    end: int
    step: int


@dataclass(slots=True)
class _Mark:
    """A run of one mark; its ends draw together as its characters find partners."""

    start: int
    end: int
    char: str
    opens: bool
    closes: bool
    size: int


def emphasis_spans(text: str, *, emphasis: Emphasis = "bold-italic") -> tuple[Span, ...]:
    """The text without its emphasis marks, cut where the style changes.

    Args:
        text: The text with its marks.
        emphasis: What the marks mean, see `Habits`.

    Returns:
        Spans in order, none empty; neighbours differ in style. Marks that do not pair are text.

    >>> [(span.text, span.style) for span in emphasis_spans("That is *not* a gate, 2*3.")]
    [('That is ', 'regular'), ('not', 'bold italic'), (' a gate, 2*3.', 'regular')]
    >>> [span.style for span in emphasis_spans("**very *so* much**", emphasis="as-marked")]
    ['bold', 'bold italic', 'bold']
    """
    if "*" not in text and "_" not in text:
        return (Span(text, "regular"),) if text else ()
    turns, _ = _paired(text)
    depths = [0, 0]
    at, pieces = 0, []
    for start, end, step in turns:
        pieces.append((_style(depths, emphasis), text[at:start]))
        depths[end - start - 1] += step
        at = end
    pieces.append((_style(depths, emphasis), text[at:]))
    joined = (
        (style, "".join(part for _, part in group))
        for style, group in groupby((p for p in pieces if p[1]), key=lambda piece: piece[0])
    )
    return tuple(Span(part, style) for style, part in joined)


def stray_marks(text: str) -> tuple[str, ...]:
    """The emphasis marks of a text that could open or close emphasis and have no partner.

    Returns:
        Each with the word it stands at, for a finding: they are set as typed. Marks inside words,
        between spaces, in curses and in words with masked letters ("s***") are none.

    >>> stray_marks("He is *not here. 2*3 ****")
    ('*not',)
    """
    if "*" not in text and "_" not in text:
        return ()
    _, left = _paired(text)
    shown = []
    for mark in left:
        first = max(text.rfind(space, 0, mark.start) for space in " \n\t\r") + 1
        words = text[max(first, mark.start - SHOWN) : mark.end + SHOWN].split()
        if words and not _MASKED.match(words[0]):
            shown.append(words[0][:SHOWN])
    return tuple(dict.fromkeys(shown))


def _style(depths: list[int], emphasis: Emphasis) -> Style:
    """The style inside so many pairs of one mark and of two."""
    if emphasis == "as-marked":
        return _STYLES[depths[0] > 0, depths[1] > 0]
    return EMPHASIS if emphasis == "bold-italic" and any(depths) else "regular"


@lru_cache(maxsize=16)
def _paired(text: str) -> tuple[tuple[Turn, ...], tuple[_Mark, ...]]:
    """The ends of every emphasis in order, and the marks left over. Each text is read twice.

    CommonMark 0.31.2, "An algorithm for parsing nested emphasis and links": a stack of open marks,
    and below which of its places no partner can be found; so a text is read once.
    """
    turns: list[Turn] = []
    left: list[_Mark] = []
    waiting: list[_Mark] = []
    bottoms: dict[tuple[str, bool, int], int] = {}
    for marks in _marks(text):
        left += marks
        if marks[0].closes:
            for mark in marks:
                _close(mark, waiting, bottoms, turns)
        if marks[0].opens:
            waiting += [mark for mark in marks if mark.start < mark.end]
    return tuple(sorted(turns)), tuple([mark for mark in left if mark.start < mark.end])


def _close(
    mark: _Mark,
    waiting: list[_Mark],
    bottoms: dict[tuple[str, bool, int], int],
    turns: list[Turn],
) -> None:
    """Pair a closing mark with open ones until nothing is left of it, or no partner."""
    key = (mark.char, mark.opens, mark.size % 3)
    while mark.start < mark.end:
        at = len(waiting) - 1
        bottom = bottoms.get(key, -1)
        while at >= 0 and waiting[at].start > bottom and not _are_partners(waiting[at], mark):
            at -= 1
        if at < 0 or waiting[at].start <= bottom:
            bottoms[key] = waiting[-1].start if waiting else bottom
            return
        opening = waiting[at]
        del waiting[at + 1 :]
        used = 2 if min(opening.end - opening.start, mark.end - mark.start) > 1 else 1
        turns.append(Turn(opening.end - used, opening.end, 1))
        turns.append(Turn(mark.start, mark.start + used, -1))
        opening.end -= used
        mark.start += used
        if opening.start == opening.end:
            waiting.pop()


def _are_partners(opening: _Mark, closing: _Mark) -> bool:
    """Whether two marks may pair (CommonMark 0.31.2, section 6.2, rules 9 and 10)."""
    if opening.char != closing.char:
        return False
    both = opening.closes or closing.opens
    odd = (opening.size + closing.size) % 3 or not (opening.size % 3 or closing.size % 3)
    return not both or bool(odd)


def _marks(text: str) -> Iterator[list[_Mark]]:
    """The runs of marks that can open or close, in order, those that touch together."""
    curses = _curses(text) if _CURSE.search(text) else ()
    for touching in _MARKS.finditer(text):
        start, end = touching.span()
        before, after = text[start - 1 : start], text[end : end + 1]
        opens = bool(after.strip()) and not _is_letter(before)
        closes = bool(before.strip()) and not _is_letter(after)
        if not (opens or closes) or start in curses or (after and unicodedata.combining(after)):
            continue
        runs = _RUN.findall(touching[0])
        if max(map(len, runs)) > LONGEST_MARK:
            continue
        found, at = [], start
        for run in runs:
            found.append(_Mark(at, at + len(run), run[0], opens, closes, len(run)))
            at += len(run)
        yield found


def _is_letter(char: str) -> bool:
    """Whether a character is a part of a word: no white space, punctuation or symbol.

    In scripts that set no spaces between words, emphasis begins and ends beside any letter.
    """
    if char >= UNSPACED_FROM and _UNSPACED.match(char):
        return False
    if char.isalnum() or char in _COMMON:
        return char.isalnum()
    return not char.isspace() and unicodedata.category(char)[0] not in "PS"


def _curses(text: str) -> set[int]:
    """Where marks stand in words of symbols alone, such as "@#*!".

    A mark at one end of such a word may open or close emphasis; marks at both ends are a curse's.
    """
    found: set[int] = set()
    for word in _WORD.finditer(text):
        if _CURSE.search(word[0]) and not _LETTER.search(word[0]):
            start, end = word.span()
            if text[start] not in "*_" or text[end - 1] not in "*_":
                start += len(word[0]) - len(word[0].lstrip("*_"))
                end -= len(word[0]) - len(word[0].rstrip("*_"))
            found.update(range(start, end))
    return found
