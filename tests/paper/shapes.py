"""Shapes of pages for tests: tiers of panels and stacks, bleeds and insets, by lot."""

import math
from collections.abc import Sequence

from hypothesis import strategies as st

from letterfit.paper.shapes import (
    CORNERS,
    Cell,
    InsetShape,
    PageShape,
    PanelShape,
    StackShape,
    TierShape,
)

RATIOS = st.integers(4, 16).map(lambda n: n / 8)
SHARES = st.integers(20, 40).map(lambda n: n / 100)
PANELS = st.builds(
    PanelShape,
    st.booleans(),
    st.lists(
        st.builds(InsetShape, st.sampled_from(CORNERS), SHARES, SHARES),
        max_size=2,
        unique_by=lambda inset: inset.corner,
    ).map(tuple),
)


def _tiers(cells: st.SearchStrategy[Cell], most: int) -> st.SearchStrategy[tuple[TierShape, ...]]:
    places = st.lists(st.tuples(RATIOS, cells), min_size=1, max_size=3)
    tier = st.builds(
        lambda own, height: TierShape(
            tuple(width for width, _ in own), height, tuple(cell for _, cell in own)
        ),
        places,
        RATIOS,
    )
    return st.lists(tier, min_size=1, max_size=most).map(tuple)


SHAPES = _tiers(st.one_of(PANELS, st.builds(StackShape, _tiers(PANELS, 2))), 3).map(
    lambda tiers: PageShape(tiers=tiers)
)


def alike(some: Sequence[TierShape], others: Sequence[TierShape]) -> bool:
    """Whether tiers have the same cells and heights, and widths in the same proportions."""
    return len(some) == len(others) and all(map(_tiers_alike, some, others))


def _tiers_alike(one: TierShape, other: TierShape) -> bool:
    if len(one.widths) != len(other.widths) or not math.isclose(one.height, other.height):
        return False
    scale = sum(one.widths) / sum(other.widths)
    return all(
        math.isclose(width, scale * again, rel_tol=1e-5) and _cells_alike(cell, twin)
        for (width, cell), (again, twin) in zip(one.places, other.places, strict=True)
    )


def _cells_alike(one: Cell, other: Cell) -> bool:
    if isinstance(one, StackShape) and isinstance(other, StackShape):
        return alike(one.tiers, other.tiers)
    return one == other
