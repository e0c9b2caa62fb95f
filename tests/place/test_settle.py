"""Pushing up: legal, and no higher place is."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.problem import Problem, pose, pushes
from letterfit.place.settle import decode
from letterfit.place.terms import Terms
from letterfit.separation import gap
from tests.place.shapes import outlines

PANEL = Rect(0, 0, 100, 80)


def task(*shapes: Outline, region: tuple[Point, ...] | None = None) -> Problem:
    """One outline per balloon, no speakers."""
    terms = Terms(
        gap=1.5,
        margin=1.5,
        reading="ltr",
        regions=(region,) if region else (),
        speakers=(None,) * len(shapes),
        limit=1.0,
        ordered=True,
        aspect=1 / 3,
    )
    return pose(PANEL, [[shape] for shape in shapes], terms=terms, region_gap=1.5, limit=8000)


@given(outlines, outlines, st.floats(-30, 30))
@settings(max_examples=60, deadline=None)
def test_push_is_safe_and_tight(one: Outline, two: Outline, across: float) -> None:
    """At the distance down that is called enough the true gap holds, and hardly more than that."""
    problem = task(one, two)
    first, second = np.array([0]), np.array([1])
    need = float(pushes(problem, across=np.array([across]), first=first, second=second)[0])
    apart = gap(one, two, dx=across, dy=need)
    assert apart >= 1.5 - 1e-9
    if need > 0:
        # 14 even directions and 5 more: off by R (pi/56)^2 / 2 at worst where R <= 150 mm.
        assert apart <= 1.5 + 0.25


def settled(problem: Problem, *xs: float) -> list[float]:
    """The y of each balloon at the given x."""
    numbers = np.array([[int(menu[0]) for menu in problem.menus]])
    batch, legal = decode(problem, np.array([xs]), numbers)
    assert legal[0]
    return [float(y) for y in batch.y[0]]


BOX = CaptionBox(half_width=15, half_height=5)


def test_first_balloon_goes_to_the_margin() -> None:
    """Nothing above it: the margin plus half its height."""
    assert settled(task(BOX), 30) == [6.5]


def test_balloon_to_the_right_is_level_with_the_first() -> None:
    """Beside the first and clear of it, the second hangs as high, not higher."""
    low = Ellipse(half_width=10, half_height=4)
    assert settled(task(BOX, low), 30, 70) == [6.5, 5.5]


def test_balloon_under_the_first_keeps_the_gap() -> None:
    """Box under box: exactly one gap between them."""
    assert settled(task(BOX, BOX), 30, 30) == pytest.approx([6.5, 18.0])


def test_balloon_wholly_to_the_left_opens_a_new_row() -> None:
    """It goes below all earlier ones, or a reader who cuts in columns would take it too early."""
    tall = CaptionBox(half_width=10, half_height=20)
    ys = settled(task(BOX, tall, BOX), 45, 85, 20)
    assert ys[2] - 5 >= ys[1] + 20 - 1e-9


def test_keep_clear_region_is_passed_below() -> None:
    """A region at the top pushes the balloon down by its height and the gap."""
    region = (Point(0, 0), Point(100, 0), Point(100, 20), Point(0, 20))
    assert settled(task(BOX, region=region), 30) == pytest.approx([26.5], abs=1e-6)


def test_balloon_that_finds_no_place_is_not_legal() -> None:
    """Where it would leave the panel the layout is given up."""
    tall = CaptionBox(half_width=45, half_height=25)
    problem = task(tall, tall)
    _, legal = decode(problem, np.array([[50.0, 50.0]]), np.array([[0, 1]]))
    assert not legal[0]
