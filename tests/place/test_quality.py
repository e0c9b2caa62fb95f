"""Quality of placing: beside a slow reference of its own objective and rules, and to shapely.

Reference: tests/place/reference, whose layouts are stored in tests/data/place_reference.json.
"""

import math
from dataclasses import replace
from functools import cache
from itertools import combinations
from statistics import mean

import numpy as np
import pytest
from scipy.optimize import Bounds, differential_evolution
from shapely import box

from letterfit.outline import Floats
from letterfit.place.checker import check_layout
from letterfit.place.cost import full_cost
from letterfit.place.model import PanelLayout, PlacedOutline
from letterfit.place.pose import Task as Posed
from letterfit.place.pose import pose
from letterfit.place.problem import Batch
from letterfit.place.solver import PanelTask, place_outlines
from tests.benchmarks.panels import Task, heavy_panels, usual_panels
from tests.place.reference import stored
from tests.place.reference.board import Board
from tests.place.reference.objective import layout_cost
from tests.place.reference.rules import broken_rules, distance
from tests.place.reference.search import any_layout, best_layout
from tests.place.shapes import outline_polygon

FEW = 4
"""Balloons up to which the reference is as good as exact."""

MOST_MEAN, MOST_95TH = 0.005, 0.03
"""How much dearer than the reference layouts of FEW balloons may be: of the panel's area covered,
or of its height of figure room."""

GRAIN = 1 / 500
"""How finely the library tells figure heights when it ranks, as a share of the panel's height."""

USUAL = range(len(usual_panels()))


@cache
def library(number: int) -> PanelLayout:
    """The library's layout of a usual panel."""
    task = usual_panels()[number]
    return place_outlines(task.panel, task.menus, speakers=task.speakers)


def cost_of(task: Task, placed: tuple[PlacedOutline, ...]) -> float:
    """What a layout costs to the reference."""
    return layout_cost(task.panel, placed, speakers=task.speakers)


# --- the objective


def library_cost(
    task: Task, placed: tuple[PlacedOutline, ...], *, prices: list[list[float]] | None = None
) -> float:
    """What a layout costs to the library: the one place that knows its inner parts."""
    posed = PanelTask(panel=task.panel, menus=task.menus, speakers=task.speakers, prices=prices)
    problem = pose(
        [
            Posed(
                panel=task.panel,
                menus=task.menus,
                terms=posed.terms(),
                region_gap=1.5,
                limit=math.inf,
            )
        ]
    )
    numbers = [
        next(o for o in map(int, menu) if o >= 0 and problem.choices[o] == item.choice)
        for menu, item in zip(problem.menus[0], placed, strict=True)
    ]
    batch = Batch(
        np.zeros(1, dtype=np.intp),
        np.array([[item.x_mm] for item in placed]),
        np.array([[item.y_mm] for item in placed]),
        np.array([[number] for number in numbers]),
    )
    return float(full_cost(problem, batch)[0])


def scattered(task: Task, lot: np.random.Generator) -> tuple[PlacedOutline, ...]:
    """Any outlines anywhere inside the panel, legal or not."""
    items = []
    for index, menu in enumerate(task.menus):
        fitting = [
            choice
            for choice, outline in enumerate(menu)
            if 2 * outline.half_width < task.panel.width - 3
            and 2 * outline.half_height < task.panel.height - 3
        ]
        choice = int(lot.choice(fitting))
        a, b = menu[choice].half_width, menu[choice].half_height
        items.append(
            PlacedOutline(
                index=index,
                choice=choice,
                outline=menu[choice],
                x_mm=float(lot.uniform(1.5 + a, task.panel.width - 1.5 - a)),
                y_mm=float(lot.uniform(1.5 + b, task.panel.height - 1.5 - b)),
            )
        )
    return tuple(items)


