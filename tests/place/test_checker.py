"""Every rule of the checker has a planted fault that it catches."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from letterfit.findings import Finding
from letterfit.geometry import Point, Rect
from letterfit.place import (
    PanelLayout,
    PlacedOutline,
    Speaker,
    Tail,
    check_layout,
    place_outlines,
)
from letterfit.place.silhouette import mouth_in
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


FAULTS: dict[str, Callable[[], PanelLayout]] = {
    "outside-panel": lambda: moved(SOUND, 0, dy=-1.4),
    "too-close": lambda: moved(SOUND, 1, dx=SOUND.placed[0].x_mm - SOUND.placed[1].x_mm + 12),
    "order-pair": lambda: renumbered(SOUND, (1, 0, 2)),
    "order-reader": lambda: renumbered(SOUND, (2, 1, 0)),
    "tail-root": lambda: tailed(
        SOUND, 0, replace(_tail(0), root=(_moved(_tail(0).root[0], 0, 0.5), _tail(0).root[1]))
    ),
    "tail-outside": lambda: tailed(SOUND, 0, replace(_tail(0), tip=Point(60, 200))),
    "tail-on-balloon": lambda: tailed(
        SOUND,
        0,
        replace(_tail(0), tip=Point(SOUND.placed[1].x_mm, SOUND.placed[1].y_mm), bend=None),
    ),
    "coverage": lambda: replace(SOUND, coverage=SOUND.coverage + 0.001),
    "tail-on-face": lambda: tailed(SOUND, 0, replace(_tail(0), tip=mouth_in(SOUND.figures[0]))),
    "figure-place": lambda: replace(
        SOUND, figures=tuple(box.moved(0, -1) for box in SOUND.figures)
    ),
    "figure-height": lambda: replace(SOUND, figure_height_mm=SOUND.figure_height_mm + 0.1),
}


@pytest.mark.parametrize("code", FAULTS)
def test_planted_fault_is_caught(code: str) -> None:
    """Each rule broken on purpose is reported under its own code."""
    assert code in codes(check_layout(PANEL, FAULTS[code]()))


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
