"""How much room balloons need at least, as the checker of proofs finds it.

*Coverage* adds what lies inside the panel. *Area* grows every outline by half the gap: by Steiner's
formula a convex body of area A and perimeter P grown by r has area A + P r + pi r^2 (Schneider,
Convex Bodies, 2nd ed., section 4.2); grown outlines do not meet and lie in the room grown as much.

Joined balloons meet. Two bodies that overlap by a depth share no more than either has within that
depth of one of its supporting lines; so much is taken off, and a table over the outlines of one
balloon after the other finds the least that is left.
"""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np

from letterfit.outline import Outline
from letterfit.place.check_areas import cut_level, polygon_area
from letterfit.place.check_options import Option, Room

DIRECTIONS = 181
"""Supporting lines tried in a quarter of a turn: the outlines are symmetric about both axes."""

SAFE = 1.002
"""The largest cap is taken for more, by what so many directions and corners may miss."""

DEEPER = 2e-3
"""How much deeper in mm than asked for a joint may be."""

_NORMALS = np.arange(1440) * (2 * np.pi / 1440)
_ROUND = np.stack([np.cos(_NORMALS), np.sin(_NORMALS)], axis=-1)


def least_covered(ways: Sequence[Sequence[Option]], *, joined: Sequence[bool], room: Room) -> float:
    """The least area in mm2 inside the panel that balloons in these ways cover.

    Args:
        ways: Of each balloon, none empty.
        joined: Per balloon, whether it is joined to the one before it.
        room: The room.
    """
    depth = room.overlap + DEEPER
    return _least(
        ways,
        joined=joined,
        size=lambda way: way.outline.area_mm2 - (_over(way.outline, way.over) if way.over else 0),
        shared=lambda outline: largest_cap(outline, depth, 0.0),
    )


def least_grown(
    ways: Sequence[Sequence[Option]], *, joined: Sequence[bool], room: Room, whole: bool
) -> float:
    """The least area in mm2 of balloons in these ways, each grown by half the gap.

    Args:
        ways: Of each balloon, none empty.
        joined: Per balloon, whether it is joined to the one before it.
        room: The room.
        whole: Whether what hangs over counts too.
    """
    r = room.gap / 2
    depth = room.overlap + DEEPER + room.gap
    return _least(
        ways,
        joined=joined,
        size=lambda way: _grown(way.outline, 0.0 if whole else way.over, r),
        shared=lambda outline: largest_cap(outline, depth, r),
    )


def grown_room(room: Room, *, over: float, hangs: bool) -> float:
    """The area in mm2 that balloons grown by half the gap lie in.

    Args:
        room: The room.
        over: How far they may reach over the top border and count there, mm.
        hangs: Whether any reaches the border at all.
    """
    r = room.gap / 2
    height = room.height - room.margin.bottom + over if hangs else room.inner_height
    return room.inner_width * height + 2 * (room.inner_width + height) * r + math.pi * r * r


@lru_cache(maxsize=4096)
def largest_cap(outline: Outline, depth: float, r: float) -> float:
    """The most area in mm2 that the outline grown by r has within a depth of a supporting line.

    >>> from letterfit.outline import CaptionBox
    >>> round(largest_cap(CaptionBox(half_width=10, half_height=4), 1.0, 0.0) / SAFE, 3)
    20.0
    """
    corners = outline.boundary(_NORMALS) + r * _ROUND
    most = 0.0
    for t in np.linspace(0, np.pi / 2, DIRECTIONS):
        cos, sin = np.cos(t), np.sin(t)
        turned = corners @ np.array([[sin, cos], [-cos, sin]])
        level = float(outline.support(t)) + r - depth
        most = max(most, polygon_area(cut_level(turned, level)))
    return most * SAFE


def _least(
    ways: Sequence[Sequence[Option]],
    *,
    joined: Sequence[bool],
    size: Callable[[Option], float],
    shared: Callable[[Outline], float],
) -> float:
    """The least sum of sizes less what joined neighbours may share, over all choices."""
    sums = np.array([size(way) for way in ways[0]])
    for (before, own), meets in zip(pairwise(ways), joined[1:], strict=True):
        sizes = np.array([size(way) for way in own])
        if meets:
            one, two = (np.array([shared(way.outline) for way in side]) for side in (before, own))
            sums = (sums[:, None] - np.minimum(one[:, None], two)).min(axis=0) + sizes
        else:
            sums = sums.min() + sizes
    return float(sums.min())


@lru_cache(maxsize=4096)
def _over(outline: Outline, over: float) -> float:
    """The area in mm2 of what hangs over, or more for a line drawn round a core: its hull's."""
    corners = outline.boundary(_NORMALS)
    return polygon_area(cut_level(-corners, outline.half_height - over))


@lru_cache(maxsize=4096)
def _grown(outline: Outline, over: float, r: float) -> float:
    """The area in mm2 of an outline, or of its part below the border, grown by r."""
    if over:
        corners = cut_level(outline.boundary(_NORMALS), over - outline.half_height)
        sides = np.roll(corners, -1, axis=0) - corners
        area, length = polygon_area(corners), float(np.hypot(sides[:, 0], sides[:, 1]).sum())
    else:
        # A line drawn round a core keeps its distance by its hull.
        area = max(outline.area_mm2, polygon_area(outline.boundary(_NORMALS)))
        length = outline.perimeter_mm
    return area + length * r + math.pi * r * r
