"""The best grid that scipy's optimisers find for a page."""

from typing import Any

import numpy as np
from scipy.optimize import Bounds, differential_evolution, minimize

from letterfit.tiers.ground import ground_of
from tests.tiers.lot import Drawn
from tests.tiers.reference.asked import Floats, Search
from tests.tiers.reference.table import by_table


def by_scipy(drawn: Drawn, *, seed: int, tabled: bool) -> Search:
    """The best that scipy's optimisers find for a page, with or without the table of all sizes."""
    search = Search(ground_of(drawn.report, figure_mm=drawn.figure_mm))
    lot = np.random.default_rng(seed)
    own = np.zeros(len(search.heights) + len(search.spots))
    evolved(search, own, spread=0.2, rounds=40, seed=seed, lot=lot)
    if tabled and 0 < search.best < np.inf:
        best = by_table(search)
        if best is not None:
            search.costs(best[:, None])
    if 0 < search.best < np.inf:
        best = search.moves(*search.grid)
        evolved(search, best, spread=0.01, rounds=40, seed=seed, lot=lot)
        one: Any = lambda move: float(search.costs(move[:, None])[0])  # noqa: E731
        minimize(
            one,
            search.moves(*search.grid),
            method="Nelder-Mead",
            options={"maxfev": 400, "adaptive": True},
        )
    return search


def evolved(
    search: Search,
    start: Floats,
    *,
    spread: float,
    rounds: int,
    seed: int,
    lot: np.random.Generator,
) -> None:
    """Differential evolution from a grid and others near it."""
    costs: Any = search.costs  # of many grids at once, which the optimiser's types do not tell
    near = start + lot.normal(0, spread, (39, len(start)))
    differential_evolution(
        costs,
        Bounds(-np.ones(len(start)), np.ones(len(start))),
        init=np.vstack([start, near]).clip(-1, 1),
        maxiter=rounds,
        seed=seed,
        vectorized=True,
        updating="deferred",
        polish=False,
        mutation=(0.3, 0.9),
        tol=1e-8,
    )
