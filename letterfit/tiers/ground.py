"""A page whose grid may change: what stands in each place, and whether all is well there.

All is well in a place where every panel of it is placed, its lettering covers no more than the
limit, and its figure is tall enough.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Self

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.paper.laying import lay_cell, lay_panel, mirrored
from letterfit.paper.shapes import Cell, TierShape
from letterfit.place.model import PanelLayout
from letterfit.report.case import Case
from letterfit.report.menus import Menu, in_rooms
from letterfit.report.model import PageReport
from letterfit.report.page import PageJob, panel_jobs
from letterfit.report.panel import PanelJob, panel_menus
from letterfit.report.placing import place_cases
from letterfit.report.setting import Setting

MARGIN_MM = 0.002
"""Figures are asked to be so much taller than promised: rounding of a plan costs none."""

NO_FIGURE = -1.0
"""What a panel holds that is not as it should be, mm."""

Size = tuple[float, float]
"""Width and height, mm."""


@dataclass(slots=True, eq=False)
class Spot:
    """One place of the grid, and what is known of it.

    Args:
        cell: What stands there.
        box: Where, mm, before anything is changed.
        tier: Its tier's number, from 0.
        jobs: Its panels.
        menus: The balloons of each.
        tried: Whether all is well, at the sizes tried.
        figures: The figure that all its panels hold, mm, at sizes at which they were placed; below
            nought where one is not placed or is crowded. So much is known for every figure asked.
    """

    cell: Cell
    box: Rect
    tier: int
    jobs: tuple[PanelJob, ...]
    menus: tuple[tuple[Menu, ...], ...]
    tried: dict[Size, bool] = field(default_factory=dict)
    figures: dict[Size, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Ground:
    """A page's places, and what their panels are held against.

    Args:
        spots: The places, tier by tier, each tier's in reading order.
        setting: How the page is lettered.
        figure_mm: The height of the figure that every panel is to hold.
        page: The page's report.
    """

    spots: tuple[tuple[Spot, ...], ...]
    setting: Setting
    figure_mm: float
    page: PageReport

    def tell(self, asked: Sequence[tuple[Spot, Size]]) -> list[bool]:
        """Whether all is well in places at sizes, what is not known yet tried all together."""
        new = list(dict.fromkeys(one for one in asked if one[1] not in one[0].tried))
        for (spot, size), well in zip(new, self._found(new), strict=True):
            spot.tried[size] = well
        return [spot.tried[size] for spot, size in asked]

    def hold(self, grids: Sequence[Sequence[tuple[Spot, Size]]]) -> list[bool]:
        """Whether all is well in all places of each grid."""
        told = iter(self.tell([one for grid in grids for one in grid]))
        return [all(list(islice(told, len(grid)))) for grid in grids]

    def layouts(
        self, asked: Sequence[tuple[Spot, Size]]
    ) -> list[list[tuple[PanelJob, PanelLayout]] | None]:
        """The panels of places at sizes with their layouts; None where one would be a sliver."""
        jobs = [self._resized(spot, size) for spot, size in asked]
        cases = self._cases(
            [
                (job, menus)
                for (spot, _), own in zip(asked, jobs, strict=True)
                if own is not None
                for job, menus in zip(own, spot.menus, strict=True)
            ]
        )
        placings = place_cases(cases, effort="usual") if cases else ()
        told = (placing.layout for placing in placings)
        return [None if own is None else [(job, next(told)) for job in own] for own in jobs]

    def of_height(self, figure_mm: float) -> Self:
        """The same places, of which a figure of another height is asked: layouts stay known."""
        spots = tuple(tuple(replace(spot, tried={}) for spot in row) for row in self.spots)
        return replace(self, spots=spots, figure_mm=figure_mm)

    def _found(self, new: Sequence[tuple[Spot, Size]]) -> list[bool]:
        """Whether all is well in places at sizes, what was not placed yet placed together."""
        unknown = [(spot, size) for spot, size in new if size not in spot.figures]
        for (spot, size), own in zip(unknown, self.layouts(unknown), strict=True):
            spot.figures[size] = (
                NO_FIGURE if own is None else min(self._figure(job, layout) for job, layout in own)
            )
        return [spot.figures[size] >= self.figure_mm + MARGIN_MM for spot, size in new]

    def _figure(self, job: PanelJob, layout: PanelLayout) -> float:
        """The figure that a panel holds, if it is placed and not crowded."""
        does = (
            layout.verdict == "placed"
            and layout.coverage * job.room.area_mm2
            <= self.setting.limits.coverage * job.open_area_mm2
        )
        return layout.figure_height_mm if does else NO_FIGURE

    def _cases(self, panels: Sequence[tuple[PanelJob, tuple[Menu, ...]]]) -> list[Case]:
        """Panels with their balloons in the shapes that their sizes want."""
        rooms = [job.room for job, menus in panels for _ in menus]
        fitted = iter(in_rooms([m for _, menus in panels for m in menus], rooms, self.setting))
        return [job.case(tuple(islice(fitted, len(menus))), self.setting) for job, menus in panels]

    def _resized(self, spot: Spot, size: Size) -> list[PanelJob] | None:
        """The panels of a place at another size; None where one would be a sliver."""
        plan = self.page.plan
        box = _within(plan.paper.live, Rect(spot.box.x, spot.box.y, *size))
        jobs: list[PanelJob] = []
        try:
            for rect, panel in lay_cell(spot.cell, box, gutter_mm=plan.paper.gutter_mm):
                seen = mirrored(rect, box) if self.setting.reading == "rtl" else rect
                own, told = lay_panel(seen, panel, plan.paper, first=0, tier=spot.tier + 1)
                drawn = told[0].bleed if told else None
                for number, one in enumerate(own):
                    job = spot.jobs[len(jobs)]
                    insets = tuple(own[1:]) if number == 0 else ()
                    bleed = drawn if number == 0 else None
                    jobs.append(replace(job, rect=one, insets=insets, bleed=bleed))
        except PageError:
            return None
        return jobs


def ground_of(page: PageReport, *, figure_mm: float) -> Ground:
    """The places of a reported page.

    Args:
        page: The page, as `preflight` reports it.
        figure_mm: The height of the figure that every panel is to hold.

    Raises:
        PageError: When the report does not say how the page was lettered, or has no panels.
    """
    shape, setting, typed = page.plan.shape, page.setting, page.typed
    if shape is None or setting is None or typed is None:
        raise PageError(
            f"page {page.label} has no panels to share out"
            if shape is None
            else f"the report of page {page.label} does not say how it was lettered",
            advice="give a page of a report that preflight made",
        )
    jobs = panel_jobs(PageJob(label=page.label, page=typed, plan=page.plan))
    menus = panel_menus(_roomy(jobs, page), setting)
    each = iter(zip(jobs, menus, strict=True))
    spots = []
    for number, (tier, own) in enumerate(zip(page.plan.tiers, shape.tiers, strict=True)):
        row = []
        for box, cell in zip(_boxes(own, tier.box, page, setting), own.places, strict=True):
            pairs = list(islice(each, _count(cell[1])))
            row.append(
                Spot(
                    cell=cell[1],
                    box=box,
                    tier=number,
                    jobs=tuple(job for job, _ in pairs),
                    menus=tuple(menu for _, menu in pairs),
                )
            )
        spots.append(tuple(row))
    return Ground(tuple(spots), setting, figure_mm, page)


def _within(live: Rect, box: Rect) -> Rect:
    """A place that has grown past the live area, moved back into it as far as that goes."""
    left = max(live.x, min(box.x, live.right - box.width))
    top = max(live.y, min(box.y, live.bottom - box.height))
    return Rect(left, top, box.width, box.height)


def _count(cell: Cell) -> int:
    return TierShape((1.0,), cells=(cell,)).panel_count


def _boxes(
    shape: TierShape, box: Rect | None, page: PageReport, setting: Setting
) -> Sequence[Rect]:
    """The place of each cell of a tier."""
    assert box is not None  # noqa: S101 - laid tiers have one
    plain = TierShape(shape.widths)
    gutter = page.plan.paper.gutter_mm
    room = box.width - gutter * (len(plain.widths) - 1)
    boxes, left = [], box.x
    for width in plain.widths:
        own = room * width / sum(plain.widths)
        rect = Rect(left, box.y, own, box.height)
        boxes.append(mirrored(rect, box) if setting.reading == "rtl" else rect)
        left += own + gutter
    return boxes


def _roomy(jobs: Sequence[PanelJob], page: PageReport) -> list[PanelJob]:
    """The panels as large as the page: their balloons take every shape that any size allows."""
    live = page.plan.paper.live
    return [replace(job, rect=live, insets=(), bleed=None) for job in jobs]