@pytest.mark.parametrize("number", [n for n in USUAL if n % 4 == 3])
def test_objective_written_anew_agrees_with_the_library(number: int) -> None:
    """Whatever the layout, its two costs differ by no more than the grain of figure heights."""
    task = usual_panels()[number]
    lot = np.random.default_rng(number)
    for _ in range(4):
        placed = scattered(task, lot)
        prices = [[float(p) for p in lot.uniform(0, 2, len(menu))] for menu in task.menus]
        plain = layout_cost(task.panel, placed, speakers=task.speakers, prices=prices)
        theirs = library_cost(task, placed, prices=prices)
        # The library tells heights from below, in steps of GRAIN, by a table of chords.
        assert -1e-3 <= theirs - plain <= GRAIN + 1e-3


def test_objective_sees_each_of_its_terms() -> None:
    """A balloon lower, off its speaker's side, of worse looks, or crossed by a tail costs more."""
    number = next(n for n in USUAL if len(stored.usual()[n].placed) == 2)
    reference = stored.usual()[number]
    task, placed = reference.task, reference.placed
    plain = cost_of(task, placed)
    lower = (placed[0], replace(placed[1], y_mm=placed[1].y_mm + 4))
    assert cost_of(task, lower) > plain + 1e-3
    prices = [[0.5] * len(menu) for menu in task.menus]
    priced = layout_cost(task.panel, placed, speakers=task.speakers, prices=prices)
    assert priced == pytest.approx(plain + 2 * 0.05)
    on_top = (placed[0], replace(placed[1], x_mm=placed[0].x_mm, y_mm=placed[0].y_mm))
    assert cost_of(task, on_top) > plain + 0.12


# --- the reference itself


@pytest.mark.parametrize("number", USUAL)
def test_reference_layouts_are_legal_and_cost_what_is_stored(number: int) -> None:
    """To the plain rules and to the library's checker."""
    reference = stored.usual()[number]
    assert broken_rules(reference.task.panel, reference.placed) == []
    assert faults(reference) == []
    if reference.placed:
        assert cost_of(reference.task, reference.placed) == pytest.approx(reference.cost, abs=1e-6)


def faults(reference: stored.Reference) -> list[str]:
    """What the library's checker says of the outlines and their order."""
    layout = PanelLayout(verdict="placed", placed=reference.placed)
    claims = ("coverage", "figure-height")  # a bare layout claims no figures
    found = check_layout(reference.task.panel, layout)
    return [f.code for f in found if f.code not in claims]


def test_plain_rules_name_what_breaks_them() -> None:
    """A balloon over the border, on another, before the earlier, or left in the same row."""
    reference = next(r for r in stored.usual() if len(r.placed) == 3)
    panel, (one, two, three) = reference.task.panel, reference.placed
    assert "from the border" in broken_rules(panel, (replace(one, y_mm=0.0), two, three))[0]
    near = replace(two, x_mm=one.x_mm + 1, y_mm=one.y_mm + 1)
    assert any("apart" in fault for fault in broken_rules(panel, (one, near, three)))
    early = replace(two, y_mm=one.y_mm), replace(one, index=1, y_mm=two.y_mm)
    assert any("in order" in f for f in broken_rules(panel, (*early, three)))


def test_distance_is_that_of_shapely() -> None:
    """Between the outlines of layouts, as far as polygons of 8,000 corners tell."""
    for reference in stored.usual()[55:80:20]:
        for i, j in combinations(reference.placed, 2):
            plain = distance(i.outline, j.outline, dx=j.x_mm - i.x_mm, dy=j.y_mm - i.y_mm)
            apart = outline_polygon(i, 8000).distance(outline_polygon(j, 8000))
            assert -1e-5 <= plain - apart <= 1e-6


@pytest.mark.parametrize("number", [3, 19, 29, 37, 44, 58])
def test_reference_is_found_again(number: int) -> None:
    """The command that made the stored layouts makes them again."""
    reference = stored.usual()[number]
    found = best_layout(Board(reference.task))
    placed = Board(reference.task).placed(found.layout)
    assert cost_of(reference.task, placed) == pytest.approx(reference.cost, abs=1e-4)


