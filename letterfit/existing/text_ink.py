"""The ink of live text, measured line by line in a typeface that we have.

The page's own font is not at hand, so ink is that of the given typeface at the page's size.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.existing.model import DrawnLine
from letterfit.existing.styles import Style
from letterfit.existing.texts import LONGEST, Chunk
from letterfit.existing.transforms import Transform
from letterfit.findings import Finding
from letterfit.geometry import MM_PER_PT
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import TIGHTEST, WIDEST, Lettering
from letterfit.outline import Floats

MEASURED_PT = 10.0
"""The size that texts are measured at, to be scaled."""


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
