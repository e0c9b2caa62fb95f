"""Placing the balloons of panels, many at once, and having each answer gone over by the checker."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from letterfit.findings import Finding
from letterfit.fit.joined import OVERLAP
from letterfit.place.model import Effort, PanelLayout, Speaker
from letterfit.place.order import reads_in_order
from letterfit.place.solver import PanelTask, place_panels
from letterfit.report.case import Case
from letterfit.report.codes import found
from letterfit.report.joints import joints
from letterfit.report.overhangs import overhangs
from letterfit.script.delivery import is_off_panel
from letterfit.script.model import Dialogue

MOST_PRICE = 2.0
"""What the worst looks cost when balloons are placed: no lone word is worth a whole figure."""

BARELY = 1.07
"""A panel that covers up to so many times its limit may keep it in another layout; more is no use
trying."""

Tried = tuple[PanelTask, PanelLayout]
"""What was asked, and the answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """How a panel's balloons were placed.

    Args:
        layout: Where they stand, or why they do not.
        tried: What was asked and answered, one way after the other: each proof, and what is told.
    """

    layout: PanelLayout
    tried: tuple[Tried, ...] = ()

    def faults(self) -> tuple[Finding, ...]:
        """What the independent checker holds against the answers; nothing, one hopes.

        Returns:
            Its findings, of severity "error"; a proof that could not be found again in the time
            given is a note.
        """
        return tuple(fault for task, layout in self.tried for fault in _faults(task, layout))


def place_case(case: Case) -> PanelLayout:
    """Place every balloon of one panel, in the order of the script."""
    return place_cases([case])[0].layout


def place_cases(cases: Sequence[Case], *, effort: Effort = "thorough") -> tuple[Placing, ...]:
    """Place every balloon of many panels, in the order of the script: sooner than one by one.

    Args:
        cases: The panels, those of a page, say.
        effort: How hard layouts are looked for.
    """
    ways = [[replace(task, effort=effort) for task in panel_tasks(case)] for case in cases]
    tried: list[list[Tried]] = [[] for _ in cases]
    for turn in range(max(map(len, ways), default=0)):
        left = [
            k for k, own in enumerate(ways) if turn < len(own) and not any(map(_does, tried[k]))
        ]
        layouts = place_panels([ways[k][turn] for k in left]) if left else ()
        for k, layout in zip(left, layouts, strict=True):
            tried[k].append((ways[k][turn], layout))
    _uncrowd(cases, tried, effort="usual" if effort == "thorough" else "brief")
    return tuple(_placing(case, own) for case, own in zip(cases, tried, strict=True))


def _uncrowd(cases: Sequence[Case], tried: Sequence[list[Tried]], *, effort: Effort) -> None:
    """Place crowded panels again under their limit of coverage, where the least balloons allow it.

    The first layout is what pleases most; it may cover a little more than one that keeps the limit.
    """
    crowded = [k for k, own in enumerate(tried) if own and _is_crowded(cases[k], own[-1])]
    tasks = [
        replace(tried[k][-1][0], coverage_limit=cases[k].most_covered, effort=effort)
        for k in crowded
    ]
    for k, task, layout in zip(crowded, tasks, place_panels(tasks) if tasks else (), strict=True):
        if _does((task, layout)):
            tried[k].append((task, layout))


def _is_crowded(case: Case, one: Tried) -> bool:
    least = sum(menu.smallest.area_mm2 for menu in case.menus) / case.room.area_mm2
    covered, most = one[1].coverage, case.most_covered
    return _does(one) and most < covered <= BARELY * most and least <= most


def panel_tasks(case: Case) -> tuple[PanelTask, ...]:
    """What the placing is asked of a panel: as it is wanted, then what may do in its stead.

    Balloons that cannot be joined are linked; where no layout is found that lets them hang over
    the border, one is looked for inside. None for a text that no balloon takes.
    """
    if case.flood is not None:
        return ()
    setting, plain = case.setting, _inside(case)
    tasks = [plain]
    if setting.butted and case.under_border:
        hang = [overhangs(menu, setting) for menu in case.menus]
        if any(map(any, hang)):
            tasks.insert(0, replace(plain, overhangs=hang))
    joined = joints(case.menus) if setting.same_speaker == "joined" else ()
    if joined:
        overlap = OVERLAP * setting.lettering.air_mm
        tasks = [replace(task, joined=joined, overlap_mm=overlap) for task in tasks] + tasks
    return tuple(tasks)


