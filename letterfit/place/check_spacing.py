"""What the checker asks of distances: from the border, from balloon to balloon, from regions.

Distances are true ones, from support functions. They are those of whole outlines, as if the border
cut nothing: the part that hangs over keeps its distances too.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from letterfit.geometry import Insets, Point, Rect
from letterfit.outline import Floats, Outline
from letterfit.place.check_fault import Fault, named
from letterfit.place.model import PlacedOutline
from letterfit.separation import gap, least_near

TOLERANCE = 1e-6
"""Lengths in mm that rounding may cost: a rule broken by less is kept."""

JOINT_TOLERANCE = 2e-3
"""How far in mm the depth of a joint may be from the one asked for, either way. Who places by
sampled directions errs by so much; a joint 1 mm deep has a neck a thousandth narrower for it."""

SAMPLES = 720

_STEP = 2 * np.pi / SAMPLES
_TURN: Floats = np.arange(SAMPLES, dtype=np.float64) * _STEP


def spacing_faults(  # noqa: PLR0913 - keyword-only
    panel: Rect,
    placed: Sequence[PlacedOutline],
    *,
    regions: Sequence[Sequence[Point]],
    gap_mm: float,
    margin: Insets,
    overlap_mm: float,
) -> Iterator[Fault]:
    """Every distance that is not kept."""
    yield from _outside(panel, placed, margin=margin)
    yield from _apart(placed, gap_mm=gap_mm, overlap_mm=overlap_mm)
    yield from _on_regions(placed, [np.array([[p.x, p.y] for p in c]) for c in regions])


def _outside(panel: Rect, placed: Sequence[PlacedOutline], *, margin: Insets) -> Iterator[Fault]:
    for item in placed:
        right, down, left, up = item.outline.support([0, np.pi / 2, np.pi, 3 * np.pi / 2])
        sides = [
            (panel.right - item.x_mm - right, margin.right),
            (item.x_mm - left - panel.x, margin.left),
            (panel.bottom - item.y_mm - down, margin.bottom),
        ]
        if not item.overhang_mm:
            sides.append((item.y_mm - up - panel.y, margin.top))
        away, least = min(sides, key=lambda side: side[0] - side[1])
        if not away >= least - TOLERANCE:
            message = f"It stands {away:.3f} mm from the border, not {least} mm."
            yield Fault("outside-panel", message, named(item))


def _apart(placed: Sequence[PlacedOutline], *, gap_mm: float, overlap_mm: float) -> Iterator[Fault]:
    """Joined pairs overlap by what was asked; all others keep the gap."""
    for i, j in combinations(sorted(placed, key=lambda item: item.index), 2):
        apart = gap(i.outline, j.outline, dx=j.x_mm - i.x_mm, dy=j.y_mm - i.y_mm)
        if j.joined and j.index == i.index + 1:
            if not abs(apart + overlap_mm) <= JOINT_TOLERANCE:
                message = f"They overlap by {-apart:.4f} mm, not by {overlap_mm} mm."
                yield Fault("joined-overlap", message, named(i, j))
        elif not apart >= gap_mm - TOLERANCE:
            message = f"They stand {apart:.3f} mm apart, not {gap_mm} mm."
            yield Fault("too-close", message, named(i, j))


def _on_regions(placed: Sequence[PlacedOutline], regions: Sequence[Floats]) -> Iterator[Fault]:
    for item in placed:
        for number, corners in enumerate(regions, start=1):
            away = region_gap(item.outline, corners - np.array([item.x_mm, item.y_mm]))
            if not away >= -TOLERANCE:
                message = f"It lies {-away:.3f} mm deep on keep-clear region {number}."
                yield Fault("on-keep-clear", message, named(item))


def region_gap(outline: Outline, corners: Floats) -> float:
    """The signed gap in mm between an outline and a convex polygon: negative when they overlap.

    Args:
        outline: The outline.
        corners: Shape (n, 2), mm, about the outline's centre, either way round.

    >>> from letterfit.outline import Ellipse
    >>> disc = Ellipse(half_width=5, half_height=5)
    >>> round(region_gap(disc, np.array([[7.0, -9.0], [7.0, 9.0], [8.0, 0.0]])), 9)
    2.0
    """

    def overlap(t: Floats) -> Floats:
        u = np.stack([np.cos(t), np.sin(t)])
        nearest = np.tensordot(corners, u, axes=1).min(axis=0)
        result: Floats = outline.support(t) - nearest
        return result

    sampled = overlap(_TURN)
    low = (sampled <= np.roll(sampled, 1)) & (sampled <= np.roll(sampled, -1))
    refined = least_near(overlap, _TURN[low], step=_STEP)[0]
    # Where a side of the polygon separates best, its own normal does: no sample need hit it.
    side = np.roll(corners, -1, axis=0) - corners
    along = np.arctan2(side[:, 1], side[:, 0])
    normals = overlap(np.concatenate([along + np.pi / 2, along - np.pi / 2]))
    return -float(min(refined.min(), normals.min()))
