"""What was asked of a page's places while a grid was sought, and the best grid that holds."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

import letterfit as lf
from letterfit.tiers.ground import Ground, Size, Spot

LIMITS = lf.TierLimits()
Floats = npt.NDArray[np.float64]


@dataclass
class Search:
    """What was tried on a page, and the best grid that holds."""

    ground: Ground
    best: float = np.inf
    grid: tuple[list[float], list[list[float]]] = field(default_factory=lambda: ([], []))
    tried: dict[tuple[int, Size], float] = field(default_factory=dict)
    asked: int = 0

    def __post_init__(self) -> None:
        """The grid as it is."""
        self.spots = [spot for row in self.ground.spots for spot in row]
        self.heights = np.array([row[0].box.height for row in self.ground.spots])
        self.widths = [np.array([spot.box.width for spot in row]) for row in self.ground.spots]

    def grids(self, moves: Floats) -> list[tuple[Floats, list[Floats]]]:
        """Grids by their relative changes, sizes shared out so that all sums stay."""
        found = []
        for move in moves.T:
            parts = np.split(move, np.cumsum([len(self.heights), *map(len, self.widths)])[:-1])
            heights = self.heights * (1 + parts[0] * LIMITS.tier_change)
            widths = [
                own * (1 + part * LIMITS.panel_change)
                for own, part in zip(self.widths, parts[1:], strict=True)
            ]
            heights -= (heights.sum() - self.heights.sum()) / len(heights)
            widths = [
                new - (new.sum() - own.sum()) / len(own)
                for new, own in zip(widths, self.widths, strict=True)
            ]
            found.append((heights.round(4), [new.round(4) for new in widths]))
        return found

    def moves(
        self, heights: Sequence[float] | Floats, widths: Sequence[Sequence[float]] | list[Floats]
    ) -> Floats:
        """The relative changes that lead to a grid."""
        parts = [(np.array(heights) / self.heights - 1) / LIMITS.tier_change]
        parts += [
            (np.array(new) / own - 1) / LIMITS.panel_change
            for new, own in zip(widths, self.widths, strict=True)
        ]
        return np.concatenate(parts)

    def change(self, grid: tuple[Floats, list[Floats]]) -> float:
        """The share of the page that passes from one place to another."""
        whole = self.heights.sum()
        result = float(np.abs(grid[0] - self.heights).sum() / (2 * whole))
        for height, own, new in zip(self.heights, self.widths, grid[1], strict=True):
            result += float(height / whole * np.abs(new - own).sum() / (2 * own.sum()))
        return result

    def beyond(self, grid: tuple[Floats, list[Floats]]) -> float:
        """By how much a grid breaks the limits, relative."""
        tiers = np.abs(grid[0] / self.heights - 1) - LIMITS.tier_change
        panels = np.concatenate(
            [np.abs(n / o - 1) for n, o in zip(grid[1], self.widths, strict=True)]
        )
        return float(np.maximum([*tiers, *(panels - LIMITS.panel_change)], 0).sum())

    def shortfalls(self, asked: Sequence[tuple[int, Size]]) -> None:
        """How much is missing in places at sizes, asked together: 0 where all is well."""
        new = list(dict.fromkeys(one for one in asked if one not in self.tried))
        told = shortfalls(self.ground, [(self.spots[k], size) for k, size in new])
        self.tried.update(zip(new, told, strict=True))
        self.asked += len(new)

    def costs(self, moves: Floats) -> Floats:
        """Change and what is missing, for many grids; those that hold are kept in mind."""
        grids = self.grids(moves)
        places = [
            [
                (float(width), float(height))
                for height, row in zip(heights, widths, strict=True)
                for width in row
            ]
            for heights, widths in grids
        ]
        self.shortfalls([(k, size) for grid in places for k, size in enumerate(grid)])
        costs = []
        for grid, sizes in zip(grids, places, strict=True):
            short = sum(self.tried[k, size] for k, size in enumerate(sizes))
            short += 10 * self.beyond(grid)
            change = self.change(grid)
            if short == 0 and change < self.best:
                self.best = change
                self.grid = (grid[0].tolist(), [row.tolist() for row in grid[1]])
            costs.append(change + (0.02 + 2 * short if short else 0))
        return np.array(costs)


def shortfalls(ground: Ground, asked: Sequence[tuple[Spot, Size]]) -> list[float]:
    """What is missing in each place, relative; more than 1 where a panel is not placed."""
    limit = ground.setting.limits.coverage
    found = []
    for panels in ground.layouts(asked):
        missing = 3.0 if panels is None else 0.0
        for job, layout in panels or ():
            if layout.verdict != "placed":
                missing += 1.5
            covered = layout.coverage * job.room.area_mm2 / job.open_area_mm2
            missing += max(0.0, covered - limit)
            short = ground.figure_mm - layout.figure_height_mm
            missing += short / ground.figure_mm if short > 0 else 0.0
        found.append(missing)
    return found
