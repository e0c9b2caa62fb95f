"""Live text: its lines as a drawing sets them.

A line is a run of text that starts at an x or a y of its own (a text chunk: SVG 2, section 11.2);
a shift (dx, dy) goes on in the same line. White space is collapsed (SVG 2, section 11.3).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from letterfit.existing.lengths import NUMBER, length
from letterfit.existing.markup import Node
from letterfit.existing.styles import Sheet, Style, style_of

MOST_RUNS = 1000
"""Runs of a line that are read."""


LONGEST = 1000
"""Characters of a line, or of a list of lengths, that are looked at."""

_FIRST = re.compile(rf"\s*({NUMBER})([a-zA-Z]*|%)")


@dataclass(frozen=True, slots=True)
class Run:
    """Text of one style.

    Args:
        text: White space collapsed to single spaces.
        style: How it is set.
        dx: How far it is shifted to the right, user units.
        dy: How far down.
    """

    text: str
    style: Style
    dx: float = 0.0
    dy: float = 0.0


@dataclass(slots=True)
class Chunk:
    """A line as it is drawn: where it starts, user units, and its runs."""

    x: float
    y: float
    runs: list[Run] = field(default_factory=list)


def chunks(node: Node, style: Style, *, sheet: Sheet) -> list[Chunk]:
    """The lines of a text element, without those that say nothing or are hidden.

    Args:
        node: The text element.
        style: Its style.
        sheet: The drawing's style sheets.

    >>> from letterfit.existing.markup import parse_markup
    >>> root = parse_markup(b'<svg xmlns="http://www.w3.org/2000/svg"><text x="5">HOLD <tspan '
    ...                     b'x="5" dy="9">THE GATE</tspan></text></svg>')
    >>> lines = chunks(root.elements()[0], Style(), sheet={})
    >>> [(line.x, line.y, line.runs[0].text) for line in lines]
    [(5.0, 0.0, 'HOLD'), (5.0, 9.0, 'THE GATE')]
    """
    found = [Chunk(0.0, 0.0)]
    _gather(node, style, found, sheet)
    for chunk in found:
        chunk.runs = _trimmed(chunk.runs)
    return [chunk for chunk in found if chunk.runs]


def _gather(node: Node, style: Style, found: list[Chunk], sheet: Sheet) -> None:
    """Add what one element says to the lines found so far."""
    own, em = node.attributes, style.font_size
    x, y = _first(own.get("x"), em), _first(own.get("y"), em)
    dx, dy = _first(own.get("dx"), em) or 0.0, _first(own.get("dy"), em) or 0.0
    if x is not None or y is not None:
        last = found[-1]
        down = sum(run.dy for run in last.runs)
        found.append(
            Chunk((last.x if x is None else x) + dx, (last.y + down if y is None else y) + dy)
        )
        dx = dy = 0.0
    for child in node.children:
        if isinstance(child, str):
            text = re.sub(r"\s+", " ", child)
            if text and style.shown and style.visible and len(found[-1].runs) < MOST_RUNS:
                said = text.upper() if style.capitals else text
                found[-1].runs.append(Run(said, style, dx, dy))
                dx = dy = 0.0
        elif child.tag in ("tspan", "a", "tref"):
            if (dx or dy) and len(found[-1].runs) < MOST_RUNS:
                found[-1].runs.append(Run("", style, dx, dy))
                dx = dy = 0.0
            _gather(child, style_of(child, style, sheet=sheet), found, sheet)


def _first(text: str | None, em: float) -> float | None:
    """The first of a list of lengths."""
    match = None if text is None else _FIRST.match(text[:LONGEST])
    return None if match is None else length(match[0], em=em)


def _trimmed(runs: list[Run]) -> list[Run]:
    """The runs without the spaces at both ends and doubled ones; none where nothing is said."""
    if not "".join(run.text for run in runs).strip():
        return []
    kept: list[Run] = []
    after_space = True
    for run in runs:
        text = run.text.lstrip(" ") if after_space else run.text
        after_space = text.endswith(" ") if text else after_space
        if kept and text and kept[-1].style == run.style and not (run.dx or run.dy):
            kept[-1] = Run(kept[-1].text + text, run.style, kept[-1].dx, kept[-1].dy)
        else:
            kept.append(Run(text, run.style, run.dx, run.dy))
    while kept and not kept[-1].text.strip():
        kept.pop()
    last = kept[-1]
    kept[-1] = Run(last.text.rstrip(" "), last.style, last.dx, last.dy)
    return kept


def texts_in(node: Node) -> Iterator[Node]:
    """All text-path elements inside a text: what they say runs along a line and is not measured."""
    for child in node.elements():
        if child.tag == "textPath":
            yield child
        else:
            yield from texts_in(child)
