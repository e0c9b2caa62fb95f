"""Covered area: balloons and captions, and what their tails add outside them and inside the panel.

Outlines of a legal layout are disjoint, so their areas add up exactly. A tail adds the part of its
wedge outside its own outline: the wedge starts on the chord between its two roots, and what lies
between chord and outline is covered already.
"""

import math
from collections.abc import Sequence

import numpy as np

from letterfit.geometry import Rect
from letterfit.place.clip import HalfPlane, area, clipped
from letterfit.place.model import PlacedOutline
from letterfit.place.wedge import tail_polygon

TANGENTS = 12
"""Tangents that stand for the arc of an outline under its tail."""

SPREAD = math.radians(50)
"""How far on each side of the root those tangents reach, as an angle of their normals."""

_TURN = np.arange(360) * (2 * math.pi / 360)
_COS, _SIN = np.cos(_TURN), np.sin(_TURN)
# Closer together near the root's own normal, where the outline's edge is cut.
_FAN = SPREAD * np.sign(np.linspace(-1, 1, TANGENTS + 1)) * np.linspace(-1, 1, TANGENTS + 1) ** 2


def covered_area(panel: Rect, placed: Sequence[PlacedOutline]) -> float:
    """The area in mm2 that disjoint outlines and their tails cover inside the panel.

    Args:
        panel: The panel.
        placed: Disjoint outlines inside the panel.

    Returns:
        The outlines' areas, exact, plus the tails' parts outside their outlines and inside the
        panel, right to 1 % of the tails' own area. Tails that cross something are counted in full.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=10, half_height=4)
    >>> covered_area(Rect(0, 0, 40, 30), [
    ...     PlacedOutline(index=0, choice=0, outline=box, x_mm=12, y_mm=6)])
    160.0
    """
    outlines = math.fsum(item.outline.area_mm2 for item in placed)
    return outlines + math.fsum(_tail_area(panel, item) for item in placed)


def _tail_area(panel: Rect, item: PlacedOutline) -> float:
    """The area of the tail inside the panel, less its part inside its own outline."""
    if item.tail is None:
        return 0.0
    corners = [(p.x, p.y) for p in tail_polygon(item.tail)]
    if not all(panel.x <= x <= panel.right and panel.y <= y <= panel.bottom for x, y in corners):
        corners = clipped(corners, _sides(panel))
    return area(corners) - area(clipped(corners, _tangents(item)))


def _sides(panel: Rect) -> list[HalfPlane]:
    return [(-1, 0, -panel.x), (1, 0, panel.right), (0, -1, -panel.y), (0, 1, panel.bottom)]


def _tangents(item: PlacedOutline) -> list[HalfPlane]:
    """Half-planes whose common part is the outline near its tail's root."""
    assert item.tail is not None  # noqa: S101 - the caller has seen the tail
    first, last = item.tail.root
    x, y = (first.x + last.x) / 2 - item.x_mm, (first.y + last.y) / 2 - item.y_mm
    slack = item.outline.support(_TURN) - x * _COS - y * _SIN
    turn = _TURN[int(slack.argmin())] + _FAN
    cos, sin = np.cos(turn), np.sin(turn)
    reach = item.outline.support(turn) + item.x_mm * cos + item.y_mm * sin
    return list(zip(cos.tolist(), sin.tolist(), reach.tolist(), strict=True))
