"""One stack's smallest outline over a range of aspects, exact.

Let f be the logarithm of the area a stack asks for, s the logarithm of the aspect. For ellipses,
superellipses and boxes f is convex: the outlines (a, b) that hold a disc of air round every corner
are the common part of sets |x|^n e^(-n log a) + |y|^n e^(-n log b) <= 1, convex in (log a, log b),
and log area is linear there. For rounded rectangles f is the largest of functions
log area - 2 log h(t) + const whose second derivative is at least -BEND: f + BEND s^2 / 2 is convex.
Either way tangents bound f from below between two aspects, and their crossing is the next aspect to
try (Kelley, "The cutting-plane method for solving convex programs", J. SIAM 8, 1960).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from letterfit.fit.aspects import unit_outline
from letterfit.fit.bound import least_scale
from letterfit.outline import Floats, Outline

EXACT = 1e-10
"""Stop when the area is proved to be within this share of the least."""

MOST_STEPS = 200
"""No search needs more; the best so far is then within 1e-6."""

NUDGE = 1e-6
"""Step in the logarithm of the aspect for derivatives."""

SQUARE = 1e-9
"""Just under the aspect 1."""

BEND = {"rounded": 0.6}
"""How much f may bend down, by the kind of the outline. h of a rounded rectangle is s c + d with
c, d >= 0, so -2 log h bends by at most 1/2; log area by at most 0.084. Others: not at all."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a stack asks for at one aspect.

    Args:
        log_aspect: Logarithm of the aspect.
        log_area: Logarithm of the area in mm2.
        slope: Derivative of the second by the first.
        outline: The outline.
    """

    log_aspect: float
    log_area: float
    slope: float
    outline: Outline


def asked(points: Floats, name: str, *, log_aspect: float, air: float) -> Asked:
    """The outline of a family that a stack's ink asks for at one aspect."""
    aspect = math.exp(log_aspect)
    unit = unit_outline(name, aspect)
    touch = least_scale(points, unit, air=air)
    outline = unit.scaled(touch.scale)
    # One-sided: where a and b change places a rounded rectangle has a kink.
    nudge = NUDGE if log_aspect >= 0 else -NUDGE
    other = unit_outline(name, aspect * math.exp(nudge))
    support = [float(o.support(touch.angle)) for o in (unit, other)]
    growth = math.log(other.area_mm2 / unit.area_mm2) - 2 * math.log(support[1] / support[0])
    return Asked(log_aspect, math.log(outline.area_mm2), growth / nudge, outline)


def smallest_outline(  # noqa: PLR0913 - one question, keyword-only but for its subject
    points: Floats,
    name: str,
    *,
    aspects: tuple[float, float],
    air: float,
    near: tuple[float, float] | None = None,
    tolerance: float = EXACT,
) -> Outline:
    """The smallest outline of a family round a stack's ink, its aspect free in a range.

    Args:
        points: Shape (q, 2), mm: corners of the ink, folded into the first quadrant.
        name: The family.
        aspects: Least and greatest aspect.
        air: mm.
        near: Aspects between which the best one is thought to lie: looked at first.
        tolerance: How far, as a share, the area may lie over the least.

    >>> import numpy as np
    >>> corner = np.array([[3.0, 1.0]])
    >>> outline = smallest_outline(corner, "ellipse", aspects=(1.0, 9.0), air=0)
    >>> round(outline.aspect, 4), round(outline.area_mm2 / (2 * math.pi * 3), 9)
    (3.0, 1.0)
    """
    low, high = math.log(aspects[0]), math.log(aspects[1])

    def ask(log_aspect: float) -> Asked:
        return asked(points, name, log_aspect=min(max(log_aspect, low), high), air=air)

    bend = BEND.get(unit_outline(name, aspects[0]).kind)
    if bend is not None:
        return _anywhere(low, high, ask, bend=bend, tolerance=tolerance).outline
    left, right = (ask(math.log(aspect)) for aspect in near or aspects)
    while left.slope > 0 and left.log_aspect > low:
        left, right = ask(2 * left.log_aspect - right.log_aspect - NUDGE), left
    while right.slope < 0 and right.log_aspect < high:
        left, right = right, ask(2 * right.log_aspect - left.log_aspect + NUDGE)
    return _between(left, right, ask, tolerance=tolerance).outline


def _between(
    left: Asked, right: Asked, ask: Callable[[float], Asked], *, tolerance: float
) -> Asked:
    """The least of a convex function between two points."""
    best = min(left, right, key=lambda end: end.log_area)
    for _ in range(MOST_STEPS):
        bound, where = _crossing(left, right, bend=0.0)
        if best.log_area - bound < tolerance:
            break
        middle = ask(where)
        best = min(best, middle, key=lambda end: end.log_area)
        left, right = (middle, right) if middle.slope < 0 else (left, middle)
    return best


def _crossing(left: Asked, right: Asked, *, bend: float) -> tuple[float, float]:
    """A lower bound of f between two points, and where it is reached.

    f - bend (s - left) (right - s) / 2 is convex, nowhere over f, and equal to it at both ends.
    """
    span = right.log_aspect - left.log_aspect
    slope, back = left.slope - bend * span / 2, right.slope + bend * span / 2
    if slope >= 0:
        return left.log_area, left.log_aspect
    if back <= 0:
        return right.log_area, right.log_aspect
    step = (right.log_area - left.log_area - back * span) / (slope - back)
    step = min(max(step, 0.0), span)
    return left.log_area + slope * step, left.log_aspect + step


def _anywhere(
    low: float, high: float, ask: Callable[[float], Asked], *, bend: float, tolerance: float
) -> Asked:
    """The least of a function that bends down by at most `bend`: branch and bound."""
    # At aspect 1 half-width and half-height change places: derivatives jump there.
    square = [-SQUARE, 0.0] if low < -SQUARE and high > 0 else []
    points = [ask(log_aspect) for log_aspect in (low, *square, high)]
    best = min(points, key=lambda point: point.log_area)
    spans = [(*_crossing(*ends, bend=bend), *ends) for ends in pairwise(points)]
    for _ in range(MOST_STEPS):
        spans = [span for span in spans if span[0] < best.log_area - tolerance]
        if not spans:
            break
        span = min(spans, key=lambda span: span[:2])
        spans.remove(span)
        _, where, left, right = span
        middle = ask(where)
        best = min(best, middle, key=lambda point: point.log_area)
        halves = ((left, middle), (middle, right))
        spans += [(*_crossing(*ends, bend=bend), *ends) for ends in halves]
    return best
