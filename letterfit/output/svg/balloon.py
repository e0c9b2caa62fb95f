"""One balloon as a group: its outline with the tail grafted on, then its lettering."""

from collections.abc import Sequence

from letterfit.geometry import Point
from letterfit.output.svg import style
from letterfit.output.svg.balloon_shape import bubbles, contour
from letterfit.output.svg.bridge import bridge
from letterfit.output.svg.elements import Attributes, Names, tag, title
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.outline_line import outline_line
from letterfit.report.model import BalloonReport
from letterfit.script.delivery import is_shout


def placed_balloon(balloon: BalloonReport, *, glyphs: Glyphs, names: Names) -> str:
    """A balloon at its place on the page: outline, tail or bubbles, lettering.

    Args:
        balloon: The balloon; not placed, nothing is drawn.
        glyphs: What draws the lettering.
        names: What gives out ids.
    """
    if balloon.x_mm is None or balloon.y_mm is None:
        return ""
    centre = Point(balloon.x_mm, balloon.y_mm)
    own = balloon.tail if balloon.tail and balloon.tail.to is None else None  # no link: see bridges
    thinks = balloon.kind == "thought"
    shape = contour(balloon.fitted.outline, centre, None if thinks else own)
    line = _line(balloon)
    drops = bubbles(own) if thinks and own else ()
    parts = [
        title(_heading(balloon)),
        *(tag("circle", {"cx": p.x, "cy": p.y, "r": r, **line}) for p, r in drops),
        tag("path", {"class": "outline", "d": shape, **line}),
        glyphs.stack(balloon.fitted.lines, centre, colour=style.INK),
    ]
    name = names.new(f"balloon-{balloon.id}")
    return tag("g", {"id": name, "class": f"balloon {balloon.kind}"}, parts)


def bridges(balloons: Sequence[BalloonReport]) -> list[str]:
    """The necks between balloons of one speaker, to be drawn over them."""
    drawn = []
    for balloon in balloons:
        tail = balloon.tail
        if tail is None or tail.to is None:
            continue
        other = balloons[tail.to]
        if other.x_mm is None or other.y_mm is None:
            continue
        patch, sides = bridge(tail, other.fitted.outline, Point(other.x_mm, other.y_mm))
        stroke = {**_line(balloon), "fill": "none", "stroke-linecap": "round"}
        parts = [
            title(f"{balloon.id} goes on from {other.id}"),
            tag("path", {"d": patch, "fill": style.PAPER}),
            tag("path", {"d": sides, **stroke}),
        ]
        drawn.append(tag("g", {"class": "bridge"}, parts))
    return drawn


def ghost(balloon: BalloonReport, centre: Point, *, glyphs: Glyphs, names: Names) -> str:
    """A balloon that has no place: its smallest outline and its lettering, in grey."""
    line: Attributes = {
        "fill": style.PAPER,
        "fill-opacity": "0.8",
        "stroke": style.GHOST,
        "stroke-width": style.CAPTION_LINE,
    }
    parts = [
        title(f"no place found: {_heading(balloon)}"),
        tag("path", {"class": "outline", "d": contour(balloon.fitted.outline, centre), **line}),
        glyphs.stack(balloon.fitted.lines, centre, colour=style.GHOST),
    ]
    name = names.new(f"balloon-{balloon.id}")
    return tag("g", {"id": name, "class": f"balloon ghost {balloon.kind}"}, parts)


def _line(balloon: BalloonReport) -> Attributes:
    """How the outline is drawn: dashed for a whisper, heavier for a shout, finer for a caption."""
    line: Attributes = {"fill": style.PAPER, "stroke": style.INK}
    if balloon.kind == "caption":
        return {**line, "stroke-width": style.CAPTION_LINE, "stroke-linejoin": "miter"}
    shouts = is_shout(balloon.modifiers)
    return line | outline_line(balloon.fitted.outline, heavy=shouts)


def _heading(balloon: BalloonReport) -> str:
    who = " ".join(filter(None, [balloon.id, balloon.speaker or balloon.kind]))
    manner = f" ({', '.join(balloon.modifiers)})" if balloon.modifiers else ""
    return f"{who}{manner}: {balloon.fitted.text}"
