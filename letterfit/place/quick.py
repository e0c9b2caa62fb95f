"""The quick question, whether anything goes in at all, and the tasks that a search tries."""

from collections.abc import Iterator, Sequence

import numpy as np

from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline
from letterfit.place.beam import squeezed
from letterfit.place.kernel import Ints
from letterfit.place.model import Reading
from letterfit.place.pose import Task, pose
from letterfit.place.problem import Batch, Problem, together
from letterfit.place.proofs import proof
from letterfit.place.terms import KeepClear, Terms, make_terms

TAIL_AREA = 12.0
"""Area in mm2 that a tail of usual size covers, set aside where coverage is limited."""

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
    if not menus:
        return True
    if proof(panel, menus, terms=terms):
        return False
    tried = (pose([task]) for task in attempts(panel, menus, terms=terms))
    return any(len(any_layouts(problem, np.zeros(1, dtype=np.intp))) for problem in tried)


def any_layouts(problem: Problem, panels: Ints) -> Batch:
    """Some whole layouts of each panel, however they look; none of those where none was found."""
    few = squeezed(problem, panels, width=SQUEEZED[0])
    left = np.setdiff1d(panels, few.panel)
    if not len(left):
        return few
    return together([few, squeezed(problem, left, width=SQUEEZED[1])])


def attempts(panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms) -> Iterator[Task]:
    """The task with gaps to keep-clear regions and area to spare for tails: the best first."""
    gaps = (terms.gap, 0.0) if terms.regions and terms.gap else (terms.gap,)
    tails = sum(speaker is not None for speaker in terms.speakers)
    spares = (TAIL_AREA * tails, 0.0) if tails and terms.limit < 1 else (0.0,)
    for spare in spares:
        for gap in gaps:
            limit = terms.limit * panel.area_mm2 - spare
            yield Task(panel=panel, menus=menus, terms=terms, region_gap=gap, limit=limit)
