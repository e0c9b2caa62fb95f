"""What layouts cost: the same told at once, balloon by balloon, or only for the best of some."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.cost import (
    CROSSING,
    REACH,
    added_tail_cost,
    best_of_each,
    full_cost,
    own_costs,
    tail_cost,
)
from letterfit.place.model import PlacedOutline, Speaker
from letterfit.place.problem import Batch, Problem
from tests.place.posed import posed
from tests.place.shapes import ellipses, outline_polygon

PANEL = Rect(0, 0, 120, 70)
WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
MENUS: list[list[Outline]] = [list(ellipses(500)), list(ellipses(400)), list(ellipses(300))]


def three() -> Problem:
    """Three balloons of two speakers."""
    return posed((PANEL, MENUS), speakers=[WENNA, PILOT, WENNA])


def scattered(problem: Problem, count: int, *, seed: int) -> Batch:
    """Layouts by lot, legal or not."""
    lot = np.random.default_rng(seed)
    menus = problem.menus[0]
    which = lot.integers(0, menus.shape[1], (len(menus), count))
    outline = np.take_along_axis(menus, which, axis=1)
    x, y = lot.uniform(10, 110, outline.shape), lot.uniform(10, 60, outline.shape)
    return Batch(np.zeros(count, dtype=np.intp), x, y, outline)


@given(st.integers(0, 1000))
@settings(max_examples=25, deadline=None)
def test_tails_cost_the_same_one_by_one_and_together(seed: int) -> None:
    """What each balloon adds to those before it sums up to the price of all tails."""
    problem = three()
    batch = scattered(problem, 40, seed=seed)
    steps = [
        added_tail_cost(problem, Batch(batch.panel, batch.x[:k], batch.y[:k], batch.outline[:k]))
        for k in (1, 2, 3)
    ]
    np.testing.assert_allclose(sum(steps), tail_cost(problem, batch), atol=1e-12)


@given(st.integers(0, 1000))
@settings(max_examples=10, deadline=None)
def test_crossings_are_those_that_shapely_counts(seed: int) -> None:
    """A tail through another balloon, and two tails that cross, each count once."""
    problem = three()
    batch = scattered(problem, 6, seed=seed)
    price = tail_cost(problem, batch)
    for row in range(len(batch)):
        bodies, tails = [], []
        for k in range(3):
            x, y = float(batch.x[k, row]), float(batch.y[k, row])
            shape = problem.outlines[batch.outline[k, row]]
            item = PlacedOutline(index=k, choice=0, outline=shape, x_mm=x, y_mm=y)
            bodies.append(outline_polygon(item, 1000))
            dx = float(problem.voices.lean[k, 0]) - x
            dy = float(problem.voices.mouth_y[k, 0]) - y
            tails.append(LineString([(x, y), (x + REACH * dx, y + REACH * dy)]))
        run = sum(tails[i].intersects(bodies[j]) for i in range(3) for j in range(3) if i != j)
        run += sum(tails[i].crosses(tails[j]) for i in range(3) for j in range(i))
        assert price[row] == pytest.approx(CROSSING * run)


@given(st.integers(0, 1000))
@settings(max_examples=25, deadline=None)
def test_best_of_each_is_the_cheapest_of_all(seed: int) -> None:
    """Told by intervals of room, it is within what these leave open of the cheapest in full."""
    problem = three()
    batch = scattered(problem, 60, seed=seed)
    owner = np.sort(np.random.default_rng(seed).integers(0, 4, 60))
    cost = full_cost(problem, batch)
    than = np.full(60, float(np.median(cost)))
    rows, price = best_of_each(problem, batch, than=than, owner=owner)
    assert (np.diff(owner[rows]) > 0).all()
    np.testing.assert_allclose(price, cost[rows], atol=1 / 200)
    for one in set(owner.tolist()):
        least = cost[owner == one].min()
        told = price[owner[rows] == one]
        if least < than[0] - 1 / 200:
            assert told[0] == pytest.approx(least, abs=1 / 200)
        if not len(told):
            assert least >= than[0] - 1 / 200


def test_a_balloon_pays_for_area_height_and_distance() -> None:
    """Cover is its share of the panel; lower, and farther from its speaker, cost in proportion."""
    ellipse = Ellipse(half_width=14, half_height=8)
    problem = posed((PANEL, [[ellipse]]), speakers=[WENNA])
    lean = float(problem.voices.lean[0, 0])

    def cost(x: float, y: float) -> float:
        one = Batch(np.array([0]), np.array([[x]]), np.array([[y]]), np.array([[0]]))
        return float(own_costs(problem, one)[0, 0])

    assert cost(lean, -8.0) == pytest.approx(ellipse.area_mm2 / PANEL.area_mm2)
    assert cost(lean, 30.0) - cost(lean, 9.5) == pytest.approx(0.25 * 20.5 / 70)
    assert cost(lean + 12, 9.5) - cost(lean, 9.5) == pytest.approx(0.12 * 12 / 120)


def test_captions_are_drawn_to_their_corner() -> None:
    """One that opens the panel to its left corner; a later one to the nearer side, half as much."""
    box: list[Outline] = [CaptionBox(half_width=14, half_height=5)]
    problem = posed((PANEL, [box, box]), speakers=[None, None])

    def cost(x: float) -> list[float]:
        both = np.full((2, 1), x), np.full((2, 1), 6.5), problem.menus[0, :, :1]
        costs: list[float] = own_costs(problem, Batch(np.array([0]), *both))[:, 0].tolist()
        return costs

    corner, near, far = cost(15.5), cost(35.5), cost(120 - 15.5 - 20)
    assert near[0] - corner[0] == pytest.approx(0.5 * 20 / 120 / 2)
    assert near[1] - corner[1] == pytest.approx(0.5 * 20 / 120 / 4)
    assert far[1] == pytest.approx(near[1])
