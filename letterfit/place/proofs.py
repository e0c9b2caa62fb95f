"""Proofs that a panel cannot take its balloons; what has no proof is never called impossible.

- *shape*: a balloon has no outline that enters the panel less its margins.
- *coverage*: the smallest outlines together cover more than the limit.
- *area*: grown by half the gap, outlines stay disjoint and lie in the panel less its margins grown
  by half the gap. By Steiner's formula a convex body of area A and perimeter P grown by r has area
  A + P r + pi r^2 (Schneider, Convex Bodies, 2nd ed., section 4.2).
- *pair*: two balloons do not go into the panel even without the others. Both outlines are symmetric
  about both axes, so their gap grows with |dx| and with |dy|: opposite corners are the best places.
"""

import math
from collections.abc import Sequence

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.kernel import COS, SIN, profile
from letterfit.place.settle import RIGHT
from letterfit.place.terms import Terms
from letterfit.separation import gap as true_gap

SLACK = 1e-6
"""A proof must win by more than this share of a figure or this many mm: rounding proves nothing."""

MOST_CHOICES = 1024
"""Pairs of outlines of two menus up to which all are tried."""

MOST_PAIRS = 12
"""Balloons up to which every pair is tried."""


def proof(panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms) -> str:
    """The proof that no legal layout exists, as its name and figures; empty when none is known."""
    room = _Room(panel.width - 2 * terms.margin, panel.height - 2 * terms.margin)
    inside = [[o for o in menu if room.takes(o)] for menu in menus]
    return (
        _shape(room, menus, inside)
        or _coverage(panel, inside, limit=terms.limit)
        or _area(room, inside, gap=terms.gap)
        or _pair(room, inside, gap=terms.gap, ordered=terms.ordered)
    )


class _Room:
    """The panel less its margins, in mm."""

    def __init__(self, width: float, height: float) -> None:
        self.width = width
        self.height = height

    def takes(self, outline: Outline) -> bool:
        return (
            2 * outline.half_width <= self.width + SLACK
            and 2 * outline.half_height <= self.height + SLACK
        )


def _shape(
    room: _Room, menus: Sequence[Sequence[Outline]], inside: Sequence[Sequence[Outline]]
) -> str:
    for index, (menu, kept) in enumerate(zip(menus, inside, strict=True)):
        if not kept:
            narrow = min(menu, key=lambda o: (o.half_width, o.half_height))
            flat = min(menu, key=lambda o: (o.half_height, o.half_width))
            return (
                f"shape: balloon {index + 1} needs {2 * narrow.half_width:.1f} x "
                f"{2 * narrow.half_height:.1f} mm at its narrowest, {2 * flat.half_width:.1f} x "
                f"{2 * flat.half_height:.1f} mm at its flattest, of {max(room.width, 0):.1f} x "
                f"{max(room.height, 0):.1f} mm"
            )
    return ""


def _coverage(panel: Rect, inside: Sequence[Sequence[Outline]], *, limit: float) -> str:
    needs = math.fsum(min(o.area_mm2 for o in menu) for menu in inside)
    if needs <= limit * panel.area_mm2 * (1 + SLACK):
        return ""
    return f"coverage: needs {needs:.0f} of {limit * panel.area_mm2:.0f} mm2"


def _area(room: _Room, inside: Sequence[Sequence[Outline]], *, gap: float) -> str:
    if not inside:
        return ""
    r = gap / 2
    holds = room.width * room.height + 2 * (room.width + room.height) * r + math.pi * r * r
    needs = math.fsum(min(_grown(o, r) for o in menu) for menu in inside)
    if needs <= holds * (1 + SLACK):
        return ""
    return f"area: needs {needs:.0f} of {holds:.0f} mm2"


def _grown(outline: Outline, r: float) -> float:
    """The area of an outline grown by r, from below."""
    return outline.area_mm2 + profile(outline).perimeter * r + math.pi * r * r


def _pair(room: _Room, inside: Sequence[Sequence[Outline]], *, gap: float, ordered: bool) -> str:
    count = min(len(inside), MOST_PAIRS)
    for j in range(1, count):
        for i in range(j):
            if not _fits_together(room, inside[i], inside[j], gap=gap, ordered=ordered):
                return (
                    f"pair: balloons {i + 1} and {j + 1} together do not go into "
                    f"{room.width:.1f} x {room.height:.1f} mm"
                )
    return ""


def _fits_together(
    room: _Room,
    first: Sequence[Outline],
    second: Sequence[Outline],
    *,
    gap: float,
    ordered: bool,
) -> bool:
    """Whether some outline of each go in together, the second below or right of the first."""
    if len(first) * len(second) > MOST_CHOICES:
        return True  # too many to try: no proof
    tight = []
    for one in first:
        for two in second:
            dx = max(room.width - one.half_width - two.half_width, 0.0)
            dy = max(room.height - one.half_height - two.half_height, 0.0)
            if ordered and not _in_order(one, two, dx=dx, dy=dy):
                continue
            if _sampled_gap(one, two, dx=dx, dy=dy) >= gap:
                return True
            tight.append((one, two, dx, dy))
    return any(true_gap(one, two, dx=dx, dy=dy) >= gap - SLACK for one, two, dx, dy in tight)


def _in_order(one: Outline, two: Outline, *, dx: float, dy: float) -> bool:
    """Whether the farthest the second can go is below the first, or right of it and not higher."""
    below = dy >= one.half_height + two.half_height - SLACK
    right = dx >= RIGHT * (one.half_width + two.half_width) - SLACK
    return below or (right and dy >= two.half_height - one.half_height - SLACK)


def _sampled_gap(one: Outline, two: Outline, *, dx: float, dy: float) -> float:
    """The gap from below: any direction separates by no more than the best one."""
    across = dx - one.half_width - two.half_width
    apart = dx * COS + dy * SIN - profile(one).support - profile(two).support
    return max(across, float(apart.max()))
