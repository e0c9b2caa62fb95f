"""Slanting lines: at 45 degrees, evenly apart, inside their rectangle from edge to edge."""

import re

from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Rect
from letterfit.output.svg.hatch import hatch

SIDES = st.floats(0.5, 80)


def lines(data: str) -> list[list[float]]:
    """The ends of each line."""
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", data)]
    return [numbers[k : k + 4] for k in range(0, len(numbers), 4)]


@given(width=SIDES, height=SIDES, gap=st.floats(0.5, 5))
def test_lines_run_from_edge_to_edge(width: float, height: float, gap: float) -> None:
    """Both ends lie on the rectangle's sides, the slope is one to one."""
    rect = Rect(3, 4, width, height)
    for x0, y0, x1, y1 in lines(hatch(rect, gap_mm=gap, crossed=True)):
        assert abs(abs(x1 - x0) - abs(y1 - y0)) < 3e-3
        for x, y in ((x0, y0), (x1, y1)):
            near = (abs(x - rect.x), abs(x - rect.right), abs(y - rect.y), abs(y - rect.bottom))
            assert min(near) < 2e-3
            assert rect.inset(-2e-3).holds(Rect(x, y, 1e-9, 1e-9))


def test_crossed_lines_are_twice_as_many() -> None:
    """They run both ways."""
    rect = Rect(0, 0, 30, 20)
    single, crossed = hatch(rect, gap_mm=3), hatch(rect, gap_mm=3, crossed=True)
    assert crossed.startswith(single)
    assert len(lines(crossed)) == 2 * len(lines(single)) > 20
