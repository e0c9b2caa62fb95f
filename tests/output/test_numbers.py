"""Rounding on the way out: near, finite, never minus nought."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.output import numbers


@given(value=st.floats(-1e6, 1e6))
def test_a_length_is_rounded_to_the_nearest_thousandth(value: float) -> None:
    """The rounded length is at most half a micrometre away and never minus nought."""
    rounded = numbers.mm(value)
    assert abs(rounded - value) <= 0.0005 * (1 + 1e-9)
    assert math.copysign(1, rounded) == 1 or rounded < 0


@given(share=st.floats(0, 2))
def test_percents_keep_one_decimal(share: float) -> None:
    """A share of 1 becomes percent to a tenth."""
    assert abs(numbers.percent(share) - 100 * share) <= 0.05 * (1 + 1e-9)
    assert numbers.percent(share) == round(numbers.percent(share), 1)


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan])
def test_what_is_not_finite_is_absent(value: float) -> None:
    """There is no such number in JSON."""
    assert numbers.mm_or_none(value) is None


def test_no_size_is_no_size() -> None:
    """A largest size that does not exist stays absent; one that does is never rounded up."""
    assert numbers.points_down_or_none(None) is None
    assert numbers.points_down_or_none(6.4599) == 6.45
    assert numbers.points_down_or_none(6.4) == 6.4


@given(value=st.floats(0, 1e5))
def test_what_is_at_most_so_much_stays_at_most_so_much(value: float) -> None:
    """A bound is never rounded down past what rounding costs, nor up by more than a micrometre."""
    rounded = numbers.mm_up_or_none(value)
    assert rounded is not None
    assert -1e-8 <= rounded - value <= 0.001 + 1e-8
    assert numbers.mm_up_or_none(math.inf) is None
