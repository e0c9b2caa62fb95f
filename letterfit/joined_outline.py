"""Two overlapping balloons with one outline: their union, its crossings, area, distance and path.

Each balloon is an ellipse or a superellipse |x/a|^n + |y/b|^n = 1, whose points are

    (a r cos f, b r sin f),    r(f) = (|cos f|^n + |sin f|^n)^(-1/n),

so r is 1 for an ellipse. The outline of the union is one arc of each, from crossing to crossing.
By Green's theorem the area is the sum over both arcs of half the integral of x dy - y dx, which for
an arc about the centre c from point p to point q is

    (c x (q - p)) / 2 + (a b / 2) times the integral of r^2 df.

For an ellipse the integral is the angle itself: closed form. For a superellipse it is Gauss and
Legendre's quadrature (Abramowitz and Stegun, 25.4.29), eighth of a turn by eighth.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import ClassVar, NamedTuple

import numpy as np
import numpy.typing as npt

from letterfit.errors import OutlineError
from letterfit.geometry import Point
from letterfit.outline import Ellipse, Floats, Outline, Superellipse
from letterfit.separation import least_near

SAMPLES = 1440
"""Points of the upper outline at which its crossings with the lower are looked for."""

BISECTIONS = 50
"""A quarter of a degree halved so often is rounding."""

ARC_SAMPLES = 513
"""Points of each arc from which the nearest one is refined."""

COARSE_SAMPLES = 65
"""Points of each arc by which most points are told to be too far to be nearest."""

NODES, WEIGHTS = np.polynomial.legendre.leggauss(64)
"""64 nodes an eighth of a turn: off by under 1e-9 of the area for exponents from 1.5."""

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
        result: Floats = _points(self.balloon, angles) + np.array([self.centre.x, self.centre.y])
        return result


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """The union of two overlapping balloons of one speaker, drawn with one outline.

    Its own frame has its origin at the middle of the box round both. It is not convex: `support` is
    that of its hull.

    Args:
        upper: The balloon that is read first, an ellipse or a superellipse.
        lower: The one read second.
        dx: The lower's centre from the upper's, mm to the right.
        dy: And downwards.

    Raises:
        OutlineError: When a balloon is of another kind, a number is not finite, or the outlines do
            not cross at exactly two points (they are apart, one inside the other, or a cross).

    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> pair = Joined(upper=disc, lower=disc, dx=5, dy=0)
    >>> round(pair.area_mm2, 6), round(pair.neck_mm, 6)
    (126.37039, 8.660254)
    """

    kind: ClassVar[str] = "joined"
    upper: Outline
    lower: Outline
    dx: float
    dy: float

    def __post_init__(self) -> None:
        for balloon in (self.upper, self.lower):
            if not isinstance(balloon, Ellipse | Superellipse):
                raise OutlineError(
                    f"balloons of kind {balloon.kind!r} cannot be joined",
                    advice="give ellipses or superellipses",
                )
        if not (math.isfinite(self.dx) and math.isfinite(self.dy)):
            raise OutlineError(
                f"an offset of ({self.dx}, {self.dy}) mm is no place", advice="give finite numbers"
            )
        self._crossing_angles()

    @property
    def half_width(self) -> float:
        """Half the width of the box round both, mm."""
        left, _, right, _ = self._box()
        return (right - left) / 2

    @property
    def half_height(self) -> float:
        """Half the height of the box round both, mm."""
        _, top, _, bottom = self._box()
        return (bottom - top) / 2

    @property
    def upper_centre(self) -> Point:
        """The upper balloon's centre in the union's frame."""
        left, top, right, bottom = self._box()
        return Point(-(left + right) / 2, -(top + bottom) / 2)

    @property
    def lower_centre(self) -> Point:
        """The lower balloon's centre in the union's frame."""
        upper = self.upper_centre
        return Point(upper.x + self.dx, upper.y + self.dy)

    @property
    def crossings(self) -> tuple[Point, Point]:
        """The two points where the outlines cross: the ends of the neck."""
        arc = self.arcs()[0]
        first, last = arc.points([arc.start, arc.end]).tolist()
        return Point(*first), Point(*last)

    @property
    def neck_mm(self) -> float:
        """The width of the neck: the distance between the crossings, mm."""
        first, last = self.crossings
        return first.distance(last)

    @property
    def area_mm2(self) -> float:
        """The area of the union in mm2: closed form for ellipses, else right to a share of 1e-9."""
        return math.fsum(_swept(arc) for arc in self.arcs())

    def arcs(self) -> tuple[Arc, Arc]:
        """The outline: the upper's part outside the lower, then the lower's outside the upper."""
        leaves, enters = self._crossing_angles()
        above, below = self.upper_centre, self.lower_centre
        upper = Arc(self.upper, above, leaves, enters)
        ends = upper.points([enters, leaves]) - np.array([below.x, below.y])
        start, end = _angles(self.lower, ends).tolist()
        lower = Arc(self.lower, below, start, end + (2 * math.pi if end <= start else 0.0))
        return upper, lower

    def support(self, angles: npt.ArrayLike) -> Floats:
        """The support function of the hull in mm: the greater of both, each about its centre."""
        t = np.asarray(angles, dtype=np.float64)
        parts = [
            balloon.support(t) + centre.x * np.cos(t) + centre.y * np.sin(t)
            for balloon, centre in self._parts()
        ]
        result: Floats = np.maximum(*parts)
        return result

    def contains(self, x: float, y: float) -> bool:
        """Whether the point (x, y) mm lies in either balloon."""
        return any(balloon.contains(x - c.x, y - c.y) for balloon, c in self._parts())

    def clearance(self, points: npt.ArrayLike) -> float:
        """The least true distance in mm from any of the points to the union's outline.

        Args:
            points: Shape (n, 2), mm, in the union's frame.

        Returns:
            The least signed distance: negative when a point lies outside; infinite for no points.

        >>> disc = Ellipse(half_width=5, half_height=5)
        >>> pair = Joined(upper=disc, lower=disc, dx=6, dy=0)
        >>> round(pair.clearance([[0, 0]]), 9), round(pair.clearance([[7, 0]]), 9)
        (4.0, 1.0)
        """
        p = np.asarray(points, dtype=np.float64).reshape(-1, 2)
        reach = [_gauge(balloon, p - np.array([c.x, c.y])) for balloon, c in self._parts()]
        outside = np.minimum(*reach) > 1
        if outside.any():
            return -self._farthest_off(p[outside])
        return min(_nearest(arc, p) for arc in self.arcs())

    def scaled(self, factor: float) -> "Joined":
        """Both balloons and their offset grown by a factor.

        Raises:
            OutlineError: When the factor is not finite and over 0.
        """
        upper, lower = self.upper.scaled(factor), self.lower.scaled(factor)
        return Joined(upper=upper, lower=lower, dx=self.dx * factor, dy=self.dy * factor)

    def svg_path(self) -> str:
        """The union's outline as one closed contour of SVG path data in mm about its own origin.

        Each ellipse is one elliptical arc, exact; a superellipse cubic curves with its own points
        and tangents at their ends, at most an eighth of half a turn each.
        """
        first = self.crossings[0]
        drawn = "".join(map(_drawn, self.arcs()))
        return f"M{_pair(np.array([first.x, first.y]))}{drawn}Z"

    def _parts(self) -> tuple[tuple[Outline, Point], tuple[Outline, Point]]:
        return (self.upper, self.upper_centre), (self.lower, self.lower_centre)

    def _box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of both about the upper's centre."""
        one, other = self.upper, self.lower
        return (
            min(-one.half_width, self.dx - other.half_width),
            min(-one.half_height, self.dy - other.half_height),
            max(one.half_width, self.dx + other.half_width),
            max(one.half_height, self.dy + other.half_height),
        )

    def _crossing_angles(self) -> tuple[float, float]:
        return _crossings(self.upper, self.lower, self.dx, self.dy)

    def _farthest_off(self, points: Floats) -> float:
        """How far the farthest of points outside is from the outline, mm."""
        return max(min(_nearest(arc, p[None]) for arc in self.arcs()) for p in points)


