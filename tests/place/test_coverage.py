"""Covered area against shapely's unions."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box, union_all

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place import Speaker, covered_area, place_outlines
from tests.place.shapes import outline_polygon, outlines, panels, wedge_polygon


@given(panels, st.lists(outlines, min_size=1, max_size=4))
@settings(max_examples=15, deadline=None)
def test_coverage_equals_the_area_of_the_union(panel: Rect, shapes: list[Outline]) -> None:
    """Outlines and tails together cover what shapely says their union covers."""
    names = ["WENNA", "PILOT"]
    speakers = [Speaker(name=names[i % 2]) for i in range(len(shapes))]
    layout = place_outlines(panel, [[shape] for shape in shapes], speakers=speakers)
    polygons = [outline_polygon(item, 4000) for item in layout.placed]
    wedges = [wedge_polygon(item) for item in layout.placed]
    frame = box(panel.x, panel.y, panel.right, panel.bottom)
    union = union_all([*polygons, *wedges]).intersection(frame).area
    slack = 0.01 * sum(wedge.area for wedge in wedges) + 1e-5 * sum(p.area for p in polygons)
    if not layout.findings:
        assert covered_area(panel, layout.placed) == pytest.approx(union, abs=slack + 1e-9)
