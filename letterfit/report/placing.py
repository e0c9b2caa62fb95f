"""Placing the balloons of panels, many at once, and having each answer gone over by the checker."""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.findings import Finding
from letterfit.place import PanelLayout, PanelTask, Speaker, check_layout, place_panels
from letterfit.report.case import Case
from letterfit.script.delivery import is_off_panel
from letterfit.script.model import Dialogue

MOST_PRICE = 2.0
"""What the worst looks cost when balloons are placed: no lone word is worth a whole figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """How a panel's balloons were placed.

    Args:
        layout: Where they stand, or why they do not.
        tried: What was asked, and each answer.
    """

    layout: PanelLayout
    tried: tuple[tuple[PanelTask, PanelLayout], ...] = ()

    def faults(self) -> tuple[Finding, ...]:
        """What the independent checker holds against the answers; nothing, one hopes.

        Returns:
            Its findings, of severity "error".
        """
        return tuple(fault for task, layout in self.tried for fault in _faults(task, layout))


def place_case(case: Case) -> PanelLayout:
    """Place every balloon of one panel, in the order of the script."""
    return place_cases([case])[0].layout


def place_cases(cases: Sequence[Case]) -> tuple[Placing, ...]:
    """Place every balloon of many panels, in the order of the script: sooner than one by one.

    Args:
        cases: The panels, those of a page, say.
    """
    placed: dict[int, Placing] = {}
    tasks: dict[int, PanelTask] = {}
    for index, case in enumerate(cases):
        if case.flood is not None:
            placed[index] = Placing(layout=_flooded(case.flood.words.count))
        else:
            tasks[index] = panel_task(case)
    layouts = place_panels(list(tasks.values()))
    for (index, task), layout in zip(tasks.items(), layouts, strict=True):
        placed[index] = Placing(layout=layout, tried=((task, layout),))
    return tuple(placed[index] for index in range(len(cases)))


def panel_task(case: Case) -> PanelTask:
    """What the placing is asked of a panel."""
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


def speaker_of(element: Dialogue) -> Speaker | None:
    """Who speaks, for the tail; None for a caption and where nobody is named."""
    if element.kind == "caption" or element.speaker is None:
        return None
    return Speaker(name=element.speaker, off_panel=is_off_panel(element.modifiers))


def _flooded(words: int) -> PanelLayout:
    reason = f"words: {words} in one balloon, more than the panel holds by itself"
    return PanelLayout(verdict="impossible", reason=reason)


def _faults(task: PanelTask, layout: PanelLayout) -> tuple[Finding, ...]:
    return check_layout(
        task.panel,
        layout,
        gap_mm=task.gap_mm,
        margin_mm=task.margin_mm,
        reading=task.reading,
        keep_clear=task.keep_clear,
        figure_aspect=task.figure_aspect,
    )
