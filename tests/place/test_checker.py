"""Every rule of the checker has a planted fault that it catches."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse
from letterfit.place import (
    PanelLayout,
    PlacedOutline,
    Speaker,
    Tail,
    check_layout,
    figure_room,
    place_outlines,
)
from letterfit.place.silhouette import mouth_in
from tests.place.hand_made import hand_made, joint
from tests.place.shapes import ellipses

PANEL = Rect(10, 20, 110, 70)
SPEAKERS = (Speaker(name="WENNA"), Speaker(name="PILOT"), Speaker(name="WENNA"))
SOUND = place_outlines(PANEL, [ellipses(420), ellipses(300), ellipses(250)], speakers=SPEAKERS)


def moved(layout: PanelLayout, index: int, *, dx: float = 0, dy: float = 0) -> PanelLayout:
    """The layout with one balloon and its tail moved."""
    placed = list(layout.placed)
    item = placed[index]
    assert item.tail is not None
    tail = Tail(
        root=(_moved(item.tail.root[0], dx, dy), _moved(item.tail.root[1], dx, dy)),
        tip=_moved(item.tail.tip, dx, dy),
        bend=None if item.tail.bend is None else _moved(item.tail.bend, dx, dy),
    )
    placed[index] = replace(item, x_mm=item.x_mm + dx, y_mm=item.y_mm + dy, tail=tail)
    return replace(layout, placed=tuple(placed))


def _moved(point: Point, dx: float, dy: float) -> Point:
    return Point(point.x + dx, point.y + dy)


def tailed(layout: PanelLayout, index: int, tail: Tail) -> PanelLayout:
    """The layout with one tail replaced."""
    placed = list(layout.placed)
    placed[index] = replace(placed[index], tail=tail)
    return replace(layout, placed=tuple(placed))


def renumbered(layout: PanelLayout, order: tuple[int, ...]) -> PanelLayout:
    """The layout with its balloons in another script order."""
    items = tuple(replace(item, index=order[item.index]) for item in layout.placed)
    return replace(layout, placed=tuple(sorted(items, key=lambda item: item.index)))


def codes(findings: tuple[Finding, ...]) -> set[str]:
    """The codes found."""
    return {finding.code for finding in findings}


def test_sound_layout_passes() -> None:
    """The layout that the faults are planted in has none."""
    assert SOUND.verdict == "placed"
    assert check_layout(PANEL, SOUND) == ()


def _tail(index: int) -> Tail:
    tail = SOUND.placed[index].tail
    assert tail is not None
    return tail


def _cross(first: PlacedOutline, last: PlacedOutline) -> tuple[PlacedOutline, ...]:
    """Two tailless balloons, each with a straight tail that crosses the other's."""
    return tuple(
        replace(item, tail=_straight(item, Point(other.x_mm, item.y_mm + 22)))
        for item, other in ((first, last), (last, first))
    )


def _straight(item: PlacedOutline, tip: Point) -> Tail:
    """A straight tail from the lowest part of an ellipse."""
    a, b = item.outline.half_width, item.outline.half_height
    down = b * (1 - (1.5 / a) ** 2) ** 0.5
    left, right = (Point(item.x_mm + x, item.y_mm + down) for x in (-1.5, 1.5))
    return Tail(root=(left, right), tip=tip)


def at(
    index: int, x: float, y: float, *, a: float = 15, b: float = 6, **rest: float
) -> PlacedOutline:
    """An ellipse at its place."""
    outline = Ellipse(half_width=a, half_height=b)
    over = rest.get("overhang_mm", 0.0)
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y, overhang_mm=over)


def captioned(index: int, x: float, y: float, *, a: float, b: float) -> PlacedOutline:
    """A caption box at its place."""
    outline = CaptionBox(half_width=a, half_height=b)
    return PlacedOutline(index=index, choice=0, outline=outline, x_mm=x, y_mm=y)


