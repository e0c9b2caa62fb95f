"""A panel that covers a little over its limit is placed again under it, and only such a one."""

from dataclasses import replace
from functools import cache

import pytest

import letterfit as lf
from letterfit.report.case import Case
from letterfit.report.placing import BARELY, Placing, place_cases
from tests.plays import play_names, play_script
from tests.report.test_placing import LINES, case

SIZES = ((60, 40), (60, 60), (48, 55), (75, 38), (90, 60), (55, 75))
TEXTS = (LINES[:1], LINES[1:], LINES)
OVER = (1.01, 1.03, 1.06)
"""By how many times the limit is exceeded at first."""


@cache
def cases() -> tuple[Case, ...]:
    """Panels of one to three balloons, several sizes of each."""
    return tuple(case(*own, width=w, height=h) for own in TEXTS for w, h in SIZES)


@cache
def first() -> tuple[Placing, ...]:
    """How they are placed where there is no limit."""
    return place_cases(cases())


def limited(times: float) -> list[tuple[Case, Placing, Placing]]:
    """Each placed panel, before and after it has a limit that it exceeds so many times."""
    kept = [
        (replace(one, most_covered=before.layout.coverage / times), before)
        for one, before in zip(cases(), first(), strict=True)
        if before.layout.verdict == "placed"
    ]
    after = place_cases([one for one, _ in kept])
    return [(one, before, new) for (one, before), new in zip(kept, after, strict=True)]


@pytest.mark.parametrize("times", OVER)
def test_a_panel_barely_over_is_under_its_limit_or_as_it_was(times: float) -> None:
    """Placed again it keeps the limit, in order and without fault; else nothing has changed."""
    changed = 0
    for one, before, after in limited(times):
        layout = after.layout
        assert layout.verdict == "placed"
        assert after.faults() == ()
        if layout == before.layout:
            continue
        changed += 1
        assert layout.coverage <= one.most_covered
        assert layout.figure_bound_mm >= layout.figure_height_mm
        assert [spot.index for spot in layout.placed] == list(range(len(one.menus)))
    assert changed >= 3


@pytest.mark.parametrize("times", [BARELY * 1.001, 1.2, 2.0])
def test_a_panel_far_over_is_left_as_it_is(times: float) -> None:
    """More than 7 % over: the layout that pleases most stays, and nothing else is tried."""
    for _, before, after in limited(times):
        assert after.layout == before.layout
        assert len(after.tried) == 1


def test_a_panel_at_its_limit_is_left_as_it_is() -> None:
    """To cover just as much as the limit is to keep it."""
    for _, before, after in limited(1.0):
        assert after.layout == before.layout


def test_a_panel_whose_least_balloons_are_too_large_is_left_as_it_is() -> None:
    """Where even the smallest outlines exceed the limit no layout can keep it."""
    tight = [
        (one, before)
        for one, before in zip(cases(), first(), strict=True)
        if before.layout.verdict == "placed"
    ]
    for one, before in tight:
        least = sum(menu.smallest.area_mm2 for menu in one.menus) / one.room.area_mm2
        (after,) = place_cases([replace(one, most_covered=0.999 * least)])
        assert after.layout == before.layout


@pytest.mark.parametrize("play", play_names()[3::12])
def test_on_pages_of_plays_no_verdict_gets_worse(play: str) -> None:
    """With a limit and without: the same verdicts, and what differs is under the limit now."""
    script = lf.parse_script(play_script(play, pages=2))
    most = lf.Limits().coverage
    free = lf.preflight(script, limits=lf.Limits(coverage=0.99))
    held = lf.preflight(script, check=True)
    pairs = [
        (one, two)
        for before, after in zip(free.pages, held.pages, strict=True)
        for one, two in zip(before.panels, after.panels, strict=True)
    ]
    for one, two in pairs:
        assert two.verdict == one.verdict
        if two.coverage != one.coverage:
            assert most < one.coverage <= BARELY * most
            assert two.coverage <= most
    assert {f.code for f in held.all_findings if f.severity == "error"} <= {"panel-overflow"}
