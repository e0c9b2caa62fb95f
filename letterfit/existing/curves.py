"""Contours as chains of cubic Bezier curves, and chains as polygons within a stated error."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.existing.lengths import LARGEST
from letterfit.outline import Floats

FLATNESS_MM = 0.002
"""How far a polygon is off its curve at most: a twentieth of a platesetter's dot."""

MOST_PIECES = 200
"""Chords of one curve: a curve that wants more is larger than a page."""

FEW_CURVES = 64
"""So many curves are looked at sooner one by one than as an array."""


Point2 = tuple[float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """Contours, each a run of cubic curves; straight lines are curves whose handles lie on them.

    Args:
        curves: Shape (n, 4, 2).
        starts: The number of the first curve of each contour.
        closed: Whether each contour ends where it starts.
    """

    curves: Floats
    starts: tuple[int, ...]
    closed: tuple[bool, ...]

    def polygons(self, points: Floats | None = None) -> list[Floats]:
        """Each contour as the corners of a polygon, the first not said again, shape (m, 2).

        Args:
            points: The curves after a transform, in mm; None for as they are.
        """
        curves = self.curves if points is None else points
        flat, owner = flattened(curves)
        cuts = np.searchsorted(owner, self.starts[1:])
        found = []
        for first, part in zip(self.starts, np.split(flat, cuts), strict=True):
            ring = np.concatenate([curves[first, :1], part])
            found.append(ring[:-1] if np.allclose(ring[0], ring[-1], atol=1e-9) else ring)
        return found


def flattened(curves: Floats, *, error: float = FLATNESS_MM) -> tuple[Floats, npt.NDArray[np.intp]]:
    """Points along curves, the ends of chords that are nowhere further off than an error.

    A chord over a step s of the parameter is off by at most s^2 / 8 times the greatest second
    derivative, which for a cubic is six times its greatest second difference.

    Args:
        curves: Shape (n, 4, 2), mm.
        error: In mm.

    Returns:
        The points, without the start of each curve, and the number of the curve each lies on.
    """
    bends = np.hypot(*np.moveaxis(np.diff(curves, n=2, axis=1), -1, 0)).max(axis=1)
    pieces = np.clip(np.ceil(np.sqrt(0.75 * bends / error)), 1, MOST_PIECES).astype(np.intp)
    owner = np.repeat(np.arange(len(curves)), pieces)
    begins = np.cumsum(pieces) - pieces
    t = ((np.arange(len(owner)) - begins[owner] + 1) / pieces[owner])[:, None]
    p, s = curves[owner], 1 - t
    flat: Floats = (
        s**3 * p[:, 0] + 3 * s * s * t * p[:, 1] + 3 * s * t * t * p[:, 2] + t**3 * p[:, 3]
    )
    return flat, owner


class Pen:
    """Takes a path's moves and keeps its contours; a lone move is none."""

    def __init__(self) -> None:
        self.curves: list[tuple[Point2, Point2, Point2, Point2]] = []
        self.starts: list[int] = []
        self.closed: list[bool] = []
        self._here: Point2 = (0.0, 0.0)
        self._first = 0

    def moveTo(self, point: Point2) -> None:  # noqa: N802 - fontTools' names
        """A new contour."""
        self._here, self._first = point, len(self.curves)

    def lineTo(self, point: Point2) -> None:  # noqa: N802
        """A straight line."""
        (x, y), (u, v) = self._here, point
        first = (x + (u - x) / 3, y + (v - y) / 3)
        self.curves.append((self._here, first, (u - (u - x) / 3, v - (v - y) / 3), point))
        self._here = point

    def curveTo(self, one: Point2, other: Point2, end: Point2) -> None:  # noqa: N802
        """A cubic curve."""
        self.curves.append((self._here, one, other, end))
        self._here = end

    def qCurveTo(self, handle: Point2, end: Point2) -> None:  # noqa: N802
        """A quadratic curve, as the cubic one that it is."""
        (x, y), (a, b), (u, v) = self._here, handle, end
        one = (x + (a - x) * 2 / 3, y + (b - y) * 2 / 3)
        self.curveTo(one, (u + (a - u) * 2 / 3, v + (b - v) * 2 / 3), end)

    def closePath(self) -> None:  # noqa: N802
        """The contour ends where it began."""
        self._end(closed=True)

    def endPath(self) -> None:  # noqa: N802
        """The contour ends here."""
        self._end(closed=False)

    def _end(self, *, closed: bool) -> None:
        if len(self.curves) > self._first:
            self.starts.append(self._first)
            self.closed.append(closed)
        self._first = len(self.curves)

    def size(self) -> tuple[float, float] | None:
        """Width and height of the box round ends and handles; None for a long path."""
        if len(self.curves) > FEW_CURVES:
            return None
        points = [point for curve in self.curves for point in curve]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return (max(xs) - min(xs), max(ys) - min(ys)) if points else (0.0, 0.0)

    def chain(self) -> Chain | None:
        """The contours; None where there is none, or a number is beyond reason."""
        if not self.starts:
            return None
        curves = np.array(self.curves[: self._first], dtype=np.float64)
        if not np.isfinite(curves).all() or np.abs(curves).max() > LARGEST:
            return None
        return Chain(curves, tuple(self.starts), tuple(self.closed))
