"""Vertical text: the page's frame and the text's own, one turned from the other by 90 degrees.

A vertical line is a column that runs down the page; columns follow each other from right to left.
In the text's own frame a column is an ordinary line: x runs down the page and y, in which lines
stack, to its left. So page (x, y) is (-y, x) of the text's frame: a rotation, which keeps every
distance. Outlines are symmetric about both axes: rotating one exchanges its two half-sides.

Every entry point of the fit goes into the text's frame with what it is given and comes back to the
page's with what it found; nothing between knows of it. For horizontal text both are the same.
"""

from dataclasses import replace

from letterfit.fit.aspects import checked_aspect
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.lettering.words import Glyph, Words
from letterfit.outline import Outline


def exchanged(outline: Outline) -> Outline:
    """The outline rotated by 90 degrees.

    >>> from letterfit.outline import Ellipse
    >>> exchanged(Ellipse(half_width=20, half_height=8))
    Ellipse(half_width=8, half_height=20)
    """
    width, height = outline.half_height, outline.half_width
    return replace(outline, half_width=width, half_height=height)  # type: ignore[type-var]


def turned_outline(words: Words, outline: Outline) -> Outline:
    """An outline of the page in the text's frame, or the other way round."""
    return exchanged(outline) if words.vertical else outline


def turned_aspect(words: Words, aspect: tuple[float, float] | None) -> tuple[float, float] | None:
    """A range of width over height on the page as the same range in the text's frame.

    Raises:
        OutlineError: As `letterfit.fit.aspects.checked_aspect`.
    """
    if aspect is None or not words.vertical:
        return aspect
    low, high = checked_aspect(aspect)
    return 1 / high, 1 / low


def turned_room(words: Words, room: tuple[float, float] | None) -> tuple[float, float] | None:
    """Width and height of a place on the page in the text's frame."""
    return (room[1], room[0]) if room is not None and words.vertical else room


def on_page(words: Words, balloon: FittedBalloon) -> FittedBalloon:
    """A balloon set in the text's frame, as the page sees it.

    Args:
        words: The text.
        balloon: Its balloon.
    """
    if not words.vertical:
        return balloon
    em = words.cap_height_mm
    return replace(
        balloon,
        lines=tuple(_column(line, em) for line in balloon.lines),
        outline=exchanged(balloon.outline),
        overflow=None if balloon.overflow is None else _overflow(balloon.overflow),
        vertical=True,
    )


def _overflow(overflow: Overflow) -> Overflow:
    return replace(overflow, outline=exchanged(overflow.outline))


def _column(line: Line, em: float) -> Line:
    """A line as a column: its centre line stands half an em over the line's baseline."""
    return Line(
        text=line.text,
        x_mm=em / 2 - line.baseline_mm,
        baseline_mm=line.x_mm,
        width_mm=line.width_mm,
        glyphs=tuple(_in_column(glyph, em) for glyph in line.glyphs),
        vertical=True,
    )


def _in_column(glyph: Glyph, em: float) -> Glyph:
    """A glyph from the top of its column's centre line."""
    return glyph._replace(x_mm=-glyph.y_mm - em / 2, y_mm=glyph.x_mm)
