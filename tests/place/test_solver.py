"""Placing: layouts are legal to the checker and to shapely, and stand where letterers put them."""

import json
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from letterfit.errors import PageError
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.checker import check_layout
from letterfit.place.figure import figure_room
from letterfit.place.model import EFFORTS, PanelLayout, Speaker
from letterfit.place.quick import can_place
from letterfit.place.solver import PanelTask, place_outlines, place_panels
from tests.place.shapes import captions, ellipses, outline_polygon, outlines, panels, voices

WENNA, PILOT = Speaker(name="WENNA"), Speaker(name="PILOT")
WIDE = Rect(0, 0, 140, 70)


@st.composite
def tasks(draw: st.DrawFn) -> dict[str, Any]:
    """A panel, menus and speakers, some with a keep-clear region, in either direction."""
    panel = draw(panels)
    menus = draw(st.lists(st.lists(outlines, min_size=1, max_size=3), min_size=0, max_size=5))
    region = Rect(panel.x + panel.width * 0.4, panel.y + panel.height * 0.5, 12, 9)
    return {
        "panel": panel,
        "menus": menus,
        "speakers": draw(voices(len(menus))),
        "reading": draw(st.sampled_from(["ltr", "rtl"])),
        "keep_clear": [region] if draw(st.booleans()) else [],
        "ordered": draw(st.booleans()),
    }


def place(task: dict[str, Any]) -> PanelLayout:
    """The layout of a task."""
    rest = {name: value for name, value in task.items() if name not in ("panel", "menus")}
    return place_outlines(task["panel"], task["menus"], **rest)


@given(tasks())
@settings(max_examples=30, deadline=None)
def test_every_layout_passes_the_checker_and_shapely(task: dict[str, Any]) -> None:
    """What is called placed breaks no rule: not to the checker, not to fine polygons."""
    layout = place(task)
    terms = {name: task[name] for name in ("reading", "keep_clear", "ordered")}
    assert check_layout(task["panel"], layout, **terms) == ()
    polygons = [outline_polygon(item, 3000) for item in layout.placed]
    inner = task["panel"].inset(1.5)
    frame = box(inner.x, inner.y, inner.right, inner.bottom).buffer(1e-6)
    for polygon in polygons:
        assert frame.covers(polygon)
    for one, two in combinations(polygons, 2):
        assert not one.dwithin(two, 1.5 - 1e-6)
    for region in task["keep_clear"]:
        spot = box(region.x, region.y, region.right, region.bottom)
        assert all(polygon.intersection(spot).area < 1e-3 for polygon in polygons)


@given(tasks())
@settings(max_examples=12, deadline=None)
def test_same_task_has_the_same_layout(task: dict[str, Any]) -> None:
    """Placing is deterministic to the last bit."""
    assert place(task) == place(task)


@given(tasks())
@settings(max_examples=12, deadline=None)
def test_mirrored_page_is_laid_out_in_the_mirror(task: dict[str, Any]) -> None:
    """Read right to left, a panel's balloons stand where its mirror image has them."""
    panel = Rect(0, 0, task["panel"].width, task["panel"].height)
    task = {**task, "panel": panel, "keep_clear": []}
    other = place({**task, "reading": "rtl" if task["reading"] == "ltr" else "ltr"})
    layout = place(task)
    assert layout.verdict == other.verdict
    for one, two in zip(layout.placed, other.placed, strict=True):
        assert one.choice == two.choice
        assert one.x_mm == pytest.approx(panel.width - two.x_mm, abs=1e-6)
        assert one.y_mm == pytest.approx(two.y_mm, abs=1e-6)


@given(tasks())
@settings(max_examples=25, deadline=None)
def test_what_can_be_placed_is_placed(task: dict[str, Any]) -> None:
    """The quick answer yes is always made good, in roomy panels and in tight ones."""
    for share in (1.0, 0.6):
        panel = Rect(0, 0, task["panel"].width * share, task["panel"].height * share)
        if can_place(panel, task["menus"], reading=task["reading"], ordered=task["ordered"]):
            assert place({**task, "panel": panel, "keep_clear": []}).verdict == "placed"


def test_quick_answer_is_no_where_a_proof_says_so_and_yes_where_there_is_room() -> None:
    """Two balloons go into a wide panel, three times as many do not go into half of it."""
    menu = ellipses(900)
    assert can_place(WIDE, [menu, menu])
    assert not can_place(Rect(0, 0, 70, 70), [menu] * 6)
    assert can_place(WIDE, [])


