"""Two overlapping balloons with one outline: their union, its crossings, area, distance and path.

Each balloon is an ellipse or a superellipse. The outline of the union is one arc of each, from
crossing to crossing; by Green's theorem its area is the sum over both arcs of half the integral of
x dy - y dx (`letterfit.outline_arc`).
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar

import numpy as np
import numpy.typing as npt

from letterfit.errors import OutlineError
from letterfit.geometry import Point
from letterfit.outline import Ellipse, Floats, Outline, Superellipse
from letterfit.outline_arc import Arc, angles_of, drawn, gauge, nearest, points_of, swept
from letterfit.outline_path import pair

SAMPLES = 1440
"""Points of the upper outline at which its crossings with the lower are looked for."""

BISECTIONS = 50
"""A quarter of a degree halved so often is rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """The union of two overlapping balloons of one speaker, drawn with one outline.

    Its own frame has its origin at the middle of the box round both. It is not convex: `support` is
    that of its hull.

    Args:
        upper: The balloon that is read first, an ellipse or a superellipse.
        lower: The one read second.
        dx: The lower's centre from the upper's, mm to the right.
        dy: And downwards, mm.

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
        return math.fsum(swept(arc) for arc in self.arcs())

    def arcs(self) -> tuple[Arc, Arc]:
        """The outline: the upper's part outside the lower, then the lower's outside the upper."""
        leaves, enters = self._crossing_angles()
        above, below = self.upper_centre, self.lower_centre
        upper = Arc(self.upper, above, leaves, enters)
        ends = upper.points([enters, leaves]) - np.array([below.x, below.y])
        start, end = angles_of(self.lower, ends).tolist()
        lower = Arc(self.lower, below, start, end + (2 * math.pi if end <= start else 0.0))
        return upper, lower

    def support(self, angles: npt.ArrayLike) -> Floats:
        """The support function of the hull in mm at angles in radians: the greater of both."""
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
        reach = [gauge(balloon, p - np.array([c.x, c.y])) for balloon, c in self._parts()]
        outside = np.minimum(*reach) > 1
        if outside.any():
            return -self._farthest_off(p[outside])
        return min(nearest(arc, p) for arc in self.arcs())

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
        curves = "".join(map(drawn, self.arcs()))
        return f"M{pair(np.array([first.x, first.y]))}{curves}Z"

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
        return max(min(nearest(arc, p[None]) for arc in self.arcs()) for p in points)


@lru_cache(maxsize=256)  # every question about a union begins with them
def _crossings(upper: Outline, lower: Outline, dx: float, dy: float) -> tuple[float, float]:
    """Where, going round the upper outline, one leaves the lower balloon and comes back.

    Raises:
        OutlineError: When the outlines do not cross at exactly two points.
    """
    offset = np.array([dx, dy])

    def beyond(angles: Floats) -> Floats:
        """How far outside the lower balloon the upper's points are: negative inside."""
        return gauge(lower, points_of(upper, angles) - offset) - 1

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
