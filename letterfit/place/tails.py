"""Tails: wedges from the outline towards the mouth that cross nothing, the plainest one that does.

For each balloon in script order the tails tried are ordered by taste: leaving towards the mouth,
one gentle curve, half to two thirds of the way; then from other places of the outline, straighter
or more bent, shorter. The first that keeps clear of every other outline, of the keep-clear
regions, of the tails before it and inside the panel is drawn. If none does, the one that runs into
least is drawn, and said so.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

import numpy as np

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import Bools
from letterfit.place.model import PlacedOutline, Speaker, Tail

WIDTH = 3.0
"""Width at the root in mm, from 2.5 to 4 (common practice, no source)."""

SLENDER = 0.35
"""Most width at the root over the outline's shorter side."""

SHARES = (0.58, 0.5, 0.4, 0.28, 0.18)
"""How far towards the mouth the tip goes: half to two thirds of the way, and less at need."""

TURNS = (0.0, 20.0, -20.0, 40.0, -40.0, 65.0, -65.0, 90.0, -90.0)
"""How far round its outline, in degrees, a tail's root stands from the straight way."""

BENDS = (0.12, 0.0, -0.12, 0.3, -0.3)
"""How far the bend lies off the straight way, as a share of the tail's length."""

CLEAR = 0.3
"""Least distance in mm between a tail and what it must not cross."""

SQUARE = 0.4
"""Least sine of the angle between a tail's way and the outline where it starts."""

STATIONS = 9
"""Places along the axis between which the wedge counts as a convex strip."""

_TURN = np.arange(48) * (2 * math.pi / 48)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])
_ROUND = np.linspace(0, 2 * math.pi, 361)


@dataclass(frozen=True, slots=True, eq=False)
class Wedges:
    """Tails tried for one balloon.

    Args:
        first: Shape (n, 2): the first roots, mm.
        last: Shape (n, 2): the last roots.
        bend: Shape (n, 2): the bends.
        tip: Shape (n, 2): the tips.
        strips: Shape (n, STATIONS - 1, 4, 2): the corners of the convex strips.
    """

    first: Floats
    last: Floats
    bend: Floats
    tip: Floats
    strips: Floats

    def tail(self, index: int) -> Tail:
        """One of them as a value."""
        return Tail(
            root=(_point(self.first[index]), _point(self.last[index])),
            tip=_point(self.tip[index]),
            bend=_point(self.bend[index]),
        )


def with_tails(
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    speakers: Sequence[Speaker | None],
    mouths: Sequence[Point | None],
    keep_clear: Sequence[Sequence[Point]] = (),
) -> tuple[tuple[PlacedOutline, ...], tuple[Finding, ...]]:
    """The outlines with their tails, and a finding for each tail that runs into something.

    Args:
        panel: The panel.
        placed: Outlines at their places, in script order.
        speakers: One per outline; None has no tail.
        mouths: One per outline; None for who stands off the panel.
        keep_clear: Convex polygons that no tail enters.
    """
    result: list[PlacedOutline] = []
    findings: list[Finding] = []
    blocks = [np.array([[p.x, p.y] for p in corners]) for corners in keep_clear]
    for item, speaker, mouth in zip(placed, speakers, mouths, strict=True):
        if speaker is None:
            result.append(item)
            continue
        others = [other for other in placed if other.index != item.index]
        tail, strips, clean = _best(panel, item, mouth=mouth, others=others, blocks=blocks)
        blocks.extend(strips)
        result.append(replace(item, tail=tail))
        if not clean:
            findings.append(_crossing(item, speaker))
    return tuple(result), tuple(findings)


def _crossing(item: PlacedOutline, speaker: Speaker) -> Finding:
    return Finding(
        code="tail-crosses",
        severity="warning",
        message=f"The tail to {speaker.name} crosses another balloon, tail or kept-clear region.",
        advice="Let the speakers stand in the order they speak, or move the balloon.",
        where=str(item.index + 1),
    )


