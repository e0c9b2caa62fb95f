"""Rewrites tests/data/tier_reference.json, about an hour: `python -m tests.tiers.reference`."""

import sys

import numpy as np

from tests.tiers.lot import Drawn
from tests.tiers.reference.evolution import by_scipy
from tests.tiers.reference.stored import Row, store

PAGES = 20


def main() -> None:
    """Search page after page until so many have a grid; store what was found."""
    rows: list[Row] = []
    seed = 0
    while len(rows) < PAGES:
        drawn = Drawn.of(seed)
        evolved = by_scipy(drawn, seed=seed, tabled=False)
        sys.stderr.write(f"{seed} {evolved.best:.5f} {evolved.asked}\n")
        if 0 < evolved.best < np.inf:
            tabled = by_scipy(drawn, seed=seed, tabled=True)
            sys.stderr.write(f"  {tabled.best:.5f} {tabled.asked}\n")
            rows.append(
                Row(
                    seed=seed,
                    figure_mm=drawn.figure_mm,
                    evolved=round(evolved.best, 6),
                    tabled=round(tabled.best, 6),
                    heights_mm=tuple(tabled.grid[0]),
                    widths_mm=tuple(map(tuple, tabled.grid[1])),
                )
            )
        seed += 1
    store(rows)


if __name__ == "__main__":
    main()
