"""Figure room: the tallest upright box that stands on the panel's floor, clear of all balloons.

Of all balloons and keep-clear regions, not of tails: a tail goes towards a figure's head, so it has
to reach over the upper corner of a box. Faces are kept clear of tails where tails are drawn.

A box of height h has width aspect * h and its top at floor - h. What an obstacle has below that
line spans an interval [l, r], and blocks the left edges strictly between l - width and r. So if any
left edge is free, one of these is: the panel's left side, or the right end r of an obstacle: k + 1
edges to test. A taller box blocks more: the greatest height is found by bisection, exact to
rounding. Touching is clear.
"""

import math
from collections.abc import Sequence

from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline

Polygon = tuple[Point, ...]
Obstacle = PlacedOutline | Rect | Polygon

SLACK = 1e-9
"""Rounding in mm that still counts as touching."""

BISECTIONS = 32
"""Halvings of the panel's height: below 1e-9 of it."""


def figure_room(
    panel: Rect,
    obstacles: Sequence[Obstacle],
    *,
    aspect: float = 1 / 3,
) -> float:
    """The height in mm of the tallest box of the given aspect that stands clear on the floor.

    Args:
        panel: The panel.
        obstacles: Outlines at their places, rectangles, and polygons (simple, by their corners).
        aspect: Width over height of the box.

    Returns:
        At most the panel's height, and width / aspect; 0 when the floor is taken up.

    Raises:
        PageError: When the aspect is not finite and over 0.

    >>> figure_room(Rect(0, 0, 60, 40), [Rect(0, 0, 60, 10)])
    30.0
    """
    if not math.isfinite(aspect) or aspect <= 0:
        raise PageError(f"a figure of aspect {aspect}", advice="give width over height, over 0")
    blocked, free = min(panel.height, panel.width / aspect), 0.0
    if _is_free(panel, obstacles, height=blocked, width=min(panel.width, blocked * aspect)):
        return blocked
    for _ in range(BISECTIONS):
        middle = (free + blocked) / 2
        if _is_free(panel, obstacles, height=middle, width=aspect * middle):
            free = middle
        else:
            blocked = middle
    return free if free > panel.height * 1e-9 else 0.0


def _is_free(panel: Rect, obstacles: Sequence[Obstacle], *, height: float, width: float) -> bool:
    """Whether a box of that size has a free left edge."""
    spans = [span for item in obstacles if (span := span_below(item, panel.bottom - height))]
    edges = [panel.x, *sorted(right for _, right in spans if right > panel.x)]
    for edge in edges:
        if edge + width > panel.right + SLACK:
            return False
        if all(edge >= right or edge + width <= left + SLACK for left, right in spans):
            return True
    return False


def span_below(item: Obstacle, line: float) -> tuple[float, float] | None:
    """The interval of x that the part of an obstacle below a level line (greater y) spans."""
    if isinstance(item, PlacedOutline):
        offset = line - item.y_mm
        if offset >= item.outline.half_height:
            return None
        reach = half_chord(item.outline, offset) if offset > 0 else item.outline.half_width
        return item.x_mm - reach, item.x_mm + reach
    if isinstance(item, Rect):
        return (item.x, item.right) if item.bottom > line else None
    return _polygon_span(item, line)


def half_chord(outline: Outline, offset: float) -> float:
    """Half the outline's width at a distance in mm from its middle line, 0 outside it."""
    v = abs(offset)
    a, b = outline.half_width, outline.half_height
    if v >= b:
        return 0.0
    if isinstance(outline, CaptionBox):
        return a
    if isinstance(outline, Ellipse):
        return a * math.sqrt(1 - (v / b) ** 2)
    if isinstance(outline, Superellipse):
        return float(a * (1 - (v / b) ** outline.exponent) ** (1 / outline.exponent))
    if isinstance(outline, RoundedRect):
        down = max(v - (b - outline.radius), 0.0)
        return a - outline.radius + math.sqrt(outline.radius**2 - down**2)
    return _half_chord_by_normals(outline, v)


def _half_chord_by_normals(outline: Outline, v: float) -> float:
    """For any other outline: the normal whose point lies at v, by bisection."""
    low, high = 0.0, math.pi / 2
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        low, high = (middle, high) if outline.boundary(middle)[1] <= v else (low, middle)
    return float(outline.boundary(low)[0])


def _polygon_span(corners: Polygon, line: float) -> tuple[float, float] | None:
    xs = [corner.x for corner in corners if corner.y > line]
    if not xs:
        return None
    for p, q in zip(corners, corners[1:] + corners[:1], strict=True):
        if (p.y > line) != (q.y > line):
            xs.append(p.x + (q.x - p.x) * (line - p.y) / (q.y - p.y))
    return min(xs), max(xs)
