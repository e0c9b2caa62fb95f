"""Figure room: the tallest upright box that stands on the panel's floor, clear of all balloons.

Of all balloons and keep-clear regions, not of tails: a tail goes towards a figure's head, so it has
to reach over the upper corner of a box. Faces are kept clear of tails where tails are drawn.

A box of height h has width aspect * h and its top at floor - h. What an obstacle has below that
line spans an interval of x; between the intervals are gaps. Let F(h) be the greatest height whose
boxes go into the gaps at height h, as many as asked for: one into a gap of its width, two into one
of twice its width. Taller boxes meet more, so F falls, and the answer is where F(h) = h. Between
the heights at which one more obstacle comes in F is continuous: the root is found by false position
(Anderson and Bjorck, BIT 13, 1973). Touching is clear.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline

Polygon = tuple[Point, ...]
Obstacle = PlacedOutline | Rect | Polygon

SLACK = 1e-9
"""Rounding in mm that still counts as touching."""

CLOSE = 1e-8
"""In mm: so near the answer is found."""

PATIENCE = 20
"""Steps of the false position after which every other one halves: it creeps where F jumps, as it
does where a polygon has two lowest corners."""

STEPS = 100

NORMALS = 721
"""Normals in a quarter of a drawn outline's hull: its arcs are met to 1e-6 of their radius."""


def figure_room(
    panel: Rect,
    obstacles: Sequence[Obstacle],
    *,
    aspect: float = 1 / 3,
    count: int = 1,
) -> float:
    """The height in mm of the tallest boxes of the given aspect that stand clear on the floor.

    Args:
        panel: The panel.
        obstacles: Outlines at their places, rectangles, and polygons (simple, by their corners).
        aspect: Width over height of a box.
        count: How many boxes of that height stand side by side.

    Returns:
        At most the panel's height, and width / aspect / count; 0 when the floor is taken up.

    Raises:
        PageError: When the aspect is not finite and over 0.

    >>> figure_room(Rect(0, 0, 60, 40), [Rect(0, 0, 60, 10)])
    30.0
    >>> figure_room(Rect(0, 0, 60, 40), [], count=6)
    30.0
    """
    if not math.isfinite(aspect) or aspect <= 0:
        raise PageError(f"a figure of aspect {aspect}", advice="give width over height, over 0")
    most = float(min(panel.height, panel.width / aspect / count))
    low, over, near = 0.0, math.inf, _Near(panel, aspect, count)
    for bottom, item in sorted(_by_bottom(obstacles), key=lambda pair: -pair[0]):
        enters = panel.bottom - bottom
        if enters >= most:
            break
        if enters > low and near.items:
            excess = near.excess(enters)
            if excess < 0:
                return near.root((low, over), (enters, excess))
        low = max(enters, low)
        near.items.append((bottom, item))
        over = near.excess(low)
        if over < 0:
            return float(low) if low > panel.height * SLACK else 0.0
    excess = near.excess(most) if near.items else 0.0
    return most if excess >= 0 else near.root((low, over), (most, excess))


class _Near:
    """The obstacles that boxes of some height meet."""

    __slots__ = ("aspect", "count", "items", "panel")

    def __init__(self, panel: Rect, aspect: float, count: int) -> None:
        self.panel, self.aspect, self.count = panel, aspect, count
        self.items: list[tuple[float, Obstacle]] = []

    def excess(self, height: float) -> float:
        """How much taller the boxes could be that go into the gaps at a height, up to rounding."""
        line = self.panel.bottom - height
        spans = [span_below(item, min(line, bottom - SLACK)) for bottom, item in self.items]
        gaps = free_gaps(self.panel, [span for span in spans if span is not None])
        return common_width(gaps, self.count) / self.aspect - height + SLACK

    def root(self, lower: tuple[float, float], upper: tuple[float, float]) -> float:
        """Where the excess changes sign between two heights, each with its own excess.

        In the square root of the height over `low`, in which the chord of a round bottom grows
        evenly there.
        """
        (low, under), (high, over) = lower, upper
        start, reach = low, high - low
        left, right = 0.0, 1.0
        for step in range(STEPS):
            halve = step >= PATIENCE and step % 2
            middle = (left + right) / 2 if halve else (left * over - right * under) / (over - under)
            height = start + reach * middle * middle
            excess = self.excess(height)
            low = height if excess >= 0 else low
            if abs(excess) <= CLOSE:
                low = height + min(excess, 0.0)  # F falls: so much lower they go in
                break
            if excess > 0:
                over *= max(1 - excess / under, 0.0) or 0.5
                left, under = middle, excess
            else:
                under *= max(1 - excess / over, 0.0) or 0.5
                right, over = middle, excess
            if right - left <= SLACK:
                break
        return low if low > self.panel.height * SLACK else 0.0


