"""By how much a panel's lettering does not go in: area, words, points of type, height.

Each figure is found by really setting again and by a quick search for a layout, so that whatever
is told does: where that search finds a layout, placing finds one. The searches are bisections, so
each figure is the least change *found*; the next smaller one found no layout. Where setting is
slow, the same balloons made smaller tell where to begin. All work is bounded by the number of words
and sizes.
"""

import math
from collections.abc import Callable, Sequence

from letterfit.geometry import Rect
from letterfit.report.case import Case
from letterfit.report.menus import Menu, first_words, is_too_long, with_words
from letterfit.report.model import PanelOverflow
from letterfit.report.setting import Setting

SIZE_STEP_PT = 0.25
"""Type sizes are tried on this grid."""

SPARE = 0.95
"""By this much smaller than guessed, balloons that still do not go in need not be set."""

MOST_BALLOONS = 16
"""Balloons up to which remedies are tried: with more, they belong in more panels."""


def panel_overflow(case: Case) -> PanelOverflow:
    """What would let a panel's balloons go in, one remedy at a time."""
    over = area_over(case.menus, case.room, setting=case.setting)
    if len(case.menus) > MOST_BALLOONS:
        return PanelOverflow(area_mm2=over, words=None, size_pt=None)
    return PanelOverflow(
        area_mm2=over,
        words=words_to_cut(case),
        size_pt=largest_size(case),
        height_mm=least_height(case),
        width_mm=least_width(case),
    )


def area_over(menus: Sequence[Menu], room: Rect, *, setting: Setting) -> float:
    """How much more area the smallest balloons and their gaps need than the room has, mm2.

    A balloon with half a gap g round it has the area A + P g/2 + pi g^2/4, and all of them lie in
    the room less its margin plus half a gap (Steiner's formula: Schneider, Convex Bodies, 2nd ed.,
    section 4.1). Over 0 proves that the balloons do not go in.

    Returns:
        The area in mm2, 0 when there is enough.
    """
    gap, margin = setting.gap_mm, setting.margin_mm
    wide = max(room.width - 2 * margin + gap, 0.0)
    high = max(room.height - 2 * margin + gap, 0.0)
    return max(sum(_least_taken(menu, gap) for menu in menus) - wide * high, 0.0)


def words_to_cut(case: Case) -> int | None:
    """How many words fewer let the panel be placed; None when one word a balloon does not."""
    counts = [menu.words.count for menu in case.menus]
    fronts: dict[tuple[int, int], Menu] = {}

    def shortened(index: int, count: int) -> Menu:
        if (index, count) not in fronts:
            menu = case.menus[index]
            fronts[index, count] = menu.with_words(first_words(menu.words, count), case.setting)
        return fronts[index, count]

    def cut(removed: int) -> bool:
        kept = _levelled(counts, removed)
        if _too_long(case.menus, kept):
            return False
        return case.goes_in([shortened(*key) for key in enumerate(kept)])

    def guess(removed: int) -> bool:
        kept = _levelled(counts, removed)
        if _too_long(case.menus, kept):
            return False
        shares = [kept[i] / max(count, 1) for i, count in enumerate(counts)]
        return case.would_go_in([math.sqrt(share) for share in shares])

    return least_that(cut, least=1, most=sum(max(count - 1, 0) for count in counts), guess=guess)


def largest_size(case: Case) -> float | None:
    """The largest type size on the grid, down to the least legible one, at which all is placed."""
    size, floor = case.setting.lettering.size_pt, case.setting.limits.least_size_pt
    steps = math.floor((size - floor) / SIZE_STEP_PT + 1e-9)
    if steps < 1 or any(is_too_long(menu.words) for menu in case.menus):
        return None

    def factor(step: int) -> float:
        return (size - step * SIZE_STEP_PT) / size

    def sized(step: int) -> bool:
        smaller = [menu.words.scaled(factor(step)) for menu in case.menus]
        return case.goes_in(with_words(case.menus, smaller, case.setting))

    def guess(step: int) -> bool:
        return case.would_go_in([factor(step)] * len(case.menus))

    if not case.would_go_in([SPARE * factor(steps)] * len(case.menus)):
        return None  # not even balloons smaller than the least size makes them
    step = least_that(sized, least=1, most=steps, guess=guess)
    return None if step is None else size - step * SIZE_STEP_PT


def least_height(case: Case) -> float | None:
    """The least height in whole mm, up to the tallest, at which all is placed at this width."""

    def grown(height: int) -> bool:
        room = Rect(case.room.x, case.room.y, case.room.width, float(height))
        return case.goes_in(case.menus, room=room)

    return _least_length(grown, now=case.room.height, most=case.largest[1])


def least_width(case: Case) -> float | None:
    """The least width in whole mm, up to the page's, at which all is placed at this height."""

    def widened(width: int) -> bool:
        room = Rect(case.room.x, case.room.y, float(width), case.room.height)
        return case.goes_in(case.menus, room=room)

    return _least_length(widened, now=case.room.width, most=case.largest[0])


def _least_length(holds: Callable[[int], bool], *, now: float, most: float) -> float | None:
    length = least_that(holds, least=math.floor(now) + 1, most=math.floor(most))
    return None if length is None else float(length)


def least_that(
    holds: Callable[[int], bool],
    *,
    least: int,
    most: int,
    guess: Callable[[int], bool] | None = None,
) -> int | None:
    """The least whole number for which a rising condition holds, by bisection.

    Args:
        holds: False up to some number, True from there on. Where it is not so steady, the number
            returned still holds, and one below it that was tried does not.
        least: The first number tried.
        most: The last.
        guess: A cheap condition that rises at about the same number: it is bisected first, and the
            true one tried only near that number, in steps that double.

    >>> least_that(lambda n: n * n >= 50, least=1, most=20)
    8
    >>> least_that(lambda n: n * n >= 50, least=1, most=20, guess=lambda n: n >= 6)
    8
    >>> least_that(lambda n: False, least=1, most=20) is None
    True
    """
    if most < least:
        return None
    if guess is None:
        return _bisected(holds, low=least, high=most) if holds(most) else None
    near = _bisected(guess, low=least, high=most)
    step = 1
    if holds(near):
        high = near
        while high > least and holds(max(high - step, least)):
            high, step = max(high - step, least), 2 * step
        return _bisected(holds, low=max(high - step + 1, least), high=high)
    low = near
    while low < most:
        high = min(low + step, most)
        if holds(high):
            return _bisected(holds, low=low + 1, high=high)
        low, step = high, 2 * step
    return None


def _bisected(holds: Callable[[int], bool], *, low: int, high: int) -> int:
    """The least number from low to high that holds, where high is known to."""
    while low < high:
        middle = (low + high) // 2
        if holds(middle):
            high = middle
        else:
            low = middle + 1
    return high


def _too_long(menus: Sequence[Menu], kept: Sequence[int]) -> bool:
    """Whether one of the texts is too long for any balloon, cut to so many words."""
    return any(
        is_too_long(first_words(menu.words, count)) for menu, count in zip(menus, kept, strict=True)
    )


def _least_taken(menu: Menu, gap: float) -> float:
    half = gap / 2
    return min(
        outline.area_mm2 + outline.perimeter_mm * half + math.pi * half**2
        for outline in menu.outlines
    )


def _levelled(counts: Sequence[int], removed: int) -> list[int]:
    """The words kept when so many are taken, one at a time, from the longest balloon left."""
    kept = list(counts)
    for _ in range(removed):
        kept[kept.index(max(kept))] -= 1
    return kept
