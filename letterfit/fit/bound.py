"""The exact scale: the smallest outline of a given shape round given ink, to rounding.

For ink points p and a unit outline with support h the least scale that keeps the air m is the
maximum over p and t of (p . u(t) + m) / h(t), u(t) = (cos t, sin t): found on samples, then closer
and closer round the best; for ellipses in plain numbers (`letterfit.fit.round_ink`).
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.fit.round_ink import least_ellipse
from letterfit.outline import Ellipse, Floats, Outline
from letterfit.separation import least_near

SAMPLES: Floats = np.linspace(0.0, math.pi / 2, 65)
_COS, _SIN = np.cos(SAMPLES), np.sin(SAMPLES)
_COS[-1] = 0.0
_STEP = float(SAMPLES[1])

CONTENDERS = 5e-3
"""How far, as a share, a point's sampled scale may lie under the best and still win in the end."""


@dataclass(frozen=True, slots=True)
class Touch:
    """The least scale of an outline round ink, and where the ink's air touches it.

    Args:
        scale: The scale of the unit outline.
        angle: The direction of the outline's normal there, rad, folded into the first quadrant.
    """

    scale: float
    angle: float


def least_scale(points: Floats, outline: Outline, *, air: float) -> Touch:
    """The least scale of the unit outline that keeps every point clear by `air` mm.

    Args:
        points: Shape (q, 2), mm, in the first quadrant.
        outline: The unit outline.
        air: mm.

    >>> from letterfit.outline import Ellipse
    >>> touch = least_scale(np.array([[3.0, 4.0]]), Ellipse(half_width=1, half_height=1), air=1)
    >>> round(touch.scale, 12)
    6.0
    """
    if isinstance(outline, Ellipse):
        a, b = outline.half_width, outline.half_height
        return Touch(*least_ellipse(points, a=a, b=b, air=air))
    ratios = (points[:, :1] * _COS + points[:, 1:] * _SIN + air) / outline.support(SAMPLES)
    heights = ratios.max(axis=1)
    chosen = heights >= heights.max() * (1 - CONTENDERS)
    x, y = points[chosen].T[:, :, None]

    def falling_short(t: Floats) -> Floats:
        result: Floats = -(x * np.cos(t) + y * np.sin(t) + air) / outline.support(t)
        return result

    start = SAMPLES[ratios[chosen].argmax(axis=1)]
    values, angles = least_near(falling_short, start, step=_STEP)
    best = int(values.argmin())
    return Touch(-float(values[best]), abs(float(angles[best])))
