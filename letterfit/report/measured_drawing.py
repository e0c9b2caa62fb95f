"""The measures of an existing page, from its polygons.

Cover is exact for polygons; a balloon's tail counts for cover and not for figure room. Balloons are
numbered as the X-Y cut reads them; where a reader who takes the highest first reads otherwise, the
order is doubtful.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from letterfit.errors import PageError
from letterfit.existing.model import (
    DrawnBalloon,
    DrawnLettering,
    DrawnPage,
    DrawnPanel,
    Region,
)
from letterfit.existing.rings import distances, is_convex, is_inside, signed_area
from letterfit.existing.union import covered_area
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.outline import Floats
from letterfit.place.model import Reading
from letterfit.place.order import SHRINK, highest_first, reading_order
from letterfit.report.codes import found
from letterfit.report.measured_plan import first_difference
from letterfit.report.measures import (
    BalloonMeasures,
    LetteringFault,
    PageMeasures,
    PanelMeasures,
    TierMeasures,
)
from letterfit.report.standing_room import standing_room
from letterfit.report.tiers import host_of, tiers_of

OUTSIDE_MM = 0.05
"""Ink that reaches over an outline by less lies within half its line."""

DRAWING_MM = 0.03
"""What drawing may cost of the air: curves that stand for an outline are off it by so much, and
numbers are rounded."""

ROUNDING_MM = 0.01
"""What writing numbers may cost of a height."""

LEAST_AREA_MM2 = 1e-3
"""A panel of which insets leave less has no area of its own."""

SHORT = 40
"""Characters of a text that are enough to find it."""


def measure_drawing(
    page: DrawnPage,
    *,
    reading: Reading = "ltr",
    air_mm: float = 1.2,
    figure_aspect: float = 1 / 3,
    coverage_limit: float = 1 / 3,
) -> PageMeasures:
    """The measures of a page that exists as a drawing.

    Args:
        page: The page.
        reading: How it reads.
        air_mm: The least distance from ink to outline, mm.
        figure_aspect: Width over height of the figure box.
        coverage_limit: Greatest share of a panel under lettering (common practice, advice).

    Raises:
        PageError: When a number is not over 0.
    """
    for what, value in (("an air", air_mm + 1e-12), ("a figure of aspect", figure_aspect)):
        if not (np.isfinite(value) and value > 0):
            raise PageError(f"{what} of {value:g}", advice="give a number over 0")
    outlines = [panel.outline for panel in page.panels]
    boxes = [panel.rect for panel in page.panels]
    rows = tiers_of(boxes, reading=reading)
    hosts = [host_of(number, boxes) for number in range(len(boxes))]
    order = [number for row in rows for number in row]
    panels = tuple(
        _panel(
            page.panels[k],
            number,
            insets=[outlines[j] for j, host in enumerate(hosts) if host == k],
            reading=reading,
            air_mm=air_mm,
            aspect=figure_aspect,
            source=page.source,
        )
        for number, k in enumerate(order, start=1)
    )
    found_here = [f for panel in panels for f in _findings(panel, air_mm, coverage_limit)]
    return PageMeasures(
        source=page.source,
        label="",
        origin="existing",
        trim=page.trim,
        reading=reading,
        air_mm=air_mm,
        tiers=tuple(_tiers(rows, outlines, panels)),
        panels=panels,
        typeface=page.typeface,
        findings=(*found_here, *page.findings),
    )


def _tiers(
    rows: Sequence[Sequence[int]], outlines: Sequence[Floats], panels: Sequence[PanelMeasures]
) -> list[TierMeasures]:
    tiers, at = [], 0
    for row in rows:
        box = Region(tuple(outlines[k] for k in row)).box
        own = panels[at : at + len(row)]
        at += len(row)
        rooms = [panel.figure_height_mm for panel in own]
        tiers.append(
            TierMeasures(height_mm=box.height, panels=len(row), figure_height_mm=min(rooms))
        )
    return tiers


def _panel(  # noqa: PLR0913 - keyword-only
    panel: DrawnPanel,
    number: int,
    *,
    insets: Sequence[Floats],
    reading: Reading,
    air_mm: float,
    aspect: float,
    source: str,
) -> PanelMeasures:
    outline = panel.outline
    area, covered = _open_area(panel, insets, source)
    boxes = [_seen(balloon, panel.rect) for balloon in panel.balloons]
    order = reading_order(boxes, reading=reading)
    balloons = [panel.balloons[k] for k in order]
    doubt = _doubt([boxes[k] for k in order], reading)
    airs = [[_air(block, balloon) for block in balloon.lettering] for balloon in balloons]
    names = [f"{number}.{place}" for place in range(1, len(balloons) + 1)]
    faults = tuple(
        LetteringFault(where=name, text=_shown(block), outside_mm=outside, clearance_mm=near)
        for name, balloon, own in zip(names, balloons, airs, strict=True)
        for block, (outside, near) in zip(balloon.lettering, own, strict=True)
        if outside or near < air_mm - DRAWING_MM
    )
    shown = [part for e in panel.effects if (part := e.box.common(panel.rect)) is not None]
    return PanelMeasures(
        id=str(number),
        name=panel.name,
        rect=panel.rect,
        area_mm2=area,
        balloons=tuple(
            BalloonMeasures(
                id=name,
                name=balloon.name,
                kind=balloon.part,
                words=balloon.words,
                clearance_mm=min((near for _, near in own), default=np.inf),
                told_by=balloon.rule,
            )
            for name, balloon, own in zip(names, balloons, airs, strict=True)
        ),
        effects=len(panel.effects),
        told_by=panel.rule,
        coverage=covered / area if area else 0.0,
        effects_share=sum(part.area_mm2 for part in shown) / area if area else 0.0,
        figure_height_mm=standing_room(
            outline, [*(balloon.body for balloon in balloons), *insets], aspect=aspect
        ),
        order="certain" if doubt is None else "doubtful",
        doubt=doubt,
        placed=all(fault.outside_mm == 0 for fault in faults),
        faults=faults,
        shape=_shape(outline, panel.rect),
    )


def _doubt(boxes: Sequence[Rect], reading: Reading) -> tuple[int, int] | None:
    """The first two of some boxes, in the X-Y cut's order, that another reader takes otherwise.

    None too where the hundredth of a mm that rounding costs makes the readers agree.
    """
    order = range(len(boxes))
    doubt = first_difference(order, highest_first(boxes, reading=reading))
    if doubt is not None:
        for shift in (-ROUNDING_MM, ROUNDING_MM):
            near = list(boxes)
            near[doubt[1] - 1] = near[doubt[1] - 1].moved(0.0, shift)
            readers = (reading_order, highest_first)
            if all(tuple(order) == reader(near, reading=reading) for reader in readers):
                return None
    return doubt


def _open_area(panel: DrawnPanel, insets: Sequence[Floats], source: str) -> tuple[float, float]:
    """The area of a panel that no inset takes, and what of it is covered, mm2."""
    outline = panel.outline
    holes = [Region((inset,)) for inset in insets]
    taken = covered_area(outline, holes, source=source)
    covered = covered_area(outline, [*panel.covers, *holes], source=source) - taken
    area = signed_area(outline) - taken
    return (area, covered) if area > LEAST_AREA_MM2 else (0.0, 0.0)


def _shape(outline: Floats, box: Rect) -> Literal["rectangle", "convex polygon", "polygon"]:
    if abs(signed_area(outline) - box.area_mm2) <= 1e-3 * box.area_mm2:
        return "rectangle"
    return "convex polygon" if is_convex(outline, slack=1e-4) else "polygon"


def _seen(balloon: DrawnBalloon, panel: Rect) -> Rect:
    """The box that a reader sees of a balloon: its body inside the panel, a little smaller."""
    box = Region((balloon.body,)).box
    box = box.common(panel) or box
    return box.inset(min(SHRINK, box.width / 4, box.height / 4))


def _air(block: DrawnLettering, balloon: DrawnBalloon) -> tuple[float, float]:
    """How far ink reaches out of a balloon's body, and how near it comes to it from inside, mm."""
    corners = block.ink.reshape(-1, 2)
    inside = is_inside(corners, [balloon.body])
    off = distances(corners, balloon.body)
    outside = float(off[~inside].max()) if not inside.all() else 0.0
    if outside >= OUTSIDE_MM:
        return outside, 0.0
    near = float(off[inside].min()) if inside.any() else 0.0
    return 0.0, min(near, _nearest(block.ink, balloon.body))


