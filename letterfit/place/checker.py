"""The checker: says what is wrong with a layout, knowing nothing of how it was found.

It shares no code with the search, the proofs, the tails or the measures: only the outlines' own
support function and boundary, and the two readers of order.py, which no other stage uses.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.outline import Floats
from letterfit.place.check_claims import wrong_claims
from letterfit.place.check_figures import figure_faults
from letterfit.place.check_tails import tail_faults
from letterfit.place.model import PanelLayout, PlacedOutline, Reading
from letterfit.place.order import highest_first, reading_order
from letterfit.place.terms import KeepClear, region_corners
from letterfit.separation import gap

TOLERANCE = 1e-6
"""Lengths in mm that rounding may cost: a rule broken by less is kept."""

RIGHT_OF = 0.8
"""Share of two balloons' joint half-widths from which on one stands right of the other."""

_TURN = np.arange(1440) * (2 * np.pi / 1440)
_UNITS = np.stack([np.cos(_TURN), np.sin(_TURN)])


@dataclass(frozen=True, slots=True)
class Fault:
    """A broken rule, before it is worded as a finding."""

    code: str
    message: str
    where: str


def check_layout(  # noqa: PLR0913 - the same terms as place_outlines, all with defaults
    panel: Rect,
    layout: PanelLayout,
    *,
    gap_mm: float = 1.5,
    margin_mm: float = 1.5,
    reading: Reading = "ltr",
    keep_clear: Sequence[KeepClear] = (),
    coverage_limit: float = 1.0,
    ordered: bool = True,
    figure_aspect: float = 1 / 3,
) -> tuple[Finding, ...]:
    """Every rule that a layout breaks, as findings of severity "error"; none if it is legal.

    Args:
        panel: The panel it was made for.
        layout: The layout; one that is not "placed" claims nothing and breaks nothing.
        gap_mm: Least true distance between outlines.
        margin_mm: Least distance from the panel's border.
        reading: Reading direction.
        keep_clear: Rectangles or convex polygons that nothing may lie on.
        coverage_limit: Most share of the panel covered.
        ordered: Whether the reading order must be certain.
        figure_aspect: Width over height of the figure whose room the layout states.

    Returns:
        Codes: "outside-panel", "too-close", "on-keep-clear", "order-pair", "order-reader",
        "tail-root", "tail-outside", "tail-on-balloon", "tail-on-keep-clear", "tails-cross",
        "tail-on-face", "coverage", "figure-height", "figure-place". A tail fault that the layout
        itself reports is not repeated.

    >>> check_layout(Rect(0, 0, 40, 30), PanelLayout(verdict="placed", figure_height_mm=30.0))
    ()
    """
    if layout.verdict != "placed":
        return ()
    placed = layout.placed
    lost = [item for item in placed if not np.isfinite([item.x_mm, item.y_mm]).all()]
    if lost:
        return tuple(_finding("outside-panel", "It stands nowhere.", _name(i)) for i in lost)
    regions = [region_corners(region) for region in keep_clear]
    faults = [
        *_outside(panel, placed, margin=margin_mm),
        *_too_close(placed, gap_mm=gap_mm),
        *_on_regions(placed, [np.array([[p.x, p.y] for p in r]) for r in regions]),
        *(_out_of_order(placed, reading=reading) if ordered else ()),
        *(_misread(placed, reading=reading) if ordered else ()),
    ]
    found = [_finding(fault.code, fault.message, fault.where) for fault in faults]
    reported = {f.where for f in layout.findings if f.code == "tail-crosses"}
    for code, message, where in (
        *tail_faults(panel, placed, regions=regions),
        *figure_faults(panel, layout, regions=regions, aspect=figure_aspect),
    ):
        if not set(where.split("+")) & reported:
            found.append(_finding(code, message, where))
    for code, message in wrong_claims(
        panel, layout, regions=regions, limit=coverage_limit, aspect=figure_aspect
    ):
        found.append(_finding(code, message, ""))
    return tuple(found)


