"""Outlines as closed chains of cubic Bezier curves, so that a tail can be grafted on.

Everything works on SVG path data, so that any outline that can draw itself can carry a tail. A
chain is an array of shape (n, 4, 2): n curves, each a start, two handles and an end, in mm.
"""

import math
import re
from itertools import pairwise

import numpy as np

from letterfit.outline import Floats
from letterfit.output.svg.elements import length

_TOKEN = re.compile(r"[MLHVCAZ]|-?\d*\.?\d+(?:e-?\d+)?")
NARROWINGS = 5
STRAIGHT_MM = 1e-9
ARC_STEP = math.pi / 4
"""Widest angle drawn by one cubic: off the true arc by 4e-6 of the radius (Goldapp 1991)."""


def chain(path: str) -> Floats:
    """Path data of one closed contour (absolute M, L, H, V, C, A, Z) as cubic curves.

    Args:
        path: As `Outline.svg_path` writes it; arcs stand upright (no rotation).

    Returns:
        Shape (n, 4, 2), mm, from the start round to the start.

    >>> chain("M0 0H4V2H0Z").shape
    (4, 4, 2)
    """
    tokens = _TOKEN.findall(path)
    curves: list[Floats] = []
    here = start = np.zeros(2)
    at, command = 0, "M"
    while at < len(tokens):
        if tokens[at].isalpha():
            command, at = tokens[at], at + 1
        size = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "A": 7, "Z": 0}[command]
        values = np.array([float(token) for token in tokens[at : at + size]])
        at += size
        drawn, here = _drawn(command, values, here, start)
        start = here if command == "M" else start
        curves.extend(drawn)
    return np.array([curve for curve in curves if np.ptp(curve, axis=0).max() > 0])


def _drawn(
    command: str, values: Floats, here: Floats, start: Floats
) -> tuple[list[Floats], Floats]:
    """The curves of one path command, and where the pen then stands."""
    if command == "M":
        return [], values
    if command == "C":
        return [np.vstack([here, values.reshape(3, 2)])], values[4:]
    if command == "A":
        return _arc(here, values), values[5:]
    ends = {
        "L": values,
        "H": np.append(values, here[1]),
        "V": np.append(here[:1], values),
        "Z": start,
    }
    return [line(here, ends[command])], ends[command]


def line(start: Floats, end: Floats) -> Floats:
    """A straight line as a cubic curve, shape (4, 2)."""
    return np.array([start, start + (end - start) / 3, end - (end - start) / 3, end])


def quadratic(start: Floats, handle: Floats, end: Floats) -> Floats:
    """A quadratic Bezier curve as a cubic one, exact (degree elevation), shape (4, 2)."""
    return np.array([start, start + (handle - start) * 2 / 3, end + (handle - end) * 2 / 3, end])


def _arc(here: Floats, values: Floats) -> list[Floats]:
    """An upright elliptical arc as cubics, from end points to centre (SVG 2, B.2.4)."""
    radii, large, sweep, end = values[:2], values[3] > 0, values[4] > 0, values[5:]
    half = (here - end) / 2 / radii
    off = math.sqrt(max(0.0, 1 / float(half @ half) - 1))
    sign = 1.0 if large != sweep else -1.0
    centre = (here + end) / 2 + sign * off * radii * np.array([half[1], -half[0]])
    first, last = (math.atan2(*((p - centre) / radii)[::-1]) for p in (here, end))
    turn = (last - first) % (2 * math.pi) if sweep else -((first - last) % (2 * math.pi))
    steps = max(1, math.ceil(abs(turn) / ARC_STEP - 1e-9))
    reach = 4 / 3 * math.tan(turn / steps / 4)
    angles = first + turn * np.arange(steps + 1) / steps
    unit = np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    along = np.stack([-unit[:, 1], unit[:, 0]], axis=-1) * reach
    points = np.stack([unit[:-1], unit[:-1] + along[:-1], unit[1:] - along[1:], unit[1:]], axis=1)
    return list(centre + radii * points)


def at(curves: Floats, where: float) -> Floats:
    """The point at parameter `where`: the whole part names the curve, the rest runs along it."""
    result: Floats = points_at(curves, np.array([where]))[0]
    return result


def points_at(curves: Floats, where: Floats) -> Floats:
    """The points at many parameters, shape (t, 2), by Bernstein polynomials."""
    whole = np.floor(where)
    t = (where - whole)[:, None]
    p = curves[whole.astype(np.int64) % len(curves)]
    s = 1 - t
    result: Floats = (
        s**3 * p[:, 0] + 3 * t * s**2 * p[:, 1] + 3 * t**2 * s * p[:, 2] + t**3 * p[:, 3]
    )
    return result


def nearest(curves: Floats, point: Floats) -> float:
    """The parameter of the point of a chain that is nearest to a given point.

    Narrowed five times to the two samples round the nearest one: right to 1e-8 of a curve.
    """
    middle, reach = len(curves) / 2, len(curves) / 2
    count = 32 * len(curves)
    for _ in range(NARROWINGS):
        grid = np.linspace(middle - reach, middle + reach, count + 1)
        middle = float(grid[np.hypot(*(points_at(curves, grid) - point).T).argmin()])
        reach, count = 2 * reach / count, 64
    return middle % len(curves)


def stretch(curves: Floats, start: float, end: float) -> Floats:
    """The part of a closed chain from one parameter onwards to another."""
    end += len(curves) if end <= start else 0
    bounds = [start, *range(math.floor(start) + 1, math.ceil(end)), end]
    parts = [
        part(curves[math.floor(a + 1e-12) % len(curves)], a - math.floor(a + 1e-12), b - a)
        for a, b in pairwise(bounds)
        if b - a > 1e-9
    ]
    return np.array(parts)


def part(curve: Floats, start: float, span: float) -> Floats:
    """The piece of one cubic from t = start to start + span (blossoms; Ramshaw 1987)."""
    end = min(1.0, start + span)

    def blossom(r: float, s: float, t: float) -> Floats:
        points = curve
        for u in (r, s, t):
            points = points[:-1] * (1 - u) + points[1:] * u
        result: Floats = points[0]
        return result

    corners = ((start,) * 3, (start, start, end), (start, end, end), (end,) * 3)
    return np.array([blossom(*corner) for corner in corners])


def path_data(curves: Floats, *, closed: bool = True) -> str:
    """A chain as SVG path data.

    >>> path_data(chain("M0 0H3V2H0Z"))
    'M0 0L3 0L3 2L0 2Z'
    """
    parts = [f"M{_pair(curves[0, 0])}"]
    for curve in curves:
        straight = float(np.abs(curve - line(curve[0], curve[3])).max()) < STRAIGHT_MM
        points = curve[3:] if straight else curve[1:]
        parts.append(("L" if straight else "C") + " ".join(_pair(point) for point in points))
    if closed and parts[-1] == f"L{_pair(curves[0, 0])}":
        parts.pop()  # the closing line draws it
    return "".join(parts) + ("Z" if closed else "")


def _pair(point: Floats) -> str:
    return f"{length(float(point[0]))} {length(float(point[1]))}"
