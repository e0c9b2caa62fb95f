"""Exact scales of many stacks: those of one at a time."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import few_cells
from letterfit.fit.bound import least_scale
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import exact_scales
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts
from tests.words import box_line, box_words

plain = texts().filter(lambda words: words.forced.sum() == 1)


@settings(max_examples=40)
@given(st.lists(plain, min_size=1, max_size=3), names, airs)
def test_many_scales_are_those_of_one_at_a_time(
    several: list[Words], name: str, air: float
) -> None:
    """Every stack of every text in its shape."""
    profiles = Profiles.of(several, air=air)
    outlines = few_cells(name, 1.0, 2.6, 3).shapes.outlines
    stacks = [(k, stack) for k, words in enumerate(several) for stack in all_stacks(words)]
    shapes = [outlines[k % 3] for k in range(len(stacks))]
    found = exact_scales(profiles, stacks, shapes)
    one_by_one = [
        least_scale(profiles.inks[text].points(stack), shape, air=air).scale
        for (text, stack), shape in zip(stacks, shapes, strict=True)
    ]
    np.testing.assert_allclose(found, one_by_one, rtol=1e-9)


def test_a_line_set_anew_is_measured_as_it_is_set() -> None:
    """Its own ink counts, not the slice of the unbroken text."""
    usual = box_words([4.0, 4.0])
    anew = box_words([4.0, 4.0], reshaped={(0, 1): box_line("AAAA BBBB", 20.0, height=2.0)})
    shape = few_cells("ellipse", 1.0, 2.6, 1).shapes.outlines[0]
    scales = [
        float(exact_scales(Profiles.of([words], air=1.0), [(0, (0, 2))], [shape])[0])
        for words in (usual, anew)
    ]
    assert scales[1] > 1.5 * scales[0]
