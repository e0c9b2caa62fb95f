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
from letterfit.runs import starts

RISING, FALLING = 0, 1


@dataclass(frozen=True, slots=True, eq=False)
class Graph:
    """The lines that fitting stacks use, by height from the bottom, then pair, then first piece.

    Args:
        height: Shape (m,): lines under this one.
        pair: Shape (m,): position among the pairs searched.
        first: First piece.
        end: One past the last piece.
        edges: Shape (m + 1,): where the edges of each line begin; edges are sorted by upper line.
        target: Shape (edges,): the lower line of each edge.
    """

    height: Ints
    pair: Ints
    first: Ints
    end: Ints
    edges: Ints
    target: Ints


@dataclass(frozen=True, slots=True, eq=False)
class Looking:
    """The least costs of looks, and the stacks that have them.

    Args:
        costs: Shape (pairs,): per pair searched, the least cost of a stack that fits.
        graph: The lines.
        peak: Shape (m,): what it costs when a line is its stack's longest.
        steps: Shape (2, edges): the cost of each edge in a rising and in a falling stack.
        values: Shape (2, m): the least cost of a line and all under it, rising and falling.
        tops: Shape (pairs,): the first line of each pair's best stack.
    """

    costs: Floats
    graph: Graph
    peak: Floats
    steps: Floats
    values: Floats
    tops: Ints

    def stack(self, pair: int) -> Stack:
        """The stack of least cost of one pair; of equal ones that with the shorter upper lines."""
        line, phase = int(self.tops[pair]), RISING
        stack = [0, int(self.graph.end[line])]
        while self.graph.height[line]:
            edges = slice(int(self.graph.edges[line]), int(self.graph.edges[line + 1]))
            targets = self.graph.target[edges]
            on = self.steps[:, edges] + self.values[:, targets]
            if on[FALLING].min() + self.peak[line] < on[RISING].min():
                phase = FALLING
            line = int(targets[on[phase].argmin()])
            stack.append(int(self.graph.end[line]))
        return tuple(stack)


def handsome(words: Words, found: Survey, pairs: Ints, *, limits: Floats) -> Looking:
    """Per pair the stack of least cost of looks among those whose lines all stay in their limit.

    Args:
        words: The text.
        found: Its survey.
        pairs: Numbers of pairs in the survey, ascending; each holds a stack within its limit.
        limits: Per pair the largest scale of its shape.
    """
    counts = found.counts[pairs]
    graph = _graph(found, pairs, limits=limits)
    half_width = (limits * found.shapes.half_widths[found.which[pairs]])[graph.pair]
    half = found.candidates.advances[graph.end - graph.first - 1, graph.first] / 2
    room = _chords(found, pairs, limits=limits)[graph.pair, graph.height] - half
    count = counts[graph.pair]
    own = _own_costs(words, graph, count=count, gap=room / half_width)
    width = half / half_width
    growth = width[graph.target] - np.repeat(width, np.diff(graph.edges))
    steps = np.stack([looks.step(-growth), looks.step(growth)])
    peak = looks.peak_place(count - 1 - graph.height, count)
    values = _values(graph, own=own, peak=peak, steps=steps)
    tops = _best_tops(graph, values[RISING], counts=counts)
    return Looking(values[RISING, tops], graph, peak, steps, values, tops)


def _graph(found: Survey, pairs: Ints, *, limits: Floats) -> Graph:
    """Find the lines from the top down, then what leads to what."""
    counts, pieces = found.counts[pairs], found.candidates.advances.shape[1]
    starts = np.zeros((len(pairs), pieces + 1), dtype=np.bool_)
    levels = []
    for height in range(int(counts.max()) - 1, -1, -1):
        active = int((counts > height).sum())
        starts[:active][counts[:active] == height + 1, 0] = True
        pair, first, end = _lines_in_use(found, pairs[:active], limits, height, starts[:active])
        starts[:active] = False
        starts[pair, end] = True
        levels.append(np.stack([np.full_like(pair, height), pair, first, end]))
    height_of, pair, first, end = np.concatenate(levels[::-1], axis=1)
    # A line's place in the order, and the place of the lines that may stand under it.
    span = pieces + 1
    keys = (height_of * len(pairs) + pair) * span + first
    under = ((height_of - 1) * len(pairs) + pair) * span + end
    low = np.searchsorted(keys, under)
    many = np.where(height_of > 0, np.searchsorted(keys, under, side="right") - low, 0)
    edges = np.concatenate([[0], np.cumsum(many)])
    target = np.arange(edges[-1]) + np.repeat(low - edges[:-1], many)
    return Graph(height_of, pair, first, end, edges, target)


