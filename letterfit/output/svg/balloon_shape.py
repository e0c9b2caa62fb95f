"""A balloon's drawn shape: its outline with the tail grafted on, as one clean contour.

The wedge's two sides taper evenly from the root to the tip along the tail's axis, a quadratic
Bezier curve. The outline is opened where the sides leave it for the last time and the sides put
in, so that no line crosses the mouth of the tail, not even when the tail hugs the balloon. A
machine's voice has a jagged tail, a bolt inside that wedge; a thought shrinking bubbles instead.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Squared
from letterfit.geometry import Point
from letterfit.joined_outline import Joined
from letterfit.outline import Floats, Outline
from letterfit.output.svg.curves import (
    at,
    chain,
    line,
    nearest,
    part,
    path_data,
    points_at,
    quadratic,
    stretch,
)
from letterfit.place.model import Tail
from letterfit.place.wedge import bolt_polygon

BUBBLES_MM = (1.7, 1.25, 0.85, 0.55)
"""Radii of a thought's bubbles from the outline to the head (common practice: two to four); a
short tail has the last three."""

SHORT_MM = 11.0
"""A tail shorter than this is short of room for four bubbles."""

MOST_GAP_MM = 2.4
"""The most gap between bubbles: further apart they are no chain. It may end short of the head."""

BUBBLE_GAP_MM = 0.45
"""The least gap between outline, bubbles and head."""

JAGGED_MM = 6.0
"""A shorter tail has no room for a bolt's corners."""

SIDE_SAMPLES = 65
ROOT_STEPS = 41
"""Steps from hull to centre in which a tail's roots are looked for inside a drawn outline."""
BISECTIONS = 30
"""Where a tail's side leaves the outline: looked for on samples, then narrowed to 1e-10 of it."""


def contour(outline: Outline | Joined, centre: Point, tail: Tail | None = None) -> str:
    """Path data of an outline at its place on the page, its tail grafted on.

    Args:
        outline: The outline.
        centre: Its centre, mm.
        tail: Its tail, page coordinates, or None. A tail that ends inside is none.
    """
    return path_data(body_and_tail(outline, centre, tail))


def body_and_tail(outline: Outline | Joined, centre: Point, tail: Tail | None = None) -> Floats:
    """The same as a closed chain of cubic curves, shape (n, 4, 2), mm."""
    body: Floats = chain(outline.svg_path()) + np.array([centre.x, centre.y])

    def inside(point: Floats) -> bool:
        return outline.contains(float(point[0]) - centre.x, float(point[1]) - centre.y)

    if tail is None or inside(np.array([tail.tip.x, tail.tip.y])):
        return body
    if isinstance(outline, Burst | Cloud):
        tail = _rooted(tail, centre, inside)
    whole = _bolt(tail) if isinstance(outline, Squared) and _is_long(tail) else _sides(tail)
    sides = [np.concatenate([_leaving(side[0], inside)[None], side[1:]]) for side in whole]
    return _grafted(body, sides)


def _rooted(tail: Tail, centre: Point, inside: Callable[[Floats], bool]) -> Tail:
    """The tail from inside an uneven line: its roots stand on the hull, perhaps between points."""
    roots = np.array([[p.x, p.y] for p in tail.root])
    middle = roots.mean(axis=0)
    inwards = np.array([centre.x, centre.y]) - middle
    for share in np.linspace(0, 1, ROOT_STEPS):
        moved = roots + share * inwards
        if all(inside(root) for root in moved):
            first, last = (Point(float(x), float(y)) for x, y in moved)
            return replace(tail, root=(first, last))
    return tail


def _sides(tail: Tail) -> tuple[Floats, Floats]:
    """The wedge's two sides from the roots to the tip, a cubic curve each: an even taper."""
    start, end = (np.array([p.x, p.y]) for p in tail.root)
    tip = np.array([tail.tip.x, tail.tip.y])
    middle = (start + end) / 2
    bend = (middle + tip) / 2 if tail.bend is None else np.array([tail.bend.x, tail.bend.y])
    return (
        quadratic(start, bend + (start - middle) / 2, tip)[None],
        quadratic(end, bend + (end - middle) / 2, tip)[None],
    )


