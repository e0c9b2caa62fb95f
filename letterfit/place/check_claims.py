"""What the checker measures again: the coverage and the figure height that a layout claims.

Areas come from polygons of boundary points and from sums over level slices. Of a balloon that hangs
over only what lies inside the panel counts, and what joined balloons share counts once. The figure
height comes from trying boxes a little lower and a little higher at every edge where one could
begin.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from letterfit.geometry import Point, Rect
from letterfit.outline import Floats
from letterfit.place.check_areas import area_inside, outside, shared_inside
from letterfit.place.check_fault import Fault
from letterfit.place.check_tails import slices
from letterfit.place.model import PanelLayout, PlacedOutline

COVERAGE_TOLERANCE = 5e-4
"""As a share of the panel: the error of the slices is far below it."""

HEIGHT_TOLERANCE = 0.02
"""In mm: boundary polygons are off by less."""

_NORMALS = np.arange(2880) * (2 * np.pi / 2880)


def wrong_claims(
    panel: Rect,
    layout: PanelLayout,
    *,
    regions: Sequence[Sequence[Point]],
    limit: float,
    aspect: float,
) -> Iterator[Fault]:
    """The figures that do not hold."""
    share = _covered(panel, layout.placed) / panel.area_mm2
    if not abs(share - layout.coverage) <= COVERAGE_TOLERANCE:
        message = f"It covers {share:.2%} of the panel, not {layout.coverage:.2%}."
        yield Fault("coverage", message)
    if not layout.coverage <= limit + 1e-9:
        message = f"It covers {layout.coverage:.2%} of the panel, over the limit of {limit:.2%}."
        yield Fault("coverage", message)
    shapes = [_polygon(item) for item in layout.placed]
    shapes += [np.array([[p.x, p.y] for p in corners]) for corners in regions]
    claimed = layout.figure_height_mm
    lower, higher = claimed - HEIGHT_TOLERANCE, claimed + HEIGHT_TOLERANCE
    if lower > 0 and not _stands(panel, shapes, height=lower, aspect=aspect):
        yield Fault("figure-height", f"No figure of {claimed:.2f} mm stands clear.")
    if not np.isfinite(claimed) or _stands(panel, shapes, height=higher, aspect=aspect):
        yield Fault("figure-height", f"A figure taller than {claimed:.2f} mm stands clear.")
    bound = layout.figure_bound_mm
    if np.isnan(bound) or claimed > bound + HEIGHT_TOLERANCE:
        message = f"{bound:.2f} mm bounds no figure: one of {claimed:.2f} mm stands clear."
        yield Fault("figure-bound", message)


def _polygon(item: PlacedOutline) -> Floats:
    result: Floats = item.outline.boundary(_NORMALS) + np.array([item.x_mm, item.y_mm])
    return result


def _covered(panel: Rect, placed: Sequence[PlacedOutline]) -> float:
    """The area in mm2 that a legal layout covers inside the panel."""
    items = sorted(placed, key=lambda item: item.index)
    total = sum(area_inside(panel, item) for item in items)
    total += sum(outside(panel, item, slices(item.tail)) for item in items if item.tail is not None)
    joined = [(one, two) for one, two in pairwise(items) if two.joined]
    return total - sum(shared_inside(panel, one, two) for one, two in joined)


def _stands(panel: Rect, shapes: Sequence[Floats], *, height: float, aspect: float) -> bool:
    """Whether a box of that height stands anywhere, its left side at any edge where one may be."""
    width = aspect * height
    if height > panel.height or width > panel.width:
        return False
    spans = [span for shape in shapes if (span := _below(shape, panel.bottom - height))]
    edges = [panel.x, panel.right - width, *(right for _, right in spans)]
    edges += [left - width for left, _ in spans]
    return any(
        panel.x <= edge <= panel.right - width
        and all(edge >= right - 1e-9 or edge + width <= left + 1e-9 for left, right in spans)
        for edge in edges
    )


def _below(shape: Floats, line: float) -> tuple[float, float] | None:
    """The x span of a closed polygon's part below a level line."""
    x, y = shape.T
    deep = y > line
    if not deep.any():
        return None
    after = np.roll(deep, -1)
    step = np.roll(y, -1) - y
    with np.errstate(divide="ignore", invalid="ignore"):
        cuts = (x + (np.roll(x, -1) - x) * (line - y) / step)[deep != after]
    xs = np.concatenate([x[deep], cuts])
    return float(xs.min()), float(xs.max())
