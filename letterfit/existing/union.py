"""The area that regions cover together inside a polygon: exact for polygons.

The page is cut into level strips at every corner and every crossing of two sides. Inside a strip
the sides are straight and keep their order, so what is covered is a row of trapezoids, and the
length covered on its middle line times its height is its area (the sweep of Bentley and Ottmann,
IEEE Transactions on Computers C-28, 1979, over all strips at once).
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from letterfit.errors import DrawingError
from letterfit.existing.model import Region
from letterfit.existing.rings import is_convex, signed_area
from letterfit.geometry import Rect
from letterfit.outline import Floats

Ints = npt.NDArray[np.intp]

PLAIN_SIDES = 1000
CROSSED_SIDES = 4000
"""With more sides crossings are not looked for, and strips are cut at equal heights."""

MOST_SIDES = 10_000
"""Sides of all outlines that are looked at together."""

MOST_PLACES = 4_000_000
"""Where there would be more places of sides on middle lines, strips are cut at equal heights."""

BLOCK = 2_000_000
"""Places of sides on middle lines that are looked at together."""


def covered_area(room: Floats, regions: Sequence[Region], *, source: str = "") -> float:
    """The area in mm2 of the union of regions inside a simple polygon.

    Args:
        room: The polygon's corners, shape (n, 2).
        regions: The regions, in any order; they may overlap.
        source: The file's name, for messages.

    Returns:
        The area, exact to rounding for up to some 2,000 sides, and to 1e-3 of it for more.

    Raises:
        DrawingError: When the outlines have more than 10,000 sides.

    >>> box = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]])
    >>> covered_area(box, [Region((box + 5,)), Region((box / 2,))])
    35.0
    """
    frame = Region((room,)).box
    near = [(one, box) for one in regions if (box := one.box).common(frame)]
    simple = is_convex(room) and len(room) == 4 and _is_upright(room)
    apart, together = 0.0, list[Region]()
    for (one, box), meets in zip(near, _meet_others([box for _, box in near]), strict=True):
        if simple and not meets and frame.holds(box) and len(one.rings) == 1 and _is_plain(one):
            apart += abs(signed_area(one.rings[0]))
        else:
            together.append(one)
    return apart + (_swept(room, together, source) if together else 0.0)


def _meet_others(boxes: Sequence[Rect]) -> list[bool]:
    """Whether each box meets any of the others."""
    left, top, right, bottom = (
        np.array([(box.x, box.y, box.right, box.bottom) for box in boxes]).reshape(-1, 4).T
    )
    across = (left[:, None] < right) & (right[:, None] > left)
    met = across & (top[:, None] < bottom) & (bottom[:, None] > top)
    found: list[bool] = (met.sum(axis=1) > 1).tolist()
    return found


def _is_upright(room: Floats) -> bool:
    along = np.abs(np.roll(room, -1, axis=0) - room)
    return bool((along.min(axis=1) <= 1e-9).all())


def _is_plain(region: Region) -> bool:
    """Whether no two sides of its ring cross."""
    sides = _sides_of([region.rings[0]])
    return len(sides) <= PLAIN_SIDES and not len(crossings(sides))


def _sides_of(rings: Sequence[Floats]) -> Floats:
    """The sides that are not level, shape (m, 4): x, y, x, y from start to end."""
    sides = np.concatenate([np.hstack([ring, np.roll(ring, -1, axis=0)]) for ring in rings])
    slanting: Floats = sides[sides[:, 1] != sides[:, 3]]
    return slanting


def _swept(room: Floats, regions: Sequence[Region], source: str) -> float:
    parts = [_sides_of([room]), *(_sides_of(one.rings) for one in regions)]
    sides = np.concatenate(parts)
    if len(sides) > MOST_SIDES:
        raise DrawingError(
            f"the balloons' outlines have {len(sides):,} sides, over {MOST_SIDES:,}",
            advice="simplify their paths",
            source=source,
        )
    top, bottom = room[:, 1].min(), room[:, 1].max()
    crossed = len(sides) <= CROSSED_SIDES
    points = crossings(sides)[:, 1] if crossed else np.zeros(0)
    cuts = np.unique(np.clip(np.concatenate([sides[:, 1], sides[:, 3], points]), top, bottom))
    if not crossed or len(cuts) * len(sides) > MOST_PLACES:
        cuts = np.linspace(top, bottom, MOST_PLACES // len(sides))
    middles, heights = (cuts[1:] + cuts[:-1]) / 2, np.diff(cuts)
    rules = [False, *(one.even_odd for one in regions)]
    area, step = 0.0, max(1, BLOCK // len(sides))
    for at in range(0, len(middles), step):
        rows = slice(at, at + step)
        lengths = _covered_lengths(middles[rows], parts, rules)
        area += float(lengths @ heights[rows])
    return area


def _covered_lengths(levels: Floats, parts: Sequence[Floats], rules: Sequence[bool]) -> Floats:
    """What is covered on each level line inside the room, whose sides come first."""
    places, rooms, covers = [], [], []
    for number, (sides, even_odd) in enumerate(zip(parts, rules, strict=True)):
        xs, steps = _entries(levels, sides, even_odd=even_odd)
        places.append(xs)
        rooms.append(steps if number == 0 else np.zeros_like(steps))
        covers.append(steps if number else np.zeros_like(steps))
    xs = np.concatenate(places, axis=1)
    order = np.argsort(xs, axis=1, kind="stable")
    xs = np.take_along_axis(xs, order, axis=1)
    in_room, covered = (
        np.cumsum(np.take_along_axis(np.concatenate(one, axis=1), order, axis=1), axis=1) > 0
        for one in (rooms, covers)
    )
    gaps = np.diff(xs, axis=1)
    counted = (in_room & covered)[:, :-1]
    result: Floats = np.where(counted, gaps, 0.0).sum(axis=1)
    return result


def _entries(levels: Floats, sides: Floats, *, even_odd: bool) -> tuple[Floats, Floats]:
    """Where each level line enters a region (1) and leaves it (-1); 0 where nothing changes."""
    x0, y0, x1, y1 = sides.T
    y = levels[:, None]
    crossed = (y0 > y) != (y1 > y)
    xs = np.where(crossed, x0 + (y - y0) * ((x1 - x0) / (y1 - y0)), np.inf)
    turns = np.where(crossed, np.where(y1 > y0, 1, -1), 0)
    order = np.argsort(xs, axis=1, kind="stable")
    xs = np.take_along_axis(xs, order, axis=1)
    winding = np.cumsum(np.take_along_axis(turns, order, axis=1), axis=1)
    inside = (winding % 2 == 1) if even_odd else (winding != 0)
    steps = np.diff(inside.astype(np.float64), axis=1, prepend=0.0)
    finite = np.isfinite(xs)
    return np.where(finite, xs, 1e9), np.where(finite, steps, 0.0)


def crossings(sides: Floats) -> Floats:
    """Where two sides cross, not counting where they only meet at ends.

    Args:
        sides: Shape (m, 4): x, y, x, y from start to end, mm.

    Returns:
        The points, shape (n, 2), one for each pair.

    >>> crossings(np.array([[0.0, 0.0, 4.0, 4.0], [0.0, 4.0, 4.0, 0.0]])).tolist()
    [[2.0, 2.0]]
    """
    start, along = sides[:, :2], sides[:, 2:] - sides[:, :2]
    low, high = np.minimum(sides[:, :2], sides[:, 2:]), np.maximum(sides[:, :2], sides[:, 2:])
    found = [np.zeros((0, 2))]
    step = max(1, BLOCK // max(len(sides), 1))
    for at in range(0, len(sides), step):
        rows = slice(at, at + step)
        near = (low[rows, None] < high[None]) & (high[rows, None] > low[None])
        first, second = np.nonzero(near.all(axis=2))
        keep = first + at < second
        found.append(_crossing_points(start, along, first[keep] + at, second[keep]))
    return np.concatenate(found)


def _crossing_points(start: Floats, along: Floats, first: Ints, second: Ints) -> Floats:
    """The points where pairs of sides cross inside both."""
    (px, py), (rx, ry) = start[first].T, along[first].T
    (qx, qy), (sx, sy) = start[second].T, along[second].T
    across = rx * sy - ry * sx
    with np.errstate(divide="ignore", invalid="ignore"):
        t = ((qx - px) * sy - (qy - py) * sx) / across
        u = ((qx - px) * ry - (qy - py) * rx) / across
        points = np.stack([px + t * rx, py + t * ry], axis=1)
    inner = (t > 1e-12) & (t < 1 - 1e-12) & (u > 1e-12) & (u < 1 - 1e-12)
    found: Floats = points[inner]
    return found