def _finding(code: str, message: str, where: str) -> Finding:
    return Finding(code=code, severity="error", message=message, where=where)


def _outside(panel: Rect, placed: Sequence[PlacedOutline], *, margin: float) -> list[Fault]:
    faults = []
    for item in placed:
        right, down, left, up = item.outline.support([0, np.pi / 2, np.pi, 3 * np.pi / 2])
        least = min(
            panel.right - item.x_mm - right,
            item.x_mm - left - panel.x,
            panel.bottom - item.y_mm - down,
            item.y_mm - up - panel.y,
        )
        if not least >= margin - TOLERANCE:  # a position that is not a number fails too
            message = f"It stands {least:.3f} mm from the border, not {margin} mm."
            faults.append(Fault("outside-panel", message, _name(item)))
    return faults


def _too_close(placed: Sequence[PlacedOutline], *, gap_mm: float) -> list[Fault]:
    faults = []
    for i, j in combinations(placed, 2):
        apart = gap(i.outline, j.outline, dx=j.x_mm - i.x_mm, dy=j.y_mm - i.y_mm)
        if not apart >= gap_mm - TOLERANCE:
            message = f"They stand {apart:.3f} mm apart, not {gap_mm} mm."
            faults.append(Fault("too-close", message, f"{_name(i)}+{_name(j)}"))
    return faults


def _on_regions(placed: Sequence[PlacedOutline], regions: Sequence[Floats]) -> list[Fault]:
    faults = []
    for item in placed:
        centre = np.array([item.x_mm, item.y_mm])
        for number, corners in enumerate(regions):
            away = ((corners - centre) @ _UNITS).min(axis=0) - item.outline.support(_TURN)
            # Sampled directions see a distance a little too small: by 1e-3 mm at most here.
            if not away.max() >= -1e-3:
                message = f"It lies on keep-clear region {number + 1}."
                faults.append(Fault("on-keep-clear", message, _name(item)))
    return faults


def _out_of_order(placed: Sequence[PlacedOutline], *, reading: Reading) -> list[Fault]:
    """All pairs: the later one wholly below, or to the right and not higher (mirrored for rtl)."""
    faults = []
    sign = 1 if reading == "ltr" else -1
    for i, j in combinations(sorted(placed, key=lambda item: item.index), 2):
        tall_i, tall_j = i.outline.half_height, j.outline.half_height
        wide = i.outline.half_width + j.outline.half_width
        below = j.y_mm - i.y_mm >= tall_i + tall_j - TOLERANCE
        right = sign * (j.x_mm - i.x_mm) >= RIGHT_OF * wide - TOLERANCE
        not_higher = j.y_mm - tall_j >= i.y_mm - tall_i - TOLERANCE
        if not (below or (right and not_higher)):
            message = "The later one is neither below the earlier nor beside it and not higher."
            faults.append(Fault("order-pair", message, f"{_name(i)}+{_name(j)}"))
    return faults


def _misread(placed: Sequence[PlacedOutline], *, reading: Reading) -> list[Fault]:
    """Both readers must return the script's order."""
    items = sorted(placed, key=lambda item: item.index)
    boxes = [_box(item) for item in items]
    faults = []
    readers = (("rows and columns", reading_order), ("highest first", highest_first))
    for name, reader in readers:
        order = reader(boxes, reading=reading)
        if order != tuple(range(len(items))):
            told = ", ".join(_name(items[i]) for i in order)
            message = f"A reader of {name} takes them in the order {told}."
            faults.append(Fault("order-reader", message, ""))
    return faults


def _box(item: PlacedOutline) -> Rect:
    a, b = item.outline.half_width, item.outline.half_height
    # Boxes that touch up to rounding may be cut apart by a reader: shrunk by what rounding costs.
    a, b = a - min(TOLERANCE, a / 2), b - min(TOLERANCE, b / 2)
    return Rect(item.x_mm - a, item.y_mm - b, 2 * a, 2 * b)


def _name(item: PlacedOutline) -> str:
    return str(item.index + 1)
