"""The best-looking stacks of lanes.

The looks of a stack are costs of its lines and of neighbouring lines (a step in the wrong
direction, which depends on whether the stack still rises or falls already): with two values per
line, rising and falling, a table from the bottom up is exact.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from letterfit.fit import looks
from letterfit.fit.graph import Graph
from letterfit.fit.ink import Stack
from letterfit.fit.lines import Ints
from letterfit.outline import Floats


@dataclass(frozen=True, eq=False, kw_only=True)
class Best:
    """The best-looking stacks of lanes.

    Args:
        lanes: Shape (k,): the lanes in which a stack goes in.
        costs: Shape (k,): what the looks of each one's best stack cost, its aspect apart.
        graph: The lines.
        tops: Shape (k,): the top line of the best stack.
        through: Shape (2, transitions): the least cost of what is under a line through each line
            that may stand under it, step included, in a rising and in a falling stack.
        below: Shape (transitions,): the lower line.
        begin: Shape (E + 1,): the first transition from each line.
        peak: Shape (E,): what it costs when a line is its stack's longest.
    """

    lanes: Ints
    costs: Floats
    graph: Graph
    tops: Ints
    through: Floats
    below: Ints
    begin: Ints
    peak: Floats

    @cached_property
    def _lists(self) -> tuple[list[list[float]], list[int], list[int], list[int]]:
        ends = self.graph.piece[self.graph.under]
        return self.through.tolist(), self.below.tolist(), self.begin.tolist(), ends.tolist()

    def stack(self, place: int) -> Stack:
        """The stack of a place in `lanes`; of equal ones that with the shorter upper lines."""
        (rising, falling), below, begin, ends = self._lists
        graph = self.graph
        base = int(graph.lanes.texts.base[graph.lanes.text[self.lanes[place]]])
        line, values = int(self.tops[place]), rising
        found = [0, ends[line] - base]
        while begin[line] < begin[line + 1]:
            some = slice(begin[line], begin[line + 1])
            if values is rising and min(falling[some]) + self.peak[line] < min(rising[some]):
                values = falling
            ways = values[some]
            line = below[some.start + ways.index(min(ways))]
            found.append(ends[line] - base)
        return tuple(found)


def best_looking(graph: Graph, *, room: Floats, half_width: Floats) -> Best:
    """Per lane the stack of least cost of looks among those of the graph.

    Args:
        graph: Lines in use.
        room: Shape (K, M), mm: half the room of each line.
        half_width: Shape (K,), mm: of each lane's shape.
    """
    lanes = graph.lanes
    level = np.arange(len(graph.edges) - 1).repeat(np.diff(graph.edges))
    count = lanes.count[graph.lane]
    own = _own_costs(graph, level, count, room=room, half_width=half_width)
    width = graph.half / half_width[graph.lane]
    peak = looks.peak_place(count - 1 - level, count)
    # The lines under one break stand together: steps from a line are to those under its end.
    first = np.searchsorted(graph.over, np.arange(len(graph.piece) + 1))
    many = first[graph.under + 1] - first[graph.under]
    total = many.cumsum()
    begin = np.concatenate([[0], total])
    below = np.arange(total[-1]) + (first[graph.under] - total + many).repeat(many)
    growth = width[below] - width.repeat(many)
    through = looks.step(np.stack([-growth, growth]))
    values = np.stack([own + peak, own])
    for low, high in list(pairwise(graph.edges.tolist()))[1:]:
        some = slice(int(begin[low]), int(begin[high]))
        through[:, some] += values[:, below[some]]
        rising, falling = np.minimum.reduceat(
            through[:, some], begin[low:high] - begin[low], axis=1
        )
        values[0, low:high] = own[low:high] + np.minimum(rising, falling + peak[low:high])
        values[1, low:high] += falling
    tops = _tops(graph, values[0])
    return Best(
        lanes=graph.lane[tops],
        costs=values[0, tops],
        graph=graph,
        tops=tops,
        through=through,
        below=below,
        begin=begin,
        peak=peak,
    )


def _tops(graph: Graph, values: Floats) -> Ints:
    """The best top line of every lane."""
    place = np.full(len(graph.piece), -1)
    place[graph.tops] = np.arange(len(graph.tops))
    lane = place[graph.over]
    (top,) = (lane >= 0).nonzero()
    ranked = top[np.lexsort((top, values[top], lane[top]))]
    _, begin = np.unique(lane[ranked], return_index=True)
    result: Ints = ranked[begin]
    return result


def _own_costs(
    graph: Graph, level: Ints, count: Ints, *, room: Floats, half_width: Floats
) -> Floats:
    """The costs of lines by themselves: price of their end, uneven air, lone words."""
    texts, lane = graph.lanes.texts, graph.lane
    gap = (room[lane, level] - graph.half) / half_width[lane]
    first, end = graph.piece[graph.over], graph.piece[graph.under]
    own = looks.unevenness(gap) / count + texts.prices[end - 1]
    (line,) = (count > 1).nonzero()
    outer = (level[line] == 0) | (level[line] == count[line] - 1)
    text = graph.lanes.text[lane[line]]
    begin, end = first[line] + text, end[line] + text
    letters = texts.letters[end] - texts.letters[begin]
    words = texts.counts[end] - texts.counts[begin + 1] + 1
    lone = looks.lone_word(letters, words)
    own[line] += np.where(outer, lone, looks.short_line(letters, words))
    result: Floats = own
    return result
