"""Outlines as Bezier chains: the right shape, cut where asked, drawn closed.

Checked with shapely, an independent planar geometry: polygons of 64 points to a curve are off the
curve by under 1e-4 of its size.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from letterfit.outline import (
    CaptionBox,
    Ellipse,
    Floats,
    Outline,
    RoundedRect,
    Superellipse,
)
from letterfit.output.svg.curves import at, chain, nearest, path_data, points_at, stretch

OUTLINES: tuple[Outline, ...] = (
    Ellipse(half_width=21, half_height=8),
    Superellipse(half_width=14, half_height=9, exponent=2.5),
    Superellipse(half_width=14, half_height=9, exponent=4),
    RoundedRect(half_width=16, half_height=7, radius=4.2),
    CaptionBox(half_width=16, half_height=4),
)
outlines = st.sampled_from(OUTLINES)


def polygon(curves: Floats) -> Polygon:
    """A chain as a polygon of 64 points to a curve."""
    return Polygon(points_at(curves, np.arange(64 * len(curves)) / 64))


@pytest.mark.parametrize("outline", OUTLINES)
def test_a_chain_has_the_outlines_area(outline: Outline) -> None:
    """The chain's area is the outline's own exact area, to 0.1 % (the superellipse's path's)."""
    assert polygon(chain(outline.svg_path())).area == pytest.approx(outline.area_mm2, rel=1e-3)


@pytest.mark.parametrize("outline", OUTLINES)
def test_a_chain_is_closed_and_continuous(outline: Outline) -> None:
    """Each curve starts where the one before ends."""
    curves = chain(outline.svg_path())
    assert np.allclose(curves[:, 3], np.roll(curves[:, 0], -1, axis=0), atol=1e-9)


def test_an_arc_is_drawn_exactly() -> None:
    """Points of an ellipse's chain satisfy its equation to 5e-6."""
    curves = chain(OUTLINES[0].svg_path())
    x, y = points_at(curves, np.linspace(0, len(curves), 200, endpoint=False)).T
    assert np.abs(np.hypot(x / 21, y / 8) - 1).max() < 5e-6


@pytest.mark.parametrize(
    ("flags", "share"), [("0 1", 0.25), ("1 1", 0.75), ("0 0", 0.25), ("1 0", 0.75)]
)
def test_the_four_arcs_between_two_points(flags: str, share: float) -> None:
    """Large and sweep flags choose among the four arcs of SVG 2, section 9.5.2."""
    curves = chain(f"M10 0A10 10 0 {flags} 0 10Z")
    dots = points_at(curves[:-1], np.linspace(0, len(curves) - 1 - 1e-9, 4000))
    arc = np.hypot(*np.diff(dots, axis=0).T).sum()
    assert arc == pytest.approx(2 * math.pi * 10 * share, rel=1e-3)


@given(outline=outlines, turn=st.floats(0, 2 * math.pi))
def test_the_nearest_point_of_a_point_on_the_outline_is_itself(
    outline: Outline, turn: float
) -> None:
    """A point of the chain is found again, to a hundredth of a micrometre."""
    curves = chain(outline.svg_path())
    point = at(curves, turn / (2 * math.pi) * len(curves))
    assert math.dist(at(curves, nearest(curves, point)), point) < 1e-5


@given(outline=outlines, start=st.floats(0, 0.999), end=st.floats(0, 0.999))
def test_two_stretches_make_the_whole(outline: Outline, start: float, end: float) -> None:
    """Cut at two points, the two parts add up to the length of the whole."""
    curves = chain(outline.svg_path())
    first, last = start * len(curves), end * len(curves)
    if abs(first - last) < 1e-3:
        return
    parts = length(stretch(curves, first, last)) + length(stretch(curves, last, first))
    assert parts == pytest.approx(length(curves), rel=1e-3)


def length(curves: Floats) -> float:
    """The length of curves by chords."""
    dots = points_at(curves, np.linspace(0, len(curves) - 1e-9, 200 * len(curves)))
    return float(np.hypot(*np.diff(dots, axis=0).T).sum())


@pytest.mark.parametrize("outline", OUTLINES)
def test_written_and_read_back_a_chain_is_the_same(outline: Outline) -> None:
    """Path data written from a chain makes the same chain, to a micrometre."""
    curves = chain(outline.svg_path())
    again = chain(path_data(curves))
    assert polygon(again).symmetric_difference(polygon(curves)).area < 1e-3 * outline.perimeter_mm
