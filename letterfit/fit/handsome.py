"""The best-looking stack among those that fit: an exact search over lines and their neighbours.

Per (number of lines, shape) and a largest scale, the lines that some fitting stack uses form a
graph: a line leads to the lines that may stand under it. The costs of looks belong to single lines,
to neighbouring lines (a step in the wrong direction, which depends on whether the stack still rises
or falls already) and to the whole. So one pass from the bottom line up, with two values per line
(rising, falling), finds the stack of least cost among all that fit: nothing is sampled or pruned.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.fit import looks
from letterfit.fit.ink import Stack
from letterfit.fit.lines import Ints
from letterfit.fit.survey import Survey
from letterfit.lettering.words import Words
from letterfit.outline import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Level:
    """The lines at one height (counted from the bottom) that fitting stacks use, by pair and start.

    Args:
        pair: Shape (m,): position among the pairs searched.
        first: First piece.
        end: One past the last piece.
        width: Advance over the outline's width.
        own: Cost of the line by itself.
    """

    pair: Ints
    first: Ints
    end: Ints
    width: Floats
    own: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Values:
    """Least cost of a line and all under it, and the line chosen next, per phase.

    Args:
        cost: Shape (2, m): row 0 while the stack may rise, row 1 once it falls.
        chosen: Shape (2, m): the next line's number in its level.
        phase: Shape (2, m): the phase it is in.
    """

    cost: Floats
    chosen: Ints
    phase: Ints


def handsome(
    words: Words, found: Survey, pairs: Ints, *, limits: Floats
) -> list[tuple[float, Stack]]:
    """Per pair the cost of looks and the stack of least cost whose lines all stay in their limit.

    Args:
        words: The text.
        found: Its survey.
        pairs: Numbers of pairs in the survey, ascending; each holds a stack within its limit.
        limits: Per pair the largest scale of its shape.
    """
    counts = found.counts[pairs]
    levels = _levels(words, found, pairs, limits=limits)
    values: list[Values] = []
    for height, level in enumerate(levels):
        under = (levels[height - 1], values[-1]) if height else None
        values.append(_values(level, counts[level.pair], height=height, under=under))
    return [_stack(levels, values, p, int(count)) for p, count in enumerate(counts.tolist())]


def _levels(words: Words, found: Survey, pairs: Ints, *, limits: Floats) -> list[Level]:
    """The levels from the bottom up, found from the top down."""
    counts = found.counts[pairs]
    starts = np.zeros((len(pairs), len(words) + 1), dtype=np.bool_)
    texts = Counts.of(words)
    half_widths = limits * found.shapes.half_widths[found.which[pairs]]
    levels = []
    for height in range(int(counts.max()) - 1, -1, -1):
        active = int((counts > height).sum())
        starts[:active][counts[:active] == height + 1, 0] = True
        pair, first, end = _lines_in_use(found, pairs[:active], limits, height, starts[:active])
        starts[:active] = False
        starts[pair, end] = True
        half = found.candidates.advances[end - first - 1, first] / 2
        room = _chords(found, pairs, limits, height=height)[pair] - half
        count = counts[pair]
        own = looks.break_price(words.penalties[end - 1])
        own += looks.unevenness(room / half_widths[pair]) / count
        outer = (count > 1) & ((height == 0) | (height == count - 1))
        own += np.where(outer, texts.lone(first, end), 0.0)
        levels.append(Level(pair, first, end, half / half_widths[pair], own))
    return levels[::-1]


def _lines_in_use(
    found: Survey, pairs: Ints, limits: Floats, height: int, starts: npt.NDArray[np.bool_]
) -> tuple[Ints, Ints, Ints]:
    """Pair, first piece and end of the lines that can be reached, fit, and can be gone on from."""
    costs = found.costs[found.rows_of_costs[pairs, height]]
    fits = (costs <= limits[: len(pairs), None, None]) & starts[:, None, :-1]
    pair, run, first = np.nonzero(fits)
    end = first + run + 1
    rest = found.rows[height][pairs[pair], end] <= limits[pair]
    pair, first, end = pair[rest], first[rest], end[rest]
    order = np.lexsort((end, first, pair))
    return pair[order], first[order], end[order]


def _chords(found: Survey, pairs: Ints, limits: Floats, *, height: int) -> Floats:
    """Half the room in mm, between airs, for a line of capitals at a height, per pair."""
    lines = found.candidates
    edges = np.abs(found.counts[pairs] - 1 - 2 * height) * lines.half_leading + lines.half_cap
    which = found.which[pairs]
    result: Floats = lines.chords(found.shapes, edges=edges, which=which, scales=limits).min(axis=1)
    return result


@dataclass(frozen=True, slots=True, eq=False)
class Counts:
    """Letters and words before every piece, and in all: shape (n + 1,) both."""

    letters: Ints
    words: Ints

    @classmethod
    def of(cls, words: Words) -> "Counts":
        """Count letters and digits, and the words begun."""
        letters = [sum(map(str.isalnum, piece.text)) for piece in words.pieces]
        return cls(
            np.concatenate([[0], np.cumsum(letters)]),
            np.concatenate([[0], np.cumsum(words.word_counts)]),
        )

    def lone(self, first: Ints, end: Ints) -> Floats:
        """The cost of lines first .. end - 1 as the first or last of a stack."""
        words = self.words[end] - self.words[first + 1] + 1
        return looks.lone_word(self.letters[end] - self.letters[first], words)


def _values(
    level: Level, counts: Ints, *, height: int, under: tuple[Level, Values] | None
) -> Values:
    """The least costs of a level's lines, given those of the level under it."""
    here = counts - 1 - height
    peak = looks.peak_place(here, counts)
    if under is None:
        nowhere = np.zeros((2, len(level.pair)), dtype=np.int64)
        return Values(np.stack([level.own + peak, level.own]), nowhere, nowhere)
    below, values = under
    source, target = _edges(level, below)
    growth = below.width[target] - level.width[source]
    rise, fall = looks.step(-growth), looks.step(growth)
    up = rise + values.cost[0, target]
    down = fall + values.cost[1, target]
    # A stack that still rises may turn here, and this line is then its longest.
    turn = down + peak[source]
    best, chosen = zip(_least(np.minimum(up, turn), source), _least(down, source), strict=True)
    edge = np.stack(chosen)
    phase = np.stack([(turn < up)[edge[0]], np.ones(len(level.pair), dtype=np.bool_)])
    return Values(level.own + np.stack(best), target[edge], phase.astype(np.int64))


