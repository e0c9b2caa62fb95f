"""What would let every panel of a page hold its figure at the page's steady distance.

A panel whose figure room is under the page's steady height (`PageReport.steady_height_mm`) is
placed again with fewer words, in a taller tier, and in a wider panel, until its figure stands. As
with overflow each figure is the least change *found*: one less did not do.
"""

from collections.abc import Sequence
from functools import partial

from letterfit.geometry import Rect
from letterfit.report.case import Case
from letterfit.report.menus import Menu
from letterfit.report.model import FigureRemedy, PanelReport, steady_height
from letterfit.report.overflow import MOST_BALLOONS, least_height, least_width, words_to_cut
from letterfit.report.trials import Asking, stands, tried

REMEDIES = (words_to_cut, least_height, least_width)

SPARE_MM = 1e-3
"""A figure lower by less than this is as tall as it should be: it is what the report rounds to."""


def unsteady(panels: Sequence[PanelReport], *, share: float) -> dict[int, float]:
    """The placed panels of a page that break its steady distance, each with the height it lacks.

    Args:
        panels: The panels of the page.
        share: `Limits.steady_share`.

    Returns:
        The height that is asked for, by the panel's number; nothing for fewer than two panels.
    """
    wanted = steady_height(panels, share=share)
    return {
        number: wanted
        for number, panel in enumerate(panels)
        if panel.verdict == "placed" and panel.figure_height_mm < wanted - SPARE_MM
    }


def steadied(wanted: Sequence[tuple[Case, float]]) -> tuple[FigureRemedy, ...]:
    """What would let panels hold figures of given heights, all remedies tried side by side.

    Args:
        wanted: Each panel and the height of the figure it should hold, mm.
    """
    helped = [k for k, (case, _) in enumerate(wanted) if len(case.menus) <= MOST_BALLOONS]
    asked = [
        remedy(wanted[k][0], partial(_stands, height_mm=wanted[k][1]))
        for k in helped
        for remedy in REMEDIES
    ]
    found = iter(tried(asked))
    figures = {k: (next(found), next(found), next(found)) for k in helped}
    nothing = (None, None, None)
    return tuple(_told(height, *figures.get(k, nothing)) for k, (_, height) in enumerate(wanted))


def _stands(case: Case, menus: Sequence[Menu], room: Rect, *, height_mm: float) -> Asking[bool]:
    if not all(menu.fits for menu in menus):
        return False
    return (yield from stands(case, menus, room, height_mm=height_mm))


def _told(
    height_mm: float, words: float | None, tier_mm: float | None, panel_mm: float | None
) -> FigureRemedy:
    return FigureRemedy(
        height_mm=height_mm,
        words=None if words is None else int(words),
        tier_mm=tier_mm,
        panel_mm=panel_mm,
    )
