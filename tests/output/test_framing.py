"""Framing: how much of a figure a panel's figure room shows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.output.framing import FRAMES, NO_FIGURE, framing

ORDER = [name for _, name in FRAMES] + [NO_FIGURE]


@pytest.mark.parametrize(
    ("share", "name"),
    [(1.0, "full"), (0.5, "full"), (0.49, "knees"), (0.3, "waist"), (0.15, "chest"),
     (0.08, "head"), (0.0, "none")],
)  # fmt: skip
def test_framing_by_share(share: float, name: str) -> None:
    """Half the panel's height takes a whole figure; less takes the view closer."""
    assert framing(share) == name


@given(a=st.floats(0, 1), b=st.floats(0, 1))
def test_more_room_never_brings_the_view_closer(a: float, b: float) -> None:
    """Framing is monotone in the figure room."""
    low, high = sorted((a, b))
    assert ORDER.index(framing(high)) <= ORDER.index(framing(low))