ONE, TWO = at(0, 28, 29), at(1, 70, 30)
JOINT = joint(ONE, Ellipse(half_width=12, half_height=6), dx=14, overlap_mm=1)
HANGING = at(0, 28, 22, overhang_mm=4)
TAILED = replace(ONE, tail=_straight(ONE, Point(40, 55)))
LEFT_TAILED = replace(ONE, tail=_straight(ONE, Point(20, 55)))
LINKED = replace(TAILED, tail=replace(_straight(ONE, Point(TWO.x_mm - 15.1, TWO.y_mm)), to=1))
ROOM = figure_room(PANEL, (ONE, TWO))
FIGURE = Rect(95, PANEL.bottom - ROOM, ROOM / 3, ROOM)
# Found by a random search of layouts whose pairs are all in order.
MISREAD = (
    captioned(0, 36, 53, a=4, b=12),
    captioned(1, 103, 48, a=13, b=3),
    captioned(2, 69, 56, a=15, b=3),
)
LEGAL: dict[str, tuple[PanelLayout, dict[str, Any]]] = {
    "two balloons": (hand_made(PANEL, (ONE, TWO)), {"joined": (), "menus": [[ONE.outline]] * 2}),
    "a joined pair": (hand_made(PANEL, (ONE, JOINT)), {"joined": (False, True)}),
    "a joined pair with one tail": (hand_made(PANEL, (LEFT_TAILED, JOINT)), {}),
    "one that hangs over": (hand_made(PANEL, (HANGING, TWO)), {"overhangs": [[4.0], [0.0]]}),
    "a link": (hand_made(PANEL, (LINKED, TWO)), {}),
    "misread boxes, order not asked": (hand_made(PANEL, MISREAD), {"ordered": False}),
    "a sound one": (SOUND, {}),
}


@pytest.mark.parametrize("name", LEGAL)
def test_legal_layout_passes(name: str) -> None:
    """Each layout that faults are planted in has none."""
    layout, terms = LEGAL[name]
    assert layout.verdict == "placed"
    assert check_layout(PANEL, layout, **terms) == ()


def _of(*items: PlacedOutline, **terms: Any) -> tuple[PanelLayout, dict[str, Any]]:  # noqa: ANN401
    return hand_made(PANEL, items), terms


def _sound(**changes: Any) -> tuple[PanelLayout, dict[str, Any]]:  # noqa: ANN401
    return replace(SOUND, **changes), {}


