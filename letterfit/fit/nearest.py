"""How near ink comes to an ellipse, in plain numbers: the foot of each point by Newton's method.

For a point (x, y) of the first quadrant inside the ellipse (X/a)^2 + (Y/b)^2 = 1, a >= b, the
nearest point of the ellipse is (a^2 x / (s + a^2 - b^2), b^2 y / s) with the one s > 0 for which it
lies on the ellipse:

    g(s) = (a x / (s + a^2 - b^2))^2 + (b y / s)^2 - 1

falls and is convex, so Newton's steps from where one square is 1 go up to s and not beyond (Eberly,
"Distance from a Point to an Ellipse, an Ellipsoid, or a Hyperellipsoid", Geometric Tools 2013,
section 2; s is his t + b^2). Points are looked at from the outermost on, and only while one may be
nearest: a point on the same ellipse at the share r of its size is at least (1 - r) b from it.

Other outlines are sampled (`letterfit.separation`); tests hold both against each other.
"""

import math

from letterfit.outline import Ellipse, Floats, Outline
from letterfit.separation import clearance, foremost

ON_AXIS = 1e-12
"""So near to the long axis, over b, a point between the centres of curvature is on it."""

STEPS = 100
"""No point of a page needs as many; the last step is then below rounding."""


def ink_clearance(outline: Outline, points: Floats) -> float:
    """The least distance in mm from points to an outline about its own centre.

    Args:
        outline: The outline.
        points: Shape (n, 2), mm, in the first quadrant.

    Returns:
        As `letterfit.separation.clearance`: negative when a point lies outside.

    >>> import numpy as np
    >>> round(ink_clearance(Ellipse(half_width=20, half_height=10), np.array([[12.0, 0.0]])), 6)
    7.211103
    """
    if not isinstance(outline, Ellipse):
        return clearance(outline, points)
    b, a = sorted((outline.half_width, outline.half_height))
    along = points if outline.half_width == a else points[:, ::-1]
    ranked = [(math.hypot(x / a, y / b), x, y) for x, y in foremost(along).tolist()]
    ranked.sort(reverse=True)
    if not ranked or ranked[0][0] >= 1:
        return clearance(outline, points)
    least = math.inf
    for share, x, y in ranked:
        if (1 - share) * b >= least:
            break
        least = min(least, _distance(x, y, a=a, b=b))
    return least


def _distance(x: float, y: float, *, a: float, b: float) -> float:
    """The distance of a point inside an ellipse, a >= b, both in the first quadrant."""
    wider = a * a - b * b
    s = max(b * y, a * x - wider)
    if s <= ON_AXIS * b * b:
        return b * math.sqrt(1 - x * x / wider) if x * x < wider else b
    for _ in range(STEPS):
        u, v = a * x / (s + wider), b * y / s
        step = (u * u + v * v - 1) / (2 * (u * u / (s + wider) + v * v / s))
        if not s + step > s:
            break
        s += step
    return math.hypot(x - a * a * x / (s + wider), y - b * b * y / s)
