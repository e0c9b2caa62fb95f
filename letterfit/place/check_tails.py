"""What the checker asks of tails: rooted on their own balloon, inside the panel, crossing nothing.

A wedge here is made anew from the definition in model.Tail: sides are the axis, a quadratic Bezier,
shifted by half the root's vector times (1 - s).
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.model import PlacedOutline, Tail

SLICES = 32
ON_OUTLINE = 0.02
"""Most distance in mm of a root from the outline it stands on."""

OVERLAP = 1e-3
"""Depth in mm up to which a touch is no crossing."""

_TURN = np.arange(720) * (2 * np.pi / 720)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])

TailFault = tuple[str, str, str]
"""Code, message, and which balloons."""


def tail_faults(
    panel: Rect, placed: Sequence[PlacedOutline], *, regions: Sequence[Sequence[Point]]
) -> list[TailFault]:
    """Every rule that the tails of a layout break."""
    tailed = [(item, slices(item.tail)) for item in placed if item.tail is not None]
    faults: list[TailFault] = []
    for item, wedge in tailed:
        name = str(item.index + 1)
        faults.extend((code, message, name) for code, message in _own(panel, item, wedge))
        for other in placed:
            if other is not item and _meets(wedge, _reach(other)):
                message = "Its tail runs into another balloon."
                faults.append(("tail-on-balloon", message, f"{name}+{other.index + 1}"))
        for corners in regions:
            reach = (np.array([[p.x, p.y] for p in corners]) @ _UNITS).max(axis=0)
            if _meets(wedge, reach):
                faults.append(("tail-on-keep-clear", "Its tail lies on a keep-clear region.", name))
    for (one, first), (two, second) in combinations(tailed, 2):
        if any(_meets(first, (quad @ _UNITS).max(axis=0)) for quad in second):
            where = f"{one.index + 1}+{two.index + 1}"
            faults.append(("tails-cross", "Their tails cross.", where))
    return faults


def slices(tail: Tail) -> Floats:
    """The wedge cut across into convex pieces: (SLICES, 4, 2)."""
    first, last, tip = (np.array([p.x, p.y]) for p in (*tail.root, tail.tip))
    middle = (first + last) / 2
    bend = (middle + tip) / 2 if tail.bend is None else np.array([tail.bend.x, tail.bend.y])
    s = np.linspace(0, 1, SLICES + 1)[:, None]
    axis = middle * (1 - s) ** 2 + bend * 2 * s * (1 - s) + tip * s**2
    left, right = axis + (first - middle) * (1 - s), axis + (last - middle) * (1 - s)
    return np.stack([left[:-1], right[:-1], right[1:], left[1:]], axis=1)


def _own(panel: Rect, item: PlacedOutline, wedge: Floats) -> Iterator[tuple[str, str]]:
    assert item.tail is not None  # noqa: S101 - the caller has seen the tail
    support = item.outline.support(_TURN)
    for root in item.tail.root:
        at = np.array([root.x - item.x_mm, root.y - item.y_mm])
        depth = float((support - at @ _UNITS).min())
        if not abs(depth) <= ON_OUTLINE:
            yield "tail-root", f"A root of its tail is {depth:.3f} mm inside its outline."
    low = np.array([panel.x, panel.y]) - OVERLAP
    high = np.array([panel.right, panel.bottom]) + OVERLAP
    if not ((wedge >= low) & (wedge <= high)).all():
        yield "tail-outside", "Its tail leaves the panel."


def _reach(item: PlacedOutline) -> Floats:
    """The support function of an outline at its place."""
    result: Floats = item.outline.support(_TURN) + np.array([item.x_mm, item.y_mm]) @ _UNITS
    return result


def _meets(wedge: Floats, reach: Floats) -> bool:
    """Whether any slice overlaps a convex body: no direction separates them."""
    apart = ((wedge @ _UNITS).min(axis=1) - reach).max(axis=1)
    return not bool((apart >= -OVERLAP).all())
