"""True distances from support functions: ink to outline, and outline to outline.

For a convex outline with support h and a point p, the signed distance to the outline is

    min over t of h(t) - p . u(t)        (positive inside, negative outside),

and for two outlines with centres d apart the signed gap is

    max over t of d . u(t) - h1(t) - h2(t + pi)        (negative when they overlap)

(separating lines; Boyd and Vandenberghe, Convex Optimization, section 8.2.1). The extreme is first
found on samples, then refined between the neighbouring samples, so that both figures are right to
far below 0.001 mm.
"""

import math
from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats, Outline

SAMPLES = 720
"""Directions looked at before refining; a multiple of 4, so that the axes are among them."""

GOLDEN = (math.sqrt(5) - 1) / 2
STEPS = 48
"""Golden-section steps: the bracket of two samples shrinks below 1e-11 rad."""

_TURN: Floats = np.arange(SAMPLES, dtype=np.float64) * (2 * math.pi / SAMPLES)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])


def clearance(outline: Outline, points: npt.ArrayLike) -> float:
    """The least distance in mm from any of the points to the outline about its own centre.

    Args:
        outline: A convex outline.
        points: Shape (n, 2), mm, in the outline's own frame.

    Returns:
        The least signed distance: negative when a point lies outside; infinite for no points.

    >>> from letterfit.outline import Ellipse
    >>> round(clearance(Ellipse(half_width=20, half_height=10), [[0, 0], [12, 0]]), 6)
    7.211103
    """
    p = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    if not len(p):
        return math.inf
    slack = outline.support(_TURN) - p @ _UNITS
    nearest, where = np.divmod(int(slack.argmin()), SAMPLES)
    # Another point may win once refined: keep all whose sampled slack is within reach of the best.
    reach = _sampling_error(outline, p)
    contenders = np.flatnonzero(slack.min(axis=1) <= slack[nearest, where] + reach)
    best = math.inf
    for index in contenders:
        best = min(best, _refined(_distance_to_tangent(outline, *p[index]), slack[index]))
    return best


def gap(first: Outline, second: Outline, *, dx: float, dy: float) -> float:
    """The signed gap in mm between two outlines, the second's centre at (dx, dy) from the first's.

    Returns:
        The true distance when they are apart; minus the depth of the overlap when they are not.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> round(gap(disc, disc, dx=9, dy=12), 9)
    5.0
    """

    def overlap(t: Floats) -> Floats:
        result: Floats = first.support(t) + second.support(t) - dx * np.cos(t) - dy * np.sin(t)
        return result

    return -_refined(overlap, overlap(_TURN))


def _distance_to_tangent(outline: Outline, x: float, y: float) -> Callable[[Floats], Floats]:
    def distance(t: Floats) -> Floats:
        result: Floats = outline.support(t) - x * np.cos(t) - y * np.sin(t)
        return result

    return distance


def _sampling_error(outline: Outline, points: Floats) -> float:
    """How far a sampled minimum can lie above the true one: the slope's bound times half a step."""
    farthest = float(np.hypot(points[:, 0], points[:, 1]).max())
    return (math.hypot(outline.half_width, outline.half_height) + farthest) * math.pi / SAMPLES


def _refined(value: Callable[[Floats], Floats], sampled: Floats) -> float:
    """The least value near the samples that are locally least, by golden section round each."""
    low = (sampled <= np.roll(sampled, 1)) & (sampled <= np.roll(sampled, -1))
    step = 2 * math.pi / SAMPLES
    left = _TURN[low] - step
    right = _TURN[low] + step
    for _ in range(STEPS):
        inner, outer = right - GOLDEN * (right - left), left + GOLDEN * (right - left)
        take_left = value(inner) <= value(outer)
        left, right = np.where(take_left, left, inner), np.where(take_left, outer, right)
    return float(min(value((left + right) / 2).min(), sampled.min()))
