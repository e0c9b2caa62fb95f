"""Figure room: the tallest upright box that stands on the panel's floor, clear of everything.

A box of height h has width aspect * h and its top at floor - h. What an obstacle has below that
line spans an interval [l, r], and blocks the left edges strictly between l - width and r. So if any
left edge is free, one of these is: the panel's left side, or the right end r of an obstacle: k + 1
edges to test. A taller box blocks more: the greatest height is found by bisection, exact to
rounding. Touching is clear.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline, Tail
from letterfit.place.wedge import side_curves

Polygon = tuple[Point, ...]
Obstacle = PlacedOutline | Rect | Polygon | Tail

SLACK = 1e-9
"""Rounding in mm that still counts as touching."""

BISECTIONS = 32
"""Halvings of the panel's height: below 1e-9 of it."""


@dataclass(frozen=True, slots=True)
class Place:
    """A box that stands on the floor: its left edge and its height in mm."""

    left: float
    height: float


def figure_room(
    panel: Rect,
    obstacles: Sequence[Obstacle],
    *,
    aspect: float = 1 / 3,
    most: float = math.inf,
) -> float:
    """The height in mm of the tallest box of the given aspect that stands clear on the floor.

    Args:
        panel: The panel.
        obstacles: Outlines at their places, rectangles, and polygons (simple, by their corners).
        aspect: Width over height of the box.
        most: A height that is known to be no less than the answer, mm.

    Returns:
        At most the panel's height, and width / aspect; 0 when the floor is taken up.

    Raises:
        PageError: When the aspect is not finite and over 0.

    >>> figure_room(Rect(0, 0, 60, 40), [Rect(0, 0, 60, 10)])
    30.0
    """
    return figure_place(panel, obstacles, aspect=aspect, most=most).height


def figure_place(
    panel: Rect,
    obstacles: Sequence[Obstacle],
    *,
    aspect: float = 1 / 3,
    most: float = math.inf,
) -> Place:
    """The tallest box and where it stands: the leftmost place of that height."""
    if not math.isfinite(aspect) or aspect <= 0:
        raise PageError(f"a figure of aspect {aspect}", advice="give width over height, over 0")
    blocked, free = min(panel.height, panel.width / aspect, most), 0.0
    edge = _free_edge(panel, obstacles, height=blocked, width=min(panel.width, blocked * aspect))
    if edge is not None:
        return Place(edge, blocked)
    edge = panel.x
    for _ in range(BISECTIONS):
        middle = (free + blocked) / 2
        found = _free_edge(panel, obstacles, height=middle, width=aspect * middle)
        if found is None:
            blocked = middle
        else:
            free, edge = middle, found
    return Place(edge, free if free > panel.height * 1e-9 else 0.0)


def _free_edge(
    panel: Rect, obstacles: Sequence[Obstacle], *, height: float, width: float
) -> float | None:
    """The leftmost free left edge of a box, if there is one."""
    spans = [span for item in obstacles if (span := span_below(item, panel.bottom - height))]
    edges = [panel.x, *sorted(right for _, right in spans if right > panel.x)]
    for edge in edges:
        if edge + width > panel.right + SLACK:
            return None
        if all(edge >= right or edge + width <= left + SLACK for left, right in spans):
            return edge
    return None


def free_edge_near(
    panel: Rect, obstacles: Sequence[Obstacle], *, height: float, width: float, x: float
) -> float | None:
    """The free left edge of a box whose middle is nearest to x, if there is one."""
    spans = [span for item in obstacles if (span := span_below(item, panel.bottom - height))]
    last = panel.right - width
    ends = [x - width / 2, panel.x, last]
    ends += [end for left, right in spans for end in (left - width, right)]
    free = [
        edge
        for edge in ends
        if panel.x <= edge <= last
        and all(edge >= right or edge + width <= left + SLACK for left, right in spans)
    ]
    return min(free, key=lambda edge: (abs(edge + width / 2 - x), edge), default=None)


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
    if isinstance(item, Tail):
        return _wedge_span(item, line)
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


def _wedge_span(tail: Tail, line: float) -> tuple[float, float] | None:
    """The span of a wedge's two quadratic sides below a line: at ends, cuts and turning points."""
    xs: list[float] = []
    for (x0, y0), (x1, y1), (x2, y2) in side_curves(tail):
        shares = [0.0, 1.0, _turning(x0, x1, x2), *_cuts(y0 - line, y1 - line, y2 - line)]
        for s in shares:
            p, q, r = (1 - s) * (1 - s), 2 * s * (1 - s), s * s
            if 0 <= s <= 1 and p * y0 + q * y1 + r * y2 > line - SLACK:
                xs.append(p * x0 + q * x1 + r * x2)
    return (min(xs), max(xs)) if xs else None


def _turning(p: float, q: float, r: float) -> float:
    """Where a quadratic Bezier of these ordinates turns back; outside 0 .. 1 if nowhere."""
    bow = p - 2 * q + r
    return (p - q) / bow if bow else -1.0


def _cuts(p: float, q: float, r: float) -> tuple[float, ...]:
    """Where a quadratic Bezier of these ordinates is 0."""
    a, b = p - 2 * q + r, q - p
    if abs(a) < 1e-12 * (abs(p) + abs(q) + abs(r)):
        return (-p / (2 * b),) if b else ()
    root = b * b - a * p
    if root < 0:
        return ()
    reach = math.sqrt(root)
    return (-b - reach) / a, (-b + reach) / a
