"""Outlines as tails see them: places along the line, and how far they reach in each direction.

Both are kept for every outline, about its own centre: a panel's menus are asked again and again.
"""

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.model import PlacedOutline

DIRECTIONS = 32
"""Directions in which reaches are told: bodies that one of them parts are apart for certain."""

STEPS = 360
"""Normals at which a line is sampled: straight steps are off it by a few hundredths of 1 %."""

_TURN = np.arange(DIRECTIONS) * (2 * math.pi / DIRECTIONS)
UNITS: Floats = np.stack([np.cos(_TURN), np.sin(_TURN)])
"""Shape (2, DIRECTIONS): the directions as vectors."""

Points = npt.NDArray[np.complex128]
"""Points and vectors in mm as complex numbers, x + iy: one product turns, one modulus measures."""

EVENING = 1.25
"""Power that spreads normals so that points come evenly on superellipses of exponent 2 to 3."""

NEARLY = 0.03
"""In radians: a side faces a direction that is so near to its normal."""

_ROUND = np.linspace(0, 2 * math.pi, STEPS + 1)


@dataclass(frozen=True, slots=True, eq=False)
class Walk:
    """An outline's line, sampled all round from the right, clockwise as the page shows it.

    Args:
        turn: Shape (n,): angles about the centre, growing, radians.
        length: Shape (n,): lengths along the line from the first point, mm.
        points: Shape (n,): the points, mm.
        numbers: The first three as plain numbers.
    """

    turn: Floats
    length: Floats
    points: Points
    numbers: tuple[list[float], list[float], list[complex]]

    @property
    def perimeter(self) -> float:
        """The length of the whole line, mm."""
        return self.numbers[1][-1]

    def towards(self, dx: float, dy: float) -> float:
        """The length along the line at which a ray from the centre leaves it, mm."""
        turn, length, points = self.numbers
        angle = turn[0] + (math.atan2(dy, dx) - turn[0]) % (2 * math.pi)
        after = min(max(bisect_right(turn, angle), 1), len(turn) - 1)
        ray = complex(dx, -dy)
        before, beyond = ((point * ray).imag for point in points[after - 1 : after + 1])
        share = before / (before - beyond) if before != beyond else 0.0
        return length[after - 1] + share * (length[after] - length[after - 1])

    def point(self, at: float) -> complex:
        """The point at a length along the line: `at` for one number."""
        length, points = self.numbers[1], self.numbers[2]
        around = at % length[-1]
        after = min(max(bisect_right(length, around), 1), len(length) - 1)
        step = length[after] - length[after - 1]
        share = (around - length[after - 1]) / step if step else 0.0
        return points[after - 1] + share * (points[after] - points[after - 1])

    def at(self, lengths: Floats) -> Points:
        """The points at lengths along the line, in their own shape."""
        result: Points = np.interp(lengths % self.length[-1], self.length, self.points)
        return result


@lru_cache(maxsize=4096)
def reach_of(outline: Outline) -> Floats:
    """The support function of an outline in every direction, shape (DIRECTIONS,), mm."""
    return outline.support(_TURN)


@lru_cache(maxsize=512)  # some 14 kB each
def walk(outline: Outline) -> Walk:
    """The walk round an outline.

    >>> from letterfit.outline import CaptionBox
    >>> walk(CaptionBox(half_width=6, half_height=2)).perimeter
    32.0
    """
    # Equal steps of the normal bunch up in a flat outline, and lie far apart on its flattest parts.
    across, down = (np.sign(v) * np.abs(v) ** EVENING for v in (np.cos(_ROUND), np.sin(_ROUND)))
    normals = np.arctan2(outline.half_width * down, outline.half_height * across)
    points = outline.boundary(normals)
    points = np.concatenate([points, points[:1]])
    turn = np.unwrap(np.arctan2(points[:, 1], points[:, 0]))
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    keep = np.concatenate([[True], np.diff(turn) > 1e-12])
    keep[-1] = True
    turn, length, places = turn[keep], length[keep], _complex(points[keep])
    numbers = turn.tolist(), length.tolist(), places.tolist()
    return Walk(turn, length, places, numbers)


def outline_reach(item: PlacedOutline) -> Floats:
    """The reach of an outline at its place: shape (DIRECTIONS,)."""
    result: Floats = reach_of(item.outline) + (item.x_mm * UNITS[0] + item.y_mm * UNITS[1])
    return result


def ellipse_reach(box: Rect) -> Floats:
    """The reach of the ellipse in a box."""
    a, b = box.width / 2, box.height / 2
    x, y = box.x + a, box.y + b
    result: Floats = np.hypot(a * UNITS[0], b * UNITS[1]) + (x * UNITS[0] + y * UNITS[1])
    return result


def box_reach(box: Rect) -> Floats:
    """The reach of a box."""
    a, b = box.width / 2, box.height / 2
    x, y = box.x + a, box.y + b
    result: Floats = a * np.abs(UNITS[0]) + b * np.abs(UNITS[1]) + (x * UNITS[0] + y * UNITS[1])
    return result


def corners_reach(corners: Points) -> Floats:
    """The reach of the convex hull of points (n,)."""
    result: Floats = along_units(corners).max(axis=0)
    return result


def along_units(points: Points) -> Floats:
    """How far points lie in each direction, shape (..., DIRECTIONS)."""
    flat = np.ascontiguousarray(points).view(np.float64).reshape(-1, 2)
    result: Floats = (flat @ UNITS).reshape(*points.shape, DIRECTIONS)
    return result


def _complex(points: Floats) -> Points:
    result: Points = points[..., 0] + 1j * points[..., 1]
    return result


def gap_between(one: PlacedOutline, two: PlacedOutline) -> tuple[float, complex]:
    """The distance in mm between two outlines, or a little less, and which way it is.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=6, half_height=2)
    >>> upper = PlacedOutline(index=0, choice=0, outline=box, x_mm=10, y_mm=5)
    >>> lower = PlacedOutline(index=1, choice=0, outline=box, x_mm=12, y_mm=12)
    >>> gap, way = gap_between(upper, lower)
    >>> round(gap, 9), round(way.imag, 3)
    (3.0, 1.0)
    """
    dx, dy = two.x_mm - one.x_mm, two.y_mm - one.y_mm
    # Outlines are symmetric about their centres: the reach backwards is the reach forwards.
    apart = dx * UNITS[0] + dy * UNITS[1] - reach_of(one.outline) - reach_of(two.outline)
    most = int(apart.argmax())
    before, here, after = (float(apart[(most + k) % DIRECTIONS]) for k in (-1, 0, 1))
    dip = 2 * here - before - after
    turn = float(_TURN[most] + (after - before) / (2 * dip or 1.0) * _TURN[1])
    # Where two corners face each other there is no parabola to find the top of.
    there = dx * math.cos(turn) + dy * math.sin(turn)
    there -= float((one.outline.support(turn) + two.outline.support(turn)).item())
    if there <= here:
        return here, complex(UNITS[0, most], UNITS[1, most])
    return there, complex(math.cos(turn), math.sin(turn))


def facing(outline: Outline, way: complex) -> tuple[complex, complex]:
    """The ends of what of an outline's line faces a direction: a point twice, or a flat side.

    >>> from letterfit.outline import CaptionBox
    >>> facing(CaptionBox(half_width=6, half_height=2), 1j)
    ((6+2j), (-6+2j))
    """
    angle = math.atan2(way.imag, way.real)
    ends = outline.boundary(np.array([angle - NEARLY, angle + NEARLY]))
    return complex(*ends[0]), complex(*ends[1])
