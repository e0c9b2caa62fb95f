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
from letterfit.fit.lanes import Bools
from letterfit.fit.lines import Ints
from letterfit.outline import Floats
from letterfit.runs import starts


@dataclass(frozen=True, eq=False, kw_only=True)
class Best:
    """The best-looking stacks of lanes.

    Args:
        lanes: Shape (k,): the lanes in which a stack goes in.
        costs: Shape (k,): what the looks of each one's best stack cost, its aspect apart.
        graph: The lines.
        tops: Shape (k,): the top line of the best stack.
        rises: Shape (E,): the line under each one when the stack rises on to it; -1 at the bottom.
        falls: Shape (E,): the line under each one when the stack falls to it; -1 at the bottom.
        turns: Shape (E,): whether a stack that rose to a line has its longest line there.
    """

    lanes: Ints
    costs: Floats
    graph: Graph
    tops: Ints
    rises: Ints
    falls: Ints
    turns: Bools

    @cached_property
    def _lists(self) -> tuple[list[int], list[int], list[bool], list[int]]:
        ends = self.graph.piece[self.graph.under]
        return self.rises.tolist(), self.falls.tolist(), self.turns.tolist(), ends.tolist()

    def stack(self, place: int) -> Stack:
        """The stack of a place in `lanes`; of equal ones that with the shorter upper lines."""
        rises, falls, turns, ends = self._lists
        lanes = self.graph.lanes
        base = int(lanes.texts.base[lanes.text[self.lanes[place]]])
        line, under = int(self.tops[place]), rises
        found = [0]
        while line >= 0:
            found.append(ends[line] - base)
            if turns[line]:
                under = falls
            line = under[line]
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
    least = np.zeros_like(values)
    for low, high in list(pairwise(graph.edges.tolist()))[1:]:
        some = slice(int(begin[low]), int(begin[high]))
        through[:, some] += values[:, below[some]]
        first_of = begin[low:high] - begin[low]
        least[:, low:high] = np.minimum.reduceat(through[:, some], first_of, axis=1)
        rising, falling = least[:, low:high]
        values[0, low:high] = own[low:high] + np.minimum(rising, falling + peak[low:high])
        values[1, low:high] += falling
    tops = _tops(graph, values[0])
    rises, falls = _unders(through, least.repeat(many, axis=1), below=below, begin=begin)
    return Best(
        lanes=graph.lane[tops],
        costs=values[0, tops],
        graph=graph,
        tops=tops,
        rises=rises,
        falls=falls,
        turns=least[1] + peak < least[0],
    )


def _unders(through: Floats, least: Floats, *, below: Ints, begin: Ints) -> tuple[Ints, Ints]:
    """The first line under each one through which it costs the least, in either kind of stack."""
    found = np.full((2, len(begin) - 1), -1)
    (upper,) = np.diff(begin).nonzero()
    for under, costs, fewest in zip(found, through, least, strict=True):
        (ways,) = (costs == fewest).nonzero()
        under[upper] = below[ways[ways.searchsorted(begin[upper])]]
    rises, falls = found
    return rises, falls


def _tops(graph: Graph, values: Floats) -> Ints:
    """The best top line of every lane."""
    place = np.full(len(graph.piece), -1)
    place[graph.tops] = np.arange(len(graph.tops))
    lane = place[graph.over]
    (top,) = (lane >= 0).nonzero()
    ranked = top[np.lexsort((top, values[top], lane[top]))]
    first: Ints = ranked[starts(lane[ranked])]
    return first


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
