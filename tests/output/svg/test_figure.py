"""The figure box: the figure stands in it, its head where the tails take it to be."""

import re

from letterfit.geometry import Rect
from letterfit.output.svg.figure import figure
from letterfit.place.silhouette import figure_in, head_in


def test_the_silhouette_stays_in_its_box() -> None:
    """No point of the drawn body lies outside the box."""
    box = Rect(100, 200, 10, 30)
    data = next(d for d in re.findall(r' d="([^"]+)"', figure(box)))
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", data)]
    assert all(box.x <= x <= box.right for x in numbers[::2])
    assert all(box.y <= y <= box.bottom for y in numbers[1::2])
    assert max(numbers[1::2]) == box.bottom


def test_the_head_is_drawn_where_the_tails_take_it_to_be() -> None:
    """The ellipse's box is the head's box, at the top of the figure, and the body joins it."""
    box = Rect(100, 200, 10, 30)
    drawn = figure(box)
    cx, cy, rx, ry = (
        float(re.findall(rf'{n}="([\d.]+)"', drawn)[0]) for n in ("cx", "cy", "rx", "ry")
    )
    head, own = head_in(box), figure_in(box)
    assert (cx - rx, cy - ry) == (round(head.x, 3), round(head.y, 3))
    assert own.y <= cy - ry < own.y + 0.01 * own.height
    data = next(d for d in re.findall(r' d="([^"]+)"', drawn))
    neck = min(float(n) for n in re.findall(r"-?[\d.]+", data)[1::2])
    assert neck < cy + ry
