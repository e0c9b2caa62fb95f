"""What is cut off outlines: caps that hang over a border, and lenses that joined outlines share.

Both are integrals of level chords: of one outline's, and of what the chords of two have in common.
They are summed by the midpoint rule after y = low + (high - low) (1 - cos(pi s)) / 2, which tames
the vertical tangents at the ends; kinks cost less than 1e-4 mm2. A cloud's or a burst's line has no
one chord: it is taken as a polygon, and what two share is counted on a grid.
"""

import math
import re
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.outline import CaptionBox, Ellipse, Floats, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline

CHORDS = 512
"""Level chords that are summed."""

_MIDDLE = (np.arange(CHORDS, dtype=np.float64) + 0.5) / CHORDS
_WAY = (1 - np.cos(math.pi * _MIDDLE)) / 2
_STEP = np.sin(math.pi * _MIDDLE) / np.sin(math.pi * _MIDDLE).sum()

PIECES = 24
"""Chords of each lobe or flank of an uneven line."""

CELLS = 96
"""Cells across and down in which what two uneven lines share is counted: right to 0.05 mm2."""

FLAT = 1e-12

_CELLS = (np.arange(CELLS, dtype=np.float64) + 0.5) / CELLS
_NORMALS = np.linspace(0, math.pi / 2, 721)
_ROUND = np.arange(2880) * (2 * math.pi / 2880)
_PIECE = re.compile(r"([MAC])([^MACZ]*)")


def cap_area(item: PlacedOutline, line: float) -> float:
    """The area in mm2 of the part of an outline above a level line (less y).

    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> round(cap_area(PlacedOutline(index=0, choice=0, outline=box, x_mm=0, y_mm=1), 0.0), 9)
    10.0
    """
    low = item.y_mm - item.outline.half_height
    high = min(line, item.y_mm + item.outline.half_height)
    if high <= low:
        return 0.0
    if _is_uneven(item.outline):
        return _cap_of_line(item, high)
    chords = half_chords(item.outline, low + (high - low) * _WAY - item.y_mm)
    return 2 * float(chords @ _STEP) * (high - low)


def lens_area(one: PlacedOutline, two: PlacedOutline, *, top: float = -math.inf) -> float:
    """The area in mm2 that two outlines share below a level line (greater y).

    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> first = PlacedOutline(index=0, choice=0, outline=box, x_mm=0, y_mm=0)
    >>> second = PlacedOutline(index=1, choice=0, outline=box, x_mm=6, y_mm=3, joined=True)
    >>> round(lens_area(first, second), 9)
    4.0
    """
    low = max(top, *(item.y_mm - item.outline.half_height for item in (one, two)))
    high = min(item.y_mm + item.outline.half_height for item in (one, two))
    if high <= low:
        return 0.0
    if _is_uneven(one.outline) or _is_uneven(two.outline):
        return _shared_by_lines(one, two, low=low, high=high)
    levels = low + (high - low) * _WAY
    near = half_chords(one.outline, levels - one.y_mm)
    far = half_chords(two.outline, levels - two.y_mm)
    ends = np.minimum(one.x_mm + near, two.x_mm + far)
    starts = np.maximum(one.x_mm - near, two.x_mm - far)
    return float(np.maximum(ends - starts, 0.0) @ _STEP) * (high - low)


def half_chords(outline: Outline, offsets: Floats) -> Floats:
    """Half the outline's widths at distances in mm from its middle line, as `figure.half_chord`.

    >>> half_chords(Ellipse(half_width=5, half_height=2), np.array([0.0, -1.2])).tolist()
    [5.0, 4.0]
    """
    a, b = outline.half_width, outline.half_height
    v = np.minimum(np.abs(offsets), b)
    result: Floats
    if isinstance(outline, Whisper | Squared):
        result = half_chords(outline.line, v)
    elif isinstance(outline, Ellipse):
        result = a * np.sqrt(1 - (v / b) ** 2)
    elif isinstance(outline, Superellipse):
        result = a * (1 - (v / b) ** outline.exponent) ** (1 / outline.exponent)
    elif isinstance(outline, CaptionBox):
        result = np.full(v.shape, float(a))
    elif isinstance(outline, RoundedRect):
        down = np.maximum(v - (b - outline.radius), 0.0)
        result = a - outline.radius + np.sqrt(np.maximum(outline.radius**2 - down**2, 0.0))
    else:
        across, below = outline.boundary(_NORMALS).T
        result = np.interp(v, below, across)
    return result


