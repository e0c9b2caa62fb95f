"""The wedges tried for one tail, and which of them a letterer would draw.

A wedge's root stands on the outline. Its axis, a quadratic Bezier, leaves the outline between the
straight way and the outline's own normal, bends once and ends aiming at the mouth itself: the tip
lies on the line from the bend to the mouth. For the tests it is cut across into convex strips; a
strip and a convex body are apart by at least the largest distance that any sampled direction shows
between them, so what is held clear is clear.
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.drawn.plain_lines import Squared
from letterfit.geometry import Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.model import PlacedOutline, Tail
from letterfit.place.tail_walk import DIRECTIONS, UNITS, Points, outline_reach, walk

WIDTH = 3.0
"""Width at the root in mm, from 2.5 to 4 (common practice, no source)."""

JAGGED = 4.0
"""Width at the root in mm of a jagged tail: the bolt in it is slimmer."""

SLENDER = 0.35
"""Most width at the root over the outline's shorter side, and over the tail's length."""

NARROWEST = 1.2
"""Least width at the root in mm."""

SHARE = 0.58
"""How far towards the mouth the tip goes: half to two thirds of the way."""

LONGEST = 20.0
"""Most length of a tail in mm, however far the mouth is."""

CLEAR = 0.3
"""Least distance in mm between a tail and what it must not cross."""

ROOMY = 1.5
"""Distance in mm from which on a tail is not cramped."""

SQUARE = 0.5
"""Least cosine of the angle between a tail's first stretch and the outline's normal."""

FORWARD = 0.2
"""The same for its last stretch: a wedge bent further would cross itself."""

CURVE = math.radians(13)
"""Least angle between the straight way and the first stretch: no tail is dead straight."""

STEEPEST = math.radians(38)
"""Most of that angle where nothing is in the way."""

STATIONS = 6
"""Places along the axis between which the wedge counts as a convex strip."""

ROUNDING = 1e-9

Tried = tuple[Floats, Floats, Floats]
"""Places, bends and lengths of wedges to be tried, as in `Grid`: shape (n,) each."""

Ahead = tuple[Point, Floats]
"""Where a tail points, and the reaches of what had better not be in between: (m, directions)."""


@dataclass(frozen=True, slots=True)
class Target:
    """Where a tail points.

    Args:
        point: The mouth, or a place on the border.
        stop: How far before it the tail ends at the latest, mm.
        share: How much of the way it goes if it may: half to two thirds; 1 reaches the point.
        longest: Its most length in mm.
    """

    point: Point
    stop: float = 0.0
    share: float = SHARE
    longest: float = LONGEST


@dataclass(frozen=True, slots=True)
class Grid:
    """What is tried for one tail.

    Args:
        places: How far from the straight way its root stands, as shares of the outline's perimeter.
        bends: Degrees by which its first stretch turns off the way it would take by itself.
        lengths: Its length, as shares of the length it should have.
    """

    places: tuple[float, ...]
    bends: tuple[float, ...]
    lengths: tuple[float, ...]

    def rows(self) -> Tried:
        """All combinations, shape (n,) each."""
        place, bend, length = np.meshgrid(self.places, self.bends, self.lengths, indexing="ij")
        return place.ravel(), np.radians(bend.ravel()), length.ravel()


CHUNK = 24
"""So many wedges are held against all that is near at once."""

HIT, FIGURE, BLOCKED = 10.0, 3.0, 1.5
"""What crossing something costs, crossing another speaker's figure, and pointing through one of
these, another balloon or a tail: readers would take the tail for theirs."""

SHORT, ASIDE, BENT, HUGGING, CRAMPED, SKEW = 1.6, 6.0, 0.5, 2.0, 0.8, 1.0
"""What costs how much: a tail shorter than it should be by all its length; a root a perimeter off
the straight way; a bend of a radian; a tip that stays beside its own outline; a tail that almost
touches something; one that leaves its outline at a slant."""


FREE = 0.6
"""A tip as far off its own outline as this share of the tail's length does not hug it."""

FEW: Tried = Grid((0.0, 0.06, -0.06), (0.0, 20.0, -20.0), (1.0,)).rows()
FULL: Tried = Grid(
    (0.0, 0.05, -0.05, 0.12, -0.12, 0.2, -0.2, 0.3, -0.3),
    (0.0, 22.0, -22.0, 48.0, -48.0),
    (1.0, 0.5, 0.2),
).rows()
"""What is tried where the plainest tail does not do, and what where none of the few is good."""

