"""Lanes: figures of telling sizes in a panel, and who keeps clear of them."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.lanes import FIGURES, lanes_of
from letterfit.place.model import PlacedOutline
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Batch, Problem
from letterfit.place.terms import make_terms
from tests.place.shapes import outline_polygon, outlines

PANEL = Rect(0, 0, 90, 70)


def posed(*shapes: Outline) -> Problem:
    """One outline per balloon."""
    menus = [[shape] for shape in shapes]
    terms = make_terms(PANEL, menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=())
    return pose([Task(panel=PANEL, menus=menus, terms=terms, region_gap=1.5, limit=9000)])


@given(outlines)
@settings(max_examples=10, deadline=None)
def test_figures_stand_on_the_floor_inside_the_panel(shape: Outline) -> None:
    """Every box is of the figure's aspect, at most as tall as earns anything; one lane has none."""
    lanes = lanes_of(posed(shape))
    height = PANEL.height - lanes.top
    np.testing.assert_allclose(lanes.share, height / PANEL.height, atol=1e-12)
    assert len(height) == len(FIGURES)
    np.testing.assert_allclose(lanes.right - lanes.left, height / 3, atol=1e-9)
    assert (lanes.left >= -1e-9).all()
    assert (lanes.right <= PANEL.width + 1e-9).all()
    assert height.max() <= 0.8 * PANEL.height + 1e-9
    assert height.min() == 0


@given(outlines, st.floats(5, 85), st.floats(5, 65))
@settings(max_examples=100, deadline=None)
def test_what_is_called_clear_is_clear(shape: Outline, x: float, y: float) -> None:
    """No outline called clear overlaps the box, to shapely; one well away is called clear."""
    problem = posed(shape)
    lanes = lanes_of(problem)
    alone = Batch(np.array([0]), np.array([[x]]), np.array([[y]]), np.array([[0]]))
    told = lanes.clear(problem, alone)
    item = PlacedOutline(index=0, choice=0, outline=shape, x_mm=x, y_mm=y)
    polygon = outline_polygon(item, 2000)
    for lane in range(len(FIGURES)):
        left, top, right = (float(sides[lane, 0]) for sides in (lanes.left, lanes.top, lanes.right))
        figure = box(left, top, right, PANEL.height)
        if told[lane, 0]:
            assert polygon.intersection(figure).area < 1e-2
        else:
            # The table of 65 chords is rounded towards the figure.
            assert polygon.buffer(1.5).intersects(figure)
