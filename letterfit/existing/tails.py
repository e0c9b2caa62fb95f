"""A balloon's outline without the tail that is drawn in the same line.

A tail leaves the outline at a corner that points inwards and comes back at another. Of all cuts
between two such corners whose outer part is pointed, holds no lettering and is the lesser part,
the one is taken that leaves the most convex body: it lessens the area between outline and hull
most. The body is closed across the tail's mouth by a curve that goes on as the outline runs on
either side, so that an ellipse is an ellipse again. Lobes of a cloud and points of a burst are no
tails: cutting one off takes less from the hull than from the outline. A tail that lies between
joined balloons, inside their hull, is told by its length: no lobe is half as long again as its
neck; outlines with many corners that point inwards are left as they are.
"""

import math
from itertools import product

import numpy as np

from letterfit.existing.rings import hull, is_inside, signed_area
from letterfit.outline import Floats

MOST_TAILS = 4
MOST_SIDES = 2000
MOST_TRIED = 64
"""Cuts that are tried, those with the longest parts for their mouths first."""

MOST_CORNERS = 24
"""With more places that point inwards an outline is too uneven to tell a tail from."""

INWARDS = -0.02
"""Turn in radians from which a corner points inwards."""

UNEVEN = 0.005
"""The least share of its hull that an outline with a tail leaves open."""

WIDEST_MOUTH = 0.7
"""The mouth over the square root of the balloon's area, at most."""

SHORTEST = 0.6
"""The tail's length over its mouth, at least."""

LARGEST = 0.4
"""The tail's area over the balloon's, at most."""

FEW_CORNERS = 8
LONG = 1.5
"""With no more places that point inwards than these, a part so many times as long as its mouth is a
tail wherever it lies."""

POINTED = 0.75
"""The tail's area over its mouth times its length, at most: half for a triangle."""

STEEPEST = 1.4
"""The angle in radians between the outline and its tail's mouth from which the mouth is closed by
a straight line."""

SMOOTH = 0.3
"""A turn in radians up to which two chords are of one curve."""

CHORDS = 16
"""Chords of the curve that closes a mouth."""


def without_tails(ring: Floats, ink: Floats | None = None) -> Floats:
    """The body of a balloon.

    Args:
        ring: The corners of its outline, tails and all, shape (n, 2), mm.
        ink: Points of its lettering, shape (m, 2), which stands in the body; None for none.

    Returns:
        The corners of the body, clockwise on the page; the outline's own where no tail is found.

    >>> side = [[4.0, 8.0], [0.0, 8.0], [0.0, 0.0], [20.0, 0.0], [20.0, 8.0], [8.0, 8.0]]
    >>> without_tails(np.array([*side, [6.0, 20.0]])).max(axis=0).tolist()
    [20.0, 8.0]
    """
    body = _clean(ring)
    for _ in range(MOST_TAILS if len(body) <= MOST_SIDES else 0):
        cut = _best_cut(body, np.zeros((0, 2)) if ink is None else ink)
        if cut is None:
            break
        body = _closed(body, *cut)
    return body


def _clean(ring: Floats) -> Floats:
    """Clockwise on the page, without corners said twice."""
    ring = ring if signed_area(ring) > 0 else ring[::-1]
    moved = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T) > 1e-9
    result: Floats = ring[moved]
    return result


def _turns(ring: Floats) -> Floats:
    """The turn in radians at each corner, under 0 where it points inwards."""
    into = ring - np.roll(ring, 1, axis=0)
    out = np.roll(into, -1, axis=0)
    across = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    result: Floats = np.arctan2(across, (into * out).sum(axis=1))
    return result


