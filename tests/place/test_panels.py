"""Many panels at once: each as if it were alone; what joins and what hangs over, to the checker."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse
from letterfit.place.checker import check_layout
from letterfit.place.measured import Case, measured
from letterfit.place.model import Speaker
from letterfit.place.problem import Batch
from letterfit.place.solver import PanelTask, place_outlines, place_panels
from letterfit.separation import gap
from tests.benchmarks.panels import heavy_panels
from tests.place.posed import posed
from tests.place.shapes import captions, ellipses, outlines, panels, voices

WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
WIDE = Rect(10, 20, 110, 60)


@st.composite
def tasks(draw: st.DrawFn) -> PanelTask:
    """A panel of up to five balloons, with or without a region to keep clear."""
    panel = draw(panels)
    menus = draw(st.lists(st.lists(outlines, min_size=1, max_size=4), max_size=5))
    region = Rect(panel.x + panel.width * 0.4, panel.y + panel.height * 0.6, 9, 7)
    return PanelTask(
        panel=panel,
        menus=menus,
        speakers=draw(voices(len(menus))),
        reading=draw(st.sampled_from(["ltr", "rtl"])),
        keep_clear=[region] if draw(st.booleans()) else [],
        ordered=draw(st.booleans()),
    )


@given(st.lists(tasks(), min_size=2, max_size=5))
@settings(max_examples=10, deadline=None)
def test_panels_together_are_placed_as_each_alone(many: list[PanelTask]) -> None:
    """To the last bit, whatever stands beside them and in whatever order."""
    together = place_panels(many)
    assert together == tuple(place_panels([task])[0] for task in many)
    assert together[::-1] == place_panels(many[::-1])


def test_no_panels_are_no_layouts() -> None:
    """Nothing in, nothing out."""
    assert place_panels([]) == ()


def test_faulty_panel_among_good_ones_is_refused() -> None:
    """Nothing is placed when one of the tasks is no task."""
    good = PanelTask(panel=WIDE, menus=[ellipses(300)])
    with pytest.raises(PageError, match="gap_mm"):
        place_panels([good, PanelTask(panel=WIDE, menus=[ellipses(300)], gap_mm=-1)])


@st.composite
def talks(draw: st.DrawFn) -> dict[str, Any]:
    """Two or three balloons of one speaker, joined, between what others say."""
    run = draw(st.integers(2, 3))
    before, after = draw(st.integers(0, 1)), draw(st.integers(0, 1))
    areas = draw(st.lists(st.floats(150, 420), min_size=5, max_size=5))
    menus = [ellipses(area) for area in areas[: before + run + after]]
    speakers = [PILOT] * before + [WENNA] * run + [PILOT] * after
    joined = [False] * (before + 1) + [True] * (run - 1) + [False] * after
    return {
        "menus": menus,
        "speakers": speakers,
        "joined": joined,
        "reading": draw(st.sampled_from(["ltr", "rtl"])),
        "overlap_mm": draw(st.sampled_from([0.5, 1.0])),
    }


@given(talks())
@settings(max_examples=10, deadline=None)
def test_joined_balloons_overlap_by_the_depth_asked_for(talk: dict[str, Any]) -> None:
    """And the layout passes the checker: one tail for the run, all else apart."""
    layout = place_outlines(WIDE, **talk)
    if layout.verdict != "placed":
        return
    assert [item.joined for item in layout.placed] == talk["joined"]
    for one, two in zip(layout.placed, layout.placed[1:], strict=False):
        apart = gap(one.outline, two.outline, dx=two.x_mm - one.x_mm, dy=two.y_mm - one.y_mm)
        if two.joined:
            assert apart == pytest.approx(-talk["overlap_mm"], abs=1e-3)
    terms = {name: talk[name] for name in ("joined", "reading", "overlap_mm")}
    assert check_layout(WIDE, layout, **terms) == ()


def test_joined_pair_is_placed_where_there_is_room() -> None:
    """Two speeches of one speaker, joined, in a panel that takes them easily."""
    layout = place_outlines(
        WIDE, [ellipses(300), ellipses(250)], speakers=[WENNA, WENNA], joined=[False, True]
    )
    assert layout.verdict == "placed"
    assert sum(item.tail is not None for item in layout.placed) == 1


@pytest.mark.parametrize(
    ("joined", "speakers"),
    [([True, False], [WENNA, WENNA]), ([False, True], [WENNA, PILOT]), ([True], [WENNA, WENNA])],
)
def test_what_cannot_be_joined_is_refused(joined: list[bool], speakers: list[Speaker]) -> None:
    """The first balloon, another speaker's, and answers that are too few."""
    with pytest.raises(PageError, match=r"joined") as caught:
        place_outlines(WIDE, [ellipses(200)] * 2, speakers=speakers, joined=joined)
    assert caught.value.advice


