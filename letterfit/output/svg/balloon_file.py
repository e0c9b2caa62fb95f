"""One fitted balloon as an SVG file of its own, at print size."""

from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point
from letterfit.lettering.settings import Lettering
from letterfit.outline import Outline
from letterfit.output.svg import style
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.elements import Attributes, document, tag
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.outline_line import outline_line

POINTS_MM = 2.2
"""The same round a burst: a pointed join reaches half the line's width times the miter limit."""


def balloon_to_svg(fitted: FittedBalloon, *, lettering: Lettering | None = None) -> str:
    """A balloon as one SVG file in mm at print size, its lettering as outlines.

    Args:
        fitted: The balloon.
        lettering: How it was lettered; needed only for a user's own fonts.

    Returns:
        SVG a millimetre larger than the outline on every side, 2.2 mm for a burst. A text that does
        not fit shows the lines that do, and, dashed, the smallest outline that would hold all of
        it.

    Raises:
        FontError: When a face is neither bundled nor in the lettering's typeface.

    >>> import letterfit as lf
    >>> balloon_to_svg(lf.fit_balloon("Hold on.")).splitlines()[1].partition(" ")[0]
    '<svg'
    """
    return drawn_balloon(fitted, glyphs=Glyphs(glyph_source(lettering)))


def drawn_balloon(fitted: FittedBalloon, *, glyphs: Glyphs) -> str:
    """A balloon as `balloon_to_svg` gives it, its lettering drawn by `glyphs`."""
    wanted = fitted.outline if fitted.overflow is None else fitted.overflow.outline
    outlines = (fitted.outline, wanted)
    margin = margin_round(fitted.outline)
    centre = Point(
        max(o.half_width for o in outlines) + margin,
        max(o.half_height for o in outlines) + margin,
    )
    line: Attributes = {"fill": style.PAPER, "stroke": style.INK}
    line |= outline_line(fitted.outline)
    parts = [
        _wanted(fitted, centre),
        tag("path", {"class": "outline", "d": contour(fitted.outline, centre), **line}),
        glyphs.stack(fitted.lines, centre, colour=style.INK),
    ]
    return document(width=2 * centre.x, height=2 * centre.y, heading=fitted.text, children=parts)


def margin_round(outline: Outline) -> float:
    """How much larger than its outline a drawing is, on every side, in mm."""
    return POINTS_MM if outline.kind == "burst" else style.MARGIN_MM


def _wanted(fitted: FittedBalloon, centre: Point) -> str:
    """The outline that would do, when the given one does not."""
    if fitted.overflow is None:
        return ""
    line: Attributes = {
        "fill": "none",
        "stroke": style.COLOURS["fails"],
        "stroke-width": style.CAPTION_LINE,
        "stroke-dasharray": "1.5 1",
    }
    data = contour(fitted.overflow.outline, centre)
    return tag("path", {"class": "needed", "d": data, **line})
