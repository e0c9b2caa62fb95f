"""Labels of a proof: small text in the default typeface, drawn as outlines like everything else."""

from letterfit.geometry import Point
from letterfit.lettering import Lettering, measure
from letterfit.output.plain import one_line
from letterfit.output.svg.glyphs import Glyphs, group


def label(text: str, spot: Point, *, size_pt: float, colour: str, glyphs: Glyphs) -> str:
    """A line of text as typed, as a group of outlines; nothing when it has no ink.

    Args:
        text: One line.
        spot: Where its first baseline point stands, mm.
        size_pt: Its size.
        colour: Its colour.
        glyphs: What draws it.
    """
    words = measure(one_line(text), Lettering(size_pt=size_pt, case="as-typed"))
    if not len(words):
        return ""
    line = words.line(0, len(words) - 1)
    return group([glyphs.path(line.glyphs, spot)], colour=colour, name="words")
