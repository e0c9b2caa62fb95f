"""The least ellipse of a given form round ink and its air, in plain numbers.

The ellipse of half-sides k a and k b keeps the air m from the point (x, y) when k is no less than
(x cos t + y sin t + m) / h(t) for every direction t. With the angle p of the unit circle that the
ellipse is stretched from, (cos p, sin p) = (a cos t, b sin t) / h(t), that is

    f(p) = (x / a) cos p + (y / b) sin p + m n(p),    n(p)^2 = (cos p / a)^2 + (sin p / b)^2.

Its slope is cos p sin p times

    g(p) = (y / b) / sin p - (x / a) / cos p + m (1 / b^2 - 1 / a^2) / n(p),

and each term of g falls with p, the last because n grows where 1 / b^2 - 1 / a^2 is positive and
falls where it is negative. So between the axes f has one maximum, and Newton's steps, kept between
what is known to lie on either side of it, find it. Points are looked at from the one that asks for
most at first sight on, and only while one may ask for more.
"""

import math

from letterfit.outline import Floats

CLOSE = 1e-9
"""rad: so near to the maximum f falls short of it by less than rounding."""

OFF_AXIS = 1e-7
"""rad: on the axes themselves the slope is 0, whether f has its maximum there or not."""

STEPS = 60
"""Halving alone comes that near in fewer."""


def least_ellipse(points: Floats, *, a: float, b: float, air: float) -> tuple[float, float]:
    """The least k of an ellipse round points, and the direction in which it touches their air.

    Args:
        points: Shape (q, 2), mm: in the first quadrant.
        a: Half the ellipse's width at k = 1.
        b: Half its height.
        air: m, in mm.

    Returns:
        k, and t in radians.

    >>> import numpy as np
    >>> k, t = least_ellipse(np.array([[3.0, 4.0]]), a=1, b=1, air=1)
    >>> round(k, 12), round(t, 12) == round(math.atan2(4, 3), 12)
    (6.0, True)
    """
    ranked = []
    for x, y in points.tolist():
        across, up = x / a, y / b
        p = math.atan2(up, across)
        far = math.hypot(across, up)
        ranked.append((far + air * math.hypot(math.cos(p) / a, math.sin(p) / b), far, across, up))
    ranked.sort(reverse=True)
    thickest = air / min(a, b)
    most, where = -math.inf, 0.0
    for _, far, across, up in ranked:
        if far + thickest > most:
            asked, p = _greatest(across, up, a=a, b=b, air=air)
            if asked > most:
                most, where = asked, p
    return most, math.atan2(math.sin(where) / b, math.cos(where) / a)


def _greatest(across: float, up: float, *, a: float, b: float, air: float) -> tuple[float, float]:
    """The greatest f, and where."""
    form = 1 / (b * b) - 1 / (a * a)
    bend = air * form
    p = min(max(math.atan2(up, across), OFF_AXIS), math.pi / 2 - OFF_AXIS)
    low, high = (p, math.pi / 2) if bend > 0 else (0.0, p)
    for _ in range(STEPS):
        cos, sin = math.cos(p), math.sin(p)
        n = math.hypot(cos / a, sin / b)
        slope = up * cos - across * sin + bend * sin * cos / n
        curve = (cos * cos - sin * sin) / n - form * (sin * cos) ** 2 / n**3
        fall = across * cos + up * sin - bend * curve
        low, high = (p, high) if slope > 0 else (low, p)
        to = p + slope / fall if fall > 0 else math.inf
        if not low <= to <= high:
            to = (low + high) / 2
        step, p = abs(to - p), to
        if step < CLOSE:
            break
    cos, sin = math.cos(p), math.sin(p)
    return across * cos + up * sin + air * math.hypot(cos / a, sin / b), p