def _inside(case: Case) -> PanelTask:
    """The balloons each by itself, inside the panel."""
    setting, menus = case.setting, case.menus
    return PanelTask(
        panel=case.room,
        menus=[menu.outlines for menu in menus],
        prices=[[min(shape.looks, MOST_PRICE) for shape in menu.front] for menu in menus],
        gap_mm=setting.gap_mm,
        margin_mm=setting.margin_mm,
        reading=setting.reading,
        keep_clear=case.keep_clear,
        speakers=[speaker_of(menu.element) for menu in menus],
        figure_aspect=setting.limits.figure_aspect,
    )


def _does(one: Tried) -> bool:
    """Whether an answer will do: a layout that readers take in order."""
    task, layout = one
    return layout.verdict == "placed" and reads_in_order(
        layout.placed, reading=task.reading, panel=task.panel
    )


def _placing(case: Case, tried: Sequence[Tried]) -> Placing:
    """What is told of a panel: its layout; or why there is none, impossible if every way is."""
    if not tried:
        assert case.flood is not None  # noqa: S101 - all others have at least one way
        return Placing(layout=_flooded(case.flood.words.count))
    task, layout = told = min(reversed(tried), key=_rank)
    bound = max(one.figure_bound_mm for _, one in tried)
    parted = tried[0][0].joined if layout.verdict == "placed" and not task.joined else ()
    notes = tuple(_not_joined(k) for k, asked in enumerate(parted) if asked)
    layout = replace(layout, figure_bound_mm=bound, findings=(*layout.findings, *notes))
    answers = tuple(one for one in tried if one is told or one[1].verdict == "impossible")
    return Placing(layout=layout, tried=answers)


def _rank(one: Tried) -> tuple[bool, int]:
    """What is told before what: layouts in order, others, no layout found, and proofs last."""
    verdicts = ("placed", "not found", "impossible")
    return not _does(one), verdicts.index(one[1].verdict)


def _not_joined(index: int) -> Finding:
    return found(
        "not-joined",
        "Joined to the balloon before it, it found no place that reads in order: each has an "
        "outline of its own.",
        advice="Give the panel more room, or cut words.",
        where=str(index + 1),
    )


def speaker_of(element: Dialogue) -> Speaker | None:
    """Who speaks, for the tail; None for a caption and where nobody is named."""
    if element.kind == "caption" or element.speaker is None:
        return None
    return Speaker(name=element.speaker, off_panel=is_off_panel(element.modifiers))


def _flooded(words: int) -> PanelLayout:
    reason = f"words: {words} in one balloon, more than the panel holds by itself"
    return PanelLayout(verdict="impossible", reason=reason)


def _faults(task: PanelTask, layout: PanelLayout) -> tuple[Finding, ...]:
    """What the checkers hold against one answer: against its layout, or against its proof."""
    from letterfit.place.check_proofs import check_proof  # noqa: PLC0415 - wanted by few
    from letterfit.place.checker import check_layout  # noqa: PLC0415

    legal = check_layout(
        task.panel,
        layout,
        gap_mm=task.gap_mm,
        margin_mm=task.margin_mm,
        reading=task.reading,
        keep_clear=task.keep_clear,
        figure_aspect=task.figure_aspect,
        overlap_mm=task.overlap_mm,
        joined=task.joined,
        overhangs=task.overhangs,
        menus=task.menus,
    )
    proved = check_proof(
        task.panel,
        task.menus,
        layout,
        gap_mm=task.gap_mm,
        margin_mm=task.margin_mm,
        reading=task.reading,
        joined=task.joined,
        overlap_mm=task.overlap_mm,
        overhangs=task.overhangs,
    )
    return legal + proved
