"""The fast search against the thorough one, and texts together against each alone."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.families import family
from letterfit.fit.aspects import Cells, cells, few_cells
from letterfit.fit.batch import fast_fits, handsome_of_each, is_plain, least_bounds
from letterfit.fit.exact import least_stack
from letterfit.fit.handsome import handsome
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.fit.survey import Goal, survey
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts
from tests.plays import play_names, speeches
from tests.words import box_words

AWFUL = 5.0
"""A lone word is not worse than this here: one more or less would outweigh all else."""

plain = texts(most=9).filter(is_plain)


def grid_of(name: str, *, count: int = 4) -> Cells:
    """The family's own range of aspects in a few cells."""
    return few_cells(name, *family(name).aspect, count)


@settings(max_examples=40)
@given(plain, names, airs, st.floats(0.02, 0.2))
def test_the_least_scale_is_a_lower_bound(
    words: Words, name: str, air: float, slack: float
) -> None:
    """No stack of a shape asks for less."""
    grid = grid_of(name)
    (chosen,) = handsome_of_each(Profiles.of([words], air=air), [grid], slack=slack, each=True)
    for each in chosen:
        shape = grid.shapes.outlines[each.shape]
        assert each.least <= least_stack(words, shape, air=air).scale * (1 + 1e-9)


@settings(max_examples=25)
@given(st.lists(plain, min_size=2, max_size=4), names, airs)
def test_texts_together_are_found_as_each_alone(
    several: list[Words], name: str, air: float
) -> None:
    """To the last bit: who else is fitted changes nothing."""
    grid = grid_of(name)
    together = handsome_of_each(
        Profiles.of(several, air=air), [grid] * len(several), slack=0.06, each=True
    )
    alone = [
        handsome_of_each(Profiles.of([words], air=air), [grid], slack=0.06, each=True)[0]
        for words in several
    ]
    assert together == alone


def test_speech_looks_as_good_as_by_the_thorough_search() -> None:
    """Play speeches: nearly the same costs on average, and nearly the same least scales."""
    lettering = Lettering()
    grid = grid_of("ellipse", count=8)
    spoken = [s.text for s in speeches(play_names()[3]) if 8 <= len(s.text.split()) <= 40][:25]
    several = [words for words in (measure(text, lettering) for text in spoken) if is_plain(words)]
    found = handsome_of_each(
        Profiles.of(several, air=1.2), [grid] * len(several), slack=0.06, each=True
    )
    costs, least = [], []
    for words, chosen in zip(several, found, strict=True):
        thorough = survey(words, grid.shapes, goal=Goal(0.06, each=True), air=1.2)
        limits = (thorough.least * math.sqrt(1.06))[thorough.which]
        pairs = np.flatnonzero(thorough.scales <= limits)
        looking = handsome(words, thorough, pairs, limits=limits[pairs])
        assert len(chosen) == len(grid.shapes.outlines)
        for each in chosen:
            of_shape = looking.costs[thorough.which[pairs] == each.shape]
            costs.append(min(each.cost, AWFUL) - min(float(of_shape.min()), AWFUL))
        for each in chosen[::3]:
            exact = least_stack(words, grid.shapes.outlines[each.shape], air=1.2).scale
            least.append(1 - each.least / exact)
    assert float(np.median(costs)) < 0.01
    assert float(np.mean(costs)) < 0.06
    assert min(least) > -1e-9
    assert max(least) < 0.01
    assert float(np.mean(least)) < 0.002


def test_a_lone_word_is_left_to_the_thorough_search() -> None:
    """Where the best stack has a lost word, only all aspects can tell whether it must."""
    (found,) = fast_fits(
        Profiles.of([box_words([2.0, 9.0])], air=1.0),
        cells("ellipse", 1.0, 1.05, pieces=2),
        slack=0.01,
    )
    assert found is None


def test_forced_ends_and_flush_lines_are_not_plain() -> None:
    """What the windows do not know goes the long way."""
    assert is_plain(box_words([2.0, 3.0]))
    assert not is_plain(box_words([2.0, 3.0], forced=[0]))
    assert not is_plain(measure("HOLD THE GATE", Lettering(align="start")))


@pytest.mark.parametrize("count", [1, 2, 301])
def test_very_short_and_very_long_texts(count: int) -> None:
    """One word is fitted; a text of over 300 pieces is left to the thorough search."""
    words = box_words([4.0] * count)
    assert is_plain(words) == (count <= 300)
    if count <= 2:
        (chosen,) = handsome_of_each(
            Profiles.of([words], air=1.0), [grid_of("ellipse")], slack=0.06, each=True
        )
        assert len(chosen) == 4


def test_each_text_has_its_own_shapes() -> None:
    """Texts that are offered other ranges of aspects are found as each alone."""
    several = [box_words([3.0, 5.0, 4.0, 2.0, 6.0] * k) for k in (1, 2, 4)]
    grids = [few_cells("ellipse", 1.0, 1.3 + k, 2 + k) for k in range(3)]
    together = handsome_of_each(Profiles.of(several, air=1.0), grids, slack=0.06, each=True)
    for words, grid, found in zip(several, grids, together, strict=True):
        (alone,) = handsome_of_each(Profiles.of([words], air=1.0), [grid], slack=0.06, each=True)
        assert found == alone
        assert [each.shape for each in found] == list(range(len(grid.shapes.outlines)))


@settings(max_examples=40)
@given(plain, names, airs)
def test_no_stack_of_so_many_lines_stays_under_its_bound(
    words: Words, name: str, air: float
) -> None:
    """By exact scales, over every breaking: what is left out by a bound is left out for good."""
    grid = grid_of(name, count=3)
    profiles = Profiles.of([words], air=air)
    bounds = least_bounds(profiles, grid.shapes)[0]
    for which, shape in enumerate(grid.shapes.outlines):
        for stack in all_stacks(words):
            lines = len(stack) - 1
            if lines <= len(bounds):
                exact = line_scales(profiles.inks[0], shape, stack, air=air).max()
                assert bounds[lines - 1, which] <= exact * (1 + 1e-9)