def _is_long(tail: Tail) -> bool:
    """Whether a tail is long enough to be jagged."""
    first, last = tail.root
    middle = Point((first.x + last.x) / 2, (first.y + last.y) / 2)
    return middle.distance(tail.tip) >= JAGGED_MM


def _bolt(tail: Tail) -> tuple[Floats, Floats]:
    """A jagged tail's two sides from the roots to the tip, three straight lines each."""
    corners = np.array([[p.x, p.y] for p in bolt_polygon(tail)])
    middle = len(corners) // 2
    there, back = corners[: middle + 1], corners[middle:][::-1]
    left, right = (np.array([line(a, b) for a, b in pairwise(side)]) for side in (there, back))
    return left, right


def _leaving(side: Floats, inside: Callable[[Floats], bool]) -> Floats:
    """The part of a side beyond the last point where it lies inside the outline."""
    steps = np.linspace(0, 1, SIDE_SAMPLES)[:-1]
    dots = points_at(side[None], steps)
    within = [t for t, dot in zip(steps, dots, strict=True) if inside(dot)]
    if not within:
        return side
    low, high = float(within[-1]), float(within[-1] + steps[1])
    for _ in range(BISECTIONS):
        middle = (low + high) / 2
        low, high = (middle, high) if inside(at(side[None], middle)) else (low, middle)
    return part(side, low, 1 - low)


def _grafted(body: Floats, sides: Sequence[Floats]) -> Floats:
    """The union of body and tail: the long way round between the two sides, then the wedge."""
    one, other = sides
    first, last = nearest(body, one[0, 0]), nearest(body, other[0, 0])
    if _span(body, first, last) < _span(body, last, first):
        first, last, one, other = last, first, other, one
    down, back = other.copy(), one[::-1, ::-1].copy()
    down[0, 0], back[-1, -1] = at(body, last), at(body, first)
    return np.concatenate([stretch(body, first, last), down, back])


def _span(body: Floats, first: float, last: float) -> float:
    """The length in mm, by chords, of the body from one parameter onwards to another."""
    last += len(body) if last <= first else 0
    points = points_at(body, np.linspace(first, last, 65))
    return float(np.hypot(*np.diff(points, axis=0).T).sum())


def bubbles(tail: Tail) -> tuple[tuple[Point, float], ...]:
    """The bubbles that lead from a thought to the head: centre and radius, largest first.

    They and the gaps between them share out the tail's length evenly; in a tail too short for
    them they are smaller.
    """
    root, other = tail.root
    start = Point((root.x + other.x) / 2, (root.y + other.y) / 2)
    bend = tail.bend or Point((start.x + tail.tip.x) / 2, (start.y + tail.tip.y) / 2)
    reach = start.distance(tail.tip)
    full = BUBBLES_MM if reach >= SHORT_MM else BUBBLES_MM[1:]
    taken, gaps = 2 * sum(full), len(full)
    scale = min(1.0, max(0.0, reach - gaps * BUBBLE_GAP_MM) / taken)
    gap = min((reach - scale * taken) / gaps, MOST_GAP_MM)
    drawn, at_mm = [], 0.0
    for radius in (scale * size for size in full):
        at_mm += gap + radius
        drawn.append((_along(start, bend, tail.tip, at_mm / reach), radius))
        at_mm += radius
    return tuple(drawn) if scale > 0 else ()


def _along(start: Point, bend: Point, end: Point, t: float) -> Point:
    """A point of a quadratic Bezier curve."""
    a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
    return Point(
        math.fsum((a * start.x, b * bend.x, c * end.x)),
        math.fsum((a * start.y, b * bend.y, c * end.y)),
    )
