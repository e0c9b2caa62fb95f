"""Shapes as polygons: areas by formula, and never further off a curve than is said."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.existing.curves import FLATNESS_MM, Pen, flattened
from letterfit.existing.rings import signed_area
from letterfit.existing.shapes import path_pen, shape_pen
from letterfit.existing.viewports import Frame
from letterfit.outline import Floats

FRAME = Frame(0, 0, 100, 200)


def rings(pen: Pen | None) -> list[Floats]:
    """The polygons of what a pen has drawn."""
    assert pen is not None
    chain = pen.chain()
    assert chain is not None
    return chain.polygons()


def area(tag: str, **attributes: str) -> float:
    """The area of a basic shape."""
    (ring,) = rings(shape_pen(tag, attributes, FRAME))
    return abs(signed_area(ring))


def test_basic_shapes_have_the_areas_of_geometry() -> None:
    """Rectangles, round corners, circles, ellipses, polygons: within the flatness all round."""
    assert area("rect", x="1", y="2", width="30", height="20") == pytest.approx(600)
    rounded = 600 - (4 - math.pi) * 3 * 5
    assert area("rect", width="30", height="20", rx="3", ry="5") == pytest.approx(rounded, rel=2e-4)
    assert area("rect", width="30", height="20", rx="4") == pytest.approx(
        600 - (4 - math.pi) * 16, rel=2e-4
    )
    assert area("circle", r="10") == pytest.approx(math.pi * 100, rel=4e-4)
    assert area("ellipse", rx="20", ry="5") == pytest.approx(math.pi * 100, rel=4e-4)
    assert area("polygon", points="0,0 10,0 10,10") == 50
    assert area("polyline", points="0,0 10,0 10,10") == 50


def test_radii_are_no_more_than_half_a_side() -> None:
    """SVG 2, section 10.2: a rect with too large an rx is an ellipse with straight sides."""
    assert area("rect", width="20", height="10", rx="90") == pytest.approx(math.pi * 50, rel=4e-4)


def test_percentages_are_of_the_viewport() -> None:
    """SVG 2, section 8.9: width, height, and the diagonal over root 2."""
    assert area("rect", width="50%", height="10%") == pytest.approx(50 * 20)
    radius = 0.1 * math.hypot(100, 200) / math.sqrt(2)
    assert area("circle", r="10%") == pytest.approx(math.pi * radius**2, rel=2e-4)


@pytest.mark.parametrize(
    ("tag", "attributes"),
    [
        ("rect", {"width": "-3", "height": "4"}),
        ("rect", {"width": "3"}),
        ("circle", {"r": "0"}),
        ("ellipse", {"rx": "0", "ry": "2"}),
        ("polygon", {"points": "1,2,x"}),
        ("polygon", {}),
    ],
)
def test_shapes_that_draw_nothing_are_none(tag: str, attributes: dict[str, str]) -> None:
    """Sizes of nothing, broken numbers."""
    assert shape_pen(tag, attributes, FRAME) is None


@pytest.mark.parametrize(
    ("data", "size"),
    [
        ("M0 0h10v10h-10z", 100),
        ("M0,0 10,0 10,10 0,10Z", 100),
        ("m5 5l10 0 0 10-10 0z m20 0h5v5h-5z", 125),
        ("M0 0Q5 10 10 0Z", 100 / 3),  # a parabola's segment: two thirds of 10 x 5
        ("M0 0q5 10 10 0t10 0Z", 0),
        ("M0 10A10 10 0 0 1 20 10A10 10 0 0 1 0 10Z", math.pi * 100),
        ("M0 0C0 10 10 10 10 0S20-10 20 0Z", 0),
    ],
)
def test_paths_are_those_of_the_grammar(data: str, size: float) -> None:
    """Relative, implicit, smooth and arc commands: SVG 2, section 9.3."""
    total = sum(signed_area(ring) for ring in rings(path_pen(data)))
    assert abs(total) == pytest.approx(size, abs=0.05)


@given(st.lists(st.floats(-50, 50), min_size=8, max_size=8))
@settings(max_examples=60)
def test_no_chord_is_further_off_than_is_said(values: list[float]) -> None:
    """Points of the curve itself lie within 0.002 mm of the polygon, by shapely."""
    curve = np.array(values).reshape(1, 4, 2)
    points, owner = flattened(curve)
    line = shapely.LineString(np.concatenate([curve[0, :1], points]))
    t = np.linspace(0, 1, 301)[:, None]
    s = 1 - t
    p = curve[0]
    true = s**3 * p[0] + 3 * s * s * t * p[1] + 3 * s * t * t * p[2] + t**3 * p[3]
    assert shapely.distance(line, shapely.points(true)).max() <= FLATNESS_MM + 1e-9
    assert (owner == 0).all()


def test_size_bounds_what_is_drawn() -> None:
    """The box of ends and handles; a long path is not looked at one by one."""
    pen = path_pen("M0 0C0 40 10 40 10 0Z")
    assert pen is not None
    assert pen.size() == (10, 40)
    long = path_pen("M0 0" + "h1v1" * 50)
    assert long is not None
    assert long.size() is None
