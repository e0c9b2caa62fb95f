"""Every rule of the checker has a planted fault that it catches."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.outline import CaptionBox, Ellipse
from letterfit.place import checker
from letterfit.place.checker import CODES, check_layout
from letterfit.place.figure import figure_room
from letterfit.place.model import PanelLayout, PlacedOutline, Tail
from letterfit.place.silhouette import mouth_in
from tests.place.hand_made import hand_made, joint
from tests.place.shapes import ellipses

PANEL = Rect(10, 20, 110, 70)


def codes(findings: tuple[Finding, ...]) -> set[str]:
    """The codes found."""
    return {finding.code for finding in findings}


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
STANDING = (Rect(20, 60, 10, 30), Rect(60, 60, 10, 30))
SOUND = hand_made(PANEL, (TAILED, TWO), figures=STANDING)
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
        lambda: _of(replace(TAILED, tail=replace(_tail(TAILED), root=_tilted(0.05))), TWO),
        lambda: _of(replace(TAILED, tail=replace(_tail(TAILED), root=_tilted(-0.05))), TWO),
    ],
    "tail-link": [
        lambda: _of(replace(LINKED, tail=replace(_tail(LINKED), to=0)), TWO),
        lambda: _of(replace(LINKED, tail=replace(_tail(LINKED), to=2)), TWO),
        lambda: _of(replace(LINKED, tail=replace(_tail(LINKED), tip=Point(54, 30))), TWO),
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
        lambda: (SOUND, {"coverage_limit": 0.05}),
        lambda: _sound(coverage=float("nan")),
    ],
    "figure-place": [
        lambda: _sound(figures=tuple(figure.moved(0, -1) for figure in STANDING)),
        lambda: _sound(figures=(STANDING[0].moved(-11, 0), STANDING[1])),
        lambda: _sound(figures=(STANDING[0], STANDING[0].moved(9, 0))),
        lambda: _sound(figures=(Rect(60, 30, 20, 60), Rect(95, 30, 20, 60))),
        lambda: _sound(figures=(Rect(20, 60, 11, 30), STANDING[1])),
        lambda: (SOUND, {"keep_clear": [Rect(28, 70, 9, 9)]}),
    ],
    "figure-height": [
        lambda: _sound(figure_height_mm=SOUND.figure_height_mm + 0.1),
        lambda: _sound(figures=(STANDING[0], Rect(60, 63, 9, 27))),
        lambda: _sound(figures=STANDING[:1]),
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


def _tail(item: PlacedOutline) -> Tail:
    assert item.tail is not None
    return item.tail


def _tilted(by: float) -> tuple[Point, Point]:
    """The roots of a tail, one of them so much lower."""
    first, last = _tail(TAILED).root
    return Point(first.x, first.y + by), last


@pytest.mark.parametrize(("code", "number"), PLANTED)
def test_planted_fault_is_caught_by_its_own_rule(code: str, number: int) -> None:
    """Each rule broken on purpose is reported under its own code, and no other rule speaks."""
    layout, terms = FAULTS[code][number]()
    assert codes(check_layout(PANEL, layout, **terms)) == {code}


def test_every_rule_has_a_planted_fault() -> None:
    """The codes that the checker lists, and those that its parts say, are those broken above."""
    assert set(CODES) == set(FAULTS)
    folder = Path(checker.__file__ or "").parent
    parts = [p.read_text(encoding="utf-8") for p in sorted(folder.glob("check_*.py"))]
    said = {code for part in parts for code in re.findall(r'Fault\("([a-z-]+)"', part)}
    assert said == set(CODES)


def test_balloon_beside_a_kept_clear_region_is_no_fault() -> None:
    """In the corner of a balloon's box, but outside the balloon."""
    left, high = ONE.x_mm - ONE.outline.half_width, ONE.y_mm - ONE.outline.half_height
    corner = (Point(left, high), Point(left + 1, high), Point(left, high + 1))
    layout = hand_made(PANEL, (ONE, TWO))
    assert check_layout(PANEL, layout, keep_clear=[corner]) == ()


def _told(where: str) -> Finding:
    return Finding(code="tail-crosses", severity="warning", message="", where=where)


def test_crossing_that_the_layout_reports_is_not_repeated() -> None:
    """Of two tails that cross either may be said to; a third one's finding excuses neither."""
    layout = hand_made(PANEL, _cross(ONE, replace(TWO, y_mm=29.0)))
    for where, found in (("1", set()), ("2", set()), ("3", {"tails-cross"})):
        known = replace(layout, findings=(_told(where),))
        assert codes(check_layout(PANEL, known)) == found


@pytest.mark.parametrize(
    ("code", "number"), [("tail-on-balloon", 0), ("tail-on-keep-clear", 0), ("tail-outside", 0)]
)
def test_reported_tail_is_excused_and_no_other(code: str, number: int) -> None:
    """Its own finding excuses what a tail runs into; that of the balloon it runs into does not."""
    layout, terms = FAULTS[code][number]()
    assert check_layout(PANEL, replace(layout, findings=(_told("1"),)), **terms) == ()
    other = replace(layout, findings=(_told("2"),))
    assert codes(check_layout(PANEL, other, **terms)) == {code}


@pytest.mark.parametrize("code", ["tail-root", "joined-tails", "tail-link"])
def test_crossing_excuses_no_other_rule(code: str) -> None:
    """A tail that is said to cross still stands on its outline, is one, and leads where it says."""
    layout, terms = FAULTS[code][0]()
    known = replace(layout, findings=(_told("1"), _told("2")))
    assert codes(check_layout(PANEL, known, **terms)) == {code}


def test_order_is_not_asked_where_it_does_not_bind() -> None:
    """With ordered=False only geometry counts."""
    swapped = hand_made(PANEL, (replace(TWO, index=0), replace(ONE, index=1)))
    assert codes(check_layout(PANEL, swapped)) == {"order-pair", "order-reader"}
    assert check_layout(PANEL, swapped, ordered=False) == ()


def test_position_that_is_no_number_is_caught() -> None:
    """A NaN never passes for being neither more nor less."""
    placed = replace(ONE, x_mm=float("nan")), TWO
    layout = replace(SOUND, placed=placed)
    assert codes(check_layout(PANEL, layout)) == {"outside-panel"}


def test_refusal_claims_nothing() -> None:
    """A verdict without a layout has nothing to check."""
    assert check_layout(PANEL, PanelLayout(verdict="not found")) == ()


def test_single_caption_without_tail_is_checked_too() -> None:
    """The checker asks nothing of tails that are not there."""
    item = PlacedOutline(index=0, choice=0, outline=ellipses(200)[0], x_mm=40, y_mm=40)
    found = codes(check_layout(PANEL, PanelLayout(verdict="placed", placed=(item,))))
    assert found == {"coverage", "figure-height"}
