"""The figure box: where it stands, and that it is drawn inside itself."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse
from letterfit.output.svg.figure import figure, stand
from letterfit.place.figure import figure_room
from letterfit.place.model import PlacedOutline, Tail

PANEL = Rect(10, 20, 60, 50)


def placed(x: float, y: float, *, tip: Point | None = None) -> PlacedOutline:
    """An ellipse somewhere in the panel."""
    tail = Tail(root=(Point(x - 1, y), Point(x + 1, y)), tip=tip) if tip else None
    shape = Ellipse(half_width=12, half_height=6)
    return PlacedOutline(index=0, choice=0, outline=shape, x_mm=x, y_mm=y, tail=tail)


@given(
    spots=st.lists(st.tuples(st.floats(22, 58), st.floats(26, 64)), max_size=3),
    aspect=st.sampled_from([1 / 3, 0.25, 0.5]),
)
def test_the_box_stands_clear_on_the_floor(spots: list[tuple[float, float]], aspect: float) -> None:
    """A box of the reported height is found, inside the panel and clear of every outline."""
    outlines = [placed(x, y) for x, y in spots]
    height = figure_room(PANEL, outlines, aspect=aspect)
    box = stand(PANEL, outlines, height=height, aspect=aspect)
    if height == 0:
        assert box is None
        return
    assert box is not None
    assert PANEL.holds(box, tolerance=1e-3)
    assert box.bottom == pytest.approx(PANEL.bottom)
    assert box.width == pytest.approx(height * aspect)
    slightly_less = box.inset(1e-3)
    for one in outlines:
        corners = [
            (x, y)
            for x in (slightly_less.x, slightly_less.right, slightly_less.centre.x)
            for y in (slightly_less.y, slightly_less.bottom)
        ]
        assert not any(one.outline.contains(x - one.x_mm, y - one.y_mm) for x, y in corners)


def test_the_figure_stands_where_the_tail_points() -> None:
    """Of the places that are free, the one under the tail's tip."""
    speaker = placed(30, 30, tip=Point(52, 40))
    box = stand(PANEL, [speaker], height=25, aspect=1 / 3)
    assert box is not None
    assert box.centre.x == pytest.approx(52)


def test_without_room_there_is_no_figure() -> None:
    """A height of nought, or a box wider than the panel, is not drawn."""
    assert stand(PANEL, [], height=0, aspect=1 / 3) is None
    assert stand(Rect(0, 0, 5, 50), [], height=45, aspect=1 / 3) is None
    wall = PlacedOutline(
        index=0, choice=0, outline=CaptionBox(half_width=30, half_height=25), x_mm=40, y_mm=45
    )
    assert stand(PANEL, [wall], height=10, aspect=1 / 3) is None


def test_the_silhouette_stays_in_its_box() -> None:
    """No point of the drawn body lies outside the box."""
    box = Rect(100, 200, 10, 30)
    data = next(d for d in re.findall(r' d="([^"]+)"', figure(box)))
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", data)]
    assert all(box.x <= x <= box.right for x in numbers[::2])
    assert all(box.y <= y <= box.bottom for y in numbers[1::2])
    assert max(numbers[1::2]) == box.bottom