def _best_cut(ring: Floats, ink: Floats) -> tuple[int, int] | None:
    """The corners at which the outline leaves the body for a tail and comes back; None without."""
    whole, area = hull(ring), signed_area(ring)
    spare = abs(signed_area(whole)) - area
    inwards = _turns(ring) < INWARDS
    if spare <= UNEVEN * area or not inwards.any() or len(ring) < 5:
        return None
    leaving = np.flatnonzero(inwards & ~np.roll(inwards, 1))
    coming = np.flatnonzero(inwards & ~np.roll(inwards, -1))
    if not 0 < len(leaving) <= MOST_CORNERS:
        return None
    best, least = None, spare * (1 - 1e-6)
    longest, most = None, 0.0
    cuts = [(i, j, _between(ring, i, j)) for i, j in product(leaving.tolist(), coming.tolist())]
    cuts = [cut for cut in cuts if _is_tail(cut[2], area)]
    for i, j, outer in sorted(cuts, key=lambda cut: -_length(cut[2]))[:MOST_TRIED]:
        if len(ink) and is_inside(ink, [outer]).any():
            continue
        rest = _between(ring, j, i)
        left = abs(signed_area(hull(rest))) - signed_area(rest)
        if left < least:
            best, least = (i, j), left
        if _length(outer) >= LONG and signed_area(outer) > most:
            longest, most = (i, j), signed_area(outer)
    return best or (longest if len(leaving) <= FEW_CORNERS else None)


def _between(ring: Floats, first: int, last: int) -> Floats:
    """The corners from one onwards to another, both with them."""
    if first < last:
        return ring[first : last + 1]
    return np.concatenate([ring[first:], ring[: last + 1]])


def _length(outer: Floats) -> float:
    """How many times as long a part is as its mouth is wide."""
    middle, mouth = (outer[0] + outer[-1]) / 2, math.hypot(*(outer[-1] - outer[0]))
    return float(np.hypot(*(outer - middle).T).max()) / mouth


def _is_tail(outer: Floats, area: float) -> bool:
    """Whether the part beyond a mouth is as small and as pointed as a tail."""
    if len(outer) < 3:
        return False
    mouth = math.hypot(*(outer[-1] - outer[0]))
    middle = (outer[0] + outer[-1]) / 2
    reach, own = float(np.hypot(*(outer - middle).T).max()), signed_area(outer)
    return (
        1e-6 < mouth <= WIDEST_MOUTH * math.sqrt(area)
        and reach >= SHORTEST * mouth
        and 0 < own <= min(LARGEST * area, POINTED * mouth * reach)
    )


def _closed(ring: Floats, first: int, last: int) -> Floats:
    """The body, its line gone on across the mouth from one corner to the other."""
    rest = _between(ring, last, first)
    return np.concatenate([rest, _bridge(rest)])


def _bridge(rest: Floats) -> Floats:
    """Points strictly between the last corner of an open line and its first, as it runs on."""
    start, end = rest[-1], rest[0]
    gap = end - start
    mouth = math.hypot(*gap)
    out, back = _heading(rest), _heading(rest[::-1]) + math.pi
    across = math.atan2(gap[1], gap[0])
    leaves, comes = _turned(across - out), _turned(back - across)
    turn = leaves + comes
    if min(leaves, comes) < -1e-9 or max(leaves, comes) > STEEPEST or turn < 1e-6:
        return np.zeros((0, 2))
    # A circular arc of that turn has handles so long (Goldapp 1991).
    reach = mouth * 2 / 3 * math.tan(turn / 4) / math.sin(turn / 2)
    one = start + reach * np.array([math.cos(out), math.sin(out)])
    other = end - reach * np.array([math.cos(back), math.sin(back)])
    t = (np.arange(1, CHORDS) / CHORDS)[:, None]
    s = 1 - t
    points: Floats = s**3 * start + 3 * s * s * t * one + 3 * s * t * t * other + t**3 * end
    return points


def _heading(line: Floats) -> float:
    """The direction in radians in which a line ends: its last chord's, and half a turn more."""
    last, before = line[-1] - line[-2], line[-2] - line[-3]
    heading = math.atan2(last[1], last[0])
    bend = _turned(heading - math.atan2(before[1], before[0]))
    if abs(bend) > SMOOTH:
        return heading
    far, near = math.hypot(*before), math.hypot(*last)
    return heading + bend * near / (near + far)


def _turned(angle: float) -> float:
    """An angle between -pi and pi."""
    return (angle + math.pi) % (2 * math.pi) - math.pi
