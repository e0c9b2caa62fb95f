"""From a layout of the search to values: in page coordinates, with figures, tails and measures."""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.coverage import covered_area
from letterfit.place.figure import Obstacle, figure_room
from letterfit.place.model import Effort, PanelLayout, PlacedOutline
from letterfit.place.order import reads_in_order
from letterfit.place.problem import Batch, Problem
from letterfit.place.standing import standing_figures
from letterfit.place.tails import with_tails
from letterfit.place.terms import Terms
from letterfit.place.voices import mouths


@dataclass(frozen=True, slots=True)
class Case:
    """One panel: its menus, what must hold, and how hard a layout is looked for."""

    panel: Rect
    menus: Sequence[Sequence[Outline]]
    terms: Terms
    effort: Effort = "thorough"


def silent(case: Case) -> PanelLayout:
    """A panel without balloons: nothing but a figure."""
    panel, terms = case.panel, case.terms
    room = figure_room(panel, terms.regions, aspect=terms.aspect)
    figures = standing_figures(
        panel, (), speakers=(), regions=terms.regions, tallest=room, aspect=terms.aspect
    )
    return PanelLayout(verdict="placed", figure_height_mm=room, figures=figures)


def measured(case: Case, problem: Problem, layout: Batch) -> PanelLayout | None:
    """A layout of the search with its tails and figures; None when it does not do after all.

    What covers more than the limit with its tails does not, nor what a reader would take in another
    order where joints or the milder rule of rows leave that open.

    Args:
        case: The panel.
        problem: The task it was searched in.
        layout: One layout of the panel.
    """
    panel, terms = case.panel, case.terms
    placed = _values(case, problem, layout)
    asked = terms.ordered and (problem.lenient or any(terms.joined))
    if asked and not reads_in_order(placed, reading=terms.reading, panel=panel):
        return None
    obstacles: list[Obstacle] = [*placed, *terms.regions]
    room = figure_room(panel, obstacles, aspect=terms.aspect)
    figures = standing_figures(
        panel,
        placed,
        speakers=terms.speakers,
        regions=terms.regions,
        tallest=room,
        aspect=terms.aspect,
        reading=terms.reading,
    )
    tailed, findings = with_tails(
        panel,
        placed,
        speakers=terms.speakers,
        mouths=mouths(panel, terms.speakers, figures=figures, reading=terms.reading),
        keep_clear=terms.regions,
        figures=figures,
    )
    coverage = covered_area(panel, tailed) / panel.area_mm2
    if coverage > terms.limit:
        return None
    return PanelLayout(
        verdict="placed",
        placed=tailed,
        coverage=coverage,
        figure_height_mm=room,
        figures=figures,
        findings=findings,
    )


def _values(case: Case, problem: Problem, layout: Batch) -> tuple[PlacedOutline, ...]:
    """The outlines in page coordinates, mirrored back where the page reads right to left."""
    panel, terms = case.panel, case.terms
    joined = terms.joined or (False,) * len(case.menus)
    placed = []
    for index, menu in enumerate(case.menus):
        number = int(layout.outline[index, 0])
        choice = int(problem.choices[number])
        x, y = float(layout.x[index, 0]), float(layout.y[index, 0])
        outline = menu[choice]
        over = float(problem.overhang[number])
        hangs = over > 0 and y <= outline.half_height - over
        placed.append(
            PlacedOutline(
                index=index,
                choice=choice,
                outline=outline,
                x_mm=panel.x + (panel.width - x if terms.reading == "rtl" else x),
                y_mm=panel.y + y,
                joined=joined[index],
                overhang_mm=over if hangs else 0.0,
            )
        )
    return tuple(placed)
