"""Balloons and outlines in a notebook: at three times their size in print, all at the same."""

from letterfit.fit.joined import JoinedBalloon
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point
from letterfit.outline import Outline
from letterfit.output.notebook.frame import figure, image
from letterfit.output.notebook.letters import lettered
from letterfit.output.svg import style
from letterfit.output.svg.balloon_file import drawn_balloon, margin_round
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.elements import Attributes, document, tag
from letterfit.output.svg.joined_file import drawn_joined
from letterfit.output.svg.outline_line import outline_line
from letterfit.output.terminal.balloon import balloon_to_text, balloon_told, size_text
from letterfit.output.terminal.joined import joined_to_text, joined_told
from letterfit.output.terminal.sheet import text_of
from letterfit.report.model import BalloonReport
from letterfit.shown import as_html, as_text

SCALE = 3.0
"""Letters of 7.5 pt are read with ease at this size, and a wide balloon still goes on a line."""


@as_html.register
def balloon_html(value: FittedBalloon) -> str:
    """A balloon, its measures, and what was found of its text."""
    drawn, notes = drawn_image(value)
    return figure(drawn, [*map(text_of, balloon_told(value)), *notes])


def drawn_image(fitted: FittedBalloon) -> tuple[str, list[str]]:
    """A balloon as an image, and what must be said of its letters."""
    svg, notes = lettered(lambda glyphs: drawn_balloon(fitted, glyphs=glyphs))
    return image(svg, scale=SCALE, alt=fitted.text), notes


@as_text.register
def balloon_text(value: FittedBalloon) -> str:
    """As in a terminal."""
    return balloon_to_text(value).rstrip("\n")


@as_html.register
def joined_html(value: JoinedBalloon) -> str:
    """Two joined balloons and their measures."""
    svg, notes = lettered(lambda glyphs: drawn_joined(value, glyphs=glyphs))
    rows = map(text_of, joined_told(value))
    return figure(image(svg, scale=SCALE, alt=value.text), [*rows, *notes])


@as_text.register
def joined_text(value: JoinedBalloon) -> str:
    """As in a terminal."""
    return joined_to_text(value).rstrip("\n")


@as_html.register
def reported_html(value: BalloonReport) -> str:
    """A balloon of a report, by itself."""
    return balloon_html(value.fitted)


@as_text.register
def reported_text(value: BalloonReport) -> str:
    """Its number and its speaker, and the balloon as in a terminal."""
    who = " ".join(filter(None, [value.id, value.speaker or value.kind]))
    return f"{who}\n{balloon_text(value.fitted)}"


@as_html.register
def outline_html(value: Outline) -> str:
    """An empty outline and its size."""
    margin = margin_round(value)
    centre = Point(value.half_width + margin, value.half_height + margin)
    line: Attributes = {"fill": style.PAPER, "stroke": style.INK, **outline_line(value)}
    drawn = tag("path", {"d": contour(value, centre), **line})
    told = size_text(value)
    svg = document(width=2 * centre.x, height=2 * centre.y, heading=told, children=[drawn])
    return figure(image(svg, scale=SCALE, alt=told), [told])
