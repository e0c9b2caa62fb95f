"""By how much a panel's lettering does not go in: area, words, points of type, height, width.

Each figure is found by really setting again and by a quick search for a layout, so that whatever
is told does: where that search finds a layout, placing finds one. The searches are bisections, so
each figure is the least change *found*; the next smaller one found no layout. Where setting is
slow, the same balloons made smaller tell where to begin. All work is bounded by the number of words
and sizes. The remedies of all panels are tried side by side (`letterfit.report.trials`).
"""

import math
from collections.abc import Callable, Sequence

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.report.bisection import least_trials
from letterfit.report.case import Case
from letterfit.report.menus import Menu, first_words, is_too_long
from letterfit.report.model import PanelOverflow
from letterfit.report.setting import Setting
from letterfit.report.trials import Asking, Remedy, go_in, set_words, tried

SIZE_STEP_PT = 0.25
"""Type sizes are tried on this grid."""

SPARE = 0.95
"""By this much smaller than guessed, balloons that still do not go in need not be set."""

MOST_BALLOONS = 16
"""Balloons up to which remedies are tried: with more, they belong in more panels."""

Goal = Callable[[Case, Sequence[Menu], Rect], Asking[bool]]
"""Asks whether balloons in a room are as they should be."""

Holds = Callable[[int, bool], Asking[bool]]
"""Asks whether a number does; or, where it is only to be guessed, whether it is likely to."""


def panel_overflow(case: Case) -> PanelOverflow:
    """What would let a panel's balloons go in, one remedy at a time."""
    return panel_overflows([case])[0]


def panel_overflows(cases: Sequence[Case]) -> tuple[PanelOverflow, ...]:
    """The same of many panels, their remedies tried side by side: sooner, with the same figures.

    Args:
        cases: The panels, each of balloons that do not go in.
    """
    helped = [k for k, case in enumerate(cases) if len(case.menus) <= MOST_BALLOONS]
    remedies = [words_to_cut, largest_size, least_height, least_width]
    found = iter(tried([remedy(cases[k]) for k in helped for remedy in remedies]))
    figures = {k: [next(found) for _ in remedies] for k in helped}
    nothing = [None] * len(remedies)
    return tuple(_told(case, *figures.get(k, nothing)) for k, case in enumerate(cases))


