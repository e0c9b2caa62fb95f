"""Live text: its lines as a drawing sets them, measured with a typeface that we have.

A line is a run of text that starts at an x or a y of its own (a text chunk: SVG 2, section 11.2);
a shift (dx, dy) goes on in the same line. The page's own font is not at hand, so ink is that of the
given typeface at the page's size. White space is collapsed (SVG 2, section 11.3).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from letterfit.existing.lengths import NUMBER, length
from letterfit.existing.markup import Node
from letterfit.existing.model import DrawnLine
from letterfit.existing.styles import Sheet, Style, style_of
from letterfit.existing.transforms import Transform
from letterfit.findings import Finding
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import TIGHTEST, WIDEST, Lettering
from letterfit.outline import Floats

MEASURED_PT = 10.0
"""The size that texts are measured at, to be scaled."""

MOST_RUNS = 1000
"""Runs of a line that are read."""

LONGEST = 1000
"""Characters of a line that are measured."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A line of live text, measured.

    Args:
        line: The line.
        words: How many words it has.
        size_pt: Its largest type size on the page.
        findings: What the typeface lacks.
    """

    line: DrawnLine
    words: int
    size_pt: float
    findings: tuple[Finding, ...]


def measured_line(chunk: Chunk, to_mm: Transform, lettering: Lettering) -> Measured | None:
    """A line measured on the page; None where it has no ink.

    Args:
        chunk: The line.
        to_mm: From its user units to mm of the page.
        lettering: Its typeface and habits are used, never its size.
    """
    boxes = list[Floats]()
    across = down = size = 0.0
    words, findings = 0, list[Finding]()
    for run in chunk.runs:
        across, down = across + run.dx, down + run.dy
        said = run.text[:LONGEST]
        em = run.style.font_size
        if said.strip() and em > 0:
            set_words = measure(said, _tracked(lettering, run.style))
            factor = em / (MEASURED_PT * MM_PER_PT)
            if len(set_words):
                line = set_words.line(0, len(set_words) - 1)
                lead = _space(lettering) * em if said.startswith(" ") else 0.0
                boxes.append(
                    line.ink * factor + np.array([across + lead, down, across + lead, down])
                )
                across += lead + line.width_mm * factor
                words += set_words.count
                size = max(size, em)
            findings += [one for one in set_words.findings if one.code == "missing-glyph"]
        across += _space(lettering) * em if said.endswith(" ") and said.strip() else 0.0
    ink = np.concatenate(boxes) if boxes else np.zeros((0, 4))
    if not len(ink):
        return None
    anchor = chunk.runs[0].style.anchor
    shift = {"middle": across / 2, "end": across}.get(anchor, 0.0)
    start = np.array([chunk.x - shift, chunk.y])
    quads = ink[:, [0, 1, 2, 1, 2, 3, 0, 3]].reshape(-1, 4, 2) + start
    corners = to_mm.points(quads)
    if not np.isfinite(corners).all():
        return None
    said = "".join(run.text for run in chunk.runs)
    size_pt = size * to_mm.scale / MM_PER_PT
    return Measured(
        line=DrawnLine(text=said, ink=corners),
        words=words,
        size_pt=size_pt,
        findings=tuple(findings),
    )


def _space(lettering: Lettering) -> float:
    """The width of a space in em: what one adds between two letters."""
    wide, close = (
        measure(text, _tracked(lettering, Style())).line(0, 0 if text == "HH" else 1).width_mm
        for text in ("H H", "HH")
    )
    return (wide - close) / (MEASURED_PT * MM_PER_PT)


def _tracked(lettering: Lettering, style: Style) -> Lettering:
    em = style.spacing / style.font_size
    return Lettering(
        typeface=lettering.typeface,
        size_pt=MEASURED_PT,
        case="as-typed",
        habits=lettering.habits,
        tracking=min(max(em, TIGHTEST), WIDEST),
    )


def texts_in(node: Node) -> Iterator[Node]:
    """All text-path elements inside a text: what they say runs along a line and is not measured."""
    for child in node.elements():
        if child.tag == "textPath":
            yield child
        else:
            yield from texts_in(child)
