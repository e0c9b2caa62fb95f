"""One panel: its balloons set, placed and counted; by how much they do not go in."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Rect
from letterfit.place.model import PanelLayout, PlacedOutline
from letterfit.place.order import reads_in_order
from letterfit.report.case import Case
from letterfit.report.codes import gravest_first
from letterfit.report.effects import report_effect
from letterfit.report.menus import PLACED_KINDS, Menu, Spot, elements, menus_fitted, menus_of
from letterfit.report.model import BalloonReport, EffectReport, PanelOverflow, PanelReport
from letterfit.report.overflow import panel_overflows
from letterfit.report.panel_findings import panel_findings
from letterfit.report.placing import Placing, place_cases
from letterfit.report.setting import Setting
from letterfit.script.model import Dialogue, ScriptPanel


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelJob:
    """What one panel's report needs.

    Args:
        panel: The panel of the script.
        rect: Where it stands on the page, mm.
        id: "page.panel".
        live: The page's live area: lettering stays inside it even if the panel bleeds. None when
            the panel lies inside.
        keep_clear: What balloons may not cover: the fold of a spread.
        insets: Panels set into this one; balloons keep a margin from them too.
        bleed: The panel as drawn, where it bleeds.
    """

    panel: ScriptPanel
    rect: Rect
    id: str
    live: Rect | None = None
    keep_clear: tuple[Rect, ...] = ()
    insets: tuple[Rect, ...] = ()
    bleed: Rect | None = None

    @property
    def room(self) -> Rect:
        """Where the panel's lettering may stand: what of the panel lies in the live area.

        Raises:
            PageError: When nothing does.

        >>> panel = ScriptPanel(number=1, line=1)
        >>> PanelJob(panel=panel, rect=Rect(0, 0, 10, 10), id="1.1", live=Rect(5, 2, 10, 4)).room
        Rect(x=5, y=2, width=5, height=4)
        """
        room = self.rect if self.live is None else self.rect.common(self.live)
        if room is None:
            raise PageError(
                "a panel lies outside the live area of its page", advice="give a plan inside it"
            )
        return room

    @property
    def open_area_mm2(self) -> float:
        """The area of the panel that no inset takes: insets lie inside it and apart."""
        return self.rect.area_mm2 - sum(inset.area_mm2 for inset in self.insets)

    def spots(self) -> list[Spot]:
        """The elements of the panel that take a balloon, and where these may stand."""
        spots: list[Spot] = []
        before: Dialogue | None = None
        for element in self.panel.elements:
            if element.kind in PLACED_KINDS:
                follows = before is not None and before.kind in PLACED_KINDS
                spots.append(Spot(element, self.room, f"{self.id}.{len(spots) + 1}", follows))
            before = element
        return spots

    def case(self, menus: Sequence[Menu], setting: Setting) -> Case:
        """Its balloons as they are to be placed: those of its menus that have words."""
        room, page = self.room, self.live or self.rect
        return Case(
            menus=tuple(menu for menu in menus if menu.front),
            room=room,
            largest=(page.width, page.height),
            setting=setting,
            keep_clear=self._kept_clear(room, setting),
            under_border=room.y == self.rect.y,
            most_covered=setting.limits.coverage * self.open_area_mm2 / room.area_mm2,
        )

    def _kept_clear(self, room: Rect, setting: Setting) -> tuple[Rect, ...]:
        insets = (inset.inset(-setting.margin_mm) for inset in self.insets)
        kept = (keep.common(room) for keep in (*self.keep_clear, *insets))
        return tuple(part for part in kept if part is not None)


def report_panels(
    jobs: Sequence[PanelJob], setting: Setting
) -> tuple[tuple[PanelReport, tuple[Finding, ...]], ...]:
    """Letter panels, all together, and say what was found of each.

    Args:
        jobs: The panels, those of a page, say: many are lettered sooner than one by one.
        setting: How the script is lettered and what it is held against.

    Returns:
        Each panel's report, and its findings, gravest first. A silent panel is placed, covers
        nothing and has room for a figure of its full height.
    """
    menus = panel_menus(jobs, setting)
    cases = [job.case(own, setting) for job, own in zip(jobs, menus, strict=True)]
    placings = place_cases(cases)
    over = [k for k, placing in enumerate(placings) if placing.layout.verdict != "placed"]
    overflows = dict(zip(over, panel_overflows([cases[k] for k in over]), strict=True))
    layouts = [placing.layout for placing in placings]
    balloons = _balloons(cases, layouts, setting)
    return tuple(
        _reported(job, menus[k], cases[k], placings[k], (balloons[k], overflows.get(k)))
        for k, job in enumerate(jobs)
    )


def panel_cases(jobs: Sequence[PanelJob], setting: Setting) -> tuple[Case, ...]:
    """The balloons of panels as they are to be placed, all fitted together."""
    return tuple(
        job.case(own, setting) for job, own in zip(jobs, panel_menus(jobs, setting), strict=True)
    )


def panel_menus(jobs: Sequence[PanelJob], setting: Setting) -> list[tuple[Menu, ...]]:
    """All balloons of each panel, those without words included."""
    spots = [job.spots() for job in jobs]
    fitted = iter(menus_of([spot for own in spots for spot in own], setting))
    return [tuple(islice(fitted, len(own))) for own in spots]


def _reported(
    job: PanelJob,
    menus: Sequence[Menu],
    case: Case,
    placing: Placing,
    found: tuple[tuple[BalloonReport, ...], PanelOverflow | None],
) -> tuple[PanelReport, tuple[Finding, ...]]:
    """The report of one panel and its findings, gravest first.

    Args:
        job: The panel.
        menus: All its balloons, those without words included.
        case: Those that are placed.
        placing: How.
        found: Where each stands, and by how much they do not go in; None when they do.
    """
    setting, (balloons, overflow) = case.setting, found
    effects, of_effects = _effects(job, setting)
    report = replace(
        _report(job, case, placing.layout, balloons=balloons),
        effects=effects,
        effects_share=sum(effect.area_mm2 for effect in effects) / job.open_area_mm2,
        overflow=overflow,
    )
    if setting.cuts:
        report = _with_cuts(report, case)
    told = panel_findings(report, placing.layout, menus=menus, setting=setting)
    faults = placing.faults() if setting.check else ()
    placed_here = tuple(replace(fault, where=job.id, line=job.panel.line) for fault in faults)
    return report, gravest_first((*told, *of_effects, *placed_here))


def _with_cuts(report: PanelReport, case: Case) -> PanelReport:
    from letterfit.report.cuts import panel_cuts  # noqa: PLC0415 - a tenth of all imports

    return replace(report, cuts=panel_cuts(report, case))


def _report(
    job: PanelJob, case: Case, layout: PanelLayout, *, balloons: tuple[BalloonReport, ...]
) -> PanelReport:
    rect = job.rect
    placed = layout.verdict == "placed"
    taken = sum(menu.smallest.area_mm2 for menu in case.menus)
    covered = layout.coverage * case.room.area_mm2 if placed else taken
    return PanelReport(
        id=job.id,
        line=job.panel.line,
        rect=rect,
        words=sum(menu.words.count for menu in case.menus),
        verdict=layout.verdict,
        reason=layout.reason,
        coverage=covered / job.open_area_mm2,
        effects_share=0.0,
        figure_height_mm=layout.figure_height_mm if placed else 0.0,
        reading_certain=placed
        and reads_in_order(layout.placed, reading=case.setting.reading, panel=case.room),
        balloons=balloons,
        figures=layout.figures,
        figure_bound_mm=layout.figure_bound_mm,
        proof=layout.proof,
        bleed=job.bleed,
        insets=job.insets,
    )


def _balloons(
    cases: Sequence[Case], layouts: Sequence[PanelLayout], setting: Setting
) -> list[tuple[BalloonReport, ...]]:
    """The balloons of panels where they stand, all set together."""
    spots = [{spot.index: spot for spot in layout.placed} for layout in layouts]
    places = [
        (menu, own.get(index))
        for case, own in zip(cases, spots, strict=True)
        for index, menu in enumerate(case.menus)
    ]
    shapes = [menu.smallest if spot is None else menu.front[spot.choice] for menu, spot in places]
    fitted = menus_fitted([menu for menu, _ in places], shapes, setting)
    reports = iter([_balloon(*place, own) for place, own in zip(places, fitted, strict=True)])
    return [tuple(islice(reports, len(case.menus))) for case in cases]


def _balloon(menu: Menu, spot: PlacedOutline | None, fitted: FittedBalloon) -> BalloonReport:
    element = menu.element
    return BalloonReport(
        id=menu.id,
        line=element.line,
        kind=element.kind,
        speaker=element.speaker,
        modifiers=element.modifiers,
        fitted=fitted,
        x_mm=None if spot is None else spot.x_mm,
        y_mm=None if spot is None else spot.y_mm,
        tail=None if spot is None else spot.tail,
        joined=spot is not None and spot.joined,
        overhang_mm=0.0 if spot is None else spot.overhang_mm,
    )


def _effects(
    job: PanelJob, setting: Setting
) -> tuple[tuple[EffectReport, ...], tuple[Finding, ...]]:
    """The effects that leave ink, and what was found of all of them."""
    measured = [
        report_effect(element, id=f"{job.id}.e{number}", setting=setting)
        for number, element in enumerate(elements(job.panel, placed=False), start=1)
    ]
    findings = tuple(finding for _, own in measured for finding in own)
    return tuple(effect for effect, _ in measured if effect is not None), findings
