"""Vertical positions of the lines of a stack."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from letterfit.fit.stack import baselines, half_leadings


@given(st.integers(1, 40), st.floats(0.1, 9), st.floats(0.1, 9))
def test_capitals_are_centred(count: int, leading: float, cap: float) -> None:
    """Cap height of the first line and baseline of the last are equally far from the centre."""
    rows = baselines(count, leading_mm=leading, cap_height_mm=cap)
    np.testing.assert_allclose(rows[0] - cap, -rows[-1], atol=1e-9)


@given(st.integers(2, 40), st.floats(0.1, 9), st.floats(0.1, 9))
def test_baselines_are_one_leading_apart(count: int, leading: float, cap: float) -> None:
    """From line to line the distance is the leading."""
    rows = baselines(count, leading_mm=leading, cap_height_mm=cap)
    np.testing.assert_allclose(np.diff(rows), leading, rtol=1e-9)


@given(st.integers(1, 40))
def test_places_are_symmetric_whole_numbers(count: int) -> None:
    """The middles of the lines stand at the same places over and under the centre."""
    places = half_leadings(count)
    assert places.tolist() == (-places[::-1]).tolist()
    assert set(np.diff(places).tolist()) <= {2}
