"""Where the lobes of a cloud or the points of a burst meet: round a core, unevenly on purpose.

A letterer's lobes differ in size, and no two neighbours are alike. Sizes follow the multiples of
the golden ratio, whose fractional parts never fall into a rhythm (Weyl's equidistribution; Knuth,
The Art of Computer Programming 3, section 6.4, theorem S): deterministic, no seam, no gear.
"""

import math

import numpy as np

from letterfit.errors import OutlineError
from letterfit.outline import Floats, Outline

GOLDEN = (math.sqrt(5) - 1) / 2
SAMPLES = 720
"""Points of the core that its length is measured along."""

TURNING = 0.3
"""How much the turning of the core counts beside its length: lobes are smaller round its ends."""

OFF = 0.03
"""How far outside the core lobes meet, over the mean length of a lobe."""

_NORMALS = np.linspace(0, 2 * math.pi, SAMPLES + 1)
_UNITS = np.stack([np.cos(_NORMALS), np.sin(_NORMALS)], axis=-1)


def uneven(count: int, *, by: float, start: int = 1) -> Floats:
    """Numbers round 1 that never fall into a rhythm, from 1 - by to 1 + by.

    >>> uneven(4, by=0.5).round(3).tolist()
    [1.118, 0.736, 1.354, 0.972]
    """
    result: Floats = 1 + by * (2 * np.modf((start + np.arange(count)) * GOLDEN)[0] - 1)
    return result


def meetings(core: Outline, sizes: Floats, *, start: float) -> tuple[Floats, Floats]:
    """The points just outside a core where lobes of given relative sizes meet, clockwise.

    Args:
        core: The core.
        sizes: Shape (n,): the lobes' sizes, up to a factor.
        start: Where round the core the first lobe begins, a share of the way round from its right.

    Returns:
        Points of shape (n, 2), mm, and the outward unit normals of the core there: each point lies
        on the outer side of the core's supporting line with that normal.

    Raises:
        OutlineError: For fewer than six lobes.
    """
    if len(sizes) < 6:
        raise OutlineError(f"{len(sizes)} lobes do not go round a core", advice="give 6 or more")
    points = core.boundary(_NORMALS)
    steps = np.hypot(*np.diff(points, axis=0).T)
    length = float(steps.sum())
    way = (1 - TURNING) * np.concatenate([[0.0], np.cumsum(steps)]) / length
    way += TURNING * _NORMALS / (2 * math.pi)
    places = (start + np.cumsum(sizes) / sizes.sum()) % 1.0
    places.sort()
    normals = np.interp(places, way, _NORMALS)
    units = np.stack([np.cos(normals), np.sin(normals)], axis=-1)
    chosen = np.stack([np.interp(places, way, points[:, k]) for k in (0, 1)], axis=-1)
    # Chords of the samples run inside the core: out to its supporting line, and a little further.
    lacking = core.support(normals) - (chosen * units).sum(axis=-1)
    off = np.maximum(lacking, 0.0) + OFF * length / len(sizes)
    return chosen + off[:, None] * units, units


def lobes_round(core: Outline, pitch_mm: float, *, least: int) -> int:
    """How many lobes of about a length go round a core.

    Args:
        core: The core.
        pitch_mm: The length of a lobe along the core.
        least: The fewest there may be.
    """
    points = core.boundary(_NORMALS)
    length = float(np.hypot(*np.diff(points, axis=0).T).sum())
    return min(max(least, round(length / pitch_mm)), 400)