def test_empty_panel_is_placed_with_room_for_a_whole_figure() -> None:
    """No balloons: nothing to do, all the height free."""
    layout = place_outlines(WIDE, [])
    assert (layout.verdict, layout.coverage, layout.figure_height_mm) == ("placed", 0.0, 70)


def test_balloon_alone_hangs_from_the_top() -> None:
    """One balloon goes to the top of the panel, at the margin."""
    item = place_outlines(WIDE, [ellipses(400)], speakers=[WENNA]).placed[0]
    assert item.y_mm - item.outline.half_height == pytest.approx(1.5)


def test_two_speakers_talk_in_a_row_from_their_own_sides() -> None:
    """In a wide panel the first stands left and highest, the second beside it, not below."""
    layout = place_outlines(WIDE, [ellipses(400), ellipses(350)], speakers=[WENNA, PILOT])
    first, second = layout.placed
    assert first.x_mm < WIDE.centre.x < second.x_mm
    assert second.y_mm - second.outline.half_height == pytest.approx(1.5, abs=0.5)


def test_opening_caption_stands_in_the_corner_read_first() -> None:
    """Top left for pages read left to right, top right for right to left."""
    menus = [captions(200), ellipses(400)]
    left = place_outlines(WIDE, menus, speakers=[None, WENNA]).placed[0]
    assert left.x_mm - left.outline.half_width == pytest.approx(1.5)
    assert left.y_mm - left.outline.half_height == pytest.approx(1.5)
    right = place_outlines(WIDE, menus, speakers=[None, WENNA], reading="rtl").placed[0]
    assert right.x_mm + right.outline.half_width == pytest.approx(140 - 1.5)


def test_captions_have_no_tail_and_speakers_have_one() -> None:
    """A tail for each speaker, none where nobody speaks."""
    layout = place_outlines(WIDE, [captions(200), ellipses(400)], speakers=[None, WENNA])
    assert [item.tail is None for item in layout.placed] == [True, False]


def test_balloons_lean_to_the_mouths_given() -> None:
    """With the first speaker at the right, its balloon stands right of where it would stand."""
    here = [replace(WENNA, mouth=Point(115, 40)), replace(PILOT, mouth=Point(125, 40))]
    there = [replace(WENNA, mouth=Point(20, 40)), replace(PILOT, mouth=Point(120, 40))]
    menus = [ellipses(250), ellipses(250)]
    right = place_outlines(WIDE, menus, speakers=here).placed[0].x_mm
    left = place_outlines(WIDE, menus, speakers=there).placed[0].x_mm
    assert right > left + 20


def test_figure_height_is_what_stands_clear_of_balloons() -> None:
    """The layout's own figure is figure_room's; two who talk stand no taller."""
    layout = place_outlines(WIDE, [ellipses(500), ellipses(500)], speakers=[WENNA, PILOT])
    room = figure_room(WIDE, layout.placed)
    assert layout.figure_height_mm == pytest.approx(room, abs=1e-6)
    assert [box.height <= room for box in layout.figures] == [True, True]


def test_coverage_limit_is_kept_with_the_tails() -> None:
    """A limit just over the balloons' own area leaves no room for tails over it."""
    menus = [ellipses(500), ellipses(400)]
    layout = place_outlines(WIDE, menus, speakers=[WENNA, PILOT], coverage_limit=0.1)
    assert layout.verdict == "placed"
    assert layout.coverage <= 0.1


def test_shape_that_looks_bad_is_left_where_another_does_as_well() -> None:
    """Whatever shape is chosen without prices: at a price of 3 another one is."""
    menus = [ellipses(400), ellipses(350)]
    talk = [WENNA, PILOT]
    plain = place_outlines(WIDE, menus, speakers=talk)
    for index, item in enumerate(plain.placed):
        prices = [[0.0] * len(menu) for menu in menus]
        assert place_outlines(WIDE, menus, speakers=talk, prices=prices) == plain
        prices[index][item.choice] = 3.0
        other = place_outlines(WIDE, menus, speakers=talk, prices=prices)
        assert other.placed[index].choice != item.choice


