"""Outlines in plain numbers: how far out a point lies, and how far apart hulls are from bodies.

The gauge of a point is the factor by which an outline must grow about its centre to reach it: 1 on
the line. A body is an ellipse, a superellipse or a box that holds what it stands for.
"""

import math
from collections.abc import Sequence

from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline
from letterfit.place.tail_walk import walk

Body = tuple[float, float, float, float, float]
"""Centre x and y, half-width and half-height in mm, exponent: 2 for an ellipse, inf for a box."""

Hull = Sequence[complex]


def gauge(outline: Outline, x: float, y: float) -> float:
    """The factor by which an outline must grow about its centre to reach a point (x, y) mm.

    >>> gauge(Ellipse(half_width=5, half_height=2), 10, 0)
    2.0
    """
    if isinstance(outline, Ellipse):
        return math.hypot(x / outline.half_width, y / outline.half_height)
    across, down = abs(x) / outline.half_width, abs(y) / outline.half_height
    if isinstance(outline, Superellipse):
        n = outline.exponent
        return float((across**n + down**n) ** (1 / n))
    if isinstance(outline, CaptionBox):
        return max(across, down)
    if isinstance(outline, RoundedRect):
        return _gauge_rounded(outline, abs(x), abs(y))
    if isinstance(outline, Whisper | Squared):
        return gauge(outline.line, x, y)
    line = walk(outline)
    return math.hypot(x, y) / abs(line.point(line.towards(x, y)))


def _gauge_rounded(outline: RoundedRect, x: float, y: float) -> float:
    """The flat sides where they are met; else where the ray through the point leaves a corner."""
    flat, tall = outline.half_width - outline.radius, outline.half_height - outline.radius
    across, down = x / outline.half_width, y / outline.half_height
    if across >= down and y <= tall * across:
        return across
    if down >= across and x <= flat * down:
        return down
    # |s (x, y) - (flat, tall)| = r with s = 1 / gauge: the greater root.
    square, product = x * x + y * y, flat * x + tall * y
    rest = flat * flat + tall * tall - outline.radius**2
    return square / (product + math.sqrt(max(product * product - square * rest, 0.0)))


def on_line(outline: Outline, point: complex) -> complex:
    """The point of an outline's line on the ray from its centre through another point."""
    return point / gauge(outline, point.real, point.imag)


def body_of(item: PlacedOutline) -> Body:
    """An outline at its place as a body: itself, or the box round it."""
    outline = item.outline
    return (item.x_mm, item.y_mm, outline.half_width, outline.half_height, _exponent(outline))


def _exponent(outline: Outline) -> float:
    if isinstance(outline, Ellipse):
        return 2.0
    if isinstance(outline, Superellipse):
        return outline.exponent
    return _exponent(outline.line) if isinstance(outline, Whisper | Squared) else math.inf


def box_body(box: Rect, *, exponent: float = math.inf) -> Body:
    """A box as a body, or the superellipse in it."""
    a, b = box.width / 2, box.height / 2
    return box.x + a, box.y + b, a, b, exponent


def apart(hull: Hull, body: Body) -> float:
    """A distance in mm that the hull of points is from a body at least, in one direction.

    The direction is that in which the body's line faces the nearest of the points.

    >>> apart([8 + 0j, 9 + 0j], (0.0, 0.0, 5.0, 2.0, 2.0))
    3.0
    """
    x, y, a, b, n = body
    dx, dy, least = 0.0, 0.0, math.inf
    for p in hull:
        px, py = (p.real - x) / a, (p.imag - y) / b
        if px * px + py * py < least:
            dx, dy, least = px, py, px * px + py * py
    if n == 2:  # an ellipse
        ux, uy = dx / a, dy / b
    elif n == math.inf:
        # Off a corner the way from the corner, off a side the side's normal.
        ux = math.copysign(max(abs(dx) - 1, 0.0) * a, dx)
        uy = math.copysign(max(abs(dy) - 1, 0.0) * b, dy)
    else:
        ux = math.copysign(abs(dx) ** (n - 1), dx) / a
        uy = math.copysign(abs(dy) ** (n - 1), dy) / b
    size = math.hypot(ux, uy)
    if not size:
        return -math.inf
    ux, uy = ux / size, uy / size
    low = min([ux * p.real + uy * p.imag for p in hull])
    return low - x * ux - y * uy - _support(a * abs(ux), b * abs(uy), n)


def segment_meets(ends: tuple[complex, complex], body: Body) -> bool:
    """Whether a segment meets a body; a superellipse counts as the ellipse round it.

    >>> segment_meets((-9 + 1j, 9 + 1j), (0.0, 0.0, 5.0, 2.0, 2.0))
    True
    """
    x, y, a, b, n = body
    (px, py), (qx, qy) = (((p.real - x) / a, (p.imag - y) / b) for p in ends)
    vx, vy = qx - px, qy - py
    if n == math.inf:
        # Of the segment lies between both sides: from the last entry to the first exit.
        spans = [(0.0, 1.0)]
        for start, way in ((px, vx), (py, vy)):
            if way:
                spans.append(
                    ((-math.copysign(1, way) - start) / way, (math.copysign(1, way) - start) / way)
                )
            elif abs(start) > 1:
                return False
        return max(low for low, _ in spans) < min(high for _, high in spans)
    along = -(px * vx + py * vy) / (vx * vx + vy * vy or 1.0)
    along = min(max(along, 0.0), 1.0)
    return math.hypot(px + along * vx, py + along * vy) < 2 ** (0.5 - 1 / n)


def _support(across: float, down: float, exponent: float) -> float:
    """The support function of a superellipse: the dual norm (Hoelder)."""
    if exponent == 2:  # an ellipse
        return math.hypot(across, down)
    if exponent == math.inf:
        return across + down
    q = exponent / (exponent - 1)
    return float((across**q + down**q) ** (1 / q))


def are_apart(one: Hull, two: Hull, *, by: float) -> bool:
    """Whether one of a few directions shows two wedges' hulls to be farther apart than that.

    Args:
        one: Points of the first: two roots first, the tip last; or the two ends of a segment.
        two: Points of the second.
        by: A distance in mm.

    >>> are_apart([0j, 3 + 0j, 1 + 9j], [6 + 0j, 9 + 0j, 7 + 9j], by=2.0)
    True
    """
    for unit in (1, -1j, *_across(one), *_across(two)):
        here = [(p * unit).real for p in one]
        there = [(p * unit).real for p in two]
        if min(here) - max(there) > by or min(there) - max(here) > by:
            return True
    return False


def _across(hull: Hull) -> list[complex]:
    """The directions across the ways from both roots to the tip, as what turns them to the x."""
    ways = [hull[-1] - root for root in hull[:2]]
    return [(way / abs(way) * 1j).conjugate() for way in ways if way]
