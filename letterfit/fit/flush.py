"""Lines that begin together: at the left, at the right where they read so, at the top of columns.

A stack of flush lines is a block as wide as its longest line. So for every number of lines the
breaks are sought whose longest line is the shortest, and among those that are nearly as good the
best-looking; then each stack's outlines are taken round its ink as it stands. Every outline keeps
its air exactly and is the smallest of its aspect round its stack; over all stacks it is not proved
to be the smallest, as it is for centred lines.
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.fit import looks
from letterfit.fit.aspects import Cells
from letterfit.fit.bound import least_scale
from letterfit.fit.ink import Ink, Stack
from letterfit.fit.judge import looks_cost
from letterfit.fit.lines import reach_of
from letterfit.fit.polish import smallest_outline
from letterfit.fit.smallest import NEAR, Small
from letterfit.fit.table import best_breaks
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

LOOSE = 0.12
"""By what share the longest line may be longer than it must be, for the sake of looks."""

MOST_COUNTS = 16
"""Numbers of lines that are tried."""

BEYOND = 2.0
"""How much flatter or steeper than any outline a block is that is still tried."""

ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, eq=False)
class Blocks:
    """The stacks that are worth trying.

    Args:
        ink: The text's ink.
        stacks: Each stack once.
        points: Per stack the corners of its ink, as `Ink.points` gives them.
    """

    ink: Ink
    stacks: tuple[Stack, ...]
    points: tuple[Floats, ...]

    @classmethod
    def of(cls, words: Words, *, aspects: tuple[float, float]) -> "Blocks":
        """The stacks for outlines within a range of aspects."""
        found: dict[Stack, None] = {}
        for count in _counts(words, aspects):
            found |= dict.fromkeys(_stacks(words, count))
        ink = Ink.of(words)
        return cls(ink, tuple(found), tuple(map(ink.points, found)))

    def smalls(self, grid: Cells, *, air: float, slack: float) -> tuple[list[Small], Floats]:
        """Per cell of aspect the best-looking block within the slack, and the least scales."""
        best, least = [], []
        for unit in grid.shapes.outlines:
            scales = [least_scale(points, unit, air=air).scale for points in self.points]
            least.append(min(scales))
            within = [
                Small(stack, unit.scaled(scale))
                for stack, scale in zip(self.stacks, scales, strict=True)
                if scale <= least[-1] * math.sqrt(1 + slack) * (1 + ROUNDING)
            ]
            best.append(min(within, key=lambda small: self.cost(small, air=air)))
        return best, np.array(least)

    def smallest(
        self, name: str, *, aspects: tuple[float, float], air: float, slack: float
    ) -> Small:
        """The best-looking block within the slack, its outline's aspect free in the range."""
        found = [
            Small(stack, smallest_outline(points, name, aspects=aspects, air=air, tolerance=NEAR))
            for stack, points in zip(self.stacks, self.points, strict=True)
        ]
        most = min(small.area for small in found) * (1 + slack) * (1 + ROUNDING)
        within = [small for small in found if small.area <= most]
        return min(within, key=lambda small: self.cost(small, air=air))

    def into(self, outline: Outline, *, air: float) -> Stack | None:
        """The best-looking block that goes into a given outline; None when none does."""
        fits = [
            Small(stack, outline)
            for stack, points in zip(self.stacks, self.points, strict=True)
            if least_scale(points, outline, air=air).scale <= 1 + ROUNDING
        ]
        return min(fits, key=lambda small: self.cost(small, air=air)).stack if fits else None

    def cost(self, small: Small, *, air: float) -> float:
        """The cost of a block's looks."""
        return looks_cost(self.ink.words, small.stack, small.outline, air=air)


def _counts(words: Words, aspects: tuple[float, float]) -> list[int]:
    """Numbers of lines of blocks about as flat or steep as the outlines."""
    length = float(words.ends[-1])
    least = int(words.forced.sum())
    low, high = (math.sqrt(length / (words.leading_mm * aspect)) for aspect in aspects[::-1])
    first = max(least, min(len(words), math.floor(low / math.sqrt(BEYOND))), 1)
    last = max(first, min(len(words), math.ceil(high * math.sqrt(BEYOND)) + least))
    spread = np.linspace(first, last, min(MOST_COUNTS, last - first + 1))
    return sorted(set(np.rint(spread).astype(int).tolist()))


def _stacks(words: Words, count: int) -> list[Stack]:
    """The stack of so many lines whose longest is the shortest, and the best-looking near it."""
    longest = float((words.ends - words.starts).max())
    reach = reach_of(
        words, max(2 * float(words.ends[-1]) / count + longest, _between_forced(words))
    )
    advances = np.ascontiguousarray(words.advances(reach).T)
    width, ends = best_breaks([advances] * count, combine="max", lines=count)
    if not ends:
        return []
    limit = max(width * (1 + LOOSE), math.ulp(1.0))
    costs = _costs(words, advances, limit=limit, count=count)
    _, better = best_breaks(costs, combine="sum", lines=count)
    return [(0, *(end + 1 for end in chosen)) for chosen in (ends, better) if chosen]


def _between_forced(words: Words) -> float:
    """The longest stretch without a forced end, mm."""
    ends = np.flatnonzero(words.forced)
    begins = np.concatenate([[0], ends[:-1] + 1])
    return float((words.ends[ends] - words.starts[begins]).max())


def _costs(words: Words, advances: Floats, *, limit: float, count: int) -> list[Floats]:
    """What every line costs at each place of a block of that width, the rest as `looks_cost`."""
    reach, pieces = advances.shape
    first = np.broadcast_to(np.arange(pieces), (reach, pieces))
    end = np.minimum(first + np.arange(1, reach + 1)[:, None], pieces)
    letters = np.cumsum([0, *(looks.letters(words.piece_text(p)) for p in range(pieces))])
    begun = np.concatenate([[0], np.cumsum(words.word_counts)])
    on_line = 1 + begun[end] - begun[np.minimum(first + 1, end)]
    lone = looks.lone_word(letters[end] - letters[first], on_line)
    own = np.where(advances <= limit, looks.break_price(words.penalties[end - 1]), math.inf)
    ragged = own + looks.unevenness((limit - np.minimum(advances, limit)) / (2 * limit)) / count
    costs: list[Floats] = [ragged] * (count - 1) + [own]
    if count > 1:
        costs[0], costs[-1] = costs[0] + lone, costs[-1] + lone
    return costs
