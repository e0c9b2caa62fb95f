"""One panel: its balloons set, placed and counted; by how much they do not go in."""

from collections.abc import Sequence
from dataclasses import replace

from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.place import PanelLayout, highest_first, reading_order
from letterfit.place.model import PlacedOutline, Reading
from letterfit.report.codes import gravest_first
from letterfit.report.cuts import panel_cuts
from letterfit.report.effects import report_effect
from letterfit.report.menus import Menu, Spot, elements, layout_faults, menus_of, place_menus
from letterfit.report.model import BalloonReport, EffectReport, PanelReport
from letterfit.report.overflow import Case, panel_overflow
from letterfit.report.panel_findings import panel_findings
from letterfit.report.setting import Setting
from letterfit.script.model import ScriptPanel


def report_panel(  # noqa: PLR0913 - keyword-only
    panel: ScriptPanel,
    rect: Rect,
    *,
    id: str,  # noqa: A002 - the word of the report's format
    setting: Setting,
    live: Rect | None = None,
    keep_clear: Sequence[Rect] = (),
    menus: Sequence[Menu] | None = None,
) -> tuple[PanelReport, tuple[Finding, ...]]:
    """Letter one panel and say what was found.

    Args:
        panel: The panel of the script.
        rect: Where it stands on the page, mm.
        id: "page.panel".
        setting: How the script is lettered and what it is held against.
        live: The page's live area: lettering stays inside it even if the panel bleeds. None when
            the panel lies inside.
        keep_clear: What balloons may not cover: the fold of a spread.
        menus: Its balloons fitted, if that is done: `menus_of(panel_spots(...))`.

    Returns:
        The report, and its findings, gravest first. A silent panel is placed, covers nothing and
        has room for a figure of its full height.
    """
    room = room_of(rect, live)
    every = menus
    if every is None:
        every = menus_of(panel_spots(panel, rect, id=id, live=live), setting)
    menus = tuple(menu for menu in every if menu.front)
    effects, of_effects = _effects(panel, id=id, setting=setting)
    clear = tuple(part for keep in keep_clear if (part := keep.common(room)))
    layout = place_menus(menus, room, setting=setting, keep_clear=clear)
    page = live or rect
    case = Case(
        menus=menus,
        room=room,
        largest=(page.width, page.height),
        setting=setting,
        keep_clear=clear,
    )
    report = _report(panel, rect, id=id, layout=layout, case=case, effects=effects)
    report = replace(report, cuts=panel_cuts(report, case))
    found = panel_findings(report, layout, menus=every, setting=setting)
    faults = layout_faults(layout, room, setting=setting, keep_clear=clear)
    placed_here = tuple(replace(fault, where=id, line=panel.line) for fault in faults)
    return report, gravest_first((*found, *of_effects, *placed_here))


def panel_spots(
    panel: ScriptPanel,
    rect: Rect,
    *,
    id: str,  # noqa: A002
    live: Rect | None = None,
) -> list[Spot]:
    """The elements of a panel that take a balloon, and where these may stand.

    Args: as `report_panel`.
    """
    room = room_of(rect, live)
    return [
        Spot(element, room, f"{id}.{number}")
        for number, element in enumerate(elements(panel, placed=True), start=1)
    ]


def reads_in_order(placed: Sequence[PlacedOutline], *, reading: Reading) -> bool:
    """Whether two readers, written apart, both take the balloons in the order of the script.

    >>> from dataclasses import replace
    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=5, half_height=2)
    >>> first = PlacedOutline(index=0, choice=0, outline=box, x_mm=10, y_mm=5)
    >>> reads_in_order((first, replace(first, index=1, y_mm=12)), reading="ltr")
    True
    >>> reads_in_order((first, replace(first, index=1, y_mm=0)), reading="ltr")
    False
    """
    boxes = [_box(spot) for spot in sorted(placed, key=lambda spot: spot.index)]
    script_order = tuple(range(len(boxes)))
    readers = (reading_order, highest_first)
    return all(tuple(reader(boxes, reading=reading)) == script_order for reader in readers)


def _box(spot: PlacedOutline) -> Rect:
    # Boxes that touch up to rounding may be cut apart by a reader: shrunk by what rounding costs.
    a, b = spot.outline.half_width - 1e-6, spot.outline.half_height - 1e-6
    return Rect(spot.x_mm - a, spot.y_mm - b, 2 * a, 2 * b)


def room_of(rect: Rect, live: Rect | None) -> Rect:
    """Where a panel's lettering may stand: what of the panel lies in the live area.

    Raises:
        PageError: When nothing does.

    >>> room_of(Rect(0, 0, 10, 10), Rect(5, 2, 10, 4))
    Rect(x=5, y=2, width=5, height=4)
    """
    room = rect if live is None else rect.common(live)
    if room is None:
        raise PageError(
            "a panel lies outside the live area of its page", advice="give a plan inside it"
        )
    return room


def _report(  # noqa: PLR0913 - keyword-only
    panel: ScriptPanel,
    rect: Rect,
    *,
    id: str,  # noqa: A002
    layout: PanelLayout,
    case: Case,
    effects: tuple[EffectReport, ...],
) -> PanelReport:
    placed = layout.verdict == "placed"
    taken = sum(menu.smallest.area_mm2 for menu in case.menus)
    covered = layout.coverage * case.room.area_mm2 if placed else taken
    return PanelReport(
        id=id,
        line=panel.line,
        rect=rect,
        words=sum(menu.words.count for menu in case.menus),
        verdict=layout.verdict,
        reason=layout.reason,
        coverage=covered / rect.area_mm2,
        effects_share=sum(effect.area_mm2 for effect in effects) / rect.area_mm2,
        figure_height_mm=layout.figure_height_mm if placed else 0.0,
        reading_certain=placed and reads_in_order(layout.placed, reading=case.setting.reading),
        balloons=_balloons(case, layout),
        effects=effects,
        overflow=None if placed else panel_overflow(case),
        figures=layout.figures,
    )


def _balloons(case: Case, layout: PanelLayout) -> tuple[BalloonReport, ...]:
    spots = {spot.index: spot for spot in layout.placed}
    return tuple(
        _balloon(menu, spots.get(index), case.setting) for index, menu in enumerate(case.menus)
    )


def _balloon(menu: Menu, spot: PlacedOutline | None, setting: Setting) -> BalloonReport:
    element = menu.element
    return BalloonReport(
        id=menu.id,
        line=element.line,
        kind=element.kind,
        speaker=element.speaker,
        modifiers=element.modifiers,
        fitted=menu.fitted(menu.smallest if spot is None else menu.front[spot.choice], setting),
        x_mm=None if spot is None else spot.x_mm,
        y_mm=None if spot is None else spot.y_mm,
        tail=None if spot is None else spot.tail,
    )


def _effects(
    panel: ScriptPanel,
    *,
    id: str,  # noqa: A002
    setting: Setting,
) -> tuple[tuple[EffectReport, ...], tuple[Finding, ...]]:
    """The effects that leave ink, and what was found of all of them."""
    measured = [
        report_effect(element, id=f"{id}.e{number}", setting=setting)
        for number, element in enumerate(elements(panel, placed=False), start=1)
    ]
    findings = tuple(finding for _, own in measured for finding in own)
    return tuple(effect for effect, _ in measured if effect is not None), findings
