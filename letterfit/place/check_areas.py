"""Areas as the checker finds them: of an outline inside the panel, and of what two share there.

Convex outlines are polygons of boundary points, cut at the panel's top; what two share is summed
over level slices. A line drawn round a core is no such polygon: its own `contains` is asked on a
fine grid.
"""

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.model import PlacedOutline

SLICES = 4096
"""Level slices of what two outlines share: off by far less than 0.01 mm2."""

TAIL_SLICES = 512
"""Level slices of a tail: off by less than 0.03 mm2 for one of 20 mm."""

GRID_MM = 0.1
"""Side of a cell where a drawn line is asked point by point."""

_NORMALS = np.arange(2880) * (2 * np.pi / 2880)
_RIGHT = np.linspace(-np.pi / 2, np.pi / 2, 1441)


def area_inside(panel: Rect, item: PlacedOutline) -> float:
    """The outline's area in mm2 less what hangs over the panel's top border.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> item = PlacedOutline(index=0, choice=0, outline=box, x_mm=20, y_mm=1, overhang_mm=1.0)
    >>> round(area_inside(Rect(0, 0, 40, 30), item), 6)
    30.0
    """
    if not _is_drawn(item.outline):
        # Normals in even steps would bunch up at the ends of a flat outline: spread by the aspect.
        a, b = item.outline.half_width, item.outline.half_height
        normals = np.arctan2(a * np.sin(_NORMALS), b * np.cos(_NORMALS))
        points = item.outline.boundary(normals) + np.array([item.x_mm, item.y_mm])
        return polygon_area(cut_level(points, panel.y))
    over = _box(item)
    if over[1] >= panel.y:
        return item.outline.area_mm2
    return item.outline.area_mm2 - _asked((over[0], over[1], over[2], panel.y), item)


def shared_inside(panel: Rect, one: PlacedOutline, two: PlacedOutline) -> float:
    """The area in mm2 that two outlines share inside the panel.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> one = PlacedOutline(index=0, choice=0, outline=box, x_mm=20, y_mm=5)
    >>> two = PlacedOutline(index=1, choice=0, outline=box, x_mm=24, y_mm=8, joined=True)
    >>> round(shared_inside(Rect(0, 0, 40, 30), one, two), 6)
    6.0
    """
    a, b = _box(one), _box(two)
    left, top = max(a[0], b[0]), max(a[1], b[1], panel.y)
    right, bottom = min(a[2], b[2]), min(a[3], b[3])
    if not (left < right and top < bottom):
        return 0.0
    if _is_drawn(one.outline) or _is_drawn(two.outline):
        return _asked((left, top, right, bottom), one, two)
    y = top + (np.arange(SLICES, dtype=np.float64) + 0.5) * ((bottom - top) / SLICES)
    first, second = _half_chord(one, y), _half_chord(two, y)
    ends = np.minimum(one.x_mm + first, two.x_mm + second)
    starts = np.maximum(one.x_mm - first, two.x_mm - second)
    return float(np.maximum(ends - starts, 0.0).mean() * (bottom - top))


def outside(panel: Rect, item: PlacedOutline, quads: Floats) -> float:
    """The area in mm2 of a union of quadrilaterals inside the panel and outside an outline.

    Args:
        panel: The panel.
        item: The outline, by its hull.
        quads: Shape (n, 4, 2), mm: corners in order; they may overlap.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> item = PlacedOutline(index=0, choice=0, outline=box, x_mm=20, y_mm=5)
    >>> quad = np.array([[[19.0, 5.0], [21.0, 5.0], [21.0, 10.0], [19.0, 10.0]]])
    >>> round(outside(Rect(0, 0, 40, 9), item, np.concatenate([quad, quad])), 3)
    4.0
    """
    top = max(float(quads[..., 1].min()), panel.y)
    bottom = min(float(quads[..., 1].max()), panel.bottom)
    if not top < bottom:
        return 0.0
    y = top + (np.arange(TAIL_SLICES, dtype=np.float64) + 0.5) * ((bottom - top) / TAIL_SLICES)
    left, right = _spans(quads, y)
    chord = np.where(np.abs(y - item.y_mm) < item.outline.half_height, _half_chord(item, y), 0.0)
    beside = _union(np.maximum(left, panel.x), np.minimum(right, item.x_mm - chord[:, None]))
    beyond = _union(np.maximum(left, item.x_mm + chord[:, None]), np.minimum(right, panel.right))
    return float((beside + beyond).mean() * (bottom - top))


