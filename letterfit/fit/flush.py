"""Lines that begin together: at the left, at the right where they read so, at the top of columns.

A stack of flush lines is a block as wide as its longest line. So for every number of lines the
breaks are sought whose longest line is the shortest, and among those that are nearly as good the
best-looking; then each stack's outlines are taken round its ink as it stands. Every outline keeps
its air exactly and is the smallest of its aspect round its stack; over all stacks it is not proved
to be the smallest, as it is for centred lines.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from letterfit.fit import looks
from letterfit.fit.aspects import Cells
from letterfit.fit.bound import SAMPLES, least_scale
from letterfit.fit.ink import Ink, Stack
from letterfit.fit.judge import flush_cost
from letterfit.fit.lines import reach_of
from letterfit.fit.polish import smallest_outline
from letterfit.fit.smallest import NEAR, Small
from letterfit.fit.table import best_breaks
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

LOOSE = 0.12
"""By what share the longest line may be longer than it must be, for the sake of looks."""

MOST_COUNTS = 16
"""Numbers of lines that are tried, fewer for texts of more than LONG pieces."""

LONG = 100

BEYOND = 2.0
"""How much flatter or steeper than any outline a block is that is still tried."""

ROUNDING = 1e-12

_DIRECTIONS = np.stack([np.cos(SAMPLES), np.sin(SAMPLES)])


@dataclass(frozen=True, slots=True, eq=False)
class Blocks:
    """The stacks that are worth trying.

    Args:
        ink: The text's ink.
        stacks: Each stack once.
        points: Per stack the corners of its ink, as `Ink.points` gives them.
        costs: Per stack what its looks cost, its outline's aspect apart.
    """

    ink: Ink
    stacks: tuple[Stack, ...]
    points: tuple[Floats, ...]
    costs: tuple[float, ...]

    @classmethod
    def of(cls, words: Words, *, aspects: tuple[float, float]) -> "Blocks":
        """The stacks for outlines within a range of aspects."""
        found: dict[Stack, None] = {}
        for count in _counts(words, aspects):
            found |= dict.fromkeys(_stacks(words, count))
        ink = Ink.of(words)
        costs = (flush_cost(words, stack) for stack in found)
        return cls(ink, tuple(found), tuple(map(ink.points, found)), tuple(costs))

    def smalls(self, grid: Cells, *, air: float, slack: float) -> tuple[list[Small], Floats]:
        """Per cell of aspect the best-looking block within the slack, and the least scales.

        Scales over a few directions come out too small; only those of the blocks that may be chosen
        are made exact.
        """
        reaches = np.stack([(points @ _DIRECTIONS).max(axis=0) for points in self.points]) + air
        best, least = [], []
        for unit in grid.shapes.outlines:
            about = (reaches / unit.support(SAMPLES)).max(axis=1)
            exact: dict[int, float] = {}

            def scale(k: int, unit: Outline = unit, exact: dict[int, float] = exact) -> float:
                if k not in exact:
                    exact[k] = least_scale(self.points[k], unit, air=air).scale
                return exact[k]

            least.append(self._least(about, scale))
            limit = least[-1] * math.sqrt(1 + slack) * (1 + ROUNDING)
            within = (k for k in self._ranked if about[k] <= limit)
            chosen = next(k for k in within if scale(k) <= limit)
            best.append(Small(self.stacks[chosen], unit.scaled(scale(chosen))))
        return best, np.array(least)

    @staticmethod
    def _least(about: Floats, scale: Callable[[int], float]) -> float:
        """The least exact scale, from scales that are never too large."""
        found = math.inf
        for k in np.argsort(about, kind="stable").tolist():
            if about[k] >= found:
                break
            found = min(found, scale(k))
        return found

    @property
    def _ranked(self) -> list[int]:
        """The stacks, the best-looking first."""
        return sorted(range(len(self.stacks)), key=self.costs.__getitem__)

    def smallest(
        self, name: str, *, aspects: tuple[float, float], air: float, slack: float
    ) -> Small:
        """The best-looking block within the slack, its outline's aspect free in the range."""
        found = [
            Small(stack, smallest_outline(points, name, aspects=aspects, air=air, tolerance=NEAR))
            for stack, points in zip(self.stacks, self.points, strict=True)
        ]
        most = min(small.area for small in found) * (1 + slack) * (1 + ROUNDING)
        costs = [
            cost + float(looks.aspect_departure(small.outline.aspect, name))
            for cost, small in zip(self.costs, found, strict=True)
        ]
        within = [k for k, small in enumerate(found) if small.area <= most]
        return found[min(within, key=costs.__getitem__)]

    def into(self, outline: Outline, *, air: float) -> Stack | None:
        """The best-looking block that goes into a given outline; None when none does."""
        for k in self._ranked:
            if least_scale(self.points[k], outline, air=air).scale <= 1 + ROUNDING:
                return self.stacks[k]
        return None


def _counts(words: Words, aspects: tuple[float, float]) -> list[int]:
    """Numbers of lines of blocks about as flat or steep as the outlines."""
    length = float(words.ends[-1])
    least = int(words.forced.sum())
    low, high = (math.sqrt(length / (words.leading_mm * aspect)) for aspect in aspects[::-1])
    first = max(least, min(len(words), math.floor(low / math.sqrt(BEYOND))), 1)
    last = max(first, min(len(words), math.ceil(high * math.sqrt(BEYOND)) + least))
    most = max(3, MOST_COUNTS * LONG // max(LONG, len(words)))
    spread = np.linspace(first, last, min(most, last - first + 1))
    return sorted(set(np.rint(spread).astype(int).tolist()))


def _stacks(words: Words, count: int) -> list[Stack]:
    """The stack of so many lines whose longest is the shortest, and the best-looking near it."""
    # Filled one after another, no line needs to be longer than its share and the longest piece.
    longest = float((words.ends - words.starts).max())
    width = max(float(words.ends[-1]) / count + longest, _between_forced(words))
    reach = reach_of(words, width * (1 + LOOSE))
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