def _told(
    case: Case,
    words: float | None,
    size_pt: float | None,
    height_mm: float | None,
    width_mm: float | None,
) -> PanelOverflow:
    return PanelOverflow(
        area_mm2=area_over(case.menus, case.room, setting=case.setting),
        words=None if words is None else int(words),
        size_pt=size_pt,
        height_mm=height_mm,
        width_mm=width_mm,
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


def words_to_cut(case: Case, goal: Goal | None = None) -> Remedy:
    """How many words fewer let the panel be placed; None when one word a balloon does not.

    Args:
        case: The panel.
        goal: What is to be reached instead of a place for every balloon.
    """
    counts = [menu.words.count for menu in case.menus]
    known: dict[tuple[int, int], Menu] = {}

    def does(removed: int, guessed: bool) -> Asking[bool]:  # noqa: FBT001 - see Holds
        kept = _levelled(counts, removed)
        if _too_long(case.menus, kept):
            return False
        if guessed:
            shares = [kept[i] / max(count, 1) for i, count in enumerate(counts)]
            return (yield from _would_go_in(case, [math.sqrt(share) for share in shares]))
        yield from _shortened(case, kept, known)
        return (
            yield from (goal or _goes_in)(case, [known[key] for key in enumerate(kept)], case.room)
        )

    most = sum(max(count - 1, 0) for count in counts)
    near = goal is not None
    return (yield from _least(does, least=1, most=most, guessed=not near, near=near))


def largest_size(case: Case) -> Remedy:
    """The largest type size on the grid, down to the least legible one, at which all is placed."""
    size, floor = case.setting.lettering.size_pt, case.setting.limits.least_size_pt
    steps = math.floor((size - floor) / SIZE_STEP_PT + 1e-9)
    if steps < 1 or any(is_too_long(menu.words) for menu in case.menus):
        return None

    def factor(step: int) -> float:
        return (size - step * SIZE_STEP_PT) / size

    def does(step: int, guessed: bool) -> Asking[bool]:  # noqa: FBT001 - see Holds
        if guessed:
            return (yield from _would_go_in(case, [factor(step)] * len(case.menus)))
        smaller = [menu.words.scaled(factor(step)) for menu in case.menus]
        menus = yield from set_words(case, case.menus, smaller)
        return (yield from _goes_in(case, menus, case.room))

    if not (yield from _would_go_in(case, [SPARE * factor(steps)] * len(case.menus))):
        return None  # not even balloons smaller than the least size makes them
    step = yield from _least(does, least=1, most=steps, guessed=True)
    return None if step is None else size - step * SIZE_STEP_PT


def least_height(case: Case, goal: Goal | None = None) -> Remedy:
    """The least height in whole mm, up to the tallest, at which all is placed at this width."""
    now = case.room

    def does(height: int, _: bool) -> Asking[bool]:  # noqa: FBT001 - see Holds
        return (goal or _goes_in)(case, case.menus, Rect(now.x, now.y, now.width, float(height)))

    least, most = math.floor(now.height) + 1, math.floor(case.largest[1])
    return (yield from _least(does, least=least, most=most, near=goal is not None))


def least_width(case: Case, goal: Goal | None = None) -> Remedy:
    """The least width in whole mm, up to the page's, at which all is placed at this height."""
    now = case.room

    def does(width: int, _: bool) -> Asking[bool]:  # noqa: FBT001 - see Holds
        return (goal or _goes_in)(case, case.menus, Rect(now.x, now.y, float(width), now.height))

    least, most = math.floor(now.width) + 1, math.floor(case.largest[0])
    return (yield from _least(does, least=least, most=most, near=goal is not None))


def _least(
    does: Holds, *, least: int, most: int, guessed: bool = False, near: bool = False
) -> Remedy:
    """The least number that does: `least_trials`, each trial asked for."""
    trials = least_trials(least=least, most=most, guessed=guessed, near=near)
    try:
        trial = next(trials)
        while True:
            trial = trials.send((yield from does(trial.number, trial.guessed)))
    except StopIteration as done:
        return None if done.value is None else float(done.value)


def _goes_in(case: Case, menus: Sequence[Menu], room: Rect) -> Asking[bool]:
    """Whether a quick search finds a place for these balloons: then they are placed."""
    if not all(menu.fits for menu in menus):
        return False
    return (yield from go_in(case, [menu.outlines for menu in menus], room))


def _would_go_in(case: Case, scales: Sequence[float]) -> Asking[bool]:
    """Whether the balloons would, were all of each but its air so many times as large."""
    outlines = [_scaled(case, *pair) for pair in zip(case.menus, scales, strict=True)]
    return (yield from go_in(case, outlines, case.room))


def _scaled(case: Case, menu: Menu, scale: float) -> list[Outline]:
    air, small = case.setting.lettering.air_mm, menu.smallest.outline
    half = math.sqrt(small.half_width * small.half_height)
    factor = scale + (1 - scale) * min(air / half, 1.0)
    return [outline.scaled(factor) for outline in menu.outlines]


def _shortened(case: Case, kept: Sequence[int], known: dict[tuple[int, int], Menu]) -> Asking[None]:
    """See to it that the balloons with so many words kept are known, each set once."""
    new = [key for key in enumerate(kept) if key not in known]
    menus = [case.menus[index] for index, _ in new]
    words = [first_words(case.menus[index].words, count) for index, count in new]
    known.update(zip(new, (yield from set_words(case, menus, words)), strict=True))


def _too_long(menus: Sequence[Menu], kept: Sequence[int]) -> bool:
    """Whether one of the texts is too long for any balloon, cut to so many words."""
    return any(
        is_too_long(first_words(menu.words, count)) for menu, count in zip(menus, kept, strict=True)
    )


def _least_taken(menu: Menu, gap: float) -> float:
    """The least area that a balloon takes with half the gap round it."""
    half, least = gap / 2, math.inf
    for outline in sorted(menu.outlines, key=lambda one: one.area_mm2):
        area = outline.area_mm2
        # No outline is shorter than the circle of its area (the isoperimetric inequality).
        if area + 2 * math.sqrt(math.pi * area) * half + math.pi * half**2 >= least:
            break
        least = min(least, area + outline.perimeter_mm * half + math.pi * half**2)
    return least


def _levelled(counts: Sequence[int], removed: int) -> list[int]:
    """The words kept when so many are taken, one at a time, from the longest balloon left."""
    kept = list(counts)
    for _ in range(removed):
        kept[kept.index(max(kept))] -= 1
    return kept
