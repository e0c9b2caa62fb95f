"""Arcs of ellipses and superellipses: points, the area they sweep, the nearest one, path data.

The points of |x/a|^n + |y/b|^n = 1 are

    (a r cos f, b r sin f),    r(f) = (|cos f|^n + |sin f|^n)^(-1/n),

so r is 1 for an ellipse. Half the integral of x dy - y dx along an arc about the centre c, from
point p to point q, is

    (c x (q - p)) / 2 + (a b / 2) times the integral of r^2 df.

For an ellipse the integral is the angle itself: closed form. For a superellipse it is Gauss and
Legendre's quadrature (Abramowitz and Stegun, 25.4.29), eighth of a turn by eighth.
"""

import math
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from letterfit.geometry import Point
from letterfit.outline import Floats, Outline, Superellipse
from letterfit.outline_path import cubic, cubic_text, mm_text, pair
from letterfit.separation import least_near

ARC_SAMPLES = 513
"""Points of each arc from which the nearest one is refined."""

COARSE_SAMPLES = 65
"""Points of each arc by which most points are told to be too far to be nearest."""

CURVE_TURN = math.pi / 8
"""The most of a superellipse's turn in one cubic of the path: off by under 0.1 % of its size."""


class Arc(NamedTuple):
    """A part of a balloon's outline, in the union's frame.

    Args:
        balloon: The balloon.
        centre: Its centre, mm.
        start: The angle f at which the part starts, radians.
        end: The one at which it ends, greater than `start`.
    """

    balloon: Outline
    centre: Point
    start: float
    end: float

    def points(self, angles: npt.ArrayLike) -> Floats:
        """The balloon's points at angles f, mm: shape (..., 2)."""
        result: Floats = points_of(self.balloon, angles) + np.array([self.centre.x, self.centre.y])
        return result


def _exponent(balloon: Outline) -> float:
    return balloon.exponent if isinstance(balloon, Superellipse) else 2.0


def gauge(balloon: Outline, points: Floats) -> Floats:
    """By what factor the balloon must be grown to reach each point, shape (n,)."""
    n = _exponent(balloon)
    far = np.abs(points) / np.array([balloon.half_width, balloon.half_height])
    result: Floats = (far**n).sum(axis=-1) ** (1 / n)
    return result


def _reach(balloon: Outline, angles: npt.ArrayLike) -> Floats:
    """r(f) of the module's docstring."""
    t = np.asarray(angles, dtype=np.float64)
    n = _exponent(balloon)
    result: Floats = (np.abs(np.cos(t)) ** n + np.abs(np.sin(t)) ** n) ** (-1 / n)
    return result


def points_of(balloon: Outline, angles: npt.ArrayLike) -> Floats:
    """Points of a balloon about its own centre, shape (..., 2)."""
    t = np.asarray(angles, dtype=np.float64)
    r = _reach(balloon, t)
    across, down = balloon.half_width * r * np.cos(t), balloon.half_height * r * np.sin(t)
    return np.stack([across, down], axis=-1)


def angles_of(balloon: Outline, points: Floats) -> Floats:
    """The angles f of points about the balloon's centre, shape (n,)."""
    result: Floats = np.arctan2(
        points[:, 1] / balloon.half_height, points[:, 0] / balloon.half_width
    )
    return result


def swept(arc: Arc) -> float:
    """Half the integral of x dy - y dx along an arc, mm2."""
    first, last = arc.points([arc.start, arc.end])
    chord = last - first
    moved = (arc.centre.x * chord[1] - arc.centre.y * chord[0]) / 2
    half = arc.balloon.half_width * arc.balloon.half_height / 2
    return float(moved + half * _squares(arc))


def _squares(arc: Arc) -> float:
    """The integral of r^2 over an arc's angles."""
    if not isinstance(arc.balloon, Superellipse):
        return arc.end - arc.start
    ends = np.array(_stops(arc, math.pi / 4))
    half, middle = np.diff(ends)[:, None] / 2, (ends[1:] + ends[:-1])[:, None] / 2
    nodes, weights = _legendre()
    r = _reach(arc.balloon, middle + half * nodes)
    return float((half * weights * r**2).sum())


@cache
def _legendre() -> tuple[Floats, Floats]:
    """64 nodes an eighth of a turn: off by under 1e-9 of the area for exponents from 1.5."""
    nodes, weights = np.polynomial.legendre.leggauss(64)
    return nodes, weights


def _stops(arc: Arc, step: float) -> list[float]:
    """The arc's ends and all multiples of a step between them."""
    between = range(math.floor(arc.start / step) + 1, math.ceil(arc.end / step))
    return [arc.start, *(k * step for k in between), arc.end]


def nearest(arc: Arc, points: Floats) -> float:
    """The least distance from any of the points to an arc, mm."""
    if not len(points):
        return math.inf
    near = _contenders(arc, points, samples=COARSE_SAMPLES)[0]
    near, first = _contenders(arc, near, samples=ARC_SAMPLES)

    def distance(t: Floats) -> Floats:
        dots = arc.points(np.clip(t, arc.start, arc.end))
        result: Floats = np.hypot(*np.moveaxis(near[:, None] - dots, -1, 0))
        return result

    step = (arc.end - arc.start) / (ARC_SAMPLES - 1)
    return float(least_near(distance, first, step=step)[0].min())


def _contenders(arc: Arc, points: Floats, *, samples: int) -> tuple[Floats, Floats]:
    """The points of which one may be nearest to the arc, and where each one's best sample is."""
    angles = np.linspace(arc.start, arc.end, samples)
    dots = arc.points(angles)
    apart = np.hypot(points[:, :1] - dots[:, 0], points[:, 1:] - dots[:, 1])
    least = apart.min(axis=1)
    longest = float(np.hypot(*np.diff(dots, axis=0).T).max())
    close = least <= least.min() + longest  # a sample's distance is off by under half a chord
    return points[close], angles[apart[close].argmin(axis=1)]


def drawn(arc: Arc) -> str:
    """An arc as path data from where the pen stands: at its start."""
    if isinstance(arc.balloon, Superellipse):
        return "".join(_cubic(arc, *ends) for ends in pairwise(_stops(arc, CURVE_TURN)))
    a, b = mm_text(arc.balloon.half_width), mm_text(arc.balloon.half_height)
    large = int(arc.end - arc.start > math.pi)
    return f"A{a} {b} 0 {large} 1 {pair(arc.points(arc.end))}"


def _cubic(arc: Arc, start: float, end: float) -> str:
    """One cubic whose ends and middle lie on the outline and whose ends are tangent to it."""
    balloon, ends = arc.balloon, points_of(arc.balloon, [start, end])
    normals = np.array([_normal(balloon, point) for point in ends])
    points = cubic(ends, normals, holds=lambda point: bool(gauge(balloon, point) <= 1))
    return cubic_text(points + np.array([arc.centre.x, arc.centre.y]))


def _normal(balloon: Outline, point: Floats) -> Floats:
    """The unit outward normal at a point of the outline: its gradient."""
    sides = np.array([balloon.half_width, balloon.half_height])
    gradient = np.sign(point) * np.abs(point / sides) ** (_exponent(balloon) - 1) / sides
    result: Floats = gradient / np.hypot(*gradient)
    return result