def _edges(level: Level, below: Level) -> tuple[Ints, Ints]:
    """All pairs of neighbouring lines: numbers in their levels, ascending by the upper one."""
    span = int(max(level.end.max(), below.first.max())) + 1
    keys = below.pair * span + below.first
    wanted = level.pair * span + level.end
    low = np.searchsorted(keys, wanted, side="left")
    many = np.searchsorted(keys, wanted, side="right") - low
    source = np.repeat(np.arange(len(wanted)), many)
    begin = np.cumsum(many) - many
    return source, low[source] + np.arange(len(source)) - begin[source]


def _least(cost: Floats, source: Ints) -> tuple[Floats, Ints]:
    """The least cost per source, and the number of the first edge that has it."""
    begin = np.flatnonzero(np.concatenate([[True], source[1:] != source[:-1]]))
    best = np.minimum.reduceat(cost, begin)
    hits = np.flatnonzero(cost == best[source])
    first = np.empty(len(begin), dtype=np.int64)
    first[source[hits][::-1]] = hits[::-1]
    return best, first


def _stack(levels: list[Level], values: list[Values], pair: int, count: int) -> tuple[float, Stack]:
    """Follow the choices down from the first line of one pair."""
    height = count - 1
    line = _first_line(levels[height], values[height], pair)
    cost, phase = float(values[height].cost[0, line]), 0
    stack = [0]
    while True:
        stack.append(int(levels[height].end[line]))
        if height == 0:
            return cost, tuple(stack)
        at = values[height]
        line, phase = int(at.chosen[phase, line]), int(at.phase[phase, line])
        height -= 1


def _first_line(level: Level, values: Values, pair: int) -> int:
    """The best of a pair's lines in the level of its first line."""
    begin, end = np.searchsorted(level.pair, [pair, pair + 1])
    return int(begin + values.cost[0, begin:end].argmin())