def _by_bottom(obstacles: Sequence[Obstacle]) -> list[tuple[float, Obstacle]]:
    """Each obstacle with the y of its lowest point."""
    found: list[tuple[float, Obstacle]] = []
    for item in obstacles:
        if isinstance(item, PlacedOutline):
            found.append((item.y_mm + item.outline.half_height, item))
        elif isinstance(item, Rect):
            found.append((item.bottom, item))
        else:
            found.append((max(corner.y for corner in item), item))
    return found


def free_gaps(panel: Rect, spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """What intervals of x leave free of the panel's width, from left to right.

    >>> free_gaps(Rect(0, 0, 60, 40), [(40, 50), (10, 45)])
    [(0, 10), (50, 60)]
    """
    gaps, edge, right = [], panel.x, panel.right
    for start, end in sorted(spans):
        if start > edge:
            gaps.append((edge, min(start, right)))
        edge = max(edge, end)
        if edge >= right:
            return gaps
    gaps.append((edge, right))
    return gaps


def common_width(gaps: Sequence[tuple[float, float]], count: int) -> float:
    """The greatest width of which so many boxes go into gaps, side by side; 0 for no gap.

    >>> common_width([(0, 10), (50, 74)], 3)
    10.0
    """
    if count == 1:
        return max((end - start for start, end in gaps), default=0.0)
    widths = [(end - start) / n for start, end in gaps for n in range(1, count + 1)]
    widths.sort(reverse=True)
    return widths[count - 1] if widths else 0.0


def span_below(item: Obstacle, line: float) -> tuple[float, float] | None:
    """The interval of x that the part of an obstacle below a level line (greater y) spans."""
    if isinstance(item, PlacedOutline):
        outline, offset = item.outline, line - item.y_mm
        if offset >= outline.half_height:
            return None
        reach = half_chord(outline, offset) if offset > 0 else outline.half_width
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
    if isinstance(outline, Ellipse):
        return a * math.sqrt(1 - (v / b) ** 2)
    if isinstance(outline, Superellipse):
        n = outline.exponent
        return float(a * (1 - (v / b) ** n) ** (1 / n))
    if isinstance(outline, CaptionBox):
        return a
    if isinstance(outline, Whisper | Squared):
        return half_chord(outline.line, v)
    return _half_chord_round(outline, v)


def _half_chord_round(outline: Outline, v: float) -> float:
    """Round corners exactly; any other outline between two of the points where its hull is met."""
    if isinstance(outline, RoundedRect):
        down = max(v - (outline.half_height - outline.radius), 0.0)
        return outline.half_width - outline.radius + math.sqrt(outline.radius**2 - down**2)
    ys, xs = _quarter(outline)
    after = min(max(bisect_right(ys, v), 1), len(ys) - 1)
    y0, y1 = ys[after - 1], ys[after]
    share = (v - y0) / (y1 - y0) if y1 > y0 else 1.0
    return xs[after - 1] + min(max(share, 0.0), 1.0) * (xs[after] - xs[after - 1])


@lru_cache(maxsize=1024)
def _quarter(outline: Outline) -> tuple[list[float], list[float]]:
    """Points of the lower right quarter of a hull: y, growing, and x."""
    points = outline.boundary(np.linspace(0, math.pi / 2, NORMALS))
    return points[:, 1].tolist(), points[:, 0].tolist()


def _polygon_span(corners: Polygon, line: float) -> tuple[float, float] | None:
    xs = [corner.x for corner in corners if corner.y > line]
    if not xs:
        return None
    for p, q in zip(corners, corners[1:] + corners[:1], strict=True):
        if (p.y > line) != (q.y > line):
            xs.append(p.x + (q.x - p.x) * (line - p.y) / (q.y - p.y))
    return min(xs), max(xs)
