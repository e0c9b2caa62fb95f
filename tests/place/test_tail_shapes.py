"""The wedges tried for one tail: how they lie, and that the cheapest is drawn."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from letterfit.drawn.plain_lines import Squared
from letterfit.geometry import Point, Rect
from letterfit.outline import Ellipse, Outline, RoundedRect
from letterfit.place.model import PlacedOutline
from letterfit.place.tail_shapes import (
    CLEAR,
    FULL,
    HIT,
    Grid,
    Target,
    Wedges,
    cheapest,
    wedges,
    widest,
)
from letterfit.place.tail_walk import DIRECTIONS, outline_reach
from letterfit.place.wedge import tail_polygon
from letterfit.separation import clearance
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(0, 0, 120, 80)
BALLOON = Ellipse(half_width=16, half_height=9)
PLAIN = Grid((0.0, 0.05, -0.05), (0.0, 18.0, -18.0), (1.0,)).rows()
NOTHING = np.empty((0, DIRECTIONS))
ROOM = 1.0
"""In mm: directions sampled see that much for certain."""


def at(x: float, y: float, outline: Outline = BALLOON) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=0, choice=0, outline=outline, x_mm=x, y_mm=y)


def region(tried: Wedges, number: int) -> Polygon:
    """One of the wedges as shapely sees it."""
    return Polygon([(p.x, p.y) for p in tail_polygon(tried.tail(number), 64)])


def only(tried: Wedges, row: int) -> Wedges:
    """One of the wedges by itself."""
    one = slice(row, row + 1)
    return Wedges(
        tried.item,
        tried.first[one],
        tried.last[one],
        tried.bend[one],
        tried.tip[one],
        tried.taste[one],
    )


@given(outlines, st.floats(5, 115), st.floats(45, 78))
@settings(max_examples=40, deadline=None)
def test_wedges_stand_on_their_outline_and_aim_at_the_mouth(
    outline: Outline, x: float, y: float
) -> None:
    """Roots on the line to 0.02 mm; drawn on past its tip each axis meets the mouth itself."""
    item = at(60, 20, outline)
    tried = wedges(item, Target(Point(x, y), stop=4.0), grid=FULL)
    centre, mouth = complex(60, 20), complex(x, y)
    for roots in (tried.first, tried.last):
        dots = [[p.real, p.imag] for p in (roots - centre).tolist()]
        assert clearance(outline, dots) == pytest.approx(0, abs=0.02)
    off = ((mouth - tried.tip) * (tried.tip - tried.bend).conj()).imag
    assert np.abs(off).max() == pytest.approx(0, abs=1e-6)
    assert (np.abs(mouth - tried.tip) >= 2.0).all()


def test_cheapest_is_the_least_of_all() -> None:
    """Looked at one by one, no wedge costs less than the one found in chunks."""
    item, blocker = at(60, 14), at(52, 40, Ellipse(half_width=9, half_height=5))
    bodies = outline_reach(blocker)[None]
    tried = wedges(item, Target(Point(56, 66), stop=4.0), grid=FULL)
    alone = [
        cheapest(PANEL, only(tried, row), bodies=bodies, others=NOTHING)[1]
        for row in range(len(tried.taste))
    ]
    number, cost = cheapest(PANEL, tried, bodies=bodies, others=NOTHING)
    assert cost == pytest.approx(min(alone))
    assert alone[number] == pytest.approx(cost)


@given(st.floats(40, 80), st.floats(26, 50), outlines)
@settings(max_examples=60, deadline=None)
def test_what_costs_less_than_a_hit_is_clear(x: float, y: float, outline: Outline) -> None:
    """Shapely finds every cheap wedge inside the panel and off the body."""
    item, blocker = at(60, 14), at(x, y, outline)
    tried = wedges(item, Target(Point(60, 70), stop=4.0), grid=PLAIN)
    bodies = outline_reach(blocker)[None]
    for row in range(len(tried.taste)):
        one = only(tried, row)
        cost = cheapest(PANEL, one, bodies=bodies, others=NOTHING)[1]
        away = region(one, 0).distance(outline_polygon(blocker, 500))
        if cost < HIT:
            assert away > CLEAR - 0.1
        # A wedge well clear of everything is never charged for a hit.
        if away > ROOM:
            assert cost < HIT


def test_another_figure_ahead_costs_more_than_none() -> None:
    """Pointing through somebody else's figure is priced, crossing it or not."""
    item, mouth = at(20, 20), Point(80, 40)
    tried = wedges(item, Target(mouth, stop=4.0), grid=PLAIN)
    body = outline_reach(at(60, 34, Ellipse(half_width=4, half_height=30)))[None]
    free = cheapest(PANEL, tried, bodies=NOTHING, others=NOTHING, ahead=(mouth, NOTHING))[1]
    blocked = cheapest(PANEL, tried, bodies=NOTHING, others=NOTHING, ahead=(mouth, body))[1]
    assert free < 1 < blocked < HIT


def test_tails_are_wide_for_machines_and_slim_for_small_balloons() -> None:
    """4 mm for a squared box, 3 mm else, and a third or so of a small balloon's shorter side."""
    assert widest(BALLOON) == 3.0
    core = RoundedRect(half_width=16, half_height=9, radius=5)
    assert widest(Squared(core=core)) == 4.0
    assert widest(Ellipse(half_width=5, half_height=3)) == pytest.approx(0.35 * 6)


def test_no_wedge_is_longer_than_asked() -> None:
    """Its axis, by two chords over the bend, keeps to the longest; and to half to two thirds."""
    for y in (30.0, 45.0, 79.0):
        tried = wedges(at(60, 14), Target(Point(60, y), stop=2.0), grid=PLAIN)
        middle = (tried.first + tried.last) / 2
        length = np.abs(tried.bend - middle) + np.abs(tried.tip - tried.bend)
        assert length.max() <= 20 + 1e-9
        if y == 45.0:
            share = length / np.abs(complex(60, y) - middle)
            assert share.min() > 0.5
            assert share.max() < 2 / 3


def test_every_tail_bends_once() -> None:
    """None is dead straight, and none turns by more than a right angle."""
    tried = wedges(at(60, 14), Target(Point(60, 60), stop=4.0), grid=PLAIN)
    middle = (tried.first + tried.last) / 2
    turn = np.angle((tried.tip - tried.bend) / (tried.bend - middle))
    assert np.abs(turn).min() > math.radians(5)
    assert np.abs(turn).max() < math.radians(90)