def _best(
    panel: Rect,
    item: PlacedOutline,
    *,
    mouth: Point | None,
    others: Sequence[PlacedOutline],
    blocks: Sequence[Floats],
) -> tuple[Tail, list[Floats], bool]:
    """The tail, its strips, and whether it runs clear."""
    least: tuple[int, Tail, list[Floats]] | None = None
    for target, shares in _targets(panel, item, mouth=mouth):
        for turns, bends in ((TURNS[:1], BENDS[:1]), (TURNS[:5], BENDS[:3]), (TURNS, BENDS)):
            wedges = _wedges(item, target, shares=shares, turns=turns, bends=bends)
            hits = _hits(panel, wedges, others=others, blocks=blocks)
            best = int(hits.argmin())
            if least is None or hits[best] < least[0]:
                least = int(hits[best]), wedges.tail(best), list(wedges.strips[best])
            if not least[0]:
                return least[1], least[2], True
    assert least is not None  # noqa: S101 - there is always a target
    return least[1], least[2], False


def _targets(
    panel: Rect, item: PlacedOutline, *, mouth: Point | None
) -> list[tuple[Point, tuple[float, ...]]]:
    """Where tails may go, the best first, and how much of the way."""
    if mouth is not None and _holds(panel, mouth):
        return [(mouth, SHARES[:2]), (mouth, SHARES[2:])]
    if mouth is not None:
        return [(_on_border(panel, item, mouth), (1.0, 0.6))]
    down = item.y_mm + 0.35 * item.outline.half_height
    left, right = Point(panel.x, down), Point(panel.right, down)
    near, far = (left, right) if item.x_mm <= panel.centre.x else (right, left)
    floor = Point(item.x_mm, panel.bottom)
    return [(near, (1.0,)), (far, (1.0,)), (floor, (1.0,)), (near, (0.6,))]


def _holds(panel: Rect, point: Point) -> bool:
    return panel.x < point.x < panel.right and panel.y < point.y < panel.bottom


def _on_border(panel: Rect, item: PlacedOutline, mouth: Point) -> Point:
    """Where the way from the balloon's middle to a mouth off the panel leaves it."""
    dx, dy = mouth.x - item.x_mm, mouth.y - item.y_mm
    ways = [1.0]
    if dx:
        ways.append(((panel.right if dx > 0 else panel.x) - item.x_mm) / dx)
    if dy:
        ways.append(((panel.bottom if dy > 0 else panel.y) - item.y_mm) / dy)
    way = min(ways)
    return Point(
        min(max(item.x_mm + way * dx, panel.x), panel.right),
        min(max(item.y_mm + way * dy, panel.y), panel.bottom),
    )


def _wedges(
    item: PlacedOutline,
    target: Point,
    *,
    shares: Sequence[float],
    turns: Sequence[float],
    bends: Sequence[float],
) -> Wedges:
    """The wedges of every share, turn and bend, the ones of best taste first."""
    goal = np.array([target.x - item.x_mm, target.y - item.y_mm])
    grid = np.array(list(product(shares, turns, bends)))
    straight = math.atan2(goal[1], goal[0])
    middle, normal, roots = _roots(item.outline, straight + np.radians(grid[:, 1]), goal=goal)
    way = grid[:, :1] * (goal - middle)
    side = np.stack([-way[:, 1], way[:, 0]], axis=1)
    # The bend goes to the side the outline faces, so that the tail leaves it squarely.
    side *= np.where((side * normal).sum(axis=1) < 0, -1, 1)[:, None]
    centre = np.array([item.x_mm, item.y_mm])
    bend = centre + middle + way / 2 + grid[:, 2:] * side
    first, last, tip = centre + roots[0], centre + roots[1], centre + middle + way
    return Wedges(first, last, bend, tip, _strips(first, last, bend=bend, tip=tip))