@pytest.mark.parametrize("number", [30, 57, 131])
def test_heavy_panels_are_filled_again(number: int) -> None:
    """Where a layout is stored one is found, where none is, none."""
    found = any_layout(Board(heavy_panels()[number]))
    assert bool(len(found)) == bool(stored.heavy()[number].placed)


@pytest.mark.parametrize("number", [27, 41, 44])
def test_optimiser_that_searches_heights_too_finds_nothing_better(number: int) -> None:
    """Differential evolution (scipy) over x and y of the reference's outlines only comes near.

    It knows nothing of pushing up, of contacts or of order: what is illegal costs what it breaks.
    """
    reference = stored.usual()[number]
    task, placed = reference.task, reference.placed

    def price(numbers: Floats) -> float:
        moved = tuple(
            replace(item, x_mm=float(x), y_mm=float(y))
            for item, x, y in zip(placed, numbers[::2], numbers[1::2], strict=True)
        )
        broken = broken_rules(task.panel, moved)
        return 5.0 + len(broken) if broken else cost_of(task, moved)

    half = np.array([[item.outline.half_width, item.outline.half_height] for item in placed])
    low = (half + 1.5).ravel()
    high = (np.array([task.panel.width, task.panel.height]) - half - 1.5).ravel()
    found = differential_evolution(
        price, Bounds(low, high), rng=number, popsize=12, maxiter=60, tol=0, polish=False
    )
    assert reference.cost - 1e-3 <= found.fun <= reference.cost + 0.01


# --- the library beside the reference


@pytest.mark.parametrize("number", USUAL)
def test_every_panel_the_reference_fills_is_filled(number: int) -> None:
    """What can be placed is placed, and it is legal to the plain rules."""
    task = usual_panels()[number]
    layout = library(number)
    if stored.usual()[number].placed:
        assert layout.verdict == "placed"
    assert broken_rules(task.panel, layout.placed) == []


def gaps(least: int, most: int) -> list[float]:
    """How much dearer the library's layouts of that many balloons are than the reference's."""
    return [
        cost_of(reference.task, library(number).placed) - reference.cost
        for number, reference in enumerate(stored.usual())
        if least <= reference.task.size <= most and reference.placed and library(number).placed
    ]


def test_layouts_of_few_balloons_come_near_the_reference() -> None:
    """Up to four balloons: on average half a hundredth dearer, 95 of 100 less than three."""
    few = gaps(1, FEW)
    assert len(few) >= 90
    assert mean(few) <= MOST_MEAN
    assert np.percentile(few, 95) <= MOST_95TH


def test_nothing_beats_a_complete_search() -> None:
    """It is complete on its grid of places; what lies between them is worth under a hundredth."""
    for number, reference in enumerate(stored.usual()):
        if reference.complete and library(number).placed:
            assert cost_of(reference.task, library(number).placed) >= reference.cost - 1e-2


@pytest.mark.parametrize("number", range(len(heavy_panels())))
def test_proofs_are_never_contradicted(number: int) -> None:
    """No heavy panel that the reference fills is called impossible."""
    reference = stored.heavy()[number]
    task = reference.task
    assert broken_rules(task.panel, reference.placed) == []
    if reference.placed:
        layout = place_outlines(task.panel, task.menus, speakers=task.speakers)
        assert layout.verdict != "impossible"


@pytest.mark.parametrize("number", USUAL)
def test_layouts_are_what_they_claim_to_shapely(number: int) -> None:
    """Fine polygons stay inside the margins, keep the gap, and cover what the layout says."""
    task, layout = usual_panels()[number], library(number)
    shapes = [outline_polygon(item, 2000) for item in layout.placed]
    frame = box(1.5, 1.5, task.panel.width - 1.5, task.panel.height - 1.5).buffer(1e-6)
    assert all(frame.covers(shape) for shape in shapes)
    assert not any(one.dwithin(two, 1.5 - 1e-6) for one, two in combinations(shapes, 2))
    if layout.placed:
        alone = sum(shape.area for shape in shapes) / task.panel.area_mm2
        assert alone == pytest.approx(task.cover, abs=1e-4)
        assert layout.coverage >= alone - 1e-4
