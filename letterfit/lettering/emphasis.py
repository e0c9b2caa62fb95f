"""Emphasis marks: `*so*`, `**so**`, `_so_` or `***so***` in a script, set in bold italic.

All marks mean the same: comics letterers set emphasis in bold italic, however the writer typed it
(common practice, no source). A mark opens before a character that is no space and not inside a
word; the same mark closes after a character that is no space and not inside a word (much as in
CommonMark 0.31.2, section 6.2). Marks that do not pair stay as typed.
"""

import re
from dataclasses import dataclass

from letterfit.lettering.bundled import Style

EMPHASIS: Style = "bold italic"

# A run of four or more marks, or of mixed ones, is not emphasis: "****" stands for a curse.
_MARK = re.compile(r"(?<![*_])(?:\*{1,3}|_{1,3})(?![*_])")


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of text in one style."""

    text: str
    style: Style


def emphasis_spans(text: str) -> tuple[Span, ...]:
    """The text without its emphasis marks, cut where the style changes.

    Returns:
        Spans in order, none empty; neighbours differ in style.

    >>> [(span.text, span.style) for span in emphasis_spans("That is *not* a gate, 2*3.")]
    [('That is ', 'regular'), ('not', 'bold italic'), (' a gate, 2*3.', 'regular')]
    """
    if "*" not in text and "_" not in text:
        return (Span(text, "regular"),) if text else ()
    pairs = _pairs(text)
    turns = sorted(
        [(opening.start(), opening.end(), 1) for opening, _ in pairs]
        + [(closing.start(), closing.end(), -1) for _, closing in pairs]
    )
    spans: list[Span] = []
    at = depth = 0
    for start, end, turn in turns:
        _append(spans, text[at:start], depth)
        at, depth = end, depth + turn
    _append(spans, text[at:], depth)
    return tuple(spans)


def _append(spans: list[Span], text: str, depth: int) -> None:
    style: Style = EMPHASIS if depth else "regular"
    if text and spans and spans[-1].style == style:
        spans[-1] = Span(spans[-1].text + text, style)
    elif text:
        spans.append(Span(text, style))


def _pairs(text: str) -> list[tuple[re.Match[str], re.Match[str]]]:
    """The marks that pair: each closing mark with the nearest open one of its kind."""
    waiting: dict[str, re.Match[str]] = {}
    pairs = []
    for mark in _MARK.finditer(text):
        kind = mark[0]
        if kind in waiting and _may_close(text, mark):
            pairs.append((waiting.pop(kind), mark))
        elif _may_open(text, mark):
            waiting[kind] = mark
    return pairs


def _may_open(text: str, mark: re.Match[str]) -> bool:
    before, after = text[mark.start() - 1 : mark.start()], text[mark.end() : mark.end() + 1]
    return not before.isalnum() and bool(after.strip())


def _may_close(text: str, mark: re.Match[str]) -> bool:
    before, after = text[mark.start() - 1 : mark.start()], text[mark.end() : mark.end() + 1]
    return not after.isalnum() and bool(before.strip())