def _shown(block: DrawnLettering) -> str:
    text = block.text or ""
    return text if len(text) <= SHORT else f"{text[: SHORT - 3]}..."


def _nearest(ink: Floats, body: Floats) -> float:
    """The least distance from a corner of the outline to a box of ink, 0 inside one."""
    boxes = np.concatenate([ink.min(axis=1), ink.max(axis=1)], axis=1)
    least = np.inf
    for at in range(0, len(boxes), 512):
        left, top, right, bottom = boxes[at : at + 512].T[:, :, None]
        x, y = body[:, 0], body[:, 1]
        across = np.maximum(np.maximum(left - x, x - right), 0.0)
        down = np.maximum(np.maximum(top - y, y - bottom), 0.0)
        least = min(least, float(np.hypot(across, down).min()))
    return least


def _findings(panel: PanelMeasures, air_mm: float, limit: float) -> list[Finding]:
    """What a panel's measures say against advice, gravest first."""
    told = [
        found(
            "lettering-outside",
            f"Lettering reaches {fault.outside_mm:.1f} mm out of its balloon{_quoted(fault.text)}.",
            advice="Set it smaller, cut words, or draw the balloon larger.",
            where=fault.where,
        )
        for fault in panel.faults
        if fault.outside_mm
    ]
    told += [
        found(
            "lettering-close",
            f"Lettering comes within {fault.clearance_mm:.2f} mm of its outline, less than "
            f"{air_mm:g} mm{_quoted(fault.text)}.",
            advice="Give it more air, if the printer's trapping needs it (advice).",
            where=fault.where,
        )
        for fault in panel.faults
        if not fault.outside_mm
    ]
    if panel.coverage > limit:
        told.append(
            found(
                "coverage",
                f"{panel.coverage:.0%} under lettering, over {limit:.0%} (common practice).",
                advice="Cut words, or give the panel more room.",
                where=panel.id,
            )
        )
    if panel.doubt:
        one, two = panel.doubt
        told.append(
            found(
                "reading-doubt",
                f"Readers may take balloons {one} and {two} in either order.",
                advice="Set the first higher, or further to the side from which the page reads.",
                where=panel.id,
            )
        )
    return told


def _quoted(text: str) -> str:
    return f": {text!r}" if text else ""
