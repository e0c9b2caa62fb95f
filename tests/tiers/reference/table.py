"""The least change over a table of sizes, every one tried, by scipy.optimize.milp (HiGHS).

The table has all sizes that a grid of less change than the best known may have, at whole steps.
Binary variables: which step each tier takes, and which size each place.
"""

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_array

from letterfit.tiers.ground import Size
from tests.tiers.reference.asked import LIMITS, Floats, Search

STEP_MM = 0.25
"""Steps of the table of sizes."""

Cell = tuple[int, int, int, int]
"""A tier, its steps, a place in it, and its steps of width."""

Tiers = dict[tuple[int, int], int]
"""The variable of a tier that takes so many steps."""


def by_table(search: Search) -> Floats | None:
    """The relative changes of the cheapest grid of sizes that hold; None where there is none."""
    cells = table(search)
    tiers = {one: n for n, one in enumerate(sorted({(cell[0], cell[1]) for cell in cells}))}
    rows = [*adding_up(tiers, cells), *fitting(tiers, cells)]
    cost = prices(search, tiers, cells)
    matrix = lil_array((len(rows), len(cost)))
    for number, (_, parts) in enumerate(rows):
        for column, factor in parts.items():
            matrix[number, column] = factor
    sides = np.array([side for side, _ in rows])
    result = milp(
        cost,
        integrality=np.ones(len(cost), dtype=np.int64),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(matrix.tocsr(), sides, sides),
        options={"mip_rel_gap": 1e-4, "time_limit": 120},
    )
    if result.x is None:
        return None
    heights = search.heights.copy()
    widths = [own.copy() for own in search.widths]
    for (tier, steps), n in tiers.items():
        heights[tier] += steps * STEP_MM * (result.x[n] > 0.5)
    for n, (tier, _, place, wider) in enumerate(cells, start=len(tiers)):
        widths[tier][place] += wider * STEP_MM * (result.x[n] > 0.5)
    return search.moves(heights, widths)


def prices(search: Search, tiers: Tiers, cells: list[Cell]) -> Floats:
    """What each variable costs."""
    whole = search.heights.sum()
    of_tiers = [abs(steps) * STEP_MM / (2 * whole) for _, steps in tiers]
    of_cells = [
        search.heights[tier] / whole * abs(wider) * STEP_MM / (2 * search.widths[tier].sum())
        for tier, _, _, wider in cells
    ]
    return np.array([*of_tiers, *of_cells])


def adding_up(tiers: Tiers, cells: list[Cell]) -> list[tuple[float, dict[int, float]]]:
    """Each tier takes one height; heights add up, and each tier's widths do."""
    rows: list[tuple[float, dict[int, float]]] = []
    for tier in {tier for tier, _ in tiers}:
        rows.append((1, {n: 1.0 for (t, _), n in tiers.items() if t == tier}))
        own = {n: float(c[3]) for n, c in enumerate(cells, start=len(tiers)) if c[0] == tier}
        rows.append((0, own))
    return [*rows, (0, {n: float(steps) for (_, steps), n in tiers.items()})]


def fitting(tiers: Tiers, cells: list[Cell]) -> list[tuple[float, dict[int, float]]]:
    """Each place takes one size, and that of the height its tier takes."""
    places = {(cell[0], cell[2]) for cell in cells}
    found: dict[tuple[int, int, int], dict[int, float]] = {
        (tier, steps, place): {n: -1.0}
        for (tier, steps), n in tiers.items()
        for own, place in sorted(places)
        if own == tier
    }
    for n, (tier, steps, place, _) in enumerate(cells, start=len(tiers)):
        found[tier, steps, place][n] = 1.0
    return [(0, parts) for parts in found.values()]


def table(search: Search) -> list[Cell]:
    """All sizes that hold and may be cheap enough."""
    asked = [
        (cell, question)
        for tier in range(len(search.widths))
        for cell, question in questions(search, tier)
    ]
    search.shortfalls([question for _, question in asked])
    return [cell for cell, question in asked if search.tried[question] == 0]


def questions(search: Search, tier: int) -> list[tuple[Cell, tuple[int, Size]]]:
    """The sizes of a tier's places that may be cheap enough."""
    own, height, whole = search.widths[tier], search.heights[tier], search.heights.sum()
    first = sum(len(widths) for widths in search.widths[:tier])
    share = height / whole / own.sum()
    high = int(min(search.best * whole, LIMITS.tier_change * height) / STEP_MM)
    found: list[tuple[Cell, tuple[int, Size]]] = []
    for steps in range(-high, high + 1):
        left = search.best - abs(steps) * STEP_MM / whole
        for place, width in enumerate(own):
            wide = int(min(left / share, LIMITS.panel_change * width) / STEP_MM)
            for wider in range(-wide, wide + 1) if len(own) > 1 else (0,):
                size = (
                    float((width + wider * STEP_MM).round(4)),
                    float((height + steps * STEP_MM).round(4)),
                )
                found.append(((tier, steps, place, wider), (first + place, size)))
    return found
