"""The rules of a layout, written anew from the design: what breaks them is named, pair by pair."""

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.model import PlacedOutline

BESIDE = 0.8
"""Share of the joint half-widths that centres stand apart when one is right of the other."""

ROUNDING = 1e-6

_TURN = np.linspace(0, math.pi / 2, 1025)
_NEAR = np.linspace(-_TURN[1], _TURN[1], 401)


def distance(one: Outline, two: Outline, *, dx: float, dy: float) -> float:
    """The gap in mm between two outlines, never too large, too small by less than 1e-8 mm."""

    def apart(t: Floats) -> Floats:
        result: Floats = abs(dx) * np.cos(t) + abs(dy) * np.sin(t)
        return result - one.support(t) - two.support(t)

    best = _TURN[apart(_TURN).argmax()]
    return float(apart(np.clip(best + _NEAR, 0, math.pi / 2)).max())


def broken_rules(
    panel: Rect,
    layout: Sequence[PlacedOutline],
    *,
    gap_mm: float = 1.5,
    margin_mm: float = 1.5,
    ordered: bool = True,
) -> list[str]:
    """What is wrong with a layout, balloons counted from 1; nothing for a legal one."""
    faults = []
    for item in layout:
        inside = min(
            item.x_mm - item.outline.half_width - panel.x,
            panel.right - item.x_mm - item.outline.half_width,
            item.y_mm - item.outline.half_height - panel.y,
            panel.bottom - item.y_mm - item.outline.half_height,
        )
        if inside < margin_mm - ROUNDING:
            faults.append(f"{item.index + 1} stands {inside:.4f} mm from the border")
    for one, two in combinations(layout, 2):
        dx, dy = two.x_mm - one.x_mm, two.y_mm - one.y_mm
        names = f"{one.index + 1} and {two.index + 1}"
        apart = distance(one.outline, two.outline, dx=dx, dy=dy)
        if apart < gap_mm - ROUNDING:
            faults.append(f"{names} stand {apart:.4f} mm apart")
        if ordered and not _follows(one, two):
            faults.append(f"{names} are neither below nor right of each other in order")
        if ordered and -dx >= one.outline.half_width + two.outline.half_width + ROUNDING:
            before = layout[: two.index]
            row = max(item.y_mm + item.outline.half_height for item in before)
            if two.y_mm - two.outline.half_height < row - ROUNDING:
                faults.append(f"{two.index + 1} opens a row that is not below all before it")
    return faults


def _follows(one: PlacedOutline, two: PlacedOutline) -> bool:
    """Whether the later box lies wholly below the earlier, or right of it and no higher."""
    first, second = one.outline, two.outline
    top, low = two.y_mm - second.half_height, one.y_mm + first.half_height
    if top >= low - ROUNDING:
        return True
    wide = BESIDE * (first.half_width + second.half_width)
    right = two.x_mm - one.x_mm >= wide - ROUNDING
    return right and top >= one.y_mm - first.half_height - ROUNDING
