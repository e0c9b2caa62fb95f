"""The checker that looks for another stack, against every breaking."""

import numpy as np
import pytest

from letterfit.families import FAMILIES
from letterfit.fit import looks
from letterfit.fit.dressing import fit_words
from letterfit.lettering.words import Words
from tests.fit.other_stacks import lone, other_stack
from tests.fit.texts import all_stacks, least_area, stack_of
from tests.words import box_words

AIR, NAME = 1.2, "ellipse"


def drawn(seed: int) -> Words:
    """Seven words, short ones at both ends."""
    draw = np.random.default_rng(seed)
    return box_words([2.0, *draw.uniform(2, 8, 5).tolist(), 2.0], space=0.8)


def least_without(words: Words) -> float:
    """The least area of a stack without a lone word, by enumeration."""
    kept = [
        stack
        for stack in all_stacks(words)
        if len(stack) == 2 or not any(lone(words, *end) for end in (stack[:2], stack[-2:]))
    ]
    aspect = FAMILIES[NAME].aspect
    return min(least_area(words, stack, NAME, air=AIR, aspect=aspect) for stack in kept)


@pytest.mark.parametrize("seed", range(3))
def test_it_finds_one_from_the_least_area_on(seed: int) -> None:
    """Given a little over the least area of such stacks it finds one; given less, none."""
    words = drawn(seed)
    least = least_without(words)
    found = other_stack(words, most=least * 1.02, air=AIR)
    assert found is not None
    assert not any(lone(words, *end) for end in (found[:2], found[-2:]))
    assert other_stack(words, most=least * 0.999, air=AIR) is None


def test_it_catches_a_fit_that_ignores_lone_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Planted fault: with lone words free the fit leaves three letters alone on the last line."""
    prices = [0.5, 0.4, 0.1, 0.1, 0.3, 0.4]
    words = box_words([8, 7, 8, 8, 6, 3], penalties=prices, space=0.8, leading=2.9, cap_height=1.8)
    monkeypatch.setattr(looks, "LONE_WORD", 0.0)
    faulty = stack_of(words, fit_words(words))
    assert lone(words, *faulty[-2:])
    most = fit_words(words, slack=0).area_mm2 * 1.06
    assert other_stack(words, most=most, air=AIR) is not None


def test_prices_and_the_form_are_kept() -> None:
    """Asked for stacks that rise and fall and end at no dear break, it finds such a one."""
    words = box_words([5.0] * 6, penalties=[0.0, 0.5, 0.5, 0.0, 0.5, 0.0], space=0.8)
    found = other_stack(words, most=600.0, air=AIR, shaped=True, priced=0.5)
    assert found is not None
    assert all(words.penalties[end - 1] < 0.5 for end in found[1:-1])
    one = other_stack(words, most=10.0, air=AIR)
    assert one is None