def test_balloon_that_may_be_cut_by_the_border_is_and_the_figure_gains() -> None:
    """Hung over the top border by what it may, it leaves the figure that and the margin more."""
    flat = [[Ellipse(half_width=50, half_height=10)]]
    inside = place_outlines(WIDE, flat, speakers=[WENNA])
    cut = place_outlines(WIDE, flat, speakers=[WENNA], overhangs=[[3.0]])
    assert (inside.placed[0].overhang_mm, cut.placed[0].overhang_mm) == (0.0, 3.0)
    assert cut.placed[0].y_mm == pytest.approx(WIDE.y + 7)
    assert cut.figure_height_mm > inside.figure_height_mm + 3
    assert check_layout(WIDE, cut, overhangs=[[3.0]]) == ()


@given(st.lists(st.floats(80, 500), min_size=1, max_size=4), st.floats(1, 4))
@settings(max_examples=10, deadline=None)
def test_cut_balloons_pass_the_checker(areas: list[float], over: float) -> None:
    """Each hangs over by exactly so much or keeps the margin; never does one kiss the border."""
    menus = [ellipses(area) for area in areas]
    overhangs = [[min(over, outline.half_height / 2) for outline in menu] for menu in menus]
    layout = place_outlines(WIDE, menus, speakers=[WENNA] * len(menus), overhangs=overhangs)
    assert check_layout(WIDE, layout, overhangs=overhangs) == ()


def test_every_layout_says_what_no_figure_exceeds() -> None:
    """The proved bound is no lower than the figure, and tells a panel that cannot do better."""
    full = [captions(107 * 12, (107 / 12,))]
    layout = place_outlines(WIDE, full)
    assert layout.figure_bound_mm == pytest.approx(layout.figure_height_mm, abs=1e-6)
    assert place_outlines(WIDE, []).figure_bound_mm == 60


def test_three_over_three_are_placed_where_they_just_go_in() -> None:
    """Two rows of three alike, as anyone would set them, with a fifth of a millimetre to spare."""
    panel = Rect(0, 0, 96.2, 36.7)
    layout = place_outlines(panel, [[Ellipse(half_width=15, half_height=8)]] * 6)
    assert layout.verdict == "placed"
    assert check_layout(panel, layout) == ()


@pytest.mark.parametrize("number", [135, 146, 195])
def test_heavy_panels_with_rows_of_three_are_placed(number: int) -> None:
    """By the milder rule of rows, and both readers take them in order."""
    task = heavy_panels()[number]
    layout = place_outlines(task.panel, task.menus, speakers=task.speakers)
    assert layout.verdict == "placed"
    assert check_layout(task.panel, layout) == ()


def test_layout_that_a_reader_would_take_otherwise_does_not_do() -> None:
    """By the milder rule of rows the two readers are asked: here one takes the third too early."""
    box = CaptionBox(half_width=15, half_height=5)
    tall = CaptionBox(half_width=10, half_height=20)
    panel, menus = Rect(0, 0, 100, 80), [[box], [tall], [box]]
    problem = posed((panel, menus))
    case = Case(panel, menus, PanelTask(panel=panel, menus=menus).terms())
    x, y = np.array([[45.0], [85.0], [20.0]]), np.array([[6.5], [21.5], [20.0]])
    early = Batch(np.array([0]), x, y, np.array([[0], [1], [2]]))
    below = replace(early, y=np.array([[6.5], [21.5], [48.0]]))
    mild = replace(problem, lenient=True)
    assert measured(case, mild, early) is None
    assert measured(case, mild, below) is not None