ALL: Tried = (
    np.concatenate([FEW[0], FULL[0]]),
    np.concatenate([FEW[1], FULL[1]]),
    np.concatenate([FEW[2], FULL[2]]),
)
"""The few, then the rest."""

GOOD = 0.6
"""One of the few that costs no more is drawn."""


def _cuts() -> Floats:
    """What makes both ends of each cut from first root, bend, tip and last root."""
    s = np.linspace(0, 1, STATIONS)
    start, bend, tip = (1 - s) ** 2, 2 * s * (1 - s), s**2
    left, right = start / 2 + (1 - s) / 2, start / 2 - (1 - s) / 2
    sides = [[left, bend, tip, right], [right, bend, tip, left]]
    result: Floats = np.array(sides).transpose(0, 2, 1).reshape(2 * STATIONS, 4)
    return result


_CUTS = _cuts()


@dataclass(frozen=True, slots=True, eq=False)
class Wedges:
    """Tails tried for one balloon.

    Args:
        item: The outline that they leave.
        first: Shape (n,): the first roots, mm.
        last: Shape (n,): the last roots.
        bend: Shape (n,): the bends.
        tip: Shape (n,): the tips.
        taste: Shape (n,): what each costs by itself.
    """

    item: PlacedOutline
    first: Points
    last: Points
    bend: Points
    tip: Points
    taste: Floats

    def tail(self, index: int, *, to: int | None = None) -> Tail:
        """One of them as a value."""
        return Tail(
            root=(_point(self.first[index]), _point(self.last[index])),
            tip=_point(self.tip[index]),
            bend=_point(self.bend[index]),
            to=to,
        )

    def cuts(self) -> Points:
        """Both ends of the cuts across, shape (2, STATIONS, n)."""
        corners = np.stack([self.first, self.bend, self.tip, self.last])
        result: Points = (_CUTS @ corners).reshape(2, STATIONS, -1)
        return result


def wedges(item: PlacedOutline, target: Target, *, grid: Tried) -> Wedges:
    """The wedges tried from an outline, in the order of the grid.

    Args:
        item: The outline.
        target: Where the tail points.
        grid: What is tried.
    """
    place, turn, scale = grid
    line, centre = walk(item.outline), complex(item.x_mm, item.y_mm)
    goal = complex(target.point.x, target.point.y) - centre
    at = line.towards(goal.real, goal.imag) + place * line.perimeter
    away = np.abs(goal - line.at(at))
    length = scale * np.minimum(
        np.minimum(target.share * away, target.longest),
        np.maximum(away - target.stop, away / 4) + ROUNDING,
    )
    half = np.minimum(np.maximum(SLENDER * length, NARROWEST), widest(item.outline)) / 2
    first, last = line.at(np.stack([at - half, at + half]))
    middle, normal = (first + last) / 2, (first - last) * 1j
    way = goal - middle
    off = normal * way.conj()
    # The normal of a flat side that faces the mouth says nothing: then to the right.
    bends = np.arctan2(off.imag, off.real) / 2
    bends = np.where(bends < -ROUNDING, -1, 1) * np.clip(np.abs(bends), CURVE, STEEPEST) + turn
    leaves = way * np.exp(1j * bends) / np.maximum(np.abs(way), ROUNDING)
    bend = middle + leaves * (length / 2)
    rest = goal - bend
    onward = np.maximum(np.abs(rest), ROUNDING)
    tip = bend + rest * np.where(length >= away, 1.0, np.minimum(length / 2 / onward, 1.0))
    square = (leaves.conj() * normal).real / np.abs(normal)
    after = (rest.conj() * normal).real / np.abs(normal) / onward
    taste = SHORT * (1 - scale) + ASIDE * np.abs(place) ** 1.5 + SKEW * (1 - square)
    taste += BENT * (1 - (leaves.conj() * rest).real / onward)
    taste += HIT * ((square < SQUARE) | (after < FORWARD))
    return Wedges(item, centre + first, centre + last, centre + bend, centre + tip, taste)


def widest(outline: Outline) -> float:
    """The most width in mm that a tail has where it leaves an outline."""
    wanted = JAGGED if isinstance(outline, Squared) else WIDTH
    return min(wanted, SLENDER * 2 * min(outline.half_width, outline.half_height))