def _is_uneven(outline: Outline) -> bool:
    return isinstance(outline, Cloud | Burst)


def _cap_of_line(item: PlacedOutline, line: float) -> float:
    """The cap of an uneven line: the integral of x dy round its polygon above the level line."""
    start = line_polygon(item.outline)
    end = np.roll(start, -1, axis=0)
    level = line - item.y_mm
    y0, y1 = np.minimum(start[:, 1], level), np.minimum(end[:, 1], level)
    height = end[:, 1] - start[:, 1]
    flat = np.abs(height) < FLAT
    share = ((y0 + y1) / 2 - start[:, 1]) / np.where(flat, 1.0, height)
    x = start[:, 0] + np.where(flat, 0.5, share) * (end[:, 0] - start[:, 0])
    return abs(float(x @ (y1 - y0)))


def _shared_by_lines(one: PlacedOutline, two: PlacedOutline, *, low: float, high: float) -> float:
    """What two lines share between two levels, one of them at least uneven: middles of cells."""
    left = max(item.x_mm - item.outline.half_width for item in (one, two))
    right = min(item.x_mm + item.outline.half_width for item in (one, two))
    if right <= left:
        return 0.0
    across = left + (right - left) * _CELLS
    down = low + (high - low) * _CELLS
    held = _holds(one, across, down) & _holds(two, across, down)
    return float(held.mean()) * (right - left) * (high - low)


def _holds(item: PlacedOutline, xs: Floats, ys: Floats) -> npt.NDArray[np.bool_]:
    """Which points of a grid lie in a line's polygon: an odd number of sides to their left."""
    start = line_polygon(item.outline) + np.array([item.x_mm, item.y_mm])
    end = np.roll(start, -1, axis=0)
    inside = np.zeros((len(ys), len(xs)), dtype=np.bool_)
    for row, y in enumerate(ys):
        crossed = (start[:, 1] > y) != (end[:, 1] > y)
        p, q = start[crossed], end[crossed]
        at = p[:, 0] + (y - p[:, 1]) * (q[:, 0] - p[:, 0]) / (q[:, 1] - p[:, 1])
        inside[row] = (at[:, None] < xs).sum(axis=0) % 2 == 1
    return inside


@lru_cache(maxsize=256)
def line_polygon(outline: Outline) -> Floats:
    """An outline's line as a polygon about its own centre, from its path data: shape (n, 2), mm.

    >>> line_polygon(CaptionBox(half_width=5, half_height=2)).shape
    (2880, 2)
    """
    if not _is_uneven(outline):
        return outline.boundary(_ROUND)
    points: list[Floats] = []
    for command, numbers in _PIECE.findall(outline.svg_path()):
        values = np.array(numbers.split(), dtype=np.float64)
        if command == "M":
            points.append(values[None])
        elif command == "A":
            points.append(_arc(points[-1][-1], values[-2:], radius=float(values[0])))
        elif command == "C":
            points.append(_cubic(points[-1][-1], values.reshape(3, 2)))
    return np.concatenate(points)[:-1]


def _arc(start: Floats, end: Floats, *, radius: float) -> Floats:
    """Points of a circular arc of less than half a turn, clockwise as the page shows it."""
    chord = end - start
    off = math.sqrt(max(radius**2 - float(chord @ chord) / 4, 0.0))
    inwards = np.array([-chord[1], chord[0]]) / math.hypot(*chord)
    centre = (start + end) / 2 + off * inwards
    first = math.atan2(*(start - centre)[::-1])
    turn = (math.atan2(*(end - centre)[::-1]) - first) % (2 * math.pi)
    angles = first + turn * np.arange(1, PIECES + 1) / PIECES
    return centre + radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)


def _cubic(start: Floats, rest: Floats) -> Floats:
    t = np.arange(1, PIECES + 1)[:, None] / PIECES
    first, second, end = rest
    result: Floats = (
        (1 - t) ** 3 * start
        + 3 * t * (1 - t) ** 2 * first
        + 3 * t**2 * (1 - t) * second
        + t**3 * end
    )
    return result
