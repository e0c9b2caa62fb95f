"""Heads: a line is cut into what stands before the colon, in brackets behind it, and the words."""

import re
from dataclasses import dataclass, replace
from typing import Literal

from letterfit.script.names import look_of
from letterfit.script.numbers import number_of

_LONGEST_HEAD = 100
_COLONS = ":：﹕︰"
QUOTES = {"「": "」", "『": "』"}
_DASH = re.compile(r"\s[-–—]{1,3}\s")
_GAP = "   "  # as wide a gap as nobody types inside a name: columns made with the space bar
_OPEN, _CLOSE = "([（［【", ")]）］】"
_MARKS = " *_"
_INDEX = re.compile(
    r"(?:\(?#?(?:\d{1,3}\.)*(\d{1,3})(?:[.):]\)?\s*|\)?\s+[-–—]?\s*)|([①-⑳])\s*)(?=\D)"
)


@dataclass(frozen=True, slots=True)
class Head:
    """What stands before the words of a speech.

    Args:
        name: The name or label, as typed, without brackets.
        brackets: What stands in brackets behind it, without them.
        words: What follows the colon; empty where the words stand on the next lines.
        parted_by: What stands between head and words. "tab" is a wide gap, too; "quotes" are
            Japanese ones, which stay in the words.
    """

    name: str
    brackets: tuple[str, ...]
    words: str
    parted_by: Literal["colon", "tab", "quotes", "dash"] = "colon"


def split_head(text: str, *, dashes: bool = False) -> Head | None:
    """The head and the words of a line that might be spoken, whoever speaks.

    Args:
        text: The line without Markdown shells.
        dashes: Whether names are parted from words by dashes in this script.

    >>> split_head("WENNA (OFF): Hold.")
    Head(name='WENNA', brackets=('OFF',), words='Hold.', parted_by='colon')
    >>> split_head("It is 12:30 and she waits.") is None
    True
    """
    depth = 0
    for at, sign in enumerate(text[:_LONGEST_HEAD]):
        if sign in _OPEN:
            depth += 1
        elif sign in _CLOSE:
            depth -= 1
        elif depth > 0:
            continue
        elif sign in _COLONS and _parts(text, at):
            return _head(text[:at], text[at + 1 :].strip())
        elif sign == "\t" or text.startswith(_GAP, at):
            return _parted(text, at, by="tab")
        elif sign in QUOTES:
            return _quoted(text, at)
        elif dashes and (dash := _DASH.match(text, at)):
            return _parted(text, dash.end() - 1, by="dash")
    return None


def split_index(text: str) -> tuple[int | None, str]:
    """A balloon's number typed before the element, and the element.

    >>> split_index("3. WENNA: Hold."), split_index("12 WENNA: Hold."), split_index("WENNA: 3")
    ((3, 'WENNA: Hold.'), (12, 'WENNA: Hold.'), (None, 'WENNA: 3'))
    """
    number = _INDEX.match(text)
    if number is None:
        return None, text
    return number_of(number[1] or number[2]), text[number.end() :].lstrip()


def take_brackets(text: str) -> tuple[str, tuple[str, ...]]:
    """A head without its brackets and the emphasis round them, and what stood in them.

    >>> take_brackets("WENNA (OFF) [WHISPER]"), take_brackets("WENNA *(off)*")
    (('WENNA', ('OFF', 'WHISPER')), ('WENNA', ('off',)))
    """
    kept: list[str] = []
    brackets: list[str] = []
    depth = start = 0
    for at, sign in enumerate(text):
        if sign in _OPEN:
            if depth == 0:
                kept.append(text[start:at])
                start = at + 1
            depth += 1
        elif sign in _CLOSE and depth:
            depth -= 1
            if depth == 0:
                brackets.append(text[start:at].strip())
                start = at + 1
    # A bracket that is never closed stays in the name, which is then no name.
    kept.append(("(" if depth else "") + text[start:])
    name = " ".join("".join(kept).split())
    return name.rstrip(_MARKS), tuple(b for b in brackets if b)


def _head(before: str, words: str) -> Head | None:
    name, brackets = take_brackets(before.strip())
    return Head(name, brackets, words) if name else None


def _parted(text: str, at: int, *, by: Literal["tab", "dash"]) -> Head | None:
    """WENNA<TAB>words, or WENNA<TAB>: words."""
    before = text[:at].rstrip("-–— ") if by == "dash" else text[:at]
    head = _head(before, text[at + 1 :].strip().lstrip(_COLONS).lstrip())
    return replace(head, parted_by=by) if head else None


def _quoted(text: str, at: int) -> Head | None:
    """ウェンナ「潮が変わった」: the quotes stand for the colon."""
    head = _head(text[:at], text[at:])
    if head is None or look_of(head.name) == "other":
        return None
    return replace(head, parted_by="quotes")


def _parts(text: str, at: int) -> bool:
    """Whether a colon parts a head from words: not in 12:30, not in "a://b"."""
    after = text[at + 1 : at + 2]
    if text[at - 1 : at].isdecimal() and after.isdecimal():
        return False
    return not text.startswith("//", at + 1)
