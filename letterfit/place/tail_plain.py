"""The plainest tail, in plain numbers: drawn at once where nothing is near it.

Most tails are. The wedge lies in the hull of the five control points of its sides, and one
well-chosen direction per body shows that the two are apart. Where it does not, nothing is said:
`tail_shapes` looks closer.
"""

import math
from cmath import exp
from collections.abc import Iterator

from letterfit.geometry import Point, Rect
from letterfit.place.model import PlacedOutline, Tail
from letterfit.place.tail_body import (
    Body,
    Hull,
    apart,
    are_apart,
    body_of,
    box_body,
    gauge,
    on_line,
    segment_meets,
)
from letterfit.place.tail_scene import Scene, Way, face_box
from letterfit.place.tail_shapes import (
    CLEAR,
    CURVE,
    FREE,
    NARROWEST,
    ROOMY,
    ROUNDING,
    SLENDER,
    STEEPEST,
    Target,
    widest,
)
from letterfit.place.wedge import side_curves

UPRIGHT = 0.7
"""Least cosine of the angle between a plain tail, at either end, and the outline's normal."""

BESIDE = 0.8
"""Least distance in mm of a plain tail from a head: it ends before one."""

SNUG, NARROWED = 0.995, 5
"""A root too wide is made a little narrower than it may be, so often until it is."""

LEANS = (0.0, 1.0)
"""Where the root is looked for: where the straight way leaves the outline, and half way from there
to where the outline's normal has the way's direction (an ellipse's, at 2)."""

STEP = 1e-4
"""A turn in radians short enough to tell where an outline's line goes."""


def plain_tail(scene: Scene, index: int, target: Target) -> Tail | None:
    """The plainest tail of a balloon, if nothing is near it; else None, whatever is.

    Args:
        scene: The panel.
        index: The balloon, counted from 0.
        target: Where the tail points.
    """
    for lean in LEANS:
        tail = _plain(scene.placed[index], target, lean=lean)
        if tail is None:
            continue
        if is_clear(scene, tail, index) and not is_blocked(scene, tail, index, target):
            return tail
        break
    return None


def _plain(item: PlacedOutline, target: Target, *, lean: float) -> Tail | None:
    """A balloon's tail, if it leaves the outline well and goes away from it."""
    tail, upright = _wedge(item, target, lean=lean)
    if upright < UPRIGHT:
        return None
    hull, own = _hull(tail), body_of(item)
    middle, tip = (hull[0] + hull[1]) / 2, hull[-1]
    if apart((tip,), own) < FREE * abs(tip - middle):
        return None
    if any(gauge(item.outline, p.real - own[0], p.imag - own[1]) <= 1 for p in hull[2:4]):
        return None
    return tail


def is_blocked(scene: Scene, tail: Tail, index: int, target: Target) -> bool:
    """Whether something is between a tail's tip and its target: readers would take it for theirs.

    Another balloon, another speaker's figure, another tail, or where that one points. Not for
    certain: what is near the way may count as in it.
    """
    way, own = _way(tail, target), scene.mouths[index]
    bodies = [body_of(item) for i, item in enumerate(scene.placed) if i != index]
    bodies += [box_body(figure.body) for figure in scene.figures if figure.mouth != own]
    return any(segment_meets(way, body) for body in bodies) or is_crossed(
        scene, tail, index, target
    )


def is_crossed(scene: Scene, tail: Tail, index: int, target: Target) -> bool:
    """Whether a tail points across another one, or across where that one points."""
    way = _way(tail, target)
    return not all(are_apart(way, _hull(other), by=0.0) for other in scene.tails) or any(
        _cross(way, other) for other in scene.crossing_ways(index)
    )


def _way(tail: Tail, target: Target) -> Way:
    return complex(tail.tip.x, tail.tip.y), complex(target.point.x, target.point.y)


def _cross(one: Way, two: Way) -> bool:
    """Whether two segments cross."""

    def beside(way: Way, point: complex) -> float:
        return ((way[1] - way[0]).conjugate() * (point - way[0])).imag

    return (
        beside(one, two[0]) * beside(one, two[1]) < 0
        and beside(two, one[0]) * beside(two, one[1]) < 0
    )


