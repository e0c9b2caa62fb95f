"""The checker: says what is wrong with a layout, knowing nothing of how it was found.

It shares no code with the search, the proofs, the tails or the measures: only the outlines' own
support function and boundary, and the two readers of order.py. Each part asks one thing and
stands in a file of its own: check_asked, check_spacing, check_reading, check_tails, check_figures,
check_claims.
"""

from collections.abc import Iterable, Sequence
from itertools import chain

import numpy as np

from letterfit.findings import Finding
from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline
from letterfit.place.check_asked import unasked
from letterfit.place.check_claims import wrong_claims
from letterfit.place.check_fault import Fault, named
from letterfit.place.check_figures import figure_faults
from letterfit.place.check_reading import reading_faults
from letterfit.place.check_spacing import spacing_faults
from letterfit.place.check_tails import tail_faults
from letterfit.place.model import PanelLayout, Reading
from letterfit.place.terms import KeepClear, region_corners

CODES = (
    *("balloon-numbers", "not-on-menu", "joined-asked", "overhang"),
    *("outside-panel", "too-close", "joined-overlap", "on-keep-clear"),
    *("order-pair", "order-reader"),
    *("tail-root", "tail-link", "tail-outside", "tail-on-balloon", "tail-on-keep-clear"),
    *("tails-cross", "tail-on-face", "joined-tails"),
    *("coverage", "figure-height", "figure-bound", "figure-place"),
)
"""The rules by their names, as findings carry them."""


def check_layout(  # noqa: PLR0913 - the same terms as place_outlines, all with defaults
    panel: Rect,
    layout: PanelLayout,
    *,
    gap_mm: float = 1.5,
    margin_mm: float | Insets = 1.5,
    reading: Reading = "ltr",
    keep_clear: Sequence[KeepClear] = (),
    coverage_limit: float = 1.0,
    ordered: bool = True,
    figure_aspect: float = 1 / 3,
    overlap_mm: float = 1.0,
    joined: Sequence[bool] | None = None,
    overhangs: Sequence[Sequence[float]] | None = None,
    menus: Sequence[Sequence[Outline]] | None = None,
) -> tuple[Finding, ...]:
    """Every rule that a layout breaks, as findings of severity "error"; none if it is legal.

    Args:
        panel: The panel it was made for.
        layout: The layout; one that is not "placed" claims nothing and breaks nothing.
        gap_mm: Least true distance between outlines that are not joined.
        margin_mm: Least distance from the panel's border, or from each of its sides.
        reading: Reading direction.
        keep_clear: Rectangles or convex polygons that nothing may lie on.
        coverage_limit: Most share of the panel covered.
        ordered: Whether the reading order must be certain.
        figure_aspect: Width over height of the figure whose room the layout states, a ratio.
        overlap_mm: Depth by which joined balloons overlap.
        joined: Whether each was to be joined to the one before it; None takes the layout's word.
        overhangs: How far in mm each outline of each menu may hang over the top border; None: not
            at all.
        menus: The outlines each balloon could choose from; None asks nothing of that.

    Returns:
        One finding for each rule and balloon; its code is the rule's, such as "outside-panel". A
        crossing tail that the layout itself reports is not repeated.

    Raises:
        PageError: When a region to keep clear is no convex polygon.

    >>> check_layout(Rect(0, 0, 40, 30), PanelLayout(verdict="placed", figure_height_mm=30.0))
    ()
    """
    if layout.verdict != "placed":
        return ()
    placed = layout.placed
    lost = [item for item in placed if not np.isfinite([item.x_mm, item.y_mm]).all()]
    if lost:
        return _worded(Fault("outside-panel", "It stands nowhere.", named(i)) for i in lost)
    regions = [region_corners(region) for region in keep_clear]
    apart = {"gap_mm": gap_mm, "overlap_mm": overlap_mm}
    claims = wrong_claims(
        panel, layout, regions=regions, limit=coverage_limit, aspect=figure_aspect
    )
    return _worded(
        chain(
            unasked(panel, placed, menus=menus, joined=joined, overhangs=overhangs),
            spacing_faults(panel, placed, regions=regions, margin=Insets.of(margin_mm), **apart),
            reading_faults(panel, placed, reading=reading) if ordered else (),
            tail_faults(panel, layout, regions=regions),
            figure_faults(panel, layout, regions=regions, aspect=figure_aspect),
            claims,
        )
    )


def _worded(faults: Iterable[Fault]) -> tuple[Finding, ...]:
    return tuple(
        Finding(code=fault.code, severity="error", message=fault.message, where=fault.where)
        for fault in faults
    )
