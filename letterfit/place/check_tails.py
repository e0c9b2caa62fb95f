"""What the checker asks of tails: rooted on their own balloon, crossing nothing, one where joined.

A wedge here is made anew from the definition in model.Tail: sides are the axis, a quadratic Bezier,
shifted by half the root's vector times (1 - s).
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.check_fault import Fault, named
from letterfit.place.model import PanelLayout, PlacedOutline, Tail

SLICES = 32
ON_OUTLINE = 0.02
"""Most distance in mm of a root from the outline it stands on."""

OVERLAP = 1e-3
"""Depth in mm up to which a touch is no crossing."""

SHORT = 0.5
"""How far in mm a tail may stop short of the balloon it leads to: about a line's weight."""

QUARTER = 180
"""Directions in a quarter of a turn."""

_TURN = np.arange(4 * QUARTER) * (np.pi / 2 / QUARTER)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])


def tail_faults(
    panel: Rect, layout: PanelLayout, *, regions: Sequence[Sequence[Point]]
) -> Iterator[Fault]:
    """Every rule that the tails of a layout break, but for crossings that the layout reports."""
    placed = layout.placed
    tailed = [(item, slices(item.tail)) for item in placed if item.tail is not None]
    told = {f.where for f in layout.findings if f.code == "tail-crosses"}
    for item, wedge in tailed:
        yield from _rooted(item)
        yield from _linked(item, placed)
        if named(item) not in told:
            yield from _crossings(panel, item, wedge, placed=placed, regions=regions)
    for (one, first), (two, second) in combinations(tailed, 2):
        if not {named(one), named(two)} & told and _cross(first, second):
            yield Fault("tails-cross", "Their tails cross.", named(one, two))
    yield from _joined(placed)


def _crossings(
    panel: Rect,
    item: PlacedOutline,
    wedge: Floats,
    *,
    placed: Sequence[PlacedOutline],
    regions: Sequence[Sequence[Point]],
) -> Iterator[Fault]:
    """What one balloon's tail runs into, other tails aside."""
    low = np.array([panel.x, panel.y]) - OVERLAP
    high = np.array([panel.right, panel.bottom]) + OVERLAP
    if not ((wedge >= low) & (wedge <= high)).all():
        yield Fault("tail-outside", "Its tail leaves the panel.", named(item))
    for other in placed:
        if other is not item and _meets(wedge, _reach(other)):
            message = "Its tail runs into another balloon."
            yield Fault("tail-on-balloon", message, named(item, other))
    for corners in regions:
        if _meets(wedge, (np.array([[p.x, p.y] for p in corners]) @ _UNITS).max(axis=0)):
            message = "Its tail lies on a keep-clear region."
            yield Fault("tail-on-keep-clear", message, named(item))


def _joined(placed: Sequence[PlacedOutline]) -> Iterator[Fault]:
    """Joined runs with more than one tail: they are one balloon to the reader."""
    runs: list[list[PlacedOutline]] = []
    for item in sorted(placed, key=lambda item: item.index):
        if item.joined and runs:
            runs[-1].append(item)
        else:
            runs.append([item])
    for run in runs:
        tails = sum(item.tail is not None for item in run)
        if len(run) > 1 and tails > 1:
            yield Fault("joined-tails", f"Joined to one, they have {tails} tails.", named(*run))


def slices(tail: Tail) -> Floats:
    """The wedge cut across into convex pieces: (SLICES, 4, 2), or (1, 4, 2) of a straight one."""
    first, last, tip = (np.array([p.x, p.y]) for p in (*tail.root, tail.tip))
    middle = (first + last) / 2
    bend = (middle + tip) / 2 if tail.bend is None else np.array([tail.bend.x, tail.bend.y])
    s = np.linspace(0, 1, (SLICES if tail.bend else 1) + 1)[:, None]
    axis = middle * (1 - s) ** 2 + bend * 2 * s * (1 - s) + tip * s**2
    left, right = axis + (first - middle) * (1 - s), axis + (last - middle) * (1 - s)
    return np.stack([left[:-1], right[:-1], right[1:], left[1:]], axis=1)


def _rooted(item: PlacedOutline) -> Iterator[Fault]:
    """A tail that does not stand on its own outline."""
    assert item.tail is not None  # noqa: S101 - the caller has seen the tail
    for root in item.tail.root:
        depth = _depth(item, root)
        if not abs(depth) <= ON_OUTLINE:
            message = f"A root of its tail is {depth:.3f} mm inside its outline."
            yield Fault("tail-root", message, named(item))


def _linked(item: PlacedOutline, placed: Sequence[PlacedOutline]) -> Iterator[Fault]:
    """A tail that does not reach the balloon it says it leads to."""
    assert item.tail is not None  # noqa: S101 - the caller has seen the tail
    if item.tail.to is None:
        return
    others = [other for other in placed if other.index == item.tail.to and other is not item]
    if not any(-SHORT <= _depth(other, item.tail.tip) <= ON_OUTLINE for other in others):
        message = f"Its tail does not reach balloon {item.tail.to + 1}."
        yield Fault("tail-link", message, named(item))


def _depth(item: PlacedOutline, point: Point) -> float:
    """How far a point is inside an outline, mm; negative outside."""
    at = np.array([point.x - item.x_mm, point.y - item.y_mm])
    return float((item.outline.support(_TURN) - at @ _UNITS).min())


def _reach(item: PlacedOutline) -> Floats:
    """The support function of an outline at its place."""
    result: Floats = item.outline.support(_TURN) + np.array([item.x_mm, item.y_mm]) @ _UNITS
    return result


def _meets(wedge: Floats, reach: Floats) -> bool:
    """Whether any slice overlaps a convex body: no direction separates them."""
    if _far(wedge, reach):
        return False
    apart = ((wedge @ _UNITS).min(axis=1) - reach).max(axis=1)
    return not bool((apart >= -OVERLAP).all())


def _cross(first: Floats, second: Floats) -> bool:
    """Whether any slice of one wedge overlaps any of another."""
    if _far(first, (second @ _UNITS[:, ::QUARTER]).reshape(-1, 4).max(axis=0).repeat(QUARTER)):
        return False
    return any(_meets(first, (quad @ _UNITS).max(axis=0)) for quad in second)


def _far(wedge: Floats, reach: Floats) -> bool:
    """Whether the box round a wedge lies off the box round a body, as most do."""
    (left, high), (right, low) = wedge.min(axis=(0, 1)), wedge.max(axis=(0, 1))
    end, bottom, start, top = reach[::QUARTER].tolist()
    return bool(left > end or high > bottom or -right > start or -low > top)
