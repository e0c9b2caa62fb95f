"""True distances from support functions: ink to outline, and outline to outline.

For a convex outline with support h and a point p, the signed distance to the outline is

    min over t of h(t) - p . u(t)        (positive inside, negative outside),

and for two outlines with centres d apart the signed gap is

    max over t of d . u(t) - h1(t) - h2(t + pi)        (negative when they overlap)

(separating lines; Boyd and Vandenberghe, Convex Optimization, section 8.2.1). The extreme is first
found on samples, then on ever finer samples round the least ones, and last on the parabola through
the three finest: both figures are right to far below 0.001 mm.
"""

import math
from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats, Outline
from letterfit.runs import starts

SAMPLES = 720
"""Directions in a full turn; a multiple of 4, so that the axes are among them."""

CLOSER = 24
"""By how much the step shrinks when looking closer."""

TOGETHER = 32
"""Outlines whose clearance is looked for at once: their tables stay in a processor's cache."""

LOOKS = 2
"""How often to look closer: the last step is 0.00002 rad, and the parabola does the rest."""

_STEP = 2 * math.pi / SAMPLES
_TURN: Floats = np.arange(SAMPLES, dtype=np.float64) * _STEP
_QUARTER: Floats = _TURN[: SAMPLES // 4 + 1]
_COS, _SIN = np.cos(_QUARTER), np.sin(_QUARTER)
_OFFSETS: Floats = np.arange(-CLOSER, CLOSER + 1) / CLOSER


def clearance(outline: Outline, points: npt.ArrayLike) -> float:
    """The least distance in mm from any of the points to the outline about its own centre.

    Args:
        outline: A convex outline.
        points: Shape (n, 2), mm, in the outline's own frame.

    Returns:
        The least signed distance: negative when a point lies outside; infinite for no points.

    >>> from letterfit.outline import Ellipse
    >>> round(clearance(Ellipse(half_width=20, half_height=10), [[0, 0], [12, 0]]), 6)
    7.211103
    """
    return clearances([outline], [np.asarray(points, dtype=np.float64).reshape(-1, 2)])[0]


def clearances(outlines: Sequence[Outline], points: Sequence[Floats]) -> list[float]:
    """The clearance of each outline from its own points, sooner than one after the other.

    Args:
        outlines: Convex outlines.
        points: Of each one's, shape (n, 2), mm, in its own frame.

    Returns:
        What `clearance` is of each; the same whatever else is asked.

    >>> from letterfit.outline import Ellipse
    >>> large, small = (Ellipse(half_width=2 * r, half_height=r) for r in (10, 5))
    >>> points = [np.array([[12.0, 0.0]]), np.array([[6.0, 0.0]])]
    >>> [round(room, 6) for room in clearances([large, small], points)]
    [7.211103, 3.605551]
    """
    rooms = [math.inf] * len(outlines)
    alike: dict[tuple[str, Outline | None], list[int]] = {}
    for number, outline in enumerate(outlines):
        if len(points[number]):
            alike.setdefault((outline.kind, outline.unit), []).append(number)
    for numbers in alike.values():
        for first in range(0, len(numbers), TOGETHER):
            some = numbers[first : first + TOGETHER]
            found = _clearances([outlines[k] for k in some], [points[k] for k in some])
            for number, room in zip(some, found, strict=True):
                rooms[number] = room
    return rooms


def _clearances(outlines: Sequence[Outline], points: Sequence[Floats]) -> list[float]:
    """The same of outlines of one family, each with some points."""
    # Outlines are symmetric about both axes: only one quadrant, and in it only the points that no
    # other one exceeds both ways, can be nearest.
    ahead = [foremost(np.abs(own)) for own in points]
    sizes = np.array([len(own) for own in ahead])
    owner, begin = np.arange(len(outlines)).repeat(sizes), sizes.cumsum() - sizes
    p = np.concatenate(ahead)
    turn = np.broadcast_to(_QUARTER, (len(outlines), len(_QUARTER)))
    slack = supports(outlines, turn)[owner] - p[:, :1] * _COS - p[:, 1:] * _SIN
    least = slack.min(axis=1)
    # Another point may win once refined: keep all whose sampled slack is within reach of the best.
    within = [_sampling_error(*own) for own in zip(outlines, ahead, strict=True)]
    (close,) = (least <= (np.minimum.reduceat(least, begin) + within)[owner]).nonzero()
    x, y = p[close].T[:, :, None]
    owner = owner[close]
    own = [outlines[k] for k in owner.tolist()]

    def distance(t: Floats) -> Floats:
        result: Floats = supports(own, t) - x * np.cos(t) - y * np.sin(t)
        return result

    near = _QUARTER[slack[close].argmin(axis=1)]
    found = least_near(distance, near, step=_STEP)[0]
    rooms: list[float] = np.minimum.reduceat(found, starts(owner)).tolist()
    return rooms


def supports(outlines: Sequence[Outline], angles: Floats) -> Floats:
    """The support of each outline in its own directions.

    A stretched outline's support in direction (cos t, sin t) is the unit's in direction
    (a cos t, b sin t), longer by the length of that vector (Schneider, Convex Bodies, section 1.7).

    Args:
        outlines: n outlines of one family.
        angles: Shape (n, m), radians.

    Returns:
        Shape (n, m), mm.

    >>> from letterfit.outline import Ellipse
    >>> ellipses = [Ellipse(half_width=4, half_height=3), Ellipse(half_width=2, half_height=1)]
    >>> supports(ellipses, np.zeros((2, 1))).tolist()
    [[4.0], [2.0]]
    """
    unit = outlines[0].unit
    if unit is None:
        return np.stack([one.support(t) for one, t in zip(outlines, angles, strict=True)])
    across = np.cos(angles) * np.array([one.half_width for one in outlines])[:, None]
    down = np.sin(angles) * np.array([one.half_height for one in outlines])[:, None]
    length: Floats = np.hypot(across, down)
    if unit.kind == "ellipse":  # a disc: the same in all directions
        return length
    result: Floats = length * unit.support(np.arctan2(down, across))
    return result


def foremost(points: Floats) -> Floats:
    """The points of the first quadrant that no other one exceeds in both x and y.

    Args:
        points: Shape (n, 2).

    Returns:
        Shape (m, 2), from the highest y down, which is from the least x up.

    >>> foremost(np.array([[1.0, 5.0], [1.0, 4.0], [3.0, 2.0], [2.0, 2.0]])).tolist()
    [[1.0, 5.0], [3.0, 2.0]]
    """
    ranked = points[np.lexsort((-points[:, 0], -points[:, 1]))]
    widest = np.concatenate([[-math.inf], np.maximum.accumulate(ranked[:, 0])])
    result: Floats = ranked[ranked[:, 0] > widest[:-1]]
    return result


def gap(first: Outline, second: Outline, *, dx: float, dy: float) -> float:
    """The signed gap in mm between two outlines, the second's centre at (dx, dy) from the first's.

    Returns:
        The true distance when they are apart; minus the depth of the overlap when they are not.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> round(gap(disc, disc, dx=9, dy=12), 9)
    5.0
    """

    def overlap(t: Floats) -> Floats:
        result: Floats = first.support(t) + second.support(t) - dx * np.cos(t) - dy * np.sin(t)
        return result

    sampled = overlap(_TURN)
    low = (sampled <= np.roll(sampled, 1)) & (sampled <= np.roll(sampled, -1))
    return -float(least_near(overlap, _TURN[low], step=_STEP)[0].min())


def drop(first: Outline, second: Outline, *, dx: float, gap: float) -> float:
    """How far below the first's centre the second's is when the two are `gap` apart.

    For every direction t the centres' distance along it is at most h1(t) + h2(t) + gap where the
    outlines overlap by -gap, and equal for one (Boyd and Vandenberghe, section 8.2.1), so

        dy = min over t in (0, pi) of (h1(t) + h2(t) + gap - dx cos t) / sin t.

    Args:
        first: An outline.
        second: Another, centred dx to the right of the first and below it.
        dx: In mm, no farther than both half-widths and the gap together.
        gap: In mm; negative for an overlap of that depth.

    Returns:
        In mm, 0 or more.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> round(drop(disc, disc, dx=6, gap=0), 9), round(drop(disc, disc, dx=0, gap=-1), 9)
    (8.0, 9.0)
    """

    def height(t: Floats) -> Floats:
        inner = np.clip(t, 1e-9, math.pi - 1e-9)
        reach = first.support(inner) + second.support(inner) + gap - dx * np.cos(inner)
        result: Floats = reach / np.sin(inner)
        return result

    half = _TURN[1 : SAMPLES // 2]
    sampled = height(half)
    nearest = half[sampled.argmin()][None]
    return max(float(least_near(height, nearest, step=_STEP)[0][0]), 0.0)


def _sampling_error(outline: Outline, points: Floats) -> float:
    """How far a sampled minimum can lie above the true one: the slope's bound times half a step."""
    farthest = float(np.hypot(points[:, 0], points[:, 1]).max())
    return (math.hypot(outline.half_width, outline.half_height) + farthest) * math.pi / SAMPLES


def least_near(
    value: Callable[[Floats], Floats], near: Floats, *, step: float
) -> tuple[Floats, Floats]:
    """The least value within a step of each direction in `near`, right to about step^4.

    Args:
        value: Maps directions of shape (n, m), radians, row by row, to values of that shape.
        near: Shape (n,), radians: the best samples.
        step: The distance between samples, radians.

    Returns:
        Values that occur, so never under the least, and where they do: shape (n,) both.

    >>> value, where = least_near(lambda t: 2 - np.cos(t - 0.1), np.array([0.0]), step=0.2)
    >>> round(float(value[0]), 12), round(float(where[0]), 6)
    (1.0, 0.1)
    """
    rows = np.arange(len(near))
    for _ in range(LOOKS):
        directions = near[:, None] + _OFFSETS * step
        values = value(directions)
        best = values.argmin(axis=1)
        near = directions[rows, best]
        step /= CLOSER
    inner = np.clip(best, 1, len(_OFFSETS) - 2)
    left, middle, right = (values[rows, inner + k] for k in (-1, 0, 1))
    bend = left - 2 * middle + right
    shift = np.divide(left - right, 2 * bend, out=np.zeros_like(bend), where=bend > 0)
    vertex = directions[rows, inner] + np.clip(shift, -1.0, 1.0) * step
    there = value(vertex[:, None])[:, 0]
    lower = there < values[rows, best]
    return np.where(lower, there, values[rows, best]), np.where(lower, vertex, near)