def test_shape_that_looks_bad_is_taken_when_it_buys_the_room_it_costs() -> None:
    """A shape that leaves 8 mm of 40 mm more to the figure is worth a price of 1, not of 4.

    Both shapes hang at the top of a panel 40 mm high and as wide as either: the figure is what is
    left under them, and a price of 1 is worth a tenth of the panel's height.
    """
    flat = Ellipse(half_width=13, half_height=9)
    high = Ellipse(half_width=12.9, half_height=13)
    panel = Rect(0, 0, 30, 40)
    chosen = [
        place_outlines(panel, [[flat, high]], prices=[[price, 0.0]]).placed[0].choice
        for price in (1.0, 4.0)
    ]
    assert chosen == [0, 1]


def test_round_balloons_are_the_second_choice() -> None:
    """Of two shapes of nearly one area in a roomy panel the one wider than tall is taken."""
    round_, wide = ellipses(300, (1.0,)), ellipses(302, (1.6,))
    layout = place_outlines(Rect(0, 0, 60, 90), [(*wide, *round_)], speakers=[WENNA])
    assert layout.placed[0].choice == 0


# Source of the radii: the published table of best known packings of n equal circles in the unit
# square (data file), closed forms and OEIS A281065.
CIRCLES = json.loads(
    (Path(__file__).parents[1] / "data" / "circles_in_unit_square.json").read_text("utf-8")
)


def _discs(count: int, radius: float) -> PanelLayout:
    disc: Outline = Ellipse(half_width=radius, half_height=radius)
    return place_outlines(
        Rect(0, 0, 60, 60), [[disc]] * count, gap_mm=0, margin_mm=0, ordered=False
    )


@pytest.mark.parametrize("case", CIRCLES[:10], ids=lambda case: str(case["n"]))
def test_equal_discs_come_near_the_best_packing_and_never_beat_it(case: dict[str, Any]) -> None:
    """At 0.9 of the best radius n discs are placed; at a thousandth over it they are not."""
    count, radius = case["n"], 60 * case["r"]
    layout = _discs(count, 0.9 * radius)
    assert layout.verdict == "placed"
    square = Rect(0, 0, 60, 60)
    assert check_layout(square, layout, gap_mm=0, margin_mm=0, ordered=False) == ()
    assert _discs(count, 1.001 * radius).verdict != "placed"


# Source: OEIS A038666, least area of a rectangle that holds squares of sides 1 .. n.
LEAST_AREA = {2: 6, 3: 15, 4: 35, 5: 60}


def _squares(count: int, *, width: float, height: float) -> PanelLayout:
    menus = [[CaptionBox(half_width=4 * n / 2, half_height=4 * n / 2)] for n in range(count, 0, -1)]
    panel = Rect(0, 0, 4 * width, 4 * height)
    return place_outlines(panel, menus, gap_mm=0, margin_mm=0, ordered=False)


@pytest.mark.parametrize("count", LEAST_AREA)
def test_squares_never_beat_the_smallest_rectangle_known(count: int) -> None:
    """No rectangle under the least area is ever said to hold the squares 1 .. n."""
    for width in range(count, 3 * count + 1):
        height = (LEAST_AREA[count] - 0.5) / width
        assert _squares(count, width=width, height=height).verdict != "placed"


@pytest.mark.parametrize(("count", "width", "height"), [(2, 3, 2), (3, 5, 3), (4, 7, 5)])
def test_squares_fill_the_smallest_rectangles_known(count: int, width: int, height: int) -> None:
    """The optimal rectangles of a few squares are filled, corner to corner."""
    assert _squares(count, width=width, height=height).verdict == "placed"


def test_two_hundred_balloons_end_in_a_verdict() -> None:
    """Far too many for the panel is proved; small ones in plenty of room end too."""
    heavy = place_outlines(WIDE, [ellipses(300)] * 200)
    assert heavy.verdict == "impossible"
    dots = [[Ellipse(half_width=1, half_height=0.8)]] * 200
    light = place_outlines(Rect(0, 0, 140, 120), dots, gap_mm=0.2)
    assert light.verdict in ("placed", "not found")
    assert check_layout(Rect(0, 0, 140, 120), light, gap_mm=0.2) == ()


def test_not_found_says_what_was_tried() -> None:
    """Where neither layout nor proof is found, the search is named."""
    case = CIRCLES[9]
    layout = _discs(10, 0.9999 * 60 * case["r"])
    if layout.verdict == "not found":
        assert "10 balloons" in layout.reason
    else:
        assert layout.verdict == "placed"


