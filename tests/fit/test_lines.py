"""What candidate lines ask for: lower bounds, near and never over the exact scale."""

import math
from itertools import product

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from letterfit.fit.aspects import unit_outline
from letterfit.fit.bound import least_scale
from letterfit.fit.ink import Ink
from letterfit.fit.lines import DIRECTIONS, Candidates, Shapes, folded_ink, reach_of
from letterfit.fit.stack import half_leadings
from letterfit.lettering.words import Words
from tests.fit.texts import airs, names, texts
from tests.words import box_line, box_words, line_supports


@given(texts(), st.integers(1, 7))
def test_folded_ink_is_the_words_own_support(words: Words, reach: int) -> None:
    """The quick way gives what `Words.supports` gives, folded left to right."""
    reach = min(reach, len(words))
    quick = folded_ink(Ink.of(words), words.advances(reach).T)
    for half, sign in enumerate((-1, 1)):
        right = line_supports(words, sign * DIRECTIONS, reach)
        left = line_supports(words, math.pi - sign * DIRECTIONS, reach)
        slow = np.maximum(right, left).transpose(2, 1, 0)
        np.testing.assert_allclose(quick[half], slow, atol=1e-9)


def test_reshaped_lines_replace_the_slice() -> None:
    """A line set otherwise than the slice has its own ink in the table."""
    words = box_words([4, 4, 4], reshaped={(1, 2): box_line("WIDE", 20.0)})
    ink = folded_ink(Ink.of(words), words.advances(3).T)
    assert ink[1, 0, 1, 1] == 10.0
    assert ink[1, 0, 1, 0] == 4.5


@given(texts(), names, airs, st.floats(1, 3), st.integers(1, 5))
def test_scales_never_exceed_the_exact_one(
    words: Words, name: str, air: float, aspect: float, lines: int
) -> None:
    """A lower bound for every line at every place of the stack."""
    shapes = Shapes.of((unit_outline(name, aspect),))
    candidates = Candidates.of(words, air=air, reach=len(words))
    places = half_leadings(lines)
    found = candidates.scales(
        shapes, places=places, which=np.zeros_like(places), expected=np.array([6.0])
    )
    for line, first in product(range(lines), range(len(words))):
        for end in range(first + 1, len(words) + 1):
            bound = float(found[line, end - first - 1, first])
            if math.isfinite(bound):
                stack = (0,) * line + (first, end) + (end,) * (lines - line - 1)
                points = candidates.boxes.line_points(stack, line)
                assert bound <= least_scale(points, shapes.outlines[0], air=air).scale


def test_scales_of_full_lines_are_near() -> None:
    """At the expected size the bound misses at most 0.2 % of the exact scale."""
    words = box_words([9.0, 14.0, 9.0])
    outline = unit_outline("ellipse", 1.5)
    stack = (0, 1, 2, 3)
    candidates = Candidates.of(words, air=1.2, reach=1)
    exact = least_scale(candidates.boxes.points(stack), outline, air=1.2).scale
    found = candidates.scales(
        Shapes.of((outline,)),
        places=half_leadings(3),
        which=np.zeros(3, dtype=np.int64),
        expected=np.array([exact]),
    )
    bound = max(float(found[line, 0, line]) for line in range(3))
    assert 0.998 * exact < bound <= exact


def test_forced_breaks_are_crossed_by_no_line() -> None:
    """A line over a forced end asks for an infinite outline."""
    words = box_words([3, 3, 3], forced=[0])
    candidates = Candidates.of(words, air=1.0, reach=3)
    assert np.isinf(candidates.advances[1:, 0]).all()
    assert np.isfinite(candidates.advances[1, 1])


@given(texts(), st.floats(0.5, 60))
def test_reach_leaves_out_only_lines_too_wide(words: Words, width: float) -> None:
    """Every line of more pieces than the reach is wider than asked."""
    reach = reach_of(words, width)
    advances = words.advances(len(words))
    assert np.all(advances[:, reach:] > width)
