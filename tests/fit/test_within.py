"""Stacks in given outlines: they go in, and use the room they are given."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit.aspects import few_cells
from letterfit.fit.batch import is_plain
from letterfit.fit.capitals import ROOMY, STEP
from letterfit.fit.dressing import fit_words, fit_words_into
from letterfit.fit.ink import stack_points
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.fit.tight import tightest
from letterfit.fit.within import best_of_all, roomy_stack, tight_stack
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse
from letterfit.separation import clearance
from tests.fit.texts import airs, names, stack_of, texts
from tests.words import box_words

plain = texts().filter(is_plain)


@settings(max_examples=40)
@given(plain, names, airs, st.floats(0.8, 2.5))
def test_a_stack_goes_in_or_there_is_none_found(
    words: Words, name: str, air: float, over: float
) -> None:
    """By exact scales; and it fills not much more than the tightest would."""
    profiles = Profiles.of([words], air=air)
    (unit,) = few_cells(name, 1.5, 1.6, 1).shapes.outlines
    tight = tightest(profiles, unit)
    assert tight is not None
    outline = unit.scaled(over * tight.scale)
    stack = tight_stack(profiles, outline)
    if stack is None:
        assert over < 1.01
        return
    scale = float(line_scales(profiles.inks[0], outline, stack, air=air).max())
    assert scale <= 1 + 1e-9
    assert scale <= (1 + ROOMY) ** 0.5 / over * 1.05


@settings(max_examples=40)
@given(plain, names, airs, st.floats(1.1, 4))
def test_words_that_keep_together_go_in_with_their_ink(
    words: Words, name: str, air: float, over: float
) -> None:
    """The clearance told is true and no less than the air; room to spare is room enough."""
    small = fit_words(words, outline=name, air_mm=air, aspect=(1.5, 1.6), slack=0).outline
    outline = small.scaled(over)
    found = roomy_stack(words, outline, air=air)
    if found is None:
        return
    assert found.clearance_mm >= air
    assert found.clearance_mm == pytest.approx(
        clearance(outline, stack_points(words, found.stack)), abs=1e-6
    )
    assert fit_words_into(words, outline, air_mm=air).clearance_mm == found.clearance_mm


def test_capitals_keep_together_in_an_outline_a_little_larger_than_the_least() -> None:
    """Words of plain boxes are looked at by their advances as soon as there is that much room."""
    words = box_words([5.0, 7.0, 6.0, 4.0, 8.0, 5.0, 6.0, 3.0])
    small = fit_words(words, aspect=(1.5, 1.6), slack=0).outline
    enough = (1 + ROOMY) ** 0.5 * STEP
    assert roomy_stack(words, small.scaled(enough * 1.001), air=1.2) is not None
    assert roomy_stack(words, small.scaled(enough / STEP * 0.99), air=1.2) is None


def test_a_larger_outline_sets_words_that_keep_together_the_same_way() -> None:
    """However large it is."""
    words = box_words([5.0, 7.0, 6.0, 4.0, 8.0, 5.0, 6.0, 3.0])
    stacks = {
        stack_of(words, fit_words_into(words, Ellipse(half_width=3 * size, half_height=2 * size)))
        for size in (10.0, 14.0, 37.0, 200.0)
    }
    assert len(stacks) == 1


def test_tall_ink_is_seen_though_capitals_keep_together() -> None:
    """A letter that stands out of its line far above the others is kept clear."""
    words = box_words([6.0] * 6, heights=[2.0, 2.0, 9.0, 2.0, 2.0, 2.0])
    outline = fit_words(box_words([6.0] * 6), aspect=(1.5, 1.6)).outline.scaled(1.2)
    assert roomy_stack(box_words([6.0] * 6), outline, air=1.2) is not None
    found = fit_words_into(words, outline)
    assert not found.fits or found.clearance_mm >= 1.2 - 1e-9


def test_a_roomy_outline_breaks_by_sense() -> None:
    """A break that costs is not made where there is room to do without."""
    words = box_words([6.0] * 6, penalties=[0.0, 1.0, 0.0, 1.0, 0.0, 0.0])
    small = fit_words(words, slack=0)
    roomy = fit_words_into(words, small.outline.scaled(1.3))
    ends = [end - 1 for end in stack_of(words, roomy)[1:-1]]
    assert sum(words.penalties[end] for end in ends) == 0


def test_words_keep_together_in_a_roomy_outline() -> None:
    """They are not spread over one long line because it goes in."""
    words = box_words([5.0] * 12)
    roomy = fit_words_into(words, Ellipse(half_width=60, half_height=40))
    assert len(roomy.lines) >= 3
    assert roomy.looks > 0


def test_an_outline_without_room_holds_nothing() -> None:
    """No stack is found; the caller asks the thorough search."""
    words = box_words([9.0, 9.0])
    outline = Ellipse(half_width=4, half_height=3)
    assert roomy_stack(words, outline, air=1.0) is None
    assert best_of_all(words, outline, scale=1.0, air=1.0) is None
    assert tight_stack(Profiles.of([words], air=1.0), outline) is None
    assert not fit_words_into(words, outline).fits