def _roots(
    outline: Outline, directions: Floats, *, goal: Floats
) -> tuple[Floats, Floats, tuple[Floats, Floats]]:
    """Middles of the roots, outward normals there, and both roots, about the outline's centre."""
    turn, length, points = _outline_walk(outline)
    around = turn[0] + np.mod(directions - turn[0], 2 * math.pi)
    at = np.interp(around, turn, length)
    away = np.hypot(*(goal[:, None] - _along(points, length, at).T))
    shortest = 2 * min(outline.half_width, outline.half_height)
    half = np.minimum(min(WIDTH, SLENDER * shortest), np.maximum(0.45 * away, 1.0)) / 2
    first, last = _along(points, length, at - half), _along(points, length, at + half)
    chord = last - first
    normal = np.stack([chord[:, 1], -chord[:, 0]], axis=1)
    return (first + last) / 2, normal, (first, last)


@lru_cache(maxsize=1024)
def _outline_walk(outline: Outline) -> tuple[Floats, Floats, Floats]:
    """Points along an outline: angles about its centre, lengths from the first, and (x, y)."""
    points = outline.boundary(_ROUND)
    points = np.concatenate([points, points[:1]])
    turn = np.unwrap(np.arctan2(points[:, 1], points[:, 0]))
    length = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    keep = np.concatenate([[True], np.diff(turn) > 1e-12])
    return turn[keep], length[keep], points[keep]


def _along(points: Floats, length: Floats, at: Floats) -> Floats:
    """The points at the given lengths along a closed line."""
    at = np.mod(at, length[-1])
    return np.stack([np.interp(at, length, points[:, c]) for c in (0, 1)], axis=1)


def _strips(first: Floats, last: Floats, *, bend: Floats, tip: Floats) -> Floats:
    s = np.linspace(0, 1, STATIONS)[:, None]
    middle, reach = ((first + last) / 2)[:, None], ((last - first) / 2)[:, None] * (1 - s)
    axis = (1 - s) ** 2 * middle + 2 * s * (1 - s) * bend[:, None] + s**2 * tip[:, None]
    sides = np.stack([axis - reach, axis + reach], axis=2)
    return np.concatenate([sides[:, :-1], sides[:, 1:]], axis=2)


def _hits(
    panel: Rect, wedges: Wedges, *, others: Sequence[PlacedOutline], blocks: Sequence[Floats]
) -> Floats:
    """How many things each wedge runs into; grazing its own outline counts as one."""
    reach = wedges.strips @ _UNITS
    low = reach.min(axis=2)
    hits = _outside(panel, wedges).astype(np.float64)
    for item in others:
        far = item.outline.support(_TURN) + np.array([item.x_mm, item.y_mm]) @ _UNITS
        hits += ((low - far).max(axis=2) < CLEAR).any(axis=1)
    for corners in blocks:
        far = (corners @ _UNITS).max(axis=0)
        hits += ((low - far).max(axis=2) < CLEAR).any(axis=1)
    return hits


def _outside(panel: Rect, wedges: Wedges) -> Floats:
    """Whether a wedge leaves the panel, or leaves its outline at too flat an angle."""
    xs, ys = wedges.strips[..., 0], wedges.strips[..., 1]
    beyond = (xs < panel.x - 1e-9) | (xs > panel.right + 1e-9)
    beyond |= (ys < panel.y - 1e-9) | (ys > panel.bottom + 1e-9)
    middle = (wedges.first + wedges.last) / 2
    flat = _flat(wedges, wedges.tip - middle) | _flat(wedges, wedges.bend - middle)
    result: Floats = beyond.any(axis=(1, 2)).astype(np.float64) + flat
    return result


def _flat(wedges: Wedges, way: Floats) -> Bools:
    """Whether a way leaves the outline at less than SQUARE of a right angle's sine."""
    chord = wedges.last - wedges.first
    across = chord[:, 1] * way[:, 0] - chord[:, 0] * way[:, 1]
    result: Bools = across < SQUARE * np.hypot(*chord.T) * np.hypot(*way.T)
    return result


def _point(pair: Floats) -> Point:
    return Point(float(pair[0]), float(pair[1]))
