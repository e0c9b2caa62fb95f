"""Placing many panels at once: from their balloons' menus to layouts, or to why there is none.

The way in five steps: refuse what is no task, look for a proof that it cannot be done, search,
polish, then stand the figures, draw the tails, and measure. Search and polish take all panels of
like terms together: beginning an operation on a small array costs more than the operation. What
comes out for a panel does not depend on those beside it.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

import numpy as np

from letterfit.outline import Floats
from letterfit.place.afterthought import sunk
from letterfit.place.beam import search, squeezed
from letterfit.place.bounds import figure_bounds
from letterfit.place.cost import CROSSING, full_cost
from letterfit.place.exhaust import exhausted
from letterfit.place.kernel import Ints
from letterfit.place.lanes import FIGURES
from letterfit.place.measured import Case, measured, silent
from letterfit.place.model import PanelLayout, Proof
from letterfit.place.orders import any_order
from letterfit.place.polish import polish
from letterfit.place.pose import Task, pose
from letterfit.place.press import pressed
from letterfit.place.problem import Batch, Problem
from letterfit.place.proofs import proof
from letterfit.place.quick import LARGE, MOST_BALLOONS, alike, any_layouts, attempts
from letterfit.place.relax import relaxed
from letterfit.place.settle import decode
from letterfit.runs import starts

WIDTHS = (0, 0, 12, 12, 8)
"""States of a lane kept after each balloon by the first search, by the number of balloons; panels
of more balloons keep as many as those of four."""

WIDER = 4
"""How many times more the second search keeps."""

FINALISTS = 3
"""Layouts of a panel that are polished."""

TAIL_PRICES = {"tail-crosses": CROSSING, "tail-doubt": CROSSING / 3}
"""What a drawn tail costs that crosses something, or whose way to the mouth something blocks."""

NARROW = 2
"""States of a lane kept where there are more than LARGE balloons."""

DEEP = 384
"""States kept by the last beam of a panel in which nothing was found and nothing is proved."""

SHALLOW = 24
"""The same where there are more than LARGE balloons."""

ONE = np.zeros(1, dtype=np.intp)
"""The first panel of a task, and no other."""


def place_cases(cases: Sequence[Case]) -> tuple[PanelLayout, ...]:
    """The layout of each panel, or why there is none: what `place_panels` promises."""
    layouts: dict[int, PanelLayout] = {}
    chosen: list[int] = []
    for index, case in enumerate(cases):
        if not case.menus:
            layouts[index] = silent(case)
            continue
        reason = proof(case.panel, case.menus, terms=case.terms)
        if reason:
            layouts[index] = _impossible(*reason)
            continue
        if len(case.menus) > MOST_BALLOONS:
            layouts[index] = _too_many(len(case.menus))
            continue
        chosen.append(index)
    for group in alike(cases, chosen):
        layouts.update(zip(group, _solved([cases[index] for index in group]), strict=True))
    return _bounded(cases, [layouts[index] for index in range(len(cases))])


def _bounded(cases: Sequence[Case], layouts: Sequence[PanelLayout]) -> tuple[PanelLayout, ...]:
    """The layouts with what their figures can be at most: 0 where nothing goes in at all."""
    bounds = figure_bounds(
        [case.panel for case in cases],
        [case.menus for case in cases],
        terms=[case.terms for case in cases],
    )
    return tuple(
        layout
        if layout.verdict == "impossible"
        else replace(layout, figure_bound_mm=max(bound, layout.figure_height_mm))
        for layout, bound in zip(layouts, bounds, strict=True)
    )


def _impossible(proved: Proof, words: str) -> PanelLayout:
    return PanelLayout(verdict="impossible", reason=words, proof=proved, figure_bound_mm=0.0)


def _too_many(size: int) -> PanelLayout:
    reason = f"{size} balloons in one panel: no layout is looked for of more than {MOST_BALLOONS}"
    return PanelLayout(verdict="not found", reason=reason)


def _solved(cases: Sequence[Case]) -> list[PanelLayout]:
    """The best layout found of each panel, or the proof that there is none, or what was tried."""
    tries = [
        list(attempts(case.panel, case.menus, terms=case.terms, brief=case.effort == "brief"))
        for case in cases
    ]
    layouts: dict[int, PanelLayout] = {}
    for turn in range(max(map(len, tries))):
        left = [i for i, own in enumerate(tries) if len(own) > turn and i not in layouts]
        if left:
            problem = pose([tries[i][turn] for i in left])
            found = _searched(problem, [cases[i] for i in left])
            layouts.update({left[p]: layout for p, layout in found.items()})
    return [layouts.get(i) or _refused(case) for i, case in enumerate(cases)]


def _refused(case: Case) -> PanelLayout:
    """What is said of a panel for which no beam found a layout.

    The proof comes first, as it takes less time than the last searches.
    """
    if case.effort == "thorough" and (layout := _at_last(case)):
        return layout
    size = len(case.menus)
    states = len(FIGURES) * int(_widths(size)[-1][size])
    return PanelLayout(
        verdict="not found",
        reason=f"beam search with {states} states after each of {size} balloons found no legal "
        "layout, and no proof says there is none",
    )


def _at_last(case: Case) -> PanelLayout | None:
    """The proof that there is nothing to find, or what the last searches find."""
    reason = exhausted(case.panel, case.menus, terms=case.terms)
    if reason:
        return _impossible(*reason)
    for task in attempts(case.panel, case.menus, terms=case.terms):
        for problem, batch in _deeply(task, pose([task])):
            layout = _best_of(problem, case, batch)
            if layout is not None:
                return layout
    return None


def _deeply(task: Task, problem: Problem) -> Iterator[tuple[Problem, Batch]]:
    """What the last searches find, one after the other, each with the rule of rows it keeps."""
    ordered = task.terms.ordered
    if problem.most > LARGE:
        yield problem, squeezed(problem, ONE, width=SHALLOW)
    elif not ordered and not any(task.terms.joined):
        yield problem, any_order(task, problem, width=DEEP)
        yield problem, relaxed(problem, 0)
    else:
        mild = replace(problem, lenient=ordered)
        yield problem, squeezed(problem, ONE, width=DEEP, fine=True)
        if ordered:
            yield mild, any_layouts(mild, ONE)
        yield problem, pressed(problem, 0)
        if ordered:
            yield mild, squeezed(mild, ONE, width=DEEP, fine=True)
            yield mild, pressed(mild, 0)
        yield mild, squeezed(mild, ONE, width=3 * DEEP)


def _best_of(problem: Problem, case: Case, batch: Batch) -> PanelLayout | None:
    """The best of some layouts of one panel, polished."""
    if not len(batch):
        return None
    cost = full_cost(problem, batch)
    first = np.argsort(cost, kind="stable")[:FINALISTS]
    batch, cost = batch.take(first), cost[first]
    if problem.most <= LARGE:
        batch, cost = polish(problem, batch, cost)
    batch, cost = sunk(problem, *_finely(problem, batch, cost))
    for row in np.argsort(cost, kind="stable"):
        layout = measured(case, problem, batch.take(row[None]))
        if layout is not None:
            return layout
    return None


def _widths(most: int) -> list[Ints]:
    """The widths of the searches, by the number of balloons up to the most there are."""
    if most > LARGE:
        return [np.full(most + 1, NARROW)]
    width = np.array([WIDTHS[min(size, len(WIDTHS) - 1)] for size in range(most + 1)])
    return [width, WIDER * width]


def _searched(problem: Problem, cases: Sequence[Case]) -> dict[int, PanelLayout]:
    """The best layout of each panel whose drawn tails run clear; else the best, each fault priced.

    Panels of which a search finds no layout that will do are searched again, and wider.
    """
    best: dict[int, tuple[float, PanelLayout]] = {}
    for batch, cost in _searches(problem, best, brief=cases[0].effort == "brief"):
        if problem.most <= LARGE:
            batch, cost = polish(problem, batch, cost)  # noqa: PLW2901 - the same
        batch, cost = sunk(problem, *_finely(problem, batch, cost))  # noqa: PLW2901 - the same
        for panel, own in _panel_by_panel(batch, cost):
            for row in own:
                layout = measured(cases[panel], problem, batch.take(row[None]))
                if layout is None:
                    continue
                price = float(cost[row]) + _price(layout)
                if panel not in best or price < best[panel][0]:
                    best[panel] = price, layout
                if not layout.findings:
                    break
    return {panel: layout for panel, (_, layout) in best.items()}


def _price(layout: PanelLayout) -> float:
    """What the faults of the drawn tails cost."""
    return sum(TAIL_PRICES[finding.code] for finding in layout.findings)


def _searches(
    problem: Problem, done: Collection[int], *, brief: bool
) -> Iterator[tuple[Batch, Floats]]:
    """What each search finds for the panels that are not done yet, and the costs."""
    widths = _widths(problem.most)
    for width in widths[:1] if brief else widths:
        panels = _left(problem, done)
        if len(panels):
            yield search(problem, panels, width=width, finalists=FINALISTS)
    if brief:
        return
    # What can_place says must hold here too: this is its search.
    panels = _left(problem, done)
    if len(panels):
        batch = any_layouts(problem, panels)
        cost = full_cost(problem, batch)
        first = np.concatenate(
            [own[:FINALISTS] for _, own in _panel_by_panel(batch, cost)] or [panels[:0]]
        )
        yield batch.take(first), cost[first]


def _left(problem: Problem, done: Collection[int]) -> Ints:
    return np.array([p for p in range(len(problem.size)) if p not in done], dtype=np.intp)


def _panel_by_panel(batch: Batch, cost: Floats) -> Iterator[tuple[int, Ints]]:
    """Each panel that has layouts, and their rows, the best first."""
    order = np.lexsort((np.arange(len(cost)), cost, batch.panel))
    for rows in np.split(order, starts(batch.panel[order])[1:]):
        if len(rows):
            yield int(batch.panel[rows[0]]), rows


def _finely(problem: Problem, batch: Batch, cost: Floats) -> tuple[Batch, Floats]:
    """The same layouts, balloons as high as all tangents allow, joined ones touching.

    Layouts whose joined balloons cannot touch exactly are left out.
    """
    exact, legal = decode(problem, batch.panel, x=batch.x, outline=batch.outline, fine=True)
    y = np.where(legal, exact.y, batch.y)
    joined = np.asarray(problem.voices.joined.any(axis=0))
    kept = np.flatnonzero(legal | ~joined[batch.panel])
    return Batch(batch.panel, batch.x, y, batch.outline).take(kept), cost[kept]
