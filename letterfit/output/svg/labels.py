"""Labels of a proof: small text in the default typeface, drawn as outlines like everything else."""

import math
from collections.abc import Sequence

from letterfit.geometry import Point
from letterfit.lettering import Lettering, measure
from letterfit.output.plain import one_line
from letterfit.output.svg.glyphs import Glyphs, group

LONGEST = 300
"""Characters of a label that are set: a title is what a reader takes in at a glance."""


def label(  # noqa: PLR0913 - keyword-only
    texts: Sequence[str],
    spot: Point,
    *,
    size_pt: float,
    colour: str,
    glyphs: Glyphs,
    most_mm: float = math.inf,
) -> str:
    """A line of text as typed, as a group of outlines; nothing when it has no ink.

    Args:
        texts: Wordings, the fullest first: the first that is not too wide is set.
        spot: Where its first baseline point stands, mm.
        size_pt: Its size.
        colour: Its colour.
        glyphs: What draws it.
        most_mm: Its greatest width.
    """
    lettering = Lettering(size_pt=size_pt, case="as-typed")
    for text in texts:
        words = measure(one_line(text)[:LONGEST], lettering)
        line = words.line(0, len(words) - 1) if len(words) else None
        if line is not None and line.width_mm <= most_mm:
            return group([glyphs.line(line.glyphs, spot)], colour=colour, name="words")
    return ""