@lru_cache(maxsize=256)  # every question about a union begins with them
def _crossings(upper: Outline, lower: Outline, dx: float, dy: float) -> tuple[float, float]:
    """Where, going round the upper outline, one leaves the lower balloon and comes back.

    Raises:
        OutlineError: When the outlines do not cross at exactly two points.
    """
    offset = np.array([dx, dy])

    def beyond(angles: Floats) -> Floats:
        """How far outside the lower balloon the upper's points are: negative inside."""
        return _gauge(lower, _points(upper, angles) - offset) - 1

    step = 2 * math.pi / SAMPLES
    turn: Floats = np.arange(SAMPLES, dtype=np.float64) * step
    outside = beyond(turn) > 0
    changes = np.flatnonzero(outside != np.roll(outside, -1))
    if len(changes) != 2:
        raise OutlineError(
            "the two balloons do not overlap so that their outlines cross twice",
            advice="put them nearer to or further from each other",
        )
    low, high = turn[changes], turn[changes] + step
    before = outside[changes]
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        same = (beyond(middle) > 0) == before
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    one, other = ((low + high) / 2).tolist()
    leaves, enters = (other, one) if before[0] else (one, other)
    return leaves, enters + (2 * math.pi if enters <= leaves else 0.0)


def _exponent(balloon: Outline) -> float:
    return balloon.exponent if isinstance(balloon, Superellipse) else 2.0


