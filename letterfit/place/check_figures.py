"""What the checker asks of figures: on the floor, side by side, clear of balloons, faces clear."""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.check_fault import Fault, named
from letterfit.place.check_tails import slices
from letterfit.place.model import PanelLayout, PlacedOutline
from letterfit.place.silhouette import head_in

TOLERANCE = 0.02
"""In mm: how much lower a box must stand clear, and what rounding may cost elsewhere."""

_TURN = np.arange(720) * (2 * np.pi / 720)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])


def figure_faults(
    panel: Rect, layout: PanelLayout, *, regions: Sequence[Sequence[Point]], aspect: float
) -> Iterator[Fault]:
    """Every rule that the figures of a layout break, but for crossings that it reports."""
    told = {f.where for f in layout.findings if f.code == "tail-crosses"}
    for number, box in enumerate(layout.figures, start=1):
        if not _stands_in(panel, box, aspect=aspect):
            message = f"Figure {number} does not stand on the panel's floor."
            yield Fault("figure-place", message)
        lower = np.array([[box.x, box.y], [box.right, box.bottom]], dtype=np.float64)
        lower += np.array([[TOLERANCE, TOLERANCE], [-TOLERANCE, 0]])
        if any(_in_box(lower, _reach(item)) for item in layout.placed) or any(
            _in_box(lower, (np.array([[p.x, p.y] for p in c]) @ _UNITS).max(axis=0))
            for c in regions
        ):
            yield Fault("figure-place", f"Figure {number} does not stand clear.")
        head = head_in(box)
        half = np.array([head.width / 2, head.height / 2])
        face = (
            np.hypot(*(half[:, None] * _UNITS)) + np.array([head.centre.x, head.centre.y]) @ _UNITS
        )
        for item in layout.placed:
            if named(item) in told or item.tail is None:
                continue
            if _meets(slices(item.tail), face):
                message = f"Its tail lies on the face of figure {number}."
                yield Fault("tail-on-face", message, named(item))
    for one, two in combinations(layout.figures, 2):
        if min(one.right, two.right) - max(one.x, two.x) > TOLERANCE:
            yield Fault("figure-place", "Two figures stand in one place.")
    yield from _heights(layout)


def _heights(layout: PanelLayout) -> Iterator[Fault]:
    heights = {round(box.height / TOLERANCE) for box in layout.figures}
    tallest = max((box.height for box in layout.figures), default=0.0)
    alone = len(layout.figures) == 1
    over = tallest - layout.figure_height_mm
    if over > TOLERANCE or (alone and over < -TOLERANCE) or len(heights) > 1:
        message = f"Its figures of {tallest:.2f} mm are not those it claims."
        yield Fault("figure-height", message)


def _stands_in(panel: Rect, box: Rect, *, aspect: float) -> bool:
    return (
        abs(box.bottom - panel.bottom) <= TOLERANCE
        and panel.holds(box, tolerance=TOLERANCE)
        and abs(box.width - aspect * box.height) <= TOLERANCE
    )


def _in_box(corners: Floats, reach: Floats) -> bool:
    """Whether a convex body, by its reach, overlaps a box: no direction separates them."""
    xs, ys = corners.T
    box = np.array([[x, y] for x in xs for y in ys])
    return not bool(((box @ _UNITS).min(axis=0) - reach).max() >= 0)


def _reach(item: PlacedOutline) -> Floats:
    result: Floats = item.outline.support(_TURN) + np.array([item.x_mm, item.y_mm]) @ _UNITS
    return result


def _meets(wedge: Floats, reach: Floats) -> bool:
    return bool(((wedge @ _UNITS).min(axis=1) - reach).max(axis=1).min() < -1e-3)
