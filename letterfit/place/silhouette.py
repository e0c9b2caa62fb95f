"""Where a figure's head and mouth are in its box: what is drawn there, and what tails keep off.

The box is the figure room. The figure stands in it with a little air over its head, as a drawn one
has: heads seldom touch a balloon or a border (common practice, no source).
"""

from letterfit.geometry import Point, Rect

HEADROOM = 0.14
"""Air over the head, as a share of the box's height."""

HEAD = (0.5, 0.07, 0.15, 0.0667)
"""The head in the figure's own box: centre x, centre y, half-width, half-height, as shares."""

BODY = 0.74
"""How much of the width of its own box a figure takes up with its arms."""

MOUTH = 0.12
"""How far the mouth is under the top of the head, as a share of the figure's height."""


def figure_in(box: Rect) -> Rect:
    """The box of the figure itself: on the same floor, in the same proportions, air over it.

    >>> figure_in(Rect(0, 0, 10, 30)).height
    25.8
    """
    width, height = box.width * (1 - HEADROOM), box.height * (1 - HEADROOM)
    return Rect(box.centre.x - width / 2, box.bottom - height, width, height)


def body_in(box: Rect) -> Rect:
    """What the figure's body and arms take up of its own box: across the middle.

    >>> round(body_in(Rect(0, 0, 10, 30)).width, 3)
    6.364
    """
    figure = figure_in(box)
    width = BODY * figure.width
    return Rect(figure.centre.x - width / 2, figure.y, width, figure.height)


def head_in(box: Rect) -> Rect:
    """The box round the figure's head; the head is the ellipse in it."""
    figure = figure_in(box)
    x, y, across, down = HEAD
    return Rect(
        figure.x + (x - across) * figure.width,
        figure.y + (y - down) * figure.height,
        2 * across * figure.width,
        2 * down * figure.height,
    )


def mouth_in(box: Rect) -> Point:
    """The figure's mouth: in its head, near the chin."""
    figure = figure_in(box)
    return Point(figure.centre.x, figure.y + MOUTH * figure.height)
