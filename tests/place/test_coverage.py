"""Covered area against shapely's unions, clipped to the panel."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, union_all

from letterfit.geometry import Point, Rect
from letterfit.outline import Ellipse, Outline
from letterfit.place.coverage import covered_area
from letterfit.place.model import PlacedOutline, Speaker, Tail
from letterfit.place.solver import place_outlines
from letterfit.place.tails import with_tails
from letterfit.place.wedge import tail_polygon
from tests.place.shapes import outline_polygon, outlines, panels, wedge_polygon

PANEL = Rect(10, 20, 120, 80)
WENNA = Speaker(name="WENNA")


def union(panel: Rect, shapes: list[Polygon]) -> float:
    """The area of the union of shapes inside the panel."""
    frame = box(panel.x, panel.y, panel.right, panel.bottom)
    return float(union_all(shapes).intersection(frame).area)


@given(panels, st.lists(outlines, min_size=1, max_size=4))
@settings(max_examples=15, deadline=None)
def test_coverage_equals_the_area_of_the_union(panel: Rect, shapes: list[Outline]) -> None:
    """Outlines and tails together cover what shapely says their union covers."""
    names = ["WENNA", "PILOT"]
    speakers = [Speaker(name=names[i % 2]) for i in range(len(shapes))]
    layout = place_outlines(panel, [[shape] for shape in shapes], speakers=speakers)
    polygons = [outline_polygon(item) for item in layout.placed]
    # Shapely's wedges have 16 chords a side: by so much of their area they may be off.
    wedges = [wedge_polygon(item) for item in layout.placed if item.tail is not None]
    assert all(wedge.is_valid for wedge in wedges)
    slack = 0.01 * sum(wedge.area for wedge in wedges) + 1e-3
    if not any(finding.code == "tail-crosses" for finding in layout.findings):
        found = union(panel, [*polygons, *wedges])
        assert covered_area(panel, layout.placed) == pytest.approx(found, abs=slack)


@given(st.lists(outlines, min_size=2, max_size=3), st.floats(-0.6, 0.6), st.floats(0.3, 2))
@settings(max_examples=40, deadline=None)
def test_joined_outlines_count_once(shapes: list[Outline], lean: float, depth: float) -> None:
    """A run pushed together, its first balloon hanging over the border: to 1e-3 mm2."""
    first = PlacedOutline(
        index=0,
        choice=0,
        outline=shapes[0],
        x_mm=70,
        y_mm=PANEL.y + shapes[0].half_height - 1.5,
        overhang_mm=1.5,
    )
    placed = [first]
    angle = math.pi / 2 + lean
    for index, outline in enumerate(shapes[1:], start=1):
        before = placed[-1]
        away = float((before.outline.support(angle) + outline.support(angle)).item()) - depth
        x = before.x_mm + away * math.cos(angle)
        y = before.y_mm + away * math.sin(angle)
        placed.append(
            PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y, joined=True)
        )
    found = union(PANEL, [outline_polygon(item) for item in placed])
    thrice = len(placed) > 2 and outline_polygon(placed[0]).intersects(outline_polygon(placed[2]))
    if not thrice:
        assert covered_area(PANEL, placed) == pytest.approx(found, abs=1e-3 * len(placed))


@given(outlines, st.floats(30, 110), st.floats(60, 95))
@settings(max_examples=40, deadline=None)
def test_a_tail_adds_what_lies_outside_its_outline(outline: Outline, x: float, y: float) -> None:
    """The wedge less the sliver between its chord and its own outline, to 0.05 mm2."""
    item = PlacedOutline(index=0, choice=0, outline=outline, x_mm=70, y_mm=35)
    (tailed,), _ = with_tails(PANEL, [item], speakers=[WENNA], mouths=[Point(x, y)])
    assert tailed.tail is not None
    body = outline_polygon(item)
    wedge = Polygon([(p.x, p.y) for p in tail_polygon(tailed.tail, 400)])
    added = covered_area(PANEL, [tailed]) - covered_area(PANEL, [item])
    assert added == pytest.approx(wedge.difference(body).area, abs=0.05)


def test_a_tail_on_a_disc_by_hand() -> None:
    """A triangle on a chord of a disc: its area less the disc's segment beyond the chord."""
    disc = Ellipse(half_width=10, half_height=10)
    angle = 0.2
    x, y = 10 * math.sin(angle), 10 * math.cos(angle)
    tail = Tail(root=(Point(70 - x, 60 + y), Point(70 + x, 60 + y)), tip=Point(70, 80))
    item = PlacedOutline(index=0, choice=0, outline=disc, x_mm=70, y_mm=60, tail=tail)
    triangle = x * (20 - y)
    segment = 50 * (2 * angle - math.sin(2 * angle))
    found = covered_area(PANEL, [item]) - math.pi * 100
    assert found == pytest.approx(triangle - segment, abs=1e-6)
