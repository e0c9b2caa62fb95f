"""Outlines as the search sees them: numbers sampled from support functions, on the safe side.

For two outlines with supports h1, h2 and a gap g between them, centres |dx| apart across, the least
distance down is

    min over t of (h1(t) + h2(t) + g) / sin t - |dx| cot t,        0 < t <= pi/2,

and none is needed from |dx| = a1 + a2 + g on. A minimum over finitely many t is never too small, so
what the search holds legal is legal. Reference for the family: phi-functions (Chernov, Stoyan,
Romanova and Pankratov, Phi-functions for 2D objects, 2012).
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
    even = np.linspace(0, math.pi / 2, 15)[1:]
    ends = np.radians([0.4, 1.2, 2.8, 86.5, 88.5])
    return np.sort(np.concatenate([even, ends]))


ANGLES = _directions()
SIN = np.sin(ANGLES)
COS = np.cos(ANGLES)
COT = COS / SIN
STEPS = 64
"""Steps of the table of half chords, from the outline's middle to its end."""

_CHORD_NORMALS = np.linspace(0, math.pi / 2, 257)


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """What the search reads of one outline.

    Args:
        support: Shape (t,), mm, at ANGLES.
        perimeter: Length of a polygon inscribed in the outline, mm: never more than its own.
        chord: Shape (STEPS + 1,), mm: half the chord at 0 .. half_height from the middle.
    """

    support: Floats
    perimeter: float
    chord: Floats


@lru_cache(maxsize=8192)
def profile(outline: Outline) -> Profile:
    """The samples of an outline, made once for each outline value."""
    points = outline.boundary(_CHORD_NORMALS)
    heights = np.linspace(0, outline.half_height, STEPS + 1)
    chord = np.interp(heights, points[:, 1], points[:, 0])
    ends = [[outline.half_width, 0.0]], [[0.0, outline.half_height]]
    quarter = np.diff(np.concatenate([ends[0], points, ends[1]]), axis=0)
    perimeter = 4 * float(np.hypot(quarter[:, 0], quarter[:, 1]).sum())
    return Profile(outline.support(ANGLES), perimeter, chord)