FAULTS: dict[str, list[Callable[[], tuple[PanelLayout, dict[str, Any]]]]] = {
    "balloon-numbers": [
        lambda: _of(ONE, replace(TWO, index=2)),
        lambda: _of(ONE, joined=(False, False)),
        lambda: _of(ONE, TWO, menus=[[ONE.outline]]),
        lambda: _of(replace(ONE, index=-1), replace(TWO, index=0)),
    ],
    "not-on-menu": [
        lambda: _of(ONE, TWO, menus=[[ONE.outline], ellipses(200)]),
        lambda: _of(ONE, replace(TWO, choice=1), menus=[[ONE.outline]] * 2),
        lambda: _of(ONE, replace(TWO, choice=-1), menus=[[ONE.outline]] * 2),
    ],
    "joined-asked": [
        lambda: _of(ONE, TWO, joined=(False, True)),
        lambda: _of(ONE, JOINT, joined=()),
        lambda: _of(replace(ONE, joined=True), TWO),
    ],
    "overhang": [
        lambda: _of(HANGING, TWO),
        lambda: _of(HANGING, TWO, overhangs=[[3.9], [0.0]]),
        lambda: _of(replace(HANGING, y_mm=22.1), TWO, overhangs=[[4.0], [0.0]]),
        lambda: _of(replace(HANGING, choice=1), TWO, overhangs=[[4.0], [0.0]]),
        lambda: _of(replace(ONE, overhang_mm=4.0), TWO, overhangs=[[4.0], [0.0]]),
    ],
    "outside-panel": [
        lambda: _of(replace(ONE, x_mm=26.4), TWO),
        lambda: _of(ONE, replace(TWO, x_mm=103.6)),
        lambda: _of(replace(ONE, y_mm=27.4), TWO),
        lambda: _of(ONE, replace(TWO, y_mm=82.6)),
        lambda: _of(HANGING, replace(TWO, y_mm=22), overhangs=[[4.0], [4.0]]),
        lambda: _of(replace(HANGING, x_mm=26.4), TWO, overhangs=[[4.0], [0.0]]),
    ],
    "too-close": [
        lambda: _of(ONE, replace(TWO, x_mm=59.4)),
        lambda: _of(ONE, JOINT, at(2, 62, 38, a=8, b=4)),
    ],
    "joined-overlap": [
        lambda: _of(ONE, replace(JOINT, y_mm=JOINT.y_mm + 0.01)),
        lambda: _of(ONE, replace(JOINT, y_mm=JOINT.y_mm - 0.01)),
        lambda: _of(ONE, JOINT, overlap_mm=1.5),
        lambda: _of(ONE, replace(TWO, joined=True)),
    ],
    "on-keep-clear": [
        lambda: _of(ONE, TWO, keep_clear=[Rect(84, 20, 8, 30)]),
        lambda: _of(HANGING, TWO, overhangs=[[4.0], [0.0]], keep_clear=[Rect(20, 20, 8, 2)]),
    ],
    "order-pair": [
        lambda: _of(ONE, replace(TWO, y_mm=28.5)),
        lambda: _of(ONE, joint(ONE, Ellipse(half_width=12, half_height=10), dx=21.4, overlap_mm=1)),
    ],
    "order-reader": [lambda: (hand_made(PANEL, MISREAD), {})],
    "tail-root": [
        lambda: (
            tailed(
                SOUND,
                0,
                replace(_tail(0), root=(_moved(_tail(0).root[0], 0, 0.05), _tail(0).root[1])),
            ),
            {},
        )
    ],
    "tail-link": [
        lambda: _of(replace(LINKED, tail=replace(_tail_of(LINKED), to=0)), TWO),
        lambda: _of(replace(LINKED, tail=replace(_tail_of(LINKED), to=2)), TWO),
        lambda: _of(replace(LINKED, tail=replace(_tail_of(LINKED), tip=Point(54, 30))), TWO),
    ],
    "tail-outside": [
        lambda: _of(replace(TAILED, tail=_straight(ONE, Point(9.9, 40))), TWO),
        lambda: _of(ONE, replace(TWO, tail=_straight(TWO, Point(70, 91)))),
    ],
    "tail-on-balloon": [
        lambda: _of(replace(TAILED, tail=_straight(ONE, Point(60, 30))), TWO),
        lambda: _of(replace(TAILED, tail=_straight(ONE, Point(42, 45))), JOINT),
    ],
    "tail-on-keep-clear": [lambda: _of(TAILED, TWO, keep_clear=[Rect(38, 50, 10, 10)])],
    "tails-cross": [lambda: _of(*_cross(ONE, replace(TWO, y_mm=29.0)))],
    "tail-on-face": [
        lambda: (
            hand_made(
                PANEL,
                (ONE, replace(TWO, tail=_straight(TWO, mouth_in(FIGURE)))),
                figures=(FIGURE,),
            ),
            {},
        )
    ],
    "joined-tails": [
        lambda: _of(LEFT_TAILED, replace(JOINT, tail=_straight(JOINT, Point(60, 60)))),
    ],
    "coverage": [
        lambda: _sound(coverage=SOUND.coverage + 0.001),
        lambda: _sound(coverage=SOUND.coverage - 0.001),
        lambda: (SOUND, {"coverage_limit": 0.1}),
        lambda: _sound(coverage=float("nan")),
    ],
    "figure-place": [
        lambda: _sound(figures=tuple(box.moved(0, -1) for box in SOUND.figures)),
        lambda: _sound(figures=(SOUND.figures[0].moved(-200, 0), SOUND.figures[1])),
    ],
    "figure-height": [
        lambda: _sound(figure_height_mm=SOUND.figure_height_mm + 0.1),
        lambda: _sound(figure_height_mm=SOUND.figure_height_mm - 0.1),
        lambda: (hand_made(PANEL, (ONE, TWO), figure_height_mm=float("nan")), {}),
        lambda: (hand_made(PANEL, (ONE, TWO), figure_height_mm=float("inf")), {}),
    ],
    "figure-bound": [
        lambda: _sound(figure_bound_mm=SOUND.figure_height_mm - 0.1),
        lambda: _sound(figure_bound_mm=float("nan")),
    ],
}
PLANTED = [(code, number) for code, ways in FAULTS.items() for number in range(len(ways))]


def _tail_of(item: PlacedOutline) -> Tail:
    assert item.tail is not None
    return item.tail


@pytest.mark.parametrize(("code", "number"), PLANTED)
def test_planted_fault_is_caught_by_its_own_rule(code: str, number: int) -> None:
    """Each rule broken on purpose is reported under its own code, and no other rule speaks."""
    layout, terms = FAULTS[code][number]()
    assert codes(check_layout(PANEL, layout, **terms)) == {code}


