"""The survey: lower bounds that are near, and no pair left out that matters."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import cells, unit_outline
from letterfit.fit.bound import least_scale
from letterfit.fit.lines import Candidates
from letterfit.fit.survey import Goal, lower_bounds, survey
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts
from tests.words import box_words


@settings(max_examples=15)
@given(texts(most=6), names, airs, st.floats(0, 0.2))
def test_scales_are_lower_bounds(words: Words, name: str, air: float, slack: float) -> None:
    """Per pair at most the enumerated least scale; pairs left out ask for more than the limit."""
    grid = cells(name, 1.0, 2.6, pieces=len(words))
    found = survey(words, grid.shapes, goal=Goal(slack, each=True), air=air)
    for s in (0, len(grid.aspects) // 2, len(grid.aspects) - 1):
        exact = _exact(words, found.candidates, name, aspect=grid.aspects[s], air=air)
        for pair in np.flatnonzero(found.which == s).tolist():
            least = exact.get(int(found.counts[pair]), math.inf)
            assert found.scales[pair] <= least
        left_out = set(exact) - set(found.counts[found.which == s].tolist())
        assert all(exact[count] > found.limits[s] for count in left_out)
        assert found.limits[s] >= found.least[s] * math.sqrt(1 + slack)


def _exact(
    words: Words, candidates: Candidates, name: str, *, aspect: float, air: float
) -> dict[int, float]:
    """The least scale of any stack, per number of lines."""
    unit = unit_outline(name, float(aspect))
    best: dict[int, float] = {}
    for stack in all_stacks(words):
        scale = least_scale(candidates.boxes.points(stack), unit, air=air).scale
        best[len(stack) - 1] = min(scale, best.get(len(stack) - 1, math.inf))
    return best


@settings(max_examples=15)
@given(texts(most=6), names, airs, st.floats(0.3, 30))
def test_bounds_without_a_table_hold(words: Words, name: str, air: float, about: float) -> None:
    """However bad the guess, no stack stays under the bound of its number of lines."""
    grid = cells(name, 1.0, 2.6, pieces=len(words))
    candidates = Candidates.of(words, air=air, reach=len(words))
    counts = np.arange(1, len(words) + 1)
    guess = np.full(len(grid.aspects), about)
    bounds = lower_bounds(words, candidates, grid.shapes, counts=counts, about=guess)
    exact = _exact(words, candidates, name, aspect=grid.aspects[0], air=air)
    for count, scale in exact.items():
        assert bounds[count - 1, 0] <= scale * (1 + 1e-9)


def test_a_word_of_500_letters_is_surveyed() -> None:
    """One piece far wider than all others together is no trouble."""
    words = box_words([600.0] + [4.0] * 30)
    grid = cells("ellipse", 1.0, 2.6, pieces=len(words))
    found = survey(words, grid.shapes, goal=Goal(0.06), air=1.2)
    assert np.isfinite(found.least).any()
    assert found.scales.min() > 100


def test_every_line_forced_is_surveyed() -> None:
    """Twenty forced breaks leave one number of lines."""
    words = box_words([4.0] * 20, forced=range(20))
    grid = cells("ellipse", 1.0, 2.6, pieces=len(words))
    found = survey(words, grid.shapes, goal=Goal(0.06), air=1.2)
    assert set(found.counts.tolist()) == {20}
