"""Pushing up: legal, and no higher place is."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Insets, Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Batch, Problem
from letterfit.place.settle import decode, downs, stands
from letterfit.place.terms import Terms
from letterfit.separation import gap
from tests.place.shapes import outlines

PANEL = Rect(0, 0, 100, 80)


def task(
    *shapes: Outline,
    region: tuple[Point, ...] | None = None,
    joined: tuple[bool, ...] = (),
    overhang: float = 0.0,
) -> Problem:
    """One outline per balloon, no speakers."""
    terms = Terms(
        gap=1.5,
        margin=Insets.even(1.5),
        reading="ltr",
        regions=(region,) if region else (),
        speakers=(None,) * len(shapes),
        limit=1.0,
        ordered=True,
        aspect=1 / 3,
        joined=joined,
        overhangs=((overhang,),) * len(shapes),
    )
    menus = [[shape] for shape in shapes]
    return pose([Task(panel=PANEL, menus=menus, terms=terms, region_gap=1.5, limit=8000)])


@given(outlines, outlines, st.floats(-30, 30))
@settings(max_examples=100, deadline=None)
def test_push_is_safe_and_tight(one: Outline, two: Outline, across: float) -> None:
    """At the distance down that is called enough the true gap holds, and hardly more than that."""
    problem = task(one, two)
    first, second = np.array([[0]]), np.array([1])
    for fine, more in ((True, 0.15), (False, 0.6)):
        need = float(
            downs(problem, first, second, across=np.array([[abs(across)]]), fine=fine)[0, 0]
        )
        apart = gap(one, two, dx=across, dy=need)
        assert apart >= 1.5 - 1e-9
        if need > 0:
            assert apart <= 1.5 + more


def settled(problem: Problem, *xs: float, fine: bool = False) -> list[float]:
    """The y of each balloon at the given x."""
    batch, legal = decode(
        problem, np.array([0]), x=np.array(xs)[:, None], outline=problem.menus[0], fine=fine
    )
    assert legal[0]
    return [float(y) for y in batch.y[:, 0]]


BOX = CaptionBox(half_width=15, half_height=5)


def test_first_balloon_goes_to_the_margin() -> None:
    """Nothing above it: the margin plus half its height."""
    assert settled(task(BOX), 30) == [6.5]


def test_balloon_to_the_right_is_level_with_the_first() -> None:
    """Beside the first and clear of it, the second hangs as high, not higher."""
    low = Ellipse(half_width=10, half_height=4)
    assert settled(task(BOX, low), 30, 70) == [6.5, 5.5]


@pytest.mark.parametrize(("x", "y"), [(70.0, 5.5), (30.0, 17.0)])
def test_what_is_pushed_up_stands_and_no_higher(x: float, y: float) -> None:
    """Beside the first, level with its top; under it, a gap below: there, not 0.01 mm higher."""
    low = Ellipse(half_width=10, half_height=4)
    problem = task(BOX, low)
    whole, _ = decode(problem, np.array([0]), x=np.array([[30.0], [x]]), outline=problem.menus[0])
    assert whole.y[1, 0] == pytest.approx(y)
    first = Batch(whole.panel, whole.x[:1], whole.y[:1], whole.outline[:1])
    for up, wanted in ((0.0, True), (0.01, False)):
        legal = stands(problem, first, x=whole.x[1], y=whole.y[1] - up, outline=whole.outline[1])
        assert legal.tolist() == [wanted]


def test_balloon_under_the_first_keeps_the_gap() -> None:
    """Box under box: exactly one gap between them."""
    assert settled(task(BOX, BOX), 30, 30) == pytest.approx([6.5, 18.0])


def test_balloon_wholly_to_the_left_opens_a_new_row() -> None:
    """It goes below all earlier ones, or a reader who cuts in columns would take it too early."""
    tall = CaptionBox(half_width=10, half_height=20)
    ys = settled(task(BOX, tall, BOX), 45, 85, 20)
    assert ys[2] - 5 >= ys[1] + 20 - 1e-9


def test_by_the_milder_rule_a_row_is_only_below_those_before_it() -> None:
    """Three over three: what follows the first of the second row stands beside it all the same."""
    rows = task(*[BOX] * 6)
    xs = 16.5, 48.0, 79.5
    assert settled(rows, *xs, *xs)[4] >= 18.0 + 5 + 5
    mild = settled(replace(rows, lenient=True), *xs, *xs)
    assert mild == pytest.approx([6.5] * 3 + [18.0] * 3)
    tall = CaptionBox(half_width=10, half_height=20)
    ys = settled(replace(task(BOX, tall, BOX), lenient=True), 45, 85, 20)
    assert ys[2] - 5 >= ys[1] + 20 - 1e-9


def test_keep_clear_region_is_passed_below() -> None:
    """A region at the top pushes the balloon down by its height and the gap."""
    region = (Point(0, 0), Point(100, 0), Point(100, 20), Point(0, 20))
    assert settled(task(BOX, region=region), 30) == pytest.approx([26.5], abs=1e-6)


def test_joined_balloon_overlaps_by_the_depth_asked_for() -> None:
    """Below and to one side of the one before it, to the last thousandth of a millimetre."""
    oval = Ellipse(half_width=14, half_height=8)
    problem = task(oval, oval, joined=(False, True))
    for dx in (0.0, 9.0, -12.0):
        first, second = settled(problem, 45, 45 + dx, fine=True)
        assert gap(oval, oval, dx=dx, dy=second - first) == pytest.approx(-1.0, abs=1e-6)


def test_joined_balloon_that_cannot_touch_is_not_legal() -> None:
    """Farther across than the two reach, no y joins them; nor where another balloon lies."""
    problem = task(BOX, BOX, joined=(False, True))
    apart = decode(problem, np.array([0]), x=np.array([[20.0], [60.0]]), outline=problem.menus[0])
    assert not apart[1][0]


def test_balloon_that_may_hang_over_does_so_or_keeps_the_margin() -> None:
    """At the top it is cut by the border by so much; pushed down, it never kisses the border."""
    problem = task(BOX, overhang=2.0)
    assert settled(problem, 30) == [3.0]
    region = (Point(0, 0), Point(100, 0), Point(100, 0.5), Point(0, 0.5))
    # Just under the strip it would stand 2 mm from the border: that is inside the margin too.
    assert settled(task(BOX, overhang=2.0, region=region), 30) == pytest.approx([7.0], abs=1e-6)


def test_balloon_that_finds_no_place_is_not_legal() -> None:
    """Where it would leave the panel the layout is given up."""
    tall = CaptionBox(half_width=45, half_height=25)
    problem = task(tall, tall)
    _, legal = decode(
        problem, np.array([0]), x=np.array([[50.0], [50.0]]), outline=problem.menus[0]
    )
    assert not legal[0]
