"""Outlines as the search sees them: numbers sampled from support functions, on the safe side.

For two outlines with supports h1, h2 and a gap g between them, centres |dx| apart across, the least
distance down is

    min over t of (h1(t) + h2(t) + g) / sin t - |dx| cot t,        0 < t <= pi/2,

and none is needed from |dx| = a1 + a2 + g on. Every t is a tangent of the curve round the one that
the other's centre must keep out of: any of them is safe, the best is exact. For every two outlines
that may meet the tangents are looked up once, at distances across that are dense where the curve is
steep; a look at the nearest of them then does for any distance. Reference for the family:
phi-functions (Chernov, Stoyan and Romanova, Phi-functions for 2D objects, 2012).
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats, Outline

Ints = npt.NDArray[np.intp]
Bools = npt.NDArray[np.bool_]


def _directions() -> Floats:
    """From just above level to straight down, denser at both ends, where the curve is steep."""
    even = np.linspace(0, math.pi / 2, 20)[1:]
    ends = np.radians([0.4, 1.2, 2.6, 87.0, 88.8])
    return np.sort(np.concatenate([even, ends]))


ANGLES = _directions()
SIN = np.sin(ANGLES)
COS = np.cos(ANGLES)
COT = COS / SIN
TAN = np.tan(ANGLES)
STEPS = 64
"""Steps of the table of half chords, from the outline's middle to its end."""

LOOKS = 16
"""Distances across at which the best tangent of two outlines is looked up, less one."""

_CHORD_NORMALS = np.linspace(0, math.pi / 2, 257)
_SHARES = 1 - (np.arange(LOOKS + 1) / LOOKS) ** 2


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """What the search reads of one outline.

    Args:
        support: Shape (t,), mm, at ANGLES.
        chord: Shape (STEPS + 1,), mm: half the chord at 0 .. half_height from the middle.
        rise: Shape (STEPS + 1,), mm: half the upright chord at 0 .. half_width from the middle.
    """

    support: Floats
    chord: Floats
    rise: Floats


@lru_cache(maxsize=4096)  # some 2 kB each
def profile(outline: Outline) -> Profile:
    """The samples of an outline, made once for each outline value."""
    unit = outline.unit
    if unit is None:
        chord, rise = _chords(outline)
    else:  # stretching an outline stretches its chords
        chord, rise = _unit_chords(unit)
        chord, rise = outline.half_width * chord, outline.half_height * rise
    return Profile(outline.support(ANGLES), chord, rise)


def _chords(outline: Outline) -> tuple[Floats, Floats]:
    """Half the chords across and upright, those of a polygon inscribed in the outline."""
    points = outline.boundary(_CHORD_NORMALS)
    heights = np.linspace(0, outline.half_height, STEPS + 1)
    widths = np.linspace(0, outline.half_width, STEPS + 1)
    return (
        np.interp(heights, points[:, 1], points[:, 0]),
        np.interp(widths, points[::-1, 0], points[::-1, 1]),
    )


_unit_chords = lru_cache(maxsize=64)(_chords)


@lru_cache(maxsize=8192)
def perimeter(outline: Outline) -> float:
    """The length of a polygon inscribed in the outline, mm: never more than its own."""
    points = outline.boundary(_CHORD_NORMALS)
    ends = [[outline.half_width, 0.0]], [[0.0, outline.half_height]]
    quarter = np.diff(np.concatenate([ends[0], points, ends[1]]), axis=0)
    return 4 * float(np.hypot(quarter[:, 0], quarter[:, 1]).sum())


@dataclass(frozen=True, slots=True, eq=False)
class Pairs:
    """The tangents of every outline with every outline of a later balloon of its panel.

    Args:
        row: Shape (numbers,): outlines o and p make the pair row[o] + p.
        reach: Shape (pairs,), mm: from this distance across on none is needed down.
        beside: Shape (pairs,), mm: the distance across at which two with level tops may stand.
        height: Shape (pairs * (LOOKS + 1),), mm: where a tangent meets the upright at 0.
        slope: In the same shape: how much it falls for each mm across.
    """

    row: Ints
    reach: Floats
    beside: Floats
    height: Floats
    slope: Floats

    def of(self, first: Ints, second: Ints) -> Ints:
        """The pairs of earlier and later outlines; blanks make none: they get some other one's."""
        pair: Ints = self.row[first] + second
        np.maximum(pair, 0, out=pair)
        np.minimum(pair, len(self.reach) - 1, out=pair)
        return pair

    def down(self, pair: Ints, across: Floats) -> Floats:
        """The least distance down between two centres, on the safe side.

        Args:
            pair: Which pairs, of any shape.
            across: Their distances across, mm, not negative, in the same shape.

        Returns:
            In mm: 0 where none is needed.
        """
        reach = self.reach[pair]
        left = 1 - across / reach
        near = np.sqrt(np.maximum(left, 0.0))
        near *= LOOKS
        near += 0.5
        look = pair * (LOOKS + 1)
        look += near.astype(np.intp)
        need = self.height[look] - self.slope[look] * across
        need[left <= 0] = 0.0
        return np.maximum(need, 0.0, out=need)


def pairs_of(  # noqa: PLR0913 - all that two outlines are told by
    push: Floats,
    *,
    half_width: Floats,
    half_height: Floats,
    ends: Ints,
    last: Ints,
    gap: float,
) -> Pairs:
    """The tangents of all pairs of outlines that may meet.

    Args:
        push: Shape (t, numbers), mm: support of each outline grown by half the gap, over sin t.
        half_width: Shape (numbers,), mm.
        half_height: Shape (numbers,), mm.
        ends: Shape (numbers,): the number after the last outline of the same balloon.
        last: Shape (numbers,): the number after the last outline of the same panel.
        gap: Least distance between the outlines, mm; negative where they overlap.
    """
    count = last - ends
    first = np.cumsum(count) - count
    row = first - ends
    one = np.repeat(np.arange(len(count)), count)
    two = np.arange(len(one)) - row[one]
    reach = half_width[one] + half_width[two] + gap
    drop = np.abs(half_height[one] - half_height[two])
    lines = push[:, one] + push[:, two]
    beside = np.minimum(reach, ((lines - drop) * TAN[:, None]).min(axis=0))
    # The tangent of t is the best one between where it meets its two neighbours.
    meets = np.diff(lines, axis=0) / np.diff(COT)[:, None]
    best = np.zeros((len(one), LOOKS + 1), dtype=np.uint8)
    across = reach[:, None] * _SHARES
    for turn in meets:
        best += across < turn[:, None]
    height = lines[best, np.arange(len(one))[:, None]]
    return Pairs(row, reach, beside, height.ravel(), COT[best].ravel())
