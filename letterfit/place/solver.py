"""Placing: from a panel and its balloons' menus to a layout, or to why there is none.

The way in five steps: refuse what is no task, look for a proof that it cannot be done, search,
polish, then stand the figures, draw the tails, and measure.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.beam import search
from letterfit.place.cells import exhausted
from letterfit.place.cost import CROSSING, full_cost
from letterfit.place.coverage import covered_area
from letterfit.place.figure import Obstacle, figure_room
from letterfit.place.model import PanelLayout, PlacedOutline, Reading, Speaker
from letterfit.place.polish import polish
from letterfit.place.problem import Problem
from letterfit.place.proofs import proof
from letterfit.place.quick import any_layouts, attempts
from letterfit.place.settle import Batch
from letterfit.place.standing import standing_figures
from letterfit.place.tails import with_tails
from letterfit.place.terms import KeepClear, Terms, make_terms
from letterfit.place.voices import mouths

WIDTH = 48
"""States kept after each balloon."""

WIDE = 192
"""States kept, and all directions looked at, when the first search found nothing."""

FINALISTS = 3
"""Layouts that are polished."""

FEWER = 2
"""Layouts that are polished where there are MANY balloons."""

MANY = 5

CHANCES = 2
"""Searches that may be made after all when the tails of the first layouts do not run clear."""

LARGE = 12
"""Balloons from which on a panel gets a narrow search, so that any number ends soon."""

NARROW = 16
"""States kept for that many."""


def place_outlines(  # noqa: PLR0913 - a question of this many parts, all with defaults
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    gap_mm: float = 1.5,
    margin_mm: float = 1.5,
    reading: Reading = "ltr",
    keep_clear: Sequence[KeepClear] = (),
    speakers: Sequence[Speaker | None] | None = None,
    prices: Sequence[Sequence[float]] | None = None,
    coverage_limit: float = 1.0,
    ordered: bool = True,
    figure_aspect: float = 1 / 3,
) -> PanelLayout:
    """Give every balloon of a panel an outline and a place, or say why it cannot be done.

    Args:
        panel: The panel, page coordinates in mm.
        menus: One sequence of outlines per balloon, in script order, wide to narrow.
        gap_mm: Least true distance between outlines.
        margin_mm: Least distance from the panel's border.
        reading: Whether the page reads left to right ("ltr") or right to left ("rtl").
        keep_clear: Rectangles or convex polygons that nothing may lie on.
        speakers: One per balloon, None for captions; None when nobody is known.
        prices: What the looks of each outline of each menu cost, 0 or more: 1 is worth a tenth of
            the panel's height of figure room; None when there is nothing to object.
        coverage_limit: Most share of the panel, 0 to 1, that balloons and tails may cover.
        ordered: Whether the reading order must be certain.
        figure_aspect: Width over height of the figure that should stand clear.

    Returns:
        A layout of verdict "placed" that passes `check_layout`; "impossible" with its proof; or
        "not found" with what was tried.

    Raises:
        PageError: When a number is out of its range, a menu is empty, or speakers or prices are
            not as many as balloons or outlines.

    >>> from letterfit.outline import Ellipse
    >>> layout = place_outlines(Rect(0, 0, 60, 40), [[Ellipse(half_width=14, half_height=8)]])
    >>> layout.verdict, layout.placed[0].y_mm
    ('placed', 9.5)
    """
    terms = make_terms(
        panel,
        menus,
        gap_mm=gap_mm,
        margin_mm=margin_mm,
        reading=reading,
        keep_clear=keep_clear,
        speakers=speakers,
        coverage_limit=coverage_limit,
        ordered=ordered,
        figure_aspect=figure_aspect,
        prices=prices,
    )
    return _searched(panel, menus, terms=terms) if menus else _silent(panel, terms=terms)


def _silent(panel: Rect, *, terms: Terms) -> PanelLayout:
    """A panel without balloons: nothing but a figure."""
    room = figure_room(panel, terms.regions, aspect=terms.aspect)
    figures = standing_figures(
        panel, (), speakers=(), regions=terms.regions, tallest=room, aspect=terms.aspect
    )
    return PanelLayout(verdict="placed", figure_height_mm=room, figures=figures)


def _searched(panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms) -> PanelLayout:
    """The best layout found, measured; or why there is none; or what was tried."""
    reason = proof(panel, menus, terms=terms)
    if reason:
        return PanelLayout(verdict="impossible", reason=reason)
    for problem in attempts(panel, menus, terms=terms):
        layout = _clearest(panel, menus, problem=problem, terms=terms)
        if layout is not None:
            return layout
    reason = exhausted(panel, menus, terms=terms)
    if reason:
        return PanelLayout(verdict="impossible", reason=reason)
    width = _widths(len(menus))[-1]
    return PanelLayout(
        verdict="not found",
        reason=f"beam search with {width} states after each of {len(menus)} balloons found no "
        "legal layout, and no proof says there is none",
    )


def _clearest(
    panel: Rect, menus: Sequence[Sequence[Outline]], *, problem: Problem, terms: Terms
) -> PanelLayout | None:
    """The best layout whose drawn tails run clear; else the best, each that does not priced."""
    found: list[tuple[float, PanelLayout]] = []
    for cost, layout in _solved(problem):
        placed = _values(panel, menus, problem=problem, layout=layout, terms=terms)
        measured = _measured(panel, placed, terms=terms)
        if measured is not None:
            found.append((cost + CROSSING * len(measured.findings), measured))
            if not measured.findings:
                break
    return min(found, key=lambda pair: pair[0])[1] if found else None


def _widths(size: int) -> tuple[int, ...]:
    return (NARROW,) if size > LARGE else (WIDTH, 2 * WIDTH, WIDE)


def _solved(problem: Problem) -> Iterator[tuple[float, Batch]]:
    """The costs of the legal layouts found, and the layouts: those of each search best first.

    Whoever is content with none of the first search that found any is given those of one more.
    """
    successes = 0
    for batch, cost in _found(problem):
        if not len(batch):
            continue
        if problem.size <= LARGE:
            batch, cost = polish(problem, batch, cost)  # noqa: PLW2901 - the same, polished
        for row in np.argsort(cost, kind="stable"):
            yield float(cost[row]), batch.take(row[None])
        successes += 1
        if successes == CHANCES:
            return


def _found(problem: Problem) -> Iterator[tuple[Batch, Floats]]:
    """What each search finds, and the costs: the quickest first."""
    finalists = min(FINALISTS if problem.size < MANY else FEWER, problem.size)
    for width in _widths(problem.size):
        yield search(problem, width=width, finalists=finalists, coarse=width < WIDE)
    # What can_place says must hold here too: this is its search.
    batch = any_layouts(problem)
    cost = full_cost(problem, batch) if len(batch) else np.zeros(0)
    best = np.argsort(cost, kind="stable")[:finalists]
    yield batch.take(best), cost[best]


def _values(
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    problem: Problem,
    layout: Batch,
    terms: Terms,
) -> tuple[PlacedOutline, ...]:
    """A layout of the search as values in page coordinates, mirrored back."""
    placed = []
    for index, (x, y, number) in enumerate(
        zip(layout.x[0], layout.y[0], layout.outline[0], strict=True)
    ):
        choice = int(problem.choices[number])
        across = panel.width - float(x) if terms.reading == "rtl" else float(x)
        placed.append(
            PlacedOutline(
                index=index,
                choice=choice,
                outline=menus[index][choice],
                x_mm=panel.x + across,
                y_mm=panel.y + float(y),
            )
        )
    return tuple(placed)


def _measured(
    panel: Rect, placed: tuple[PlacedOutline, ...], *, terms: Terms
) -> PanelLayout | None:
    """The layout with its tails and figures; None when it covers more than the limit."""
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
