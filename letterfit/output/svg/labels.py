"""Labels of a proof: small text in the default typeface, drawn as outlines like everything else."""

from letterfit.geometry import Point
from letterfit.lettering import Lettering, measure
from letterfit.output.plain import one_line
from letterfit.output.svg.glyphs import Glyphs


def label_path(text: str, spot: Point, *, size_pt: float, glyphs: Glyphs) -> str:
    """Path data of a line of text as typed.

    Args:
        text: One line.
        spot: Where its first baseline point stands, mm.
        size_pt: Its size.
        glyphs: What draws it.
    """
    words = measure(one_line(text), Lettering(size_pt=size_pt, case="as-typed"))
    if not len(words):
        return ""
    return glyphs.path(words.line(0, len(words) - 1).glyphs, spot)