def is_clear(scene: Scene, tail: Tail, index: int) -> bool:
    """Whether a balloon's tail stays inside the panel and plainly keeps off all that is there.

    Args:
        scene: The panel.
        tail: The tail; what it leads to is not held against it.
        index: The balloon it leaves, counted from 0.
    """
    panel, hull = scene.panel, _hull(tail)
    left, right, top, bottom = panel.x, panel.right, panel.y, panel.bottom
    return (
        all(left <= p.real <= right and top <= p.imag <= bottom for p in hull)
        and all(apart(hull, body) >= air for body, air in _bodies(scene, index, linked=tail.to))
        and all(are_apart(hull, _hull(other), by=ROOMY) for other in scene.tails)
    )


def _wedge(item: PlacedOutline, target: Target, *, lean: float) -> tuple[Tail, float]:
    """The wedge from where the outline faces the target, and how squarely it leaves there."""
    outline, centre = item.outline, complex(item.x_mm, item.y_mm)
    goal = complex(target.point.x, target.point.y) - centre
    ray = complex(goal.real * outline.half_width**lean, goal.imag * outline.half_height**lean)
    foot = on_line(outline, ray or 1j)
    along = on_line(outline, foot * complex(1, STEP)) - on_line(outline, foot * complex(1, -STEP))
    away = abs(goal - foot)
    length = min(target.share * away, target.longest, max(away - target.stop, away / 4) + ROUNDING)
    width = min(max(SLENDER * length, NARROWEST), widest(outline))
    half = along / abs(along) * (width / 2)
    first, last = on_line(outline, foot - half), on_line(outline, foot + half)
    for _ in range(NARROWED):  # round a corner the line runs away from its chord
        if abs(first - last) <= width:
            break
        half *= SNUG * width / abs(first - last)
        first, last = on_line(outline, foot - half), on_line(outline, foot + half)
    middle, normal = (first + last) / 2, (first - last) * 1j
    way = goal - middle
    off = normal * way.conjugate()
    turn = math.atan2(off.imag, off.real) / 2
    turn = min(max(abs(turn), CURVE), STEEPEST) * (-1 if turn < -ROUNDING else 1)
    leaves = way * exp(1j * turn) / max(abs(way), ROUNDING)
    bend = middle + leaves * (length / 2)
    rest = goal - bend
    tip = bend + rest * (1.0 if length >= away else min(length / 2 / max(abs(rest), ROUNDING), 1.0))
    tail = Tail(
        root=(_point(centre + first), _point(centre + last)),
        tip=_point(centre + tip),
        bend=_point(centre + bend),
    )
    after = rest / max(abs(rest), ROUNDING)
    return tail, min((step.conjugate() * normal).real for step in (leaves, after)) / abs(normal)


def _bodies(scene: Scene, index: int, *, linked: int | None) -> Iterator[tuple[Body, float]]:
    """All that a tail keeps off, and by how much."""
    own = scene.mouths[index]
    for i, item in enumerate(scene.placed):
        if i not in (index, linked):
            yield body_of(item), ROOMY
    for figure in scene.figures:
        yield box_body(figure.head, exponent=2.0), BESIDE if figure.mouth == own else ROOMY
        if figure.mouth != own:
            yield box_body(figure.body), 0.0
    for face in scene.faces:
        if face != own:
            yield box_body(face_box(face)), CLEAR
    for region in scene.regions:
        xs, ys = [p.x for p in region], [p.y for p in region]
        around = Rect(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
        yield box_body(around), CLEAR


def _hull(tail: Tail) -> Hull:
    """Points in whose hull the wedge lies: the roots, the control points of its sides, the tip."""
    (first, left, tip), (last, right, _) = side_curves(tail)
    return complex(*first), complex(*last), complex(*left), complex(*right), complex(*tip)


def _point(place: complex) -> Point:
    return Point(place.real, place.imag)
