"""The measures of a planned page: the report's own figures."""

from collections.abc import Sequence

from letterfit.place.model import PlacedOutline, Reading
from letterfit.place.order import highest_first, reading_boxes, reading_order
from letterfit.report.measures import BalloonMeasures, PageMeasures, PanelMeasures, TierMeasures
from letterfit.report.model import PageReport, PanelReport


def measure_plan(
    page: PageReport, *, source: str = "", reading: Reading = "ltr", air_mm: float = 1.2
) -> PageMeasures:
    """The measures of a page of a report.

    Args:
        page: The page.
        source: The script's file.
        reading: How the page reads.
        air_mm: The air that its lettering was asked to keep.

    Returns:
        The report's figures; a panel that is not placed has no figure room and no order.
    """
    panels = tuple(_panel(panel, reading) for panel in page.panels)
    rooms = page.tier_figure_heights_mm if page.panels else ()
    tiers = zip(page.plan.tiers, rooms, strict=False)
    return PageMeasures(
        source=source,
        label=page.label,
        origin="planned",
        trim=page.plan.paper.trim,
        reading=reading,
        air_mm=air_mm,
        tiers=tuple(
            TierMeasures(
                height_mm=max(p.bottom for p in tier.panels) - min(p.y for p in tier.panels),
                panels=len(tier.panels),
                figure_height_mm=room,
            )
            for tier, room in tiers
        ),
        panels=panels,
        findings=page.findings,
    )


def _panel(panel: PanelReport, reading: Reading) -> PanelMeasures:
    placed = panel.verdict == "placed"
    certain = panel.reading_certain
    return PanelMeasures(
        id=panel.id,
        name="",
        rect=panel.rect,
        area_mm2=panel.area_mm2,
        balloons=tuple(
            BalloonMeasures(
                id=balloon.id,
                name="",
                kind=balloon.kind,
                words=balloon.fitted.words,
                clearance_mm=balloon.fitted.clearance_mm,
                told_by="script",
            )
            for balloon in panel.balloons
        ),
        effects=len(panel.effects),
        told_by="script",
        coverage=panel.coverage,
        effects_share=panel.effects_share,
        figure_height_mm=panel.figure_height_mm,
        order="" if not placed else "certain" if certain else "doubtful",
        doubt=_doubt(panel, reading) if placed and not certain else None,
        placed=placed,
    )


def _doubt(panel: PanelReport, reading: Reading) -> tuple[int, int] | None:
    """The first two balloons that some reader takes in another order than the script's."""
    placed = [
        PlacedOutline(
            index=number,
            choice=0,
            outline=balloon.fitted.outline,
            x_mm=balloon.x_mm,
            y_mm=balloon.y_mm,
            joined=balloon.joined,
            overhang_mm=balloon.overhang_mm,
        )
        for number, balloon in enumerate(panel.balloons)
        if balloon.x_mm is not None and balloon.y_mm is not None
    ]
    boxes = reading_boxes(placed, panel=panel.rect)
    script = tuple(range(len(boxes)))
    orders = [reader(boxes, reading=reading) for reader in (reading_order, highest_first)]
    return next((pair for order in orders if (pair := first_difference(script, order))), None)


def first_difference(one: Sequence[int], other: Sequence[int]) -> tuple[int, int] | None:
    """The first two that two orders take differently, counted from 1; None where they agree.

    >>> first_difference((0, 1, 2), (0, 2, 1))
    (2, 3)
    """
    pairs = zip(one, other, strict=True)
    return next(((min(a, b) + 1, max(a, b) + 1) for a, b in pairs if a != b), None)
