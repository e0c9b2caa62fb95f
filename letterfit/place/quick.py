"""The quick question, whether anything goes in at all, and the tasks that a search tries."""

from collections.abc import Iterator, Sequence

import numpy as np

from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline
from letterfit.place.beam import squeezed
from letterfit.place.kernel import Ints
from letterfit.place.measured import Case
from letterfit.place.model import Reading
from letterfit.place.pose import Task, facing, pose
from letterfit.place.problem import Batch, Problem, together
from letterfit.place.proofs import proof
from letterfit.place.terms import KeepClear, Terms, make_terms

TAIL_AREA = 12.0
"""Area in mm2 that a tail of usual size covers, set aside where coverage is limited."""

LARGE = 12
"""Panels of more balloons are searched narrowly and apart from others, so that any number ends."""

MOST_BALLOONS = 64
"""Balloons of a panel that is searched: ten times what a crowded one has (common practice, no
source). Beyond it a search takes minutes, and what it finds nobody would draw."""

TOGETHER = 256
"""Most panels searched at once."""

SQUEEZED = (6, 24)
"""States kept by the searches for any layout at all: most panels show with few what they take."""


def can_place(  # noqa: PLR0913 - the terms of place_outlines that bear on it, all with defaults
    panel: Rect,
    menus: Sequence[Sequence[Outline]],
    *,
    gap_mm: float = 1.5,
    margin_mm: float | Insets = 1.5,
    reading: Reading = "ltr",
    keep_clear: Sequence[KeepClear] = (),
    ordered: bool = True,
) -> bool:
    """Whether a quick search finds any layout at all: a cheap question for searches over panels.

    Args:
        panel: The panel, page coordinates in mm.
        menus: One sequence of outlines per balloon, in script order, wide to narrow.
        gap_mm: Least true distance between outlines.
        margin_mm: Least distance from the panel's border, or from each of its sides.
        reading: Reading direction.
        keep_clear: Regions that nothing may lie on.
        ordered: Whether the reading order must be certain.

    Returns:
        True: `place_outlines` places them, with no limit of coverage. False: none was found here; a
        longer search, as `place_outlines` makes, may yet find one.

    Raises:
        PageError: As `place_outlines`.

    >>> from letterfit.outline import Ellipse
    >>> menu = [Ellipse(half_width=14, half_height=8)]
    >>> can_place(Rect(0, 0, 60, 40), [menu]), can_place(Rect(0, 0, 30, 30), [menu, menu])
    (True, False)
    """
    terms = make_terms(
        panel,
        menus,
        gap_mm=gap_mm,
        margin_mm=margin_mm,
        reading=reading,
        keep_clear=keep_clear,
        ordered=ordered,
    )
    return can_place_cases([Case(panel, menus, terms)])[0]


def can_place_cases(cases: Sequence[Case]) -> tuple[bool, ...]:
    """The same question of many panels at once."""
    found = [not case.menus for case in cases]
    chosen = [
        index
        for index, case in enumerate(cases)
        if 0 < len(case.menus) <= MOST_BALLOONS
        and not proof(case.panel, case.menus, terms=case.terms)
    ]
    for group in alike(cases, chosen):
        ways = [list(attempts(cases[i].panel, cases[i].menus, terms=cases[i].terms)) for i in group]
        for turn in range(max(map(len, ways))):
            left = [k for k, i in enumerate(group) if turn < len(ways[k]) and not found[i]]
            if left:
                problem = pose([ways[k][turn] for k in left])
                layouts = any_layouts(problem, np.arange(len(left)))
                for p in np.unique(layouts.panel).tolist():
                    found[group[left[p]]] = True
    return tuple(found)


def alike(cases: Sequence[Case], chosen: Sequence[int]) -> Iterator[list[int]]:
    """The chosen ones of some panels, in groups of like terms that may be searched together."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for index in chosen:
        terms, size = cases[index].terms, len(cases[index].menus)
        likeness = terms.gap, facing(terms), terms.overlap, terms.ordered, size == 1, size > LARGE
        groups.setdefault((*likeness, cases[index].effort), []).append(index)
    for group in groups.values():
        for start in range(0, len(group), TOGETHER):
            yield group[start : start + TOGETHER]


def any_layouts(problem: Problem, panels: Ints) -> Batch:
    """Some whole layouts of each panel, however they look; none of those where none was found."""
    few = squeezed(problem, panels, width=SQUEEZED[0])
    left = np.setdiff1d(panels, few.panel)
    if not len(left):
        return few
    return together([few, squeezed(problem, left, width=SQUEEZED[1])])


def attempts(
    panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms, brief: bool = False
) -> Iterator[Task]:
    """The task with gaps to keep-clear regions and area to spare for tails: the best first.

    A brief search does not try without: small tails seldom make a limit be kept.
    """
    gaps = (terms.gap, 0.0) if terms.regions and terms.gap else (terms.gap,)
    tails = sum(speaker is not None for speaker in terms.speakers)
    spares = (TAIL_AREA * tails, 0.0) if tails and terms.limit < 1 else (0.0,)
    for spare in spares[:1] if brief else spares:
        for gap in gaps:
            limit = terms.limit * panel.area_mm2 - spare
            yield Task(panel=panel, menus=menus, terms=terms, region_gap=gap, limit=limit)