def _spans(quads: Floats, y: Floats) -> tuple[Floats, Floats]:
    """Start and end of each quadrilateral at each y, (m, n); the end is first where it is not."""
    after = np.roll(quads, -1, axis=1)
    over = (quads[..., 1] - y[:, None, None], after[..., 1] - y[:, None, None])
    crossed = (over[0] > 0) != (over[1] > 0)
    share = over[0] / np.where(crossed, over[0] - over[1], 1.0)
    x = quads[..., 0] + share * (after[..., 0] - quads[..., 0])
    left = np.where(crossed, x, np.inf).min(axis=-1)
    right = np.where(crossed, x, -np.inf).max(axis=-1)
    return left, right


def _union(left: Floats, right: Floats) -> Floats:
    """The length of the union of the spans in each row."""
    order = np.argsort(left, axis=1)
    left, right = (np.take_along_axis(part, order, axis=1) for part in (left, right))
    reached = np.maximum.accumulate(right, axis=1)
    reached = np.concatenate([np.full((len(left), 1), -np.inf), reached[:, :-1]], axis=1)
    with np.errstate(invalid="ignore"):
        grown = right - np.maximum(left, reached)
    result: Floats = np.where(grown > 0, grown, 0.0).sum(axis=1)
    return result


def cut_level(corners: Floats, line: float) -> Floats:
    """The part of a closed polygon below a level line (greater y), corners in order.

    >>> cut_level(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 4.0]]), 2.0).tolist()
    [[4.0, 2.0], [4.0, 4.0], [2.0, 2.0]]
    """
    after = np.roll(corners, -1, axis=0)
    kept = corners[:, 1] >= line
    crossed = kept != np.roll(kept, -1)
    down = np.where(crossed, after[:, 1] - corners[:, 1], 1.0)
    share = np.where(crossed, (line - corners[:, 1]) / down, 0.0)
    cuts = corners + share[:, None] * (after - corners)
    both = np.stack([corners, cuts], axis=1).reshape(-1, 2)
    result: Floats = both[np.stack([kept, crossed], axis=1).reshape(-1)]
    return result


def polygon_area(corners: Floats) -> float:
    """The area in mm2 of a closed polygon, corners in order, shape (n, 2): the shoelace formula."""
    x, y = corners.T
    return abs(float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())) / 2


def _is_drawn(outline: Outline) -> bool:
    return outline.core is not outline


def _box(item: PlacedOutline) -> tuple[float, float, float, float]:
    a, b = item.outline.half_width, item.outline.half_height
    return item.x_mm - a, item.y_mm - b, item.x_mm + a, item.y_mm + b


def _half_chord(item: PlacedOutline, y: Floats) -> Floats:
    across, down = item.outline.boundary(_RIGHT).T
    result: Floats = np.interp(y - item.y_mm, down, across)
    return result


def _asked(box: tuple[float, float, float, float], *items: PlacedOutline) -> float:
    """The area in mm2 of what all outlines contain of a box, by a grid of its middles."""
    left, top, right, bottom = box
    across, down = (max(1, round(side / GRID_MM)) for side in (right - left, bottom - top))
    xs = left + (np.arange(across) + 0.5) * ((right - left) / across)
    ys = top + (np.arange(down) + 0.5) * ((bottom - top) / down)
    held = sum(
        all(item.outline.contains(x - item.x_mm, y - item.y_mm) for item in items)
        for y in ys.tolist()
        for x in xs.tolist()
    )
    return held * (right - left) * (bottom - top) / (across * down)
