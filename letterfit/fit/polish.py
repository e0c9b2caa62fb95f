"""One stack's smallest outline over a range of aspects, exact.

The logarithm of the area a stack asks for is a convex function of the logarithm of the aspect for
ellipses and superellipses: the outlines (a, b) that hold a disc of air round every corner are the
common part of sets sum |x|^n e^(-n log a) + |y|^n e^(-n log b) <= 1, convex in (log a, log b), and
log area is linear there. So tangents bound it from below, and their crossing is the next aspect
to try (Kelley, "The cutting-plane method for solving convex programs", J. SIAM 8, 1960).
"""

import math
from dataclasses import dataclass

from letterfit.fit.aspects import unit_outline
from letterfit.fit.bound import least_scale
from letterfit.outline import Floats, Outline

EXACT = 1e-10
"""Stop when the area is proved to be within this share of the least."""

MOST_STEPS = 60
NUDGE = 1e-6


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


def asked(points: Floats, name: str, log_aspect: float, *, air: float) -> Asked:
    """The outline of a family that a stack's ink asks for at one aspect."""
    aspect = math.exp(log_aspect)
    unit = unit_outline(name, aspect)
    touch = least_scale(points, unit, air=air)
    outline = unit.scaled(touch.scale)
    wider, narrower = (unit_outline(name, aspect * math.exp(d)) for d in (NUDGE, -NUDGE))
    h = [float(o.support(touch.angle)) for o in (wider, narrower)]
    growth = math.log(wider.area_mm2 / narrower.area_mm2) - 2 * math.log(h[0] / h[1])
    return Asked(log_aspect, math.log(outline.area_mm2), growth / (2 * NUDGE), outline)


def smallest_outline(
    points: Floats, name: str, aspects: tuple[float, float], *, air: float, tolerance: float = EXACT
) -> Outline:
    """The smallest outline of a family round a stack's ink, its aspect free in a range.

    Args:
        points: Shape (q, 2), mm: corners of the ink, folded into the first quadrant.
        name: The family.
        aspects: Least and greatest aspect.
        air: mm.
        tolerance: How far, as a share, the area may lie over the least.

    >>> import numpy as np
    >>> corner = np.array([[3.0, 1.0]])
    >>> outline = smallest_outline(corner, "ellipse", (1.0, 9.0), air=0)
    >>> round(outline.aspect, 4), round(outline.area_mm2 / (2 * math.pi * 3), 9)
    (3.0, 1.0)
    """
    left = asked(points, name, math.log(aspects[0]), air=air)
    if left.slope >= 0 or aspects[0] == aspects[1]:
        return left.outline
    right = asked(points, name, math.log(aspects[1]), air=air)
    if right.slope <= 0:
        return right.outline
    best = min(left, right, key=lambda end: end.log_area)
    for _ in range(MOST_STEPS):
        span = right.log_aspect - left.log_aspect
        fall = right.log_area - left.log_area - right.slope * span
        step = fall / (left.slope - right.slope)
        bound = left.log_area + left.slope * step
        if best.log_area - bound < tolerance or span < 1e-12:
            break
        middle = asked(points, name, left.log_aspect + min(max(step, 0.0), span), air=air)
        best = min(best, middle, key=lambda end: end.log_area)
        left, right = (middle, right) if middle.slope < 0 else (left, middle)
    return best.outline
