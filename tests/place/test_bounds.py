"""Placing beside an outside solver: constraint programming decides boxes on a grid exactly.

Outside reference: CP-SAT of PyPI `ortools` (Perron and Didier), its two-dimensional no-overlap
constraint. Boxes and panel have whole sides and no gap: without a reading order, boxes that go in
anywhere go in on the grid (push each left and up), so its yes and its no both hold.
"""

from collections.abc import Sequence
from functools import cache

import numpy as np
import pytest

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox
from letterfit.place.model import PanelLayout, Speaker
from letterfit.place.solver import place_outlines
from tests.place.grid import Boxes, Grid

CASES = 60

NEAR, SHARE = 0.95, 0.9
"""In SHARE of the panels our figure is at least NEAR of the tallest on the grid, or of the cap."""

CAP = 0.8
"""No figure taller than this share of the panel's height earns anything."""


def drawn(number: int, *, fill: tuple[float, float]) -> Boxes:
    """Two to five boxes by lot that cover a share of their panel."""
    lot = np.random.default_rng([77, number])
    size = 2 + number % 4
    width, height = int(lot.integers(24, 61)), int(lot.integers(20, 49))
    shares = lot.uniform(0.5, 1.5, size)
    areas = lot.uniform(*fill) * width * height * shares / shares.sum()
    sides = []
    for area in areas:
        wide = int(np.clip(round((area * lot.uniform(0.7, 4)) ** 0.5), 2, width))
        sides.append((wide, max(1, min(height, int(area / wide)))))
    return Boxes(width, height, tuple(sides))


def placed(
    boxes: Boxes, *, ordered: bool, speakers: Sequence[Speaker] | None = None
) -> PanelLayout:
    """The library's layout of the same boxes."""
    menus = [[CaptionBox(half_width=w / 2, half_height=h / 2)] for w, h in boxes.sides]
    panel = Rect(0, 0, boxes.width, boxes.height)
    return place_outlines(panel, menus, gap_mm=0, margin_mm=0, ordered=ordered, speakers=speakers)


@cache
def feasible(number: int, *, ordered: bool) -> bool:
    """What CP-SAT says of a crowded case."""
    return Grid(drawn(number, fill=(0.55, 0.95)), ordered=ordered).goes_in()


@pytest.mark.parametrize("ordered", [True, False])
@pytest.mark.parametrize("number", range(CASES))
def test_boxes_that_go_in_on_a_grid_are_placed(number: int, *, ordered: bool) -> None:
    """And so never called impossible; what cannot go in at all is never called placed."""
    verdict = placed(drawn(number, fill=(0.55, 0.95)), ordered=ordered).verdict
    if feasible(number, ordered=ordered):
        assert verdict == "placed"
    elif not ordered:
        assert verdict != "placed"


def test_cases_are_of_both_kinds() -> None:
    """Of the crowded cases some go in and some do not, in any order and in ours."""
    for ordered in (True, False):
        answers = [feasible(number, ordered=ordered) for number in range(CASES)]
        assert 0.2 * CASES <= sum(answers) <= 0.8 * CASES


def test_order_costs_some_layouts() -> None:
    """What goes in with the order goes in without it, and for some cases not the other way."""
    pairs = [
        (feasible(number, ordered=True), feasible(number, ordered=False)) for number in range(CASES)
    ]
    assert (True, False) not in pairs
    assert (False, True) in pairs


def test_figures_come_near_the_tallest_on_the_grid() -> None:
    """Two or three boxes in roomy panels: what else is wanted costs little of the figure."""
    shares = []
    for boxes in (drawn(number, fill=(0.15, 0.5)) for number in range(CASES)):
        if len(boxes.sides) > 3:
            continue
        tallest = Grid(boxes, ordered=True).tallest_figure()
        if not tallest:
            continue
        speakers = [Speaker(name="WENNA")] * len(boxes.sides)
        figure = placed(boxes, ordered=True, speakers=speakers).figure_height_mm
        shares.append(figure / min(tallest, CAP * boxes.height))
    assert len(shares) >= CASES // 3
    assert np.mean(np.array(shares) >= NEAR) >= SHARE
