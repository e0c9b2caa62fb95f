"""The exact scale: the smallest outline of a given shape round given ink, to rounding.

For ink points p and a unit outline with support h the least scale that keeps the air m is the
maximum over p and t of (p . u(t) + m) / h(t), u(t) = (cos t, sin t). It is found on samples, then
at the zero of the derivative between the neighbouring samples (regula falsi, Illinois variant:
Dowell and Jarratt, BIT 11, 1971).
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

SAMPLES: Floats = np.linspace(0.0, math.pi / 2, 65)
_UNITS = np.stack([np.cos(SAMPLES), np.sin(SAMPLES)])
_UNITS[0, -1] = 0.0
_STEP = float(SAMPLES[1])

CONTENDERS = 2e-3
"""How far, as a share, a point's sampled scale may lie under the best and still win in the end."""

ROUNDS = 40
"""Most steps of the root finder; it stops when nothing moves."""


@dataclass(frozen=True, slots=True)
class Touch:
    """The least scale of an outline round ink, and where the ink's air touches it.

    Args:
        scale: The scale of the unit outline.
        angle: The direction of the outline's normal there, rad, folded into the first quadrant.
    """

    scale: float
    angle: float


def ink_points(words: Words, firsts: tuple[int, ...], baselines: Floats) -> Floats:
    """Corners of the ink of a stack, centred lines, folded into the first quadrant.

    Args:
        words: The text.
        firsts: First piece of every line, and n at the end.
        baselines: Shape (L,), mm under the outline's centre.

    Returns:
        Shape (q, 2), mm: only points that can touch first ; the centre alone when the stack
        has no ink.
    """
    parts = []
    for first, end, baseline in zip(firsts, firsts[1:], baselines, strict=False):
        corners, width = line_corners(words, first, end - 1)
        parts.append(np.abs(corners + [-width / 2, baseline]))
    return _foremost(np.concatenate(parts))


def line_corners(words: Words, first: int, last: int) -> tuple[Floats, float]:
    """Corners of a line's ink from the left end of its advance, and the advance, without glyphs."""
    if (first, last) in words.reshaped:
        line = words.reshaped[first, last]
        return line.corners(), line.width_mm
    begin = float(words.starts[first])
    parts = [
        words.pieces[p].corners() + [float(words.starts[p]) - begin, 0.0]
        for p in range(first, last + 1)
    ]
    width = float(words.starts[last]) - begin + words.pieces[last].width_mm
    return np.concatenate(parts), width


def _foremost(points: Floats) -> Floats:
    """The points that no other one exceeds in both x and y, from the highest down."""
    if not len(points):
        return np.zeros((1, 2))
    order = np.lexsort((-points[:, 0], -points[:, 1]))
    ranked = points[order]
    widest = np.concatenate([[-1.0], np.maximum.accumulate(ranked[:, 0])])
    result: Floats = ranked[ranked[:, 0] > widest[:-1]]
    return result


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
    h = outline.support(SAMPLES)
    ratios = (points @ _UNITS + air) / h
    peaks = ratios.argmax(axis=1)
    heights = ratios[np.arange(len(points)), peaks]
    top = int(heights.argmax())
    best = Touch(float(heights[top]), float(SAMPLES[peaks[top]]))
    chosen = heights >= best.scale * (1 - CONTENDERS)
    angles = _zero_slope(points[chosen], outline, air=air, start=SAMPLES[peaks[chosen]])
    refined = _ratio(points[chosen], outline, air, angles)
    top = int(refined.argmax())
    if refined[top] > best.scale:
        return Touch(float(refined[top]), float(angles[top]))
    return best


def _ratio(points: Floats, outline: Outline, air: float, angles: Floats) -> Floats:
    reach = points[:, 0] * np.cos(angles) + points[:, 1] * np.sin(angles) + air
    result: Floats = reach / outline.support(angles)
    return result


def _slope(points: Floats, outline: Outline, air: float, angles: Floats) -> Floats:
    """The sign-carrying part of the derivative of (p . u + m) / h: h's derivative is x(t) . u'(t)."""
    cos, sin = np.cos(angles), np.sin(angles)
    contact = outline.boundary(angles)
    h = contact[:, 0] * cos + contact[:, 1] * sin
    turn = contact[:, 1] * cos - contact[:, 0] * sin
    reach = points[:, 0] * cos + points[:, 1] * sin + air
    result: Floats = (points[:, 1] * cos - points[:, 0] * sin) * h - reach * turn
    return result


def _zero_slope(points: Floats, outline: Outline, *, air: float, start: Floats) -> Floats:
    """Where the ratio peaks within one sample of `start`, per point."""
    left, right = start - _STEP, start + _STEP
    low, high = _slope(points, outline, air, left), _slope(points, outline, air, right)
    if not np.all((low > 0) & (high < 0)):  # a kink of the outline: halve instead
        low, high = np.maximum(low, 1e-300), np.minimum(high, -1e-300)
    middle = start
    side = np.zeros(len(points))
    for _ in range(ROUNDS):
        middle = np.clip((left * high - right * low) / (high - low), left, right)
        value = _slope(points, outline, air, middle)
        rising = value > 0
        # Illinois: an end that stays twice counts half.
        high = np.where(rising & (side > 0), high / 2, high)
        low = np.where(~rising & (side < 0), low / 2, low)
        side = np.where(rising, 1.0, -1.0)
        moved = np.where(rising, middle - left, right - middle)
        left, low = np.where(rising, middle, left), np.where(rising, value, low)
        right, high = np.where(rising, right, middle), np.where(rising, high, value)
        if float(np.minimum(moved, right - left).max()) < 1e-9:
            break
    return middle
