"""Markup: Markdown shells round headings and names are taken off; prose keeps its marks.

A line is peeled only to see what it is. Where it turns out to be prose, it is kept as typed.
"""

import re
from dataclasses import dataclass

LONGEST_OPENING = 100
"""Characters within which an emphasis that opens a line must close to be a shell."""

_SHELL = re.compile(
    r"(?:#{1,6}[ \t\xa0]+|>[ \t\xa0]*|[-*+•◦▪‣►·–—][ \t\xa0]+|[■□●○◆◇★☆▼▽▲△※◎][ \t\xa0\u3000]*)"
)
_EMPHASES = ("***", "**", "__", "*", "_")
_RULE = re.compile(r"(?:[-*_=~#+—–][ \t\xa0]*){3,}")
_FRAME = "=*~#_-–—<>|【】[]() \t\xa0"


@dataclass(frozen=True, slots=True)
class Peeled:
    """A line without its shells.

    Args:
        text: What is inside.
        marked: Whether a heading mark or an emphasis stood round its beginning.
    """

    text: str
    marked: bool = False


def peel(text: str) -> Peeled:
    """The line without bullets, quote marks, heading marks and an emphasis that opens it.

    >>> peel("- **WENNA:** Hold *on*.")
    Peeled(text='WENNA: Hold *on*.', marked=True)
    >>> peel("## Page 1 ##")
    Peeled(text='Page 1', marked=True)
    """
    marked = False
    start = 0
    for _ in range(3):  # a quoted, bulleted heading is as deep as anybody types
        shell = _SHELL.match(text, start)
        if shell is None:
            break
        marked |= text[start] == "#"
        start = shell.end()
    inner = text[start:]
    if marked:
        inner = inner.rstrip("# ")
    opened = _without_emphasis(inner)
    return Peeled(opened, marked=True) if opened is not None else Peeled(inner, marked)


def unframed(text: str) -> str:
    """A heading without the signs that frame it, as in "=== PAGE 3 ===" or "[Panel 2]".

    >>> unframed("=== PAGE 3 ==="), unframed("[PAGE 3]"), unframed("PAGE 3 (splash)")
    ('PAGE 3', 'PAGE 3', 'PAGE 3 (splash)')
    """
    return text.strip(_FRAME) if text[:1] in _FRAME else text


def is_rule(text: str) -> bool:
    """Whether a line is only drawn across the page, as in "---" or "* * *".

    >>> is_rule("* * *"), is_rule("--"), is_rule("...")
    (True, False, False)
    """
    return _RULE.fullmatch(text) is not None


def _without_emphasis(text: str) -> str | None:
    for mark in _EMPHASES:
        if not text.startswith(mark):
            continue
        close = text.find(mark, len(mark), LONGEST_OPENING)
        if close > len(mark):
            return text[len(mark) : close] + text[close + len(mark) :]
        return None
    return None