def test_every_rule_has_a_planted_fault() -> None:
    """The codes that the checker's own text lists are those broken above, no more and no fewer."""
    listed = (check_layout.__doc__ or "").split("Returns:")[1].split("A crossing tail")[0]
    assert set(re.findall(r'"([a-z-]+)"', listed)) == set(FAULTS)


def test_figure_that_does_not_stand_clear_is_caught() -> None:
    """Outside the panel, under a balloon, or two in one place: each is a fault."""
    one, two = SOUND.figures
    outside = replace(SOUND, figures=(one.moved(-200, 0), two))
    assert "figure-place" in codes(check_layout(PANEL, outside))
    under = Rect(SOUND.placed[0].x_mm, PANEL.y, PANEL.height / 3, PANEL.height)
    assert "figure-place" in codes(check_layout(PANEL, replace(SOUND, figures=(under,))))
    assert "figure-place" in codes(check_layout(PANEL, replace(SOUND, figures=(one, one))))


def test_figure_claimed_too_low_is_caught() -> None:
    """A layout may not hide room either."""
    low = replace(SOUND, figure_height_mm=SOUND.figure_height_mm - 0.1)
    assert "figure-height" in codes(check_layout(PANEL, low))


def test_coverage_over_the_limit_is_caught() -> None:
    """The limit binds whatever the layout claims."""
    assert "coverage" in codes(check_layout(PANEL, SOUND, coverage_limit=0.1))


def test_balloon_on_a_kept_clear_region_is_caught() -> None:
    """Rectangles and polygons alike; a region beside the balloon is no fault."""
    item = SOUND.placed[0]
    spot = Rect(item.x_mm, item.y_mm, 2, 2)
    assert "on-keep-clear" in codes(check_layout(PANEL, SOUND, keep_clear=[spot]))
    beside = item.x_mm - item.outline.half_width
    high = item.y_mm - item.outline.half_height
    corner = (Point(beside, high), Point(beside + 1, high), Point(beside, high + 1))
    assert "on-keep-clear" not in codes(check_layout(PANEL, SOUND, keep_clear=[corner]))


def test_tail_on_a_kept_clear_region_is_caught() -> None:
    """A tail may not point into a region."""
    tip = _tail(1).tip
    spot = Rect(tip.x - 1, tip.y - 1, 2, 2)
    assert "tail-on-keep-clear" in codes(check_layout(PANEL, SOUND, keep_clear=[spot]))


def test_crossing_tails_are_caught_unless_the_layout_says_so() -> None:
    """Two tails swapped over cross; a layout that reports the crossing is not told again."""
    one, two = _tail(0), _tail(1)
    swapped = tailed(
        tailed(SOUND, 0, replace(one, tip=Point(two.tip.x, two.tip.y + 12), bend=None)),
        1,
        replace(two, tip=Point(one.tip.x, one.tip.y + 12), bend=None),
    )
    assert "tails-cross" in codes(check_layout(PANEL, swapped))
    told = Finding(code="tail-crosses", severity="warning", message="", where="2")
    known = replace(swapped, findings=(told,))
    assert "tails-cross" not in codes(check_layout(PANEL, known))


def test_order_is_not_asked_where_it_does_not_bind() -> None:
    """With ordered=False only geometry counts."""
    assert check_layout(PANEL, renumbered(SOUND, (1, 0, 2)), ordered=False) == ()


def test_position_that_is_no_number_is_caught() -> None:
    """A NaN never passes for being neither more nor less."""
    placed = (replace(SOUND.placed[0], x_mm=float("nan"), tail=None), *SOUND.placed[1:])
    assert "outside-panel" in codes(check_layout(PANEL, replace(SOUND, placed=placed)))


def test_refusal_claims_nothing() -> None:
    """A verdict without a layout has nothing to check."""
    assert check_layout(PANEL, PanelLayout(verdict="not found")) == ()


def test_single_caption_without_tail_is_checked_too() -> None:
    """The checker asks nothing of tails that are not there."""
    item = PlacedOutline(index=0, choice=0, outline=ellipses(200)[0], x_mm=40, y_mm=40)
    found = codes(check_layout(PANEL, PanelLayout(verdict="placed", placed=(item,))))
    assert found == {"coverage", "figure-height"}
