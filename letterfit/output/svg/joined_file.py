"""Two joined balloons as one SVG file of its own, at print size: one outline, two stacks."""

from letterfit.fit.joined import JoinedBalloon
from letterfit.geometry import Point
from letterfit.lettering.settings import Lettering
from letterfit.output.svg import style
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.elements import Attributes, document, tag
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import Glyphs
from letterfit.place.model import Tail


def joined_to_svg(
    joined: JoinedBalloon, *, lettering: Lettering | None = None, tail: Tail | None = None
) -> str:
    """Joined balloons as one SVG file in mm at print size, the union drawn as one path.

    Args:
        joined: The balloons.
        lettering: How they were lettered; needed only for a user's own fonts.
        tail: Their one tail, in the union's own frame; None for none. It is part of the path.

    Returns:
        SVG a millimetre larger than outline and tail on every side.

    Raises:
        FontError: When a face is neither bundled nor in the lettering's typeface.

    >>> import letterfit as lf
    >>> pair = lf.fit_joined(("Hold on.", "The tide turned."))
    >>> joined_to_svg(pair).splitlines()[1].partition(" ")[0]
    '<svg'
    """
    return drawn_joined(joined, glyphs=Glyphs(glyph_source(lettering)), tail=tail)


def drawn_joined(joined: JoinedBalloon, *, glyphs: Glyphs, tail: Tail | None = None) -> str:
    """Joined balloons as `joined_to_svg` gives them, their lettering drawn by `glyphs`."""
    outline = joined.outline
    tips = [] if tail is None else [tail.tip]
    left = max(outline.half_width, *(-tip.x for tip in tips), 0.0) + style.MARGIN_MM
    top = max(outline.half_height, *(-tip.y for tip in tips), 0.0) + style.MARGIN_MM
    right = max(outline.half_width, *(tip.x for tip in tips), 0.0) + style.MARGIN_MM
    bottom = max(outline.half_height, *(tip.y for tip in tips), 0.0) + style.MARGIN_MM
    centre = Point(left, top)
    line: Attributes = {
        "fill": style.PAPER,
        "stroke": style.INK,
        "stroke-width": style.BALLOON_LINE,
        "stroke-linejoin": "round",
    }
    moved = tail and _moved(tail, centre)
    parts = [tag("path", {"class": "outline", "d": contour(outline, centre, moved), **line})]
    for balloon, at in joined.parts:
        place = Point(centre.x + at.x, centre.y + at.y)
        parts.append(glyphs.stack(balloon.lines, place, colour=style.INK))
    return document(width=left + right, height=top + bottom, heading=joined.text, children=parts)


def _moved(tail: Tail, by: Point) -> Tail:
    """A tail moved on the page."""

    def place(point: Point) -> Point:
        return Point(point.x + by.x, point.y + by.y)

    start, end = tail.root
    return Tail(
        root=(place(start), place(end)),
        tip=place(tail.tip),
        bend=None if tail.bend is None else place(tail.bend),
    )
