"""A page whose grid may change: what stands in each place, and whether all is well there.

All is well in a place where every panel of it is placed, its lettering covers no more than the
limit, and its figure is tall enough. A larger place does where a smaller one did, and a smaller one
does not where a larger one did not: what was tried answers much of what is asked next. Placing is
a search, so that is not quite true; the page that is advised is run as a whole again.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.paper.laying import lay_cell, lay_panel, mirrored
from letterfit.paper.shapes import Cell, TierShape
from letterfit.place import PanelLayout
from letterfit.report.case import Case
from letterfit.report.menus import Menu, in_rooms
from letterfit.report.model import PageReport
from letterfit.report.page import PageJob, panel_jobs
from letterfit.report.panel import PanelJob, panel_menus
from letterfit.report.placing import place_cases
from letterfit.report.setting import Setting

MARGIN_MM = 0.002
"""Figures are asked to be so much taller than promised: rounding of a plan costs none."""

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
        good: Sizes at which all is well.
        bad: Sizes at which it is not.
        tried: What was found at the very sizes tried.
    """

    cell: Cell
    box: Rect
    tier: int
    jobs: tuple[PanelJob, ...]
    menus: tuple[tuple[Menu, ...], ...]
    good: list[Size] = field(default_factory=list)
    bad: list[Size] = field(default_factory=list)
    tried: dict[Size, bool] = field(default_factory=dict)

    def known(self, size: Size) -> bool | None:
        """Whether all is well at a size, as far as smaller and larger ones tell."""
        width, height = size
        if any(width >= w and height >= h for w, h in self.good):
            return True
        if any(width <= w and height <= h for w, h in self.bad):
            return False
        return None

    def learn(self, size: Size, *, well: bool) -> None:
        """Keep what was found at a size."""
        (self.good if well else self.bad).append(size)

    def need(self, width: float) -> float:
        """The least height known to do at a width; infinite where none is."""
        return min((h for w, h in self.good if w <= width), default=float("inf"))


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

    def ask(self, asked: Iterable[tuple[Spot, Size]]) -> None:
        """Find out at which of these sizes all is well, all together, where that is not known."""
        new = [(spot, size) for spot, size in asked if spot.known(size) is None]
        for (spot, size), well in zip(new, self._found(new), strict=True):
            spot.learn(size, well=well)

    def hold(self, grids: Sequence[Sequence[tuple[Spot, Size]]]) -> list[bool]:
        """Whether all is well in all places of each grid, tried at those very sizes."""
        every = [(spot, size) for grid in grids for spot, size in grid]
        new = [(spot, size) for spot, size in every if size not in spot.tried]
        for (spot, size), well in zip(new, self._found(new), strict=True):
            spot.tried[size] = well
        return [all(spot.tried[size] for spot, size in grid) for grid in grids]

    def _found(self, new: Sequence[tuple[Spot, Size]]) -> list[bool]:
        """Whether all is well in places at sizes, all placed together."""
        jobs = [self._resized(spot, size) for spot, size in new]
        cases = self._cases(
            [
                (job, menus)
                for (spot, _), own in zip(new, jobs, strict=True)
                if own is not None
                for job, menus in zip(own, spot.menus, strict=True)
            ]
        )
        layouts = (placing.layout for placing in place_cases(cases)) if cases else iter(())
        found = []
        for own in jobs:
            told = list(islice(layouts, len(own or ())))
            pairs = zip(own or (), told, strict=True)
            found.append(own is not None and all(self._does(job, one) for job, one in pairs))
        return found

    def _does(self, job: PanelJob, layout: PanelLayout) -> bool:
        """Whether a panel's layout is as it should be."""
        return (
            layout.verdict == "placed"
            and layout.figure_height_mm >= self.figure_mm + MARGIN_MM
            and layout.coverage * job.room.area_mm2
            <= self.setting.limits.coverage * job.open_area_mm2
        )

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
