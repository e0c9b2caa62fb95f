"""Polish: layouts only become better, stay legal, and jumps find what steps cannot."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.beam import search
from letterfit.place.cost import full_cost
from letterfit.place.jumps import jumps, steps
from letterfit.place.model import Speaker
from letterfit.place.polish import polish
from letterfit.place.problem import Batch, Problem
from letterfit.place.settle import decode
from tests.place.posed import posed
from tests.place.shapes import ellipses, outlines

PANEL, OTHER = Rect(0, 0, 120, 70), Rect(0, 0, 90, 60)
WIDTH = np.full(8, 4)
WENNA = Speaker(name="WENNA")

menus_drawn = st.lists(st.lists(outlines, min_size=1, max_size=4), min_size=2, max_size=4)


def found(problem: Problem, finalists: int = 3) -> tuple[Batch, Floats]:
    """What a narrow search finds."""
    panels = np.arange(len(problem.size))
    return search(problem, panels, width=WIDTH, finalists=finalists)


@given(menus_drawn, menus_drawn)
@settings(max_examples=15, deadline=None)
def test_no_layout_costs_more_for_being_polished(
    one: list[list[Outline]], two: list[list[Outline]]
) -> None:
    """And what it is said to cost is what it costs; every one of them is legal."""
    problem = posed((PANEL, one), (OTHER, two))
    batch, cost = found(problem)
    better, price = polish(problem, batch, cost)
    assert (price <= cost).all()
    np.testing.assert_array_equal(better.panel, batch.panel)
    np.testing.assert_allclose(full_cost(problem, better), price, atol=1 / 400)
    _, legal = decode(problem, better.panel, x=better.x, outline=better.outline)
    assert legal.all()


@given(menus_drawn)
@settings(max_examples=15, deadline=None)
def test_moves_stay_inside_the_panel_and_the_menus(menus: list[list[Outline]]) -> None:
    """No shift, swap or jump leaves the margin or takes another balloon's outline."""
    problem = posed((PANEL, menus))
    batch, _ = found(problem, 1)
    if not len(batch):
        return
    for moves in (steps(problem, batch), jumps(problem, batch)):
        half = problem.half_width[moves.outline]
        assert (moves.x - half >= 1.5 - 1e-9).all()
        assert (moves.x + half <= PANEL.width - 1.5 + 1e-9).all()
        for index, own in enumerate(moves.outline):
            assert set(own.tolist()) <= set(problem.menus[0, index].tolist())


def test_jumps_leave_a_place_that_steps_do_not() -> None:
    """A layout that begins with both balloons piled at the right comes to its row."""
    problem = posed((PANEL, [ellipses(500), ellipses(400)]), speakers=[WENNA, WENNA])
    outline = problem.menus[0, :, :1].copy()
    right = (PANEL.width - 1.5 - problem.half_width[outline[:, 0]])[:, None]
    start, legal = decode(problem, np.array([0]), x=right, outline=outline)
    assert legal.all()
    cost = full_cost(problem, start)
    _, stepped = polish(problem, start, cost, leap=False)
    _, jumped = polish(problem, start, cost)
    assert jumped[0] <= stepped[0] <= cost[0]
    _, best = found(problem)
    assert jumped[0] <= best.min() + 0.05
