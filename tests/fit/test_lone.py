"""The last search for a stack without a lone short word."""

from letterfit.fit.aspects import cells
from letterfit.fit.dressing import fit_words
from letterfit.fit.lone import without_lone_word
from tests.words import box_words


def test_a_stack_without_is_found() -> None:
    """Given room enough, "A" shares its line."""
    words = box_words([1.0, 6.0, 6.0])
    grid = cells("ellipse", 1.0, 2.6, pieces=3)
    found = without_lone_word(words, grid, most=900.0, air=1.2)
    assert found is not None
    assert found.stack[1] > 1
    assert found.area <= 900.0 * (1 + 1e-6)


def test_none_is_said_when_there_is_none() -> None:
    """In little more than the smallest outline, which needs the lone word, there is no other."""
    words = box_words([2.0, 2.0])
    grid = cells("ellipse", 0.5, 0.5, pieces=2)
    least = fit_words(words, aspect=(0.5, 0.5), slack=0)
    assert len(least.lines) == 2
    assert without_lone_word(words, grid, most=least.area_mm2 * 1.01, air=1.2) is None
