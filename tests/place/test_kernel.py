"""Outlines in samples: chords of their own lines, tangents that never let two come too near."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.outline import Ellipse, Outline
from letterfit.place.figure import half_chord
from letterfit.place.kernel import STEPS, perimeter, profile
from letterfit.separation import gap
from tests.place.posed import posed
from tests.place.shapes import outlines

PANEL = Rect(0, 0, 100, 80)


@given(outlines, st.integers(0, STEPS))
@settings(max_examples=80, deadline=None)
def test_chords_are_those_of_the_outline(shape: Outline, step: int) -> None:
    """Level chords as the figure room has them; what is as high as wide has them upright too."""
    samples = profile(shape)
    height = step / STEPS * shape.half_height
    if step < STEPS:
        assert samples.chord[step] == pytest.approx(half_chord(shape, height), abs=0.02)
    disc = profile(Ellipse(half_width=shape.half_width, half_height=shape.half_width))
    np.testing.assert_allclose(disc.rise, disc.chord, atol=1e-6)


@given(outlines)
@settings(max_examples=80, deadline=None)
def test_the_polygon_inscribed_is_hardly_shorter_than_the_outline(shape: Outline) -> None:
    """Never longer, and short by no more than a chord of a 256th of a quarter turn is."""
    assert 0.998 * shape.perimeter_mm <= perimeter(shape) <= shape.perimeter_mm * (1 + 1e-6)


@given(outlines, outlines, st.floats(0, 40))
@settings(max_examples=150, deadline=None)
def test_looked_up_tangent_keeps_the_gap(one: Outline, two: Outline, across: float) -> None:
    """At the distance down that a look tells, the true gap is there."""
    pairs = posed((PANEL, [[one], [two]])).pairs
    pair = np.array([pairs.row[0] + 1])
    down = float(pairs.down(pair, np.array([across]))[0])
    assert gap(one, two, dx=across, dy=down) >= 1.5 - 1e-9


@given(outlines, outlines)
@settings(max_examples=80, deadline=None)
def test_two_with_level_tops_stand_beside_each_other(one: Outline, two: Outline) -> None:
    """At the distance across that is told for level tops the true gap is there."""
    pairs = posed((PANEL, [[one], [two]])).pairs
    beside = float(pairs.beside[pairs.row[0] + 1])
    drop = two.half_height - one.half_height
    assert gap(one, two, dx=beside, dy=drop) >= 1.5 - 1e-9


def test_pairs_belong_to_later_balloons_of_the_same_panel() -> None:
    """Three balloons of two outlines make 12 pairs, whatever panels stand beside them."""
    menu = [Ellipse(half_width=9, half_height=6), Ellipse(half_width=8, half_height=7)]
    assert len(posed((PANEL, [menu] * 3)).pairs.reach) == 12
    assert len(posed((PANEL, [menu] * 3), (PANEL, [menu])).pairs.reach) == 12
    assert len(posed((PANEL, [menu] * 3), (PANEL, [menu] * 2)).pairs.reach) == 16
