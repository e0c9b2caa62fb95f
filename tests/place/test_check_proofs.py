"""Proofs are found again where they hold, and caught where they do not."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.drawn.plain_lines import Whisper
from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline
from letterfit.place.check_proofs import check_proof
from letterfit.place.checker import check_layout
from letterfit.place.model import PanelLayout, PlacedOutline, Proof, ProofName
from letterfit.place.solver import place_outlines
from tests.place.hand_made import hand_made, joint
from tests.place.shapes import outlines

Task = tuple[Rect, Sequence[Sequence[Outline]], Proof, dict[str, Any]]


def box(width: float, height: float) -> tuple[Outline, ...]:
    """A menu of one caption box of that whole width and height."""
    return (CaptionBox(half_width=width / 2, half_height=height / 2),)


def disc(radius: float) -> tuple[Outline, ...]:
    """A menu of one disc."""
    return (Ellipse(half_width=radius, half_height=radius),)


def refused(
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    proof: Proof | None,
    **terms: Any,  # noqa: ANN401
) -> list[str]:
    """The codes that the checker has against a proof."""
    layout = PanelLayout(verdict="impossible", proof=proof)
    return [finding.code for finding in check_proof(panel, menus, layout, **terms)]


def of(
    name: ProofName, *balloons: int, needs: float = 0.0, holds: float = 0.0, cells: int = 0
) -> Proof:
    """A proof in short."""
    return Proof(name=name, balloons=balloons, needs=needs, holds=holds, cells=cells)


SMALL = Rect(3, 5, 40, 30)  # 37 x 27 mm within the margins
STACK = [box(30, 8), box(30, 8), box(30, 8)]  # 24 mm and two gaps: 27 mm
LOW = Rect(3, 5, 50, 29.9)
# Steiner: 37 x 27 mm grown by half of a gap of 3 mm holds 1198.07 mm2.
GROWN = 37 * 27 + (37 + 27) * 3 + 7.0686
TRUE: dict[str, Task] = {
    "too wide": (SMALL, [box(38, 5)], of("shape", 0, needs=38, holds=37), {}),
    "too high": (SMALL, [box(8, 5), box(8, 28)], of("shape", 1, needs=28, holds=27), {}),
    "too high to hang over": (
        SMALL,
        [box(8, 31)],
        of("shape", 0, needs=31, holds=30.5),
        {"overhangs": [[2.0]]},
    ),
    "covers too much": (
        SMALL,
        [box(20, 10), box(20, 10)],
        of("coverage", 0, 1, needs=400, holds=360),
        {"coverage_limit": 0.3},
    ),
    "covers too much though one hangs over": (
        SMALL,
        [box(20, 10), box(20, 10)],
        of("coverage", 0, 1, needs=360, holds=348),
        {"coverage_limit": 0.29, "overhangs": [[2.0], [0.0]]},
    ),
    "covers too much though joined": (
        SMALL,
        [box(20, 10), box(20, 10)],
        of("coverage", 0, 1, needs=379, holds=372),
        {"coverage_limit": 0.31, "joined": (False, True)},
    ),
    "area with the gap": (
        SMALL,
        [box(12, 8)] * 8,
        of("area", *range(8), needs=1304.5, holds=GROWN),
        {"gap_mm": 3.0},
    ),
    "area of some of them": (
        SMALL,
        [box(4, 4), *[box(12, 8)] * 8],
        of("area", *range(1, 9), needs=1304.5, holds=GROWN),
        {"gap_mm": 3.0},
    ),
    "area though all hang over": (
        SMALL,
        [box(12, 9)] * 9,
        of("area", *range(9), needs=1500, holds=1400),
        {"gap_mm": 3.0, "overhangs": [[1.0]] * 9},
    ),
    "a pair": (SMALL, [box(25, 15), box(25, 15)], of("pair", 0, 1), {}),
    "a pair in any order": (SMALL, [disc(11), disc(11)], of("pair", 0, 1), {"ordered": False}),
    "a pair that may hang over": (
        SMALL,
        [box(25, 15), box(25, 15)],
        of("pair", 0, 1),
        {"overhangs": [[2.0], [0.0]]},
    ),
    "a pair of whispers": (
        SMALL,
        [[Whisper(core=Ellipse(half_width=11, half_height=11))]] * 2,
        of("pair", 0, 1),
        {"reading": "rtl"},
    ),
    "a stack": (LOW, STACK, of("cells", 0, 1, 2, needs=9, holds=26.9, cells=2), {}),
    "a stack with one that is too wide": (
        SMALL,
        [box(38, 5), box(4, 4)],
        of("cells", 0, 1, needs=28, holds=27, cells=2),
        {},
    ),
    "two of a stack": (
        Rect(0, 0, 50, 20),
        [box(4, 3), *STACK[:2]],
        of("cells", 1, 2, needs=9, holds=17, cells=2),
        {},
    ),
    "a stack that may hang over": (
        Rect(3, 5, 50, 26.4),
        STACK,
        of("cells", 0, 1, 2, needs=9, holds=24.9, cells=2),
        {"overhangs": [[2.0], [2.0], [2.0]]},
    ),
    "a stack of which two are joined": (
        Rect(3, 5, 50, 27.3),
        STACK,
        of("cells", 0, 1, 2, needs=9, holds=24.3, cells=2),
        {"joined": (False, True, False)},
    ),
}


@pytest.mark.parametrize("name", TRUE)
def test_true_proof_is_found_again(name: str) -> None:
    """Each kind of proof that holds, with joints and overhangs too, has nothing against it."""
    panel, menus, proof, terms = TRUE[name]
    assert refused(panel, menus, proof, **terms) == []


HIGH = Rect(0, 0, 80, 30)  # what is 29.5 and 31.5 mm high enters by hanging over 1 and 3 mm
TALL = [[Ellipse(half_width=12, half_height=half)] for half in (14.75, 15.75)]
FALSE: dict[str, Task] = {
    "shape of the very size": (
        SMALL,
        [[*box(38, 5), *box(37, 27)]],
        of("shape", 0, needs=38, holds=37),
        {},
    ),
    "shape that may hang over": (
        SMALL,
        [box(8, 30.5)],
        of("shape", 0, needs=30.5, holds=27),
        {"overhangs": [[2.0]]},
    ),
    "coverage just within": (
        SMALL,
        [box(20, 10), [*box(30, 10), *box(20, 9)]],
        of("coverage", 0, 1, needs=380, holds=379.9999),
        {"coverage_limit": 0.3167},
    ),
    "coverage of what hangs over": (
        SMALL,
        [box(20, 10), box(20, 10)],
        of("coverage", 0, 1, needs=400, holds=372),
        {"coverage_limit": 0.31, "overhangs": [[2.0], [0.0]]},
    ),
    "coverage of what joined balloons share": (
        SMALL,
        [box(20, 10), box(20, 10)],
        of("coverage", 0, 1, needs=400, holds=384),
        {"coverage_limit": 0.32, "joined": (False, True)},
    ),
    "area that goes in": (
        SMALL,
        [box(12, 8)] * 6,
        of("area", *range(6), needs=1304.5, holds=GROWN),
        {"gap_mm": 3.0},
    ),
    "area of joined balloons that just go in": (
        Rect(0, 0, 23, 18),
        [box(20, 10), box(20, 10)],
        of("area", 0, 1, needs=400, holds=354.4),
        {"joined": (False, True), "overlap_mm": 5.0},
    ),
    "area of what hangs over": (
        Rect(0, 0, 23, 18),
        [box(20, 20)],
        of("area", 0, needs=460, holds=354.4),
        {"overhangs": [[3.5]]},
    ),
    "a pair that goes in by the very height": (
        SMALL,
        [box(30, 12), box(30, 13.5)],
        of("pair", 0, 1),
        {},
    ),
    "a pair in opposite corners": (SMALL, [disc(7.5), disc(9.9)], of("pair", 0, 1), {}),
    "a pair in any order, no longer in order": (
        SMALL,
        [disc(5), disc(13.5)],
        of("pair", 0, 1),
        {"ordered": False},
    ),
    "a pair of which one may hang over": (
        SMALL,
        [box(25, 15), box(25, 13)],
        of("pair", 0, 1),
        {"overhangs": [[2.0], [0.0]]},
    ),
    "a joined pair": (
        SMALL,
        [box(25, 15), box(25, 15)],
        of("pair", 0, 1),
        {"joined": (False, True)},
    ),
    "a pair of which the second may hang over, no longer in order": (
        SMALL,
        [box(30, 13), box(30, 15)],
        of("pair", 0, 1),
        {"overhangs": [[0.0], [2.0]], "ordered": False},
    ),
    "a pair side by side, the second over the border by more": (
        HIGH,
        TALL,
        of("pair", 0, 1),
        {"overhangs": [[1.0], [3.0]]},
    ),
    "the same by cells": (
        HIGH,
        TALL,
        of("cells", 0, 1, needs=9, holds=27, cells=2),
        {"overhangs": [[1.0], [3.0]]},
    ),
    "discs one below the other, far enough across": (
        Rect(0, 0, 25, 29.1),
        [disc(6), disc(7)],
        of("cells", 0, 1, needs=9, holds=26.1, cells=2),
        {},
    ),
    "a joint that leans just so": (
        # 11 mm apart, at most 6.5 mm down and 9.4 mm across: below the middle from 8.9 to 9.2 mm.
        Rect(0, 0, 24.4, 21.5),
        [disc(6), disc(6)],
        of("cells", 0, 1, needs=9, holds=18.5, cells=2),
        {"joined": (False, True)},
    ),
    "a stack with a hair more": (
        Rect(3, 5, 50, 30.01),
        STACK,
        of("cells", 0, 1, 2, needs=9, holds=27, cells=2),
        {},
    ),
    "a stack that may hang over by enough": (
        Rect(3, 5, 50, 26.51),
        STACK,
        of("cells", 0, 1, 2, needs=9, holds=26, cells=2),
        {"overhangs": [[2.0], [2.0], [2.0]]},
    ),
    "a stack with a joint": (
        Rect(3, 5, 50, 27.51),
        STACK,
        of("cells", 0, 1, 2, needs=9, holds=25, cells=2),
        {"joined": (False, True, False)},
    ),
    "a stack in no order": (
        LOW,
        STACK,
        of("cells", 0, 1, 2, holds=27, cells=2),
        {"ordered": False},
    ),
}


@pytest.mark.parametrize("name", FALSE)
def test_false_proof_is_caught(name: str) -> None:
    """Balloons that do go in, by little, are not called impossible without being contradicted."""
    panel, menus, proof, terms = FALSE[name]
    assert "proof-false" in refused(panel, menus, proof, **terms)


FIGURES: dict[str, tuple[str, dict[str, float]]] = {
    "a width that it does not have": ("too wide", {"needs": 38.5}),
    "a side that is not the room's": ("too wide", {"holds": 36.5}),
    "a height within the room": ("too high", {"needs": 5.0}),
    "more than they cover": ("covers too much", {"needs": 401.0}),
    "less than the limit": ("covers too much", {"holds": 359.0}),
    "less than it holds": ("covers too much", {"needs": 300.0}),
    "more than they grow to": ("area with the gap", {"needs": 1305.0}),
    "less room than there is": ("area with the gap", {"holds": GROWN - 1}),
    "figures of a pair": ("a pair", {"needs": 40.0, "holds": 37.0}),
    "less height than there is": ("a stack", {"holds": 26.0}),
    "no cells": ("a stack", {"cells": 0}),
    "no number": ("covers too much", {"needs": float("nan")}),
}


@pytest.mark.parametrize("name", FIGURES)
def test_figures_that_say_more_than_holds_are_caught(name: str) -> None:
    """The proof holds, but not by what it says: its figures alone are at fault."""
    of_name, changes = FIGURES[name]
    panel, menus, proof, terms = TRUE[of_name]
    changed = replace(proof, **changes)  # type: ignore[arg-type]
    assert refused(panel, menus, changed, **terms) == ["proof-figures"]


def test_verdict_without_proof_is_caught() -> None:
    """Impossible is never said without proof; of another verdict none is asked."""
    assert refused(SMALL, [box(38, 5)], None) == ["proof-missing"]
    assert check_proof(SMALL, [box(38, 5)], PanelLayout(verdict="not found")) == ()


@pytest.mark.parametrize("balloons", [(), (1,), (-1,), (0, 0)])
def test_proof_about_balloons_that_are_not_there_is_caught(balloons: tuple[int, ...]) -> None:
    """None at all, one too many, one before the first, one twice."""
    proof = of("shape", *balloons, needs=38, holds=37)
    assert refused(SMALL, [box(38, 5)], proof) == ["proof-balloons"]


@pytest.mark.parametrize("balloons", [(0,), (0, 1, 2)])
def test_pair_is_about_two(balloons: tuple[int, ...]) -> None:
    """A proof by a pair names two balloons."""
    assert refused(SMALL, [box(25, 15)] * 3, of("pair", *balloons)) == ["proof-balloons"]


def test_proof_that_takes_too_long_is_left_and_said() -> None:
    """Where the search ends before it knows, that is a note and no error."""
    panel = Rect(0, 0, 80, 34)
    menus: list[list[Outline]] = [
        [Ellipse(half_width=12, half_height=8), Ellipse(half_width=10, half_height=9.6)]
    ] * 5
    layout = place_outlines(panel, menus)
    assert layout.proof is not None
    assert layout.proof.name == "cells"
    assert check_proof(panel, menus, layout) == ()
    found = check_proof(panel, menus, layout, states=1)
    said = [(f.code, f.severity, f.where) for f in found]
    assert said == [("proof-unchecked", "note", "1+2+3+4+5")]


@st.composite
def tasks(draw: st.DrawFn) -> tuple[Rect, list[list[Outline]]]:
    """A panel and menus that crowd it more or less."""
    menus = draw(st.lists(st.lists(outlines, min_size=1, max_size=3), min_size=2, max_size=4))
    least = sum(min(outline.area_mm2 for outline in menu) for menu in menus)
    area = least / draw(st.floats(0.25, 0.8))
    aspect = draw(st.floats(0.6, 2.2))
    return Rect(0, 0, (area * aspect) ** 0.5, (area / aspect) ** 0.5), menus


def _claims(panel: Rect, count: int) -> list[Proof]:
    """A proof of each name, with figures that say little."""
    area = panel.area_mm2
    return [
        of("shape", 0, needs=panel.width, holds=panel.width - 3),
        of("coverage", *range(count), needs=area + 1, holds=area),
        of("area", *range(count), needs=2 * area, holds=1.5 * area),
        of("pair", 0, 1),
        of("cells", *range(count), needs=1, holds=panel.height, cells=4),
    ]


@given(tasks())
@settings(max_examples=30, deadline=None)
def test_no_proof_holds_against_a_layout(task: tuple[Rect, list[list[Outline]]]) -> None:
    """Of a panel that was filled every proof is contradicted, whatever its name."""
    panel, menus = task
    if place_outlines(panel, menus).verdict != "placed":
        return
    for proof in _claims(panel, len(menus)):
        assert "proof-false" in refused(panel, menus, proof)


@given(
    shapes=st.lists(outlines, min_size=3, max_size=3),
    side=st.floats(-0.5, 0.9),
    last=st.floats(0, 1),
    hangs=st.floats(0, 2),
)
@settings(max_examples=40, deadline=None)
def test_no_proof_holds_against_joints_and_overhangs(
    shapes: list[Outline], side: float, last: float, hangs: float
) -> None:
    """A layout made by hand with a joint and an overhang, in the least panel that takes it."""
    one, two, three = shapes
    first = PlacedOutline(
        index=0, choice=0, outline=one, x_mm=0, y_mm=one.half_height - hangs, overhang_mm=hangs
    )
    second = joint(first, two, dx=side * (one.half_width + two.half_width - 1), overlap_mm=1)
    bottoms = [item.y_mm + item.outline.half_height for item in (first, second)]
    third = PlacedOutline(
        index=2,
        choice=0,
        outline=three,
        x_mm=(2 * last - 1) * (one.half_width - three.half_width),
        y_mm=max(bottoms) + 1.5 + three.half_height,
    )
    placed = (first, second, third)
    left = min(item.x_mm - item.outline.half_width for item in placed) - 1.5
    right = max(item.x_mm + item.outline.half_width for item in placed) + 1.5
    bottom = max(item.y_mm + item.outline.half_height for item in placed) + 1.5
    panel = Rect(left, 0, right - left, bottom)
    overhangs = [[hangs], [0.0], [0.0]]
    layout = hand_made(panel, placed)
    terms: dict[str, Any] = {"joined": (False, True, False), "overhangs": overhangs}
    if check_layout(panel, layout, **terms):
        return
    menus = [[shape] for shape in shapes]
    for proof in _claims(panel, 3):
        limit = layout.coverage + 1e-9
        found = refused(panel, menus, proof, coverage_limit=limit, states=3000, **terms)
        assert found
        assert proof.name == "cells" or "proof-false" in found


@st.composite
def asked(draw: st.DrawFn) -> tuple[Rect, list[list[Outline]], dict[str, Any]]:
    """A panel, menus, and joints and overhangs for some of them."""
    panel, menus = draw(tasks())
    count = len(menus)
    joints = (False, *draw(st.tuples(*[st.booleans()] * (count - 1))))
    share = draw(st.floats(0.1, 0.4))
    overhangs = [[share * outline.half_height for outline in menu] for menu in menus]
    terms = {
        "joined": draw(st.sampled_from([(), joints])),
        "overhangs": draw(st.sampled_from([None, overhangs])),
        "ordered": draw(st.booleans()),
        "reading": draw(st.sampled_from(["ltr", "rtl"])),
        "coverage_limit": draw(st.sampled_from([1.0, 0.4])),
    }
    return panel, menus, terms


@given(asked())
@settings(max_examples=40, deadline=None)
def test_every_impossible_verdict_is_found_again(
    task: tuple[Rect, list[list[Outline]], dict[str, Any]],
) -> None:
    """What placing calls impossible has a proof that holds, with joints and overhangs too."""
    panel, menus, terms = task
    layout = place_outlines(panel, menus, **terms)
    assert check_proof(panel, menus, layout, **terms) == ()