def _gauge(balloon: Outline, points: Floats) -> Floats:
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


def _points(balloon: Outline, angles: npt.ArrayLike) -> Floats:
    """Points of a balloon about its own centre, shape (..., 2)."""
    t = np.asarray(angles, dtype=np.float64)
    r = _reach(balloon, t)
    across, down = balloon.half_width * r * np.cos(t), balloon.half_height * r * np.sin(t)
    return np.stack([across, down], axis=-1)


def _angles(balloon: Outline, points: Floats) -> Floats:
    """The angles f of points about the balloon's centre, shape (n,)."""
    result: Floats = np.arctan2(
        points[:, 1] / balloon.half_height, points[:, 0] / balloon.half_width
    )
    return result


def _swept(arc: Arc) -> float:
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
    r = _reach(arc.balloon, middle + half * NODES)
    return float((half * WEIGHTS * r**2).sum())


def _stops(arc: Arc, step: float) -> list[float]:
    """The arc's ends and all multiples of a step between them."""
    between = range(math.floor(arc.start / step) + 1, math.ceil(arc.end / step))
    return [arc.start, *(k * step for k in between), arc.end]


def _nearest(arc: Arc, points: Floats) -> float:
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


def _drawn(arc: Arc) -> str:
    """An arc as path data from where the pen stands: at its start."""
    if isinstance(arc.balloon, Superellipse):
        return "".join(_cubic(arc, *ends) for ends in pairwise(_stops(arc, CURVE_TURN)))
    a, b = _mm(arc.balloon.half_width), _mm(arc.balloon.half_height)
    large = int(arc.end - arc.start > math.pi)
    return f"A{a} {b} 0 {large} 1 {_pair(arc.points(arc.end))}"


def _cubic(arc: Arc, start: float, end: float) -> str:
    """One cubic whose ends and middle lie on the outline and whose ends are tangent to it."""
    centre = np.array([arc.centre.x, arc.centre.y])
    first, last = _points(arc.balloon, [start, end])
    normals = np.array([_normal(arc.balloon, first), _normal(arc.balloon, last)])
    middle = (first + last) / 2
    if abs(np.linalg.det(normals)) < 1e-12:  # as good as straight
        corner = middle
    else:
        corner = np.linalg.solve(normals, np.einsum("ij,ij->i", normals, np.array([first, last])))
    inside, outside = 0.0, 1.0
    for _ in range(BISECTIONS):  # the curve's own middle is middle + share (corner - middle)
        share = (inside + outside) / 2
        within = _gauge(arc.balloon, middle + share * (corner - middle)) <= 1
        inside, outside = (share, outside) if within else (inside, share)
    reach = 4 * min(inside, 0.75) / 3
    handles = (first + reach * (corner - first), last + reach * (corner - last))
    return f"C{' '.join(_pair(point + centre) for point in (*handles, last))}"


def _normal(balloon: Outline, point: Floats) -> Floats:
    """The unit outward normal at a point of the outline: its gradient."""
    sides = np.array([balloon.half_width, balloon.half_height])
    gradient = np.sign(point) * np.abs(point / sides) ** (_exponent(balloon) - 1) / sides
    result: Floats = gradient / np.hypot(*gradient)
    return result


def _mm(value: float) -> str:
    """A length for path data, to a tenth of a micrometre."""
    return f"{value:.4f}".rstrip("0").rstrip(".")


def _pair(point: Floats) -> str:
    return " ".join(_mm(round(float(x), 4) + 0.0) for x in point)