def _lines_in_use(
    found: Survey, pairs: Ints, limits: Floats, height: int, starts: npt.NDArray[np.bool_]
) -> tuple[Ints, Ints, Ints]:
    """Pair, first piece and end of the lines that can be reached, fit, and can be gone on from."""
    costs = found.costs[found.rows_of_costs[pairs, height]].transpose(0, 2, 1)
    limit = limits[: len(pairs)]
    pair, first, run = np.nonzero((costs <= limit[:, None, None]) & starts[:, :-1, None])
    end = first + run + 1
    rest = found.rows[height][pairs[pair], end] <= limit[pair]
    return pair[rest], first[rest], end[rest]


def _chords(found: Survey, pairs: Ints, *, limits: Floats) -> Floats:
    """Half the room in mm, between airs, for a line of capitals: per pair and height."""
    lines, counts = found.candidates, found.counts[pairs]
    most = int(counts.max())
    places = np.abs(counts[:, None] - 1 - 2 * np.arange(most))
    edges = (places * lines.half_leading + lines.half_cap).ravel()
    which, scales = np.repeat(found.which[pairs], most), np.repeat(limits, most)
    room = lines.chords(found.shapes, edges=edges, which=which, scales=scales).min(axis=1)
    result: Floats = room.reshape(len(pairs), most)
    return result


def _own_costs(words: Words, graph: Graph, *, count: Ints, gap: Floats) -> Floats:
    """The costs of lines by themselves: price of their end, uneven air, lone words."""
    letters = [looks.letters(words.piece_text(p)) for p in range(len(words))]
    letters_before = np.concatenate([[0], np.cumsum(letters)])
    words_before = np.concatenate([[0], np.cumsum(words.word_counts)])
    outer = (graph.height == 0) | (graph.height == count - 1)
    first, end = graph.first, graph.end
    on_line = words_before[end] - words_before[first + 1] + 1
    spelt = letters_before[end] - letters_before[first]
    lone = np.where(outer, looks.lone_word(spelt, on_line), looks.short_line(spelt, on_line))
    price = looks.break_price(words.penalties[end - 1])
    result: Floats = price + looks.unevenness(gap) / count + np.where(count > 1, lone, 0.0)
    return result


def _values(graph: Graph, *, own: Floats, peak: Floats, steps: Floats) -> Floats:
    """The least cost of every line and all under it, from the bottom up: shape (2, m)."""
    values = np.stack([own + peak, own])
    heights = np.searchsorted(graph.height, np.arange(int(graph.height[-1]) + 2))
    for low, high in zip(heights[1:-1].tolist(), heights[2:].tolist(), strict=True):
        edges = slice(int(graph.edges[low]), int(graph.edges[high]))
        on = steps[:, edges] + values[:, graph.target[edges]]
        begin = graph.edges[low:high] - graph.edges[low]
        rising, falling = np.minimum.reduceat(on, begin, axis=1)
        # A stack that still rises may turn here, and this line is then its longest.
        values[RISING, low:high] = own[low:high] + np.minimum(rising, falling + peak[low:high])
        values[FALLING, low:high] = own[low:high] + falling
    return values


def _best_tops(graph: Graph, values: Floats, *, counts: Ints) -> Ints:
    """The best first line of every pair."""
    top = np.flatnonzero(graph.height == counts[graph.pair] - 1)
    order = np.lexsort((top, values[top], graph.pair[top]))
    ranked = top[order]
    first: Ints = ranked[starts(graph.pair[ranked])]
    return first
