"""The reach of ink at the ends of lines: never more than a line's ink reaches."""

import numpy as np
import pytest
from hypothesis import given, settings

from letterfit.fit.ink import Ink
from letterfit.fit.profiles import COS, DOWN, SIN, UP, Profiles
from letterfit.lettering.words import Words
from tests.fit.texts import texts
from tests.words import box_words


@settings(max_examples=40)
@given(texts().filter(lambda words: words.forced.sum() == 1))
def test_a_lines_ends_reach_no_farther_than_its_ink(words: Words) -> None:
    """In every direction of the quadrant, over the middle and under it: a lower bound."""
    profiles = Profiles.of([words], air=0.0)
    half_cap = words.cap_height_mm / 2
    for first in range(len(words)):
        for last in range(first, len(words)):
            line = words.line(first, last)
            corners = line.corners() - [line.width_mm / 2, -half_cap]
            pair = 2 if last > first else 0
            for side, sign in ((UP, -1), (DOWN, 1)):
                folded = np.stack([np.abs(corners[:, 0]), sign * corners[:, 1]])
                reach = (folded[0] * COS[:, None] + folded[1] * SIN[:, None]).max(axis=1)
                half = line.width_mm / 2 * COS
                right = profiles.rights[side + pair, :, last] + half
                left = profiles.lefts[side + pair, :, first] + half
                assert np.all(np.maximum(right, left) <= reach + 1e-9)


def test_ends_of_plain_capitals_reach_as_far_as_their_ink() -> None:
    """Boxes as high as capitals: the ends are all there is to a line."""
    words = box_words([4.0, 6.0])
    profiles = Profiles.of([words], air=0.0)
    assert profiles.rights[UP, :, 1] == pytest.approx(words.cap_height_mm / 2 * SIN, abs=1e-9)
    assert profiles.lefts[DOWN, :, 0] == pytest.approx(words.cap_height_mm / 2 * SIN, abs=1e-9)
    assert profiles.bonus[0] == pytest.approx(0.0, abs=1e-9)


def test_heights_are_the_greatest_of_runs() -> None:
    """Level g holds the greatest of 2^g neighbours."""
    words = box_words([2.0] * 5, heights=[2.0, 2.5, 2.1, 2.9, 2.0])
    levels = Profiles.of([words], air=0.0).heights[:, UP]
    half_cap = words.cap_height_mm / 2
    assert levels[0] + half_cap == pytest.approx([2.0, 2.5, 2.1, 2.9, 2.0])
    assert levels[1][:4] + half_cap == pytest.approx([2.5, 2.5, 2.9, 2.9])
    assert levels[2][:2] + half_cap == pytest.approx([2.9, 2.9])


def test_the_ink_is_that_of_the_words() -> None:
    """What is measured exactly later is kept."""
    words = box_words([2.0, 3.0])
    (ink,) = Profiles.of([words], air=0.0).inks
    assert ink.boxes.tolist() == Ink.of(words).boxes.tolist()
