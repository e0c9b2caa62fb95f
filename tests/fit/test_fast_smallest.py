"""The smallest outline by the fast search: the thorough one's, to rounding."""

import pytest
from hypothesis import given, settings

from letterfit.fit.aspects import aspect_range, cells
from letterfit.fit.batch import is_plain
from letterfit.fit.fast_smallest import MOST_PIECES, fast_smallest
from letterfit.fit.smallest import smallest, thorough_survey
from letterfit.lettering.words import Words
from tests.fit.texts import airs, names, texts
from tests.words import box_line, box_words


@settings(max_examples=60, deadline=None)
@given(texts(most=16).filter(is_plain), names, airs)
def test_it_is_the_smallest_of_the_thorough_search(words: Words, name: str, air: float) -> None:
    """The area is the same; so is the stack, but where two ask for the same area."""
    grid = cells(name, *aspect_range(name, None), pieces=len(words))
    found = fast_smallest(words, grid, air=air)
    assert found is not None
    survey, start = thorough_survey(words, grid, air=air, slack=0)
    other = smallest(words, grid, survey, start=start)
    assert found.area == pytest.approx(other.area, rel=3e-9)


def test_a_longer_text_has_the_same_smallest_outline() -> None:
    """Twenty-five words of many lengths."""
    words = box_words([2.0 + k * 7 % 11 for k in range(25)], space=0.8)
    grid = cells("ellipse", 1.0, 2.6, pieces=len(words))
    found = fast_smallest(words, grid, air=1.2)
    survey, start = thorough_survey(words, grid, air=1.2, slack=0)
    assert found is not None
    assert found.stack == smallest(words, grid, survey, start=start).stack


def test_what_it_cannot_tell_is_left_to_the_thorough_search() -> None:
    """Lines set anew, and texts with more stacks than can be listed."""
    grid = cells("ellipse", 1.0, 2.6, pieces=2)
    anew = box_words([4.0, 4.0], reshaped={(0, 1): box_line("AAAA BBBB", 20.0)})
    assert fast_smallest(anew, grid, air=1.0) is None
    many = box_words([3.0] * (MOST_PIECES + 1))
    assert fast_smallest(many, grid, air=1.0) is None
