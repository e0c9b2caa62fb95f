"""Stacks in given outlines by the fast search: they go in, and use the room they are given."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit import fit_words, fit_words_into
from letterfit.fit.aspects import few_cells
from letterfit.fit.batch import is_plain
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.fit.tight import tightest
from letterfit.fit.within import ROOMY, stack_within
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse
from tests.fit.texts import airs, names, stack_of, texts
from tests.words import box_words


@settings(max_examples=40)
@given(texts().filter(is_plain), names, airs, st.floats(0.8, 2.5))
def test_a_stack_goes_in_or_there_is_none_found(
    words: Words, name: str, air: float, over: float
) -> None:
    """By exact scales; and it fills not much more than the tightest would."""
    profiles = Profiles.of([words], air=air)
    (unit,) = few_cells(name, 1.5, 1.6, 1).shapes.outlines
    tight = tightest(profiles, unit)
    assert tight is not None
    outline = unit.scaled(over * tight.scale)
    stack = stack_within(profiles, outline)
    if stack is None:
        assert over < 1.01
        return
    scale = float(line_scales(profiles.inks[0], outline, stack, air=air).max())
    assert scale <= 1 + 1e-9
    assert scale <= (1 + ROOMY) ** 0.5 / over * 1.05


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
    profiles = Profiles.of([box_words([9.0, 9.0])], air=1.0)
    assert stack_within(profiles, Ellipse(half_width=4, half_height=3)) is None
    with pytest.raises(AssertionError):
        assert fit_words_into(box_words([9.0, 9.0]), Ellipse(half_width=4, half_height=3)).fits
