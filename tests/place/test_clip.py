"""What is cut off outlines, against shapely and against the outlines' own `contains`."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from letterfit.drawn.burst import Burst
from letterfit.drawn.cloud import Cloud
from letterfit.drawn.plain_lines import Squared, Whisper
from letterfit.outline import Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.clip import cap_area, half_chords, lens_area, line_polygon
from letterfit.place.figure import half_chord
from letterfit.place.model import PlacedOutline
from tests.place.shapes import outline_polygon, outlines

CORE = Superellipse(half_width=15, half_height=9)
DRAWN = (
    Whisper(core=Ellipse(half_width=12, half_height=7)),
    Squared(core=RoundedRect(half_width=12, half_height=7, radius=4)),
    Cloud(core=CORE, lobes=14),
    Burst(core=Ellipse(half_width=15, half_height=9), points=16),
)
UNEVEN = DRAWN[2:]


def at(x: float, y: float, outline: Outline, *, index: int = 0) -> PlacedOutline:
    """An outline at its place."""
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


def cells(start: float, end: float, count: int) -> list[float]:
    """The middles of equal parts of an interval."""
    return [start + (end - start) * (k + 0.5) / count for k in range(count)]


@given(outlines, st.floats(-1.2, 1.2))
@settings(max_examples=60, deadline=None)
def test_cap_is_what_lies_above_the_line(outline: Outline, share: float) -> None:
    """Shapely cuts the same outline, a polygon of 20,000 corners, at the same line."""
    item = at(3, 5, outline)
    line = item.y_mm + share * outline.half_height
    polygon = outline_polygon(item)
    above = polygon.intersection(box(-100, -100, 100, line)).area
    assert cap_area(item, line) == pytest.approx(above, abs=1e-3)


@given(outlines, outlines, st.floats(0, 2 * math.pi), st.floats(0.1, 3))
@settings(max_examples=80, deadline=None)
def test_lens_is_what_two_outlines_share(
    one: Outline, two: Outline, angle: float, depth: float
) -> None:
    """Pushed together to any depth on any side, they share what shapely says, to 1e-3 mm2."""
    away = float((one.support(angle) + two.support(angle)).item()) - depth
    first = at(40, 30, one)
    second = at(40 + away * math.cos(angle), 30 + away * math.sin(angle), two, index=1)
    shared = outline_polygon(first).intersection(outline_polygon(second)).area
    assert lens_area(first, second) == pytest.approx(shared, abs=1e-3)


def test_lens_above_the_line_is_not_counted() -> None:
    """Two discs side by side, halved by the line: half of the lens."""
    disc = Ellipse(half_width=5, half_height=5)
    pair = at(0, 0, disc), at(8, 0, disc, index=1)
    assert lens_area(*pair, top=0.0) == pytest.approx(lens_area(*pair) / 2, abs=1e-4)
    # Two discs of radius r, 2 d apart: 2 (r^2 acos(d / r) - d sqrt(r^2 - d^2)).
    exact = 2 * (25 * math.acos(0.8) - 4 * 3)
    assert lens_area(*pair) == pytest.approx(exact, abs=1e-4)


def test_outlines_apart_share_nothing() -> None:
    """Neither beside nor below each other."""
    disc = Ellipse(half_width=5, half_height=5)
    assert lens_area(at(0, 0, disc), at(11, 0, disc)) == 0
    assert lens_area(at(0, 0, disc), at(0, 11, disc)) == 0


@pytest.mark.parametrize("outline", DRAWN, ids=lambda outline: outline.kind)
def test_drawn_lines_are_cut_along_the_line_itself(outline: Outline) -> None:
    """A fine grid of points asked with `contains` has the same share above the line."""
    item, line = at(0, 0, outline), -0.7 * outline.half_height
    xs = cells(-outline.half_width, outline.half_width, 120)
    ys = cells(-outline.half_height, line, 24)
    held = sum(outline.contains(x, y) for x in xs for y in ys) / (len(xs) * len(ys))
    asked = held * 2 * outline.half_width * (line + outline.half_height)
    assert cap_area(item, line) == pytest.approx(asked, rel=0.02)


@pytest.mark.parametrize("outline", UNEVEN, ids=lambda outline: outline.kind)
def test_uneven_lines_are_polygons_of_their_own_area(outline: Outline) -> None:
    """The polygon has the line's exact area to a thousandth; cut far below, so has its cap."""
    x, y = line_polygon(outline).T
    shoelace = abs(float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())) / 2
    assert shoelace == pytest.approx(outline.area_mm2, rel=2e-3)
    assert cap_area(at(0, 0, outline), 50.0) == pytest.approx(shoelace)


@pytest.mark.parametrize("outline", UNEVEN, ids=lambda outline: outline.kind)
def test_uneven_lines_share_what_both_contain(outline: Outline) -> None:
    """Points that both contain take up the same area, to 0.1 mm2 and two hundredths."""
    first, second = at(0, 0, outline), at(4, 14, outline, index=1)
    xs = cells(4 - outline.half_width, outline.half_width, 120)
    ys = cells(14 - outline.half_height, outline.half_height, 30)
    both = sum(outline.contains(x, y) and outline.contains(x - 4, y - 14) for x in xs for y in ys)
    box_area = (2 * outline.half_width - 4) * (2 * outline.half_height - 14)
    asked = both / (len(xs) * len(ys)) * box_area
    assert lens_area(first, second) == pytest.approx(asked, abs=0.1, rel=0.02)


@given(outlines, st.floats(-1.1, 1.1))
@settings(max_examples=60, deadline=None)
def test_chords_of_many_levels_are_those_of_one(outline: Outline, share: float) -> None:
    """Inside the outline the two ways of taking a chord agree."""
    offset = share * outline.half_height
    (many,) = half_chords(outline, np.array([offset])).tolist()
    if abs(offset) < outline.half_height:
        assert many == pytest.approx(half_chord(outline, offset), abs=1e-6)
