"""The stack that asks for the least scale of one given shape."""

import numpy as np
import pytest
from hypothesis import given, settings

from letterfit.fit.aspects import unit_outline
from letterfit.fit.bound import least_scale
from letterfit.fit.exact import least_stack
from letterfit.fit.ink import Ink
from letterfit.fit.scales import line_scales
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts


@settings(max_examples=40)
@given(texts(), names, airs)
def test_least_scale_is_that_of_enumeration(words: Words, name: str, air: float) -> None:
    """Over every breaking, to rounding."""
    unit = unit_outline(name, 1.4)
    ink = Ink.of(words)
    best = min(least_scale(ink.points(stack), unit, air=air).scale for stack in all_stacks(words))
    assert least_stack(words, unit, air=air).scale == pytest.approx(best, rel=1e-9)


@settings(max_examples=20)
@given(texts(most=5), names, airs)
def test_a_stack_asks_what_its_most_demanding_line_asks(
    words: Words, name: str, air: float
) -> None:
    """The largest scale of single lines is the scale of the whole stack."""
    unit = unit_outline(name, 1.4)
    ink = Ink.of(words)
    for stack in all_stacks(words):
        lines = line_scales(ink, unit, stack, air=air)
        whole = least_scale(ink.points(stack), unit, air=air).scale
        np.testing.assert_allclose(lines.max(), whole, rtol=1e-7)
