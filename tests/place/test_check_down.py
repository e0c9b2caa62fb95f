"""How far down a balloon must be: a table from below, read the same one by one and many at once."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.outline import Outline
from letterfit.place.check_down import down_at, down_once, downs
from letterfit.separation import gap
from tests.place.shapes import outlines


@given(outlines, outlines, st.floats(0, 1.1), st.sampled_from([0.0, 1.5, 3.0]))
@settings(max_examples=80, deadline=None)
def test_one_offset_is_read_as_many_are(
    one: Outline, two: Outline, share: float, apart: float
) -> None:
    """And what is read is never too far down: at it the gap is kept by no more than rounding."""
    table = downs(one, two, apart)
    offset = share * table.across
    down = down_once(table, offset)
    many = down_at(np.array([table.across]), table.down[None], np.array([offset]))
    assert many[0] == pytest.approx(down, abs=1e-9)
    if share < 1:
        kept = gap(one, two, dx=offset, dy=down)
        assert apart - 0.05 <= kept <= apart + 1e-6
    else:
        assert down == 0
