"""Panels posed for the search, as the tests of its parts take them."""

from collections.abc import Sequence

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.model import Speaker
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Problem
from letterfit.place.terms import make_terms


def posed(
    *panels: tuple[Rect, Sequence[Sequence[Outline]]],
    speakers: Sequence[Speaker | None] | None = None,
    ordered: bool = True,
) -> Problem:
    """The problem of some panels, all with the same speakers if any."""
    tasks = []
    for panel, menus in panels:
        terms = make_terms(
            panel,
            menus,
            gap_mm=1.5,
            margin_mm=1.5,
            reading="ltr",
            keep_clear=(),
            speakers=speakers,
            ordered=ordered,
        )
        tasks.append(
            Task(panel=panel, menus=menus, terms=terms, region_gap=1.5, limit=panel.area_mm2)
        )
    return pose(tasks)