BAD: list[tuple[str, dict[str, Any]]] = [
    ("no outline", {"menus": [[]]}),
    ("gap_mm", {"gap_mm": float("nan")}),
    ("gap_mm", {"gap_mm": -1.0}),
    ("margin_mm", {"margin_mm": float("inf")}),
    ("coverage limit", {"coverage_limit": 0.0}),
    ("aspect", {"figure_aspect": float("nan")}),
    ("reading", {"reading": "up"}),
    ("2 speakers", {"speakers": [None, None]}),
    ("price", {"prices": [[0.0]]}),
    ("price", {"prices": [[0.0, 0.0, 0.0, -0.5]]}),
    ("price", {"prices": [[0.0, 0.0, 0.0, float("nan")]]}),
    ("mouth", {"speakers": [Speaker(name="WENNA", mouth=Point(float("nan"), 0))]}),
    ("convex", {"keep_clear": [(Point(0, 0), Point(5, 5))]}),
    ("convex", {"keep_clear": [(Point(0, 0), Point(9, 0), Point(2, 2), Point(0, 9))]}),
]


@pytest.mark.parametrize(("word", "change"), BAD)
def test_unusable_input_is_refused_with_advice(word: str, change: dict[str, Any]) -> None:
    """Bad numbers, empty menus and broken regions raise one line that says what to do."""
    task: dict[str, Any] = {"menus": [ellipses(300)], **change}
    with pytest.raises(PageError, match=word) as caught:
        place_outlines(WIDE, **task)
    assert caught.value.advice


def test_panel_larger_than_any_page_is_refused() -> None:
    """A panel a thousand kilometres wide is a mistake of units."""
    with pytest.raises(PageError, match="millimetres"):
        place_outlines(Rect(0, 0, 1e9, 50), [ellipses(300)])


def test_menus_of_a_thousand_outlines_end_in_a_verdict() -> None:
    """Long menus are thinned for the search, and no proof runs away with them."""
    menu = ellipses(900, tuple(1 + i / 400 for i in range(1000)))
    for width in (40, 60, 120):
        panel = Rect(0, 0, width, 50)
        layout = place_outlines(panel, [menu] * 3)
        assert check_layout(panel, layout) == ()


def test_margin_that_leaves_nothing_is_a_verdict() -> None:
    """A panel smaller than its margins is no error: nothing goes in."""
    layout = place_outlines(Rect(0, 0, 10, 10), [ellipses(20)], margin_mm=6)
    assert (layout.verdict, layout.reason.split(":")[0]) == ("impossible", "shape")


def test_keep_clear_over_the_whole_panel_finds_nothing() -> None:
    """Nothing can stand clear of everything: not found, in a moment."""
    layout = place_outlines(WIDE, [ellipses(300)], keep_clear=[WIDE])
    assert layout.verdict == "not found"


@pytest.mark.parametrize("count", [64, 65])
def test_a_panel_of_too_many_balloons_is_not_searched(count: int) -> None:
    """Sixty-four are placed; of one more it is said that nobody looked, not that none go in."""
    panel, menus = Rect(0, 0, 600, 600), [[Ellipse(half_width=8, half_height=4)]] * count
    layout = place_outlines(panel, menus)
    assert layout.verdict == ("placed" if count == 64 else "not found")
    assert layout.reason == (
        "" if count == 64 else "65 balloons in one panel: no layout is looked for of more than 64"
    )
    assert can_place(panel, menus) == (count == 64)


def test_an_unknown_effort_is_refused() -> None:
    """With the ones that there are."""
    menu = [Ellipse(half_width=14, half_height=8)]
    task = PanelTask(panel=Rect(0, 0, 60, 40), menus=[menu], effort="great")  # type: ignore[arg-type]
    with pytest.raises(PageError, match="unknown effort 'great'; give brief, usual, thorough"):
        place_panels([task])


def test_less_effort_says_sooner_that_nothing_was_found() -> None:
    """Where thorough work ends in a proof, the usual and the brief search find nothing."""
    menus = [[Ellipse(half_width=12, half_height=6)]] * 4
    panel = Rect(0, 0, 50, 34)
    tasks = [PanelTask(panel=panel, menus=menus, effort=effort) for effort in EFFORTS]
    assert [one.verdict for one in place_panels(tasks)] == ["not found", "not found", "impossible"]