def cheapest(  # noqa: PLR0913 - the wedges, and all that they are held against
    panel: Rect,
    tried: Wedges,
    *,
    bodies: Floats,
    others: Floats,
    ahead: Ahead | None = None,
    few: int = 0,
) -> tuple[int, float]:
    """Which wedge costs least, and what: HIT and more for each fault, less where there is none.

    Args:
        panel: What they may not leave.
        tried: The wedges.
        bodies: Reaches of what they must not cross, shape (m, directions).
        others: Reaches of what they had better not cross.
        ahead: Where they point, and the reaches of what had better not be in between.
        few: So many are asked first, and the others only where none of these is good.
    """
    cuts = tried.cuts()
    dots = _towards(cuts)
    own = tried.taste + _own_faults(panel, tried, cuts=cuts, dots=dots)
    ends = np.minimum(dots[:, 0], dots[:, 1])
    low = np.minimum(ends[:, :-1], ends[:, 1:])
    if ahead is not None and len(ahead[1]):
        goal = _towards(np.array([[complex(ahead[0].x, ahead[0].y)]]))
        way = np.minimum(ends[:, -1:], goal)
        own += BLOCKED * (_apart(way, _near(way, ahead[1], by=0.0)) < 0).sum(axis=0)
    best, least = 0, math.inf
    for start, stop in ((0, few), (few, len(own))):
        order = start + np.argsort(own[start:stop], kind="stable")
        # What is near only adds to the cost: what is dear by itself need not be held against it.
        for at in range(0, len(order), CHUNK):
            rows = order[at : at + CHUNK]
            if own[rows[0]] >= least:
                break
            cost = own[rows] + _crossings(low[:, :, rows], bodies=bodies, others=others)
            first = int(cost.argmin())
            if cost[first] < least:
                best, least = int(rows[first]), float(cost[first])
        if least < GOOD:
            break
    return best, least


def _towards(points: Points) -> Floats:
    """How far points lie in each direction: directions first, so that the rest is in one piece."""
    flat = np.ascontiguousarray(points).view(np.float64).reshape(-1, 2)
    result: Floats = (UNITS.T @ flat.T).reshape(DIRECTIONS, *points.shape)
    return result


def _own_faults(panel: Rect, tried: Wedges, *, cuts: Points, dots: Floats) -> Floats:
    """What each wedge costs where it leaves the panel, or runs back to its own outline."""
    x, y = cuts.real, cuts.imag
    outside = (x < panel.x - ROUNDING) | (x > panel.right + ROUNDING)
    outside |= (y < panel.y - ROUNDING) | (y > panel.bottom + ROUNDING)
    off = (dots[:, :, 1::2] - outline_reach(tried.item)[:, None, None, None]).max(axis=0)
    along = np.maximum(np.abs(tried.tip - (tried.first + tried.last) / 2), ROUNDING)
    hugging = HUGGING * np.maximum(FREE - off[0, -1] / along, 0.0)
    result: Floats = hugging + HIT * (outside.any(axis=(0, 1)) + (off <= 0).any(axis=(0, 1)))
    return result


def _crossings(low: Floats, *, bodies: Floats, others: Floats) -> Floats:
    """What each wedge costs for all that it crosses or almost touches."""
    cost = np.zeros(low.shape[-1])
    bodies, others = _near(low, bodies, by=ROOMY), _near(low, others, by=0.0)
    if len(bodies):
        apart = _apart(low, bodies)
        cramped = np.clip(1 - apart / ROOMY, 0, 1) ** 2
        cost += (HIT * (apart < CLEAR) + CRAMPED * cramped).sum(axis=0)
    if len(others):
        cost += FIGURE * (_apart(low, others) < 0).sum(axis=0)
    return cost


def _near(low: Floats, bodies: Floats, *, by: float) -> Floats:
    """Those bodies that no direction shows to be so far in mm from all wedges."""
    if not len(bodies):
        return bodies
    near: Floats = bodies[(low.min(axis=(1, 2)) - bodies).max(axis=1) < by]
    return near


def _apart(low: Floats, bodies: Floats) -> Floats:
    """How far at least each wedge is from each body, shape (m, n), mm: negative where they meet."""
    result: Floats = (low - bodies[:, :, None, None]).max(axis=1).min(axis=1)
    return result


def _point(place: complex) -> Point:
    return Point(float(place.real), float(place.imag))
