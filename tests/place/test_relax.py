"""Pushing balloons apart: what comes out is legal, and fills what a beam does not."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from letterfit.geometry import Rect
from letterfit.outline import Ellipse
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Problem
from letterfit.place.relax import relaxed
from letterfit.place.solver import place_outlines
from letterfit.place.terms import make_terms
from letterfit.separation import gap
from tests.place.shapes import ellipses

# Source of the radii: the published table of best known packings of n equal circles in the unit
# square (data file), closed forms and OEIS A281065.
CIRCLES = json.loads(
    (Path(__file__).parents[1] / "data" / "circles_in_unit_square.json").read_text("utf-8")
)
SQUARE = Rect(0, 0, 60, 60)


def crowded() -> Problem:
    """Four balloons in a panel that they fill to more than a third, in any order."""
    panel, menus = Rect(0, 0, 80, 60), [ellipses(420)] * 4
    terms = make_terms(
        panel, menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=(), ordered=False
    )
    return pose([Task(panel=panel, menus=menus, terms=terms, region_gap=1.5, limit=4800)])


@pytest.mark.parametrize("case", CIRCLES[:10], ids=lambda case: str(case["n"]))
def test_equal_discs_are_placed_up_to_nearly_the_best_radius(case: dict[str, Any]) -> None:
    """At 0.985 of the best radius known, any order allowed, n discs are placed."""
    radius = 0.985 * 60 * case["r"]
    menu = [Ellipse(half_width=radius, half_height=radius)]
    layout = place_outlines(SQUARE, [menu] * case["n"], gap_mm=0, margin_mm=0, ordered=False)
    assert layout.verdict == "placed"


def test_layouts_that_come_of_pushing_are_legal() -> None:
    """Inside the margin, and apart by the true gap."""
    problem = crowded()
    found = relaxed(problem, 0)
    assert len(found)
    for row in range(len(found)):
        spots = [
            (problem.outlines[o], x, y)
            for o, x, y in zip(found.outline[:, row], found.x[:, row], found.y[:, row], strict=True)
        ]
        for i, (one, x, y) in enumerate(spots):
            assert x - one.half_width >= 1.5 - 1e-6
            assert x + one.half_width <= 80 - 1.5 + 1e-6
            assert y - one.half_height >= 1.5 - 1e-6
            assert y + one.half_height <= 60 - 1.5 + 1e-6
            for two, u, v in spots[:i]:
                assert gap(two, one, dx=x - u, dy=y - v) >= 1.5 - 1e-6


def test_starts_are_the_same_every_time() -> None:
    """Chance is seeded: the same layouts come of the same panel."""
    one, two = relaxed(crowded(), 0), relaxed(crowded(), 0)
    np.testing.assert_array_equal(one.x, two.x)
    np.testing.assert_array_equal(one.outline, two.outline)
