"""Shapes of SVG as chains of cubic Bezier curves, and chains as polygons within a stated error.

Basic shapes are those of SVG 2, chapter 10, paths those of chapter 9 (read by fontTools).
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from fontTools.svgLib.path import parse_path

from letterfit.existing.lengths import LARGEST, MOST_CHARACTERS, length, numbers
from letterfit.existing.viewports import Frame
from letterfit.outline import Floats

FLATNESS_MM = 0.002
"""How far a polygon is off its curve at most: a twentieth of a platesetter's dot."""

MOST_PIECES = 200
"""Chords of one curve: a curve that wants more is larger than a page."""

FEW_CURVES = 64
"""So many curves are looked at sooner one by one than as an array."""

ARCS = 8
"""Curves round an ellipse: off it by 4e-6 of its half-axes (Goldapp 1991)."""

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


def path_pen(data: str) -> Pen | None:
    """A pen that has drawn path data; None where it is broken.

    >>> path_pen("M0 0H4V2H0Z").chain().curves.shape
    (4, 4, 2)
    >>> path_pen("M0 0L1e999 2Z").chain() is None
    True
    """
    if len(data) > MOST_CHARACTERS:
        return None
    pen = Pen()
    try:
        parse_path(" ".join(data.split()), pen)
    except (ValueError, IndexError, TypeError, ArithmeticError, AssertionError):
        return None
    return pen


def _rect(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    x, y, width, height = said("x", 0), said("y", 0), said("width", 0), said("height", 0)
    if width <= 0 or height <= 0:
        return None
    rx, ry = said("rx", -1), said("ry", -1)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    pen = Pen()
    if rx == 0 or ry == 0:
        pen.moveTo((x, y))
        for point in ((x + width, y), (x + width, y + height), (x, y + height), (x, y)):
            pen.lineTo(point)
        pen.closePath()
        return pen
    pen.moveTo((x + width - rx, y))
    corners = (
        (x + width - rx, y + ry),
        (x + width - rx, y + height - ry),
        (x + rx, y + height - ry),
        (x + rx, y + ry),
    )
    for quarter, centre in enumerate(corners):
        _turn(pen, centre, (rx, ry), first=(quarter - 1) * math.pi / 2, arcs=ARCS // 4)
    pen.lineTo((x + width - rx, y))
    pen.closePath()
    return pen


def _turn(pen: Pen, centre: Point2, radii: Point2, *, first: float, arcs: int) -> None:
    """Some eighths of a turn of an ellipse, after a line to where they begin."""
    step = 2 * math.pi / ARCS
    reach = 4 / 3 * math.tan(step / 4)

    def at(angle: float, out: float) -> Point2:
        cos, sin = math.cos(angle), math.sin(angle)
        return (
            centre[0] + radii[0] * (cos - out * sin),
            centre[1] + radii[1] * (sin + out * cos),
        )

    pen.lineTo(at(first, 0.0))
    for number in range(arcs):
        start, end = first + number * step, first + (number + 1) * step
        pen.curveTo(at(start, reach), at(end, -reach), at(end, 0.0))


def _ellipse(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    rx, ry = said("rx", -1), said("ry", -1)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    return _oval((said("cx", 0), said("cy", 0)), (rx, ry))


def _circle(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    radius = said("r", 0)
    return _oval((said("cx", 0), said("cy", 0)), (radius, radius))


def _oval(centre: Point2, radii: Point2) -> Pen | None:
    if min(radii) <= 0:
        return None
    pen = Pen()
    pen.moveTo((centre[0] + radii[0], centre[1]))
    _turn(pen, centre, radii, first=0.0, arcs=ARCS)
    pen.closePath()
    return pen


_SHAPES = {"rect": _rect, "ellipse": _ellipse, "circle": _circle}
_HEIGHTS = {"y", "height", "ry", "cy"}
_WIDTHS = {"x", "width", "rx", "cx"}


def shape_pen(
    tag: str, attributes: Mapping[str, str], frame: Frame, *, em: float = 16.0
) -> Pen | None:
    """A pen that has drawn a basic shape or a path, in user units; None where it draws nothing.

    Args:
        tag: "rect", "circle", "ellipse", "polygon", "polyline" or "path".
        attributes: The element's.
        frame: What percentages are of.
        em: What an em is, in user units.

    >>> shape_pen("rect", {"width": "4", "height": "2"}, Frame(0, 0, 10, 10)).size()
    (4.0, 2.0)
    """
    if tag == "path":
        return path_pen(attributes.get("d", ""))
    if tag in ("polygon", "polyline"):
        return _straight(attributes.get("points", ""), closed=tag == "polygon")

    def said(name: str, missing: float) -> float:
        whole = (
            frame.height if name in _HEIGHTS else frame.width if name in _WIDTHS else frame.diagonal
        )
        value = length(attributes.get(name), whole=whole, em=em)
        return missing if value is None else value

    return _SHAPES[tag](said, frame)


def _straight(points: str, *, closed: bool) -> Pen | None:
    values = numbers(points)
    if values is None or len(values) < 4:
        return None
    corners = list(zip(values[::2], values[1::2], strict=False))
    pen = Pen()
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    if closed:
        pen.lineTo(corners[0])
        pen.closePath()
    else:
        pen.endPath()
    return pen
