"""How far down one balloon's centre must be from an earlier one's, from below, as a table.

Between two outlines and a gap the forbidden offsets are a convex body, symmetric about both axes;
its edge falls from the middle outwards and is concave. The polygon of sums of boundary points with
one normal lies inside the body, and so do straight lines between points of a table of its edge.
Joined outlines come closer than touching: there the lines through that polygon's sides, moved
inwards by the overlap, bound a body inside the forbidden one.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from letterfit.outline import Floats, Outline

NODES = 256
"""Steps of a table over the offset across, shorter at the outer end, where the edge is steep."""

_NORMALS = np.linspace(0, np.pi / 2, 721)
_ROUND = np.stack([np.cos(_NORMALS), np.sin(_NORMALS)], axis=-1)


class Downs(NamedTuple):
    """The edge of a body of forbidden offsets.

    Args:
        across: The offset across from which on nothing is forbidden, mm.
        down: Shape (NODES + 1,): how far down the body reaches at across (1 - (k / NODES)^2), mm.
    """

    across: float
    down: Floats


@lru_cache(maxsize=16384)
def downs(one: Outline, two: Outline, apart: float) -> Downs:
    """The table of two outlines that keep a gap, or overlap where it is negative.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=10, half_height=4)
    >>> table = downs(box, box, 2.0)
    >>> table.across, float(table.down[-1])
    (22.0, 10.0)
    """
    across = one.half_width + two.half_width + apart
    xs = across * (1 - (np.arange(NODES + 1) / NODES) ** 2)
    points = one.boundary(_NORMALS) + two.boundary(_NORMALS)
    if apart >= 0:
        x, y = (points + apart * _ROUND)[::-1].T
        return Downs(across, np.interp(xs, x, y))
    side = np.diff(points, axis=0)
    length = np.hypot(side[:, 0], side[:, 1])
    normal = np.stack([side[:, 1], -side[:, 0]], axis=-1)[length > 0] / length[length > 0, None]
    reach = (normal * points[:-1][length > 0]).sum(axis=-1) + apart
    level = normal[:, 1] > 0
    lines = (reach[level] - normal[level, 0] * xs[:, None]) / normal[level, 1]
    top = one.half_height + two.half_height + apart
    return Downs(across, np.clip(lines.min(axis=1, initial=top), 0.0, top))


def down_once(table: Downs, offset: float) -> float:
    """How far down is forbidden at one offset across, 0 or more, by one table."""
    if offset >= table.across:
        return 0.0
    share = 1 - offset / table.across
    k = min(int(math.sqrt(share) * NODES), NODES - 1)
    start, end = (k / NODES) ** 2, ((k + 1) / NODES) ** 2
    low, high = table.down[k], table.down[k + 1]
    return float(low + (share - start) / (end - start) * (high - low))


def down_at(across: Floats, down: Floats, offset: Floats) -> Floats:
    """How far down is forbidden at an offset across, by tables, one beside each offset.

    Args:
        across: Shape (...): of each table.
        down: Shape (..., NODES + 1).
        offset: Shape (...), mm, 0 or more.
    """
    share = np.clip(1 - offset / across, 0.0, 1.0)
    k = np.minimum((np.sqrt(share) * NODES).astype(np.intp), NODES - 1)
    start, end = 1 - (k / NODES) ** 2, 1 - ((k + 1) / NODES) ** 2
    part = (start - (1 - share)) / (start - end)
    low = np.take_along_axis(down, k[..., None], axis=-1)[..., 0]
    high = np.take_along_axis(down, k[..., None] + 1, axis=-1)[..., 0]
    result: Floats = np.where(offset >= across, 0.0, low + part * (high - low))
    return result
