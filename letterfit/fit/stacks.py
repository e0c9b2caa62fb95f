"""The best stacks of lanes: the tightest, and the best looking of those that go in.

The lines that lanes allow form a graph: a line leads from the break over it to the break under it.
Breaks and lines are listed level by level from the bottom, all lanes together, so that each step of
a table is one operation on a slice. The tightest stack of a lane is the one whose most demanding
line asks for least. The looks of a stack are costs of its lines and of neighbouring lines (a step
in the wrong direction, which depends on whether the stack still rises or falls already): with two
values per line, rising and falling, that table is exact too.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np

from letterfit.fit import looks
from letterfit.fit.ink import Stack
from letterfit.fit.lanes import LAST, Lanes
from letterfit.fit.lines import Ints
from letterfit.fit.profiles import COS, DOWN, SIN, UP, Profiles
from letterfit.outline import Floats

LEVELS: Ints = np.log2(np.arange(1, 4097)).astype(np.int64)
"""The largest g such that a run of 1, 2, 3... pieces holds 2^g."""


@dataclass(frozen=True, eq=False, kw_only=True)
class Graph:
    """Lines that lanes allow, by level, then lane, first piece and end; level 0 is the bottom.

    Args:
        lanes: The lanes.
        piece: Shape (nodes,): the piece that begins after each break.
        tops: Shape (K,): the break over each lane's top line.
        nodes: Shape (M + 2,): where the breaks of each level begin, and the end.
        over: Shape (E,): the break over each line.
        under: Shape (E,): the break under it.
        lane: Shape (E,): its lane.
        edges: Shape (M + 1,): where the lines of each level begin, and the end.
        half: Shape (E,), mm: half its advance.
        asked: Shape (E,): the scale it asks for, a lower bound.
    """

    lanes: Lanes
    piece: Ints
    tops: Ints
    nodes: Ints
    over: Ints
    under: Ints
    lane: Ints
    edges: Ints
    half: Floats
    asked: Floats

    @classmethod
    def of(cls, lanes: Lanes) -> "Graph":
        """The lines of lanes that ask for at most the lanes' limits."""
        texts = lanes.texts
        levels, count = lanes.low.shape[1], lanes.count
        inside = np.arange(levels)[:, None] <= count
        level, lane = inside.nonzero()
        low = lanes.low.T[inside]
        sizes = lanes.high.T[inside] - low + 1
        ends = sizes.cumsum()
        begins = ends - sizes
        piece = np.arange(ends[-1]) + (low - begins).repeat(sizes)
        begin_of = np.zeros(inside.shape, dtype=np.int64)
        begin_of[inside] = begins
        nodes = np.concatenate([begin_of[:, :1].ravel() * 0, ends[-1:]])
        nodes[:-1] = begins[np.searchsorted(level, np.arange(levels))]
        # From every break but those at the bottom, the lines that may stand under it.
        under_lane = lane.repeat(sizes)[nodes[1] :]
        under_level = level.repeat(sizes)[nodes[1] :] - 1
        own = piece[nodes[1] :]
        first = np.maximum(lanes.low[under_lane, under_level], own + 1)
        last = np.minimum(
            lanes.high[under_lane, under_level], _farthest(lanes, own, under_lane, under_level)
        )
        many = (last - first + 1).clip(0)
        total = many.cumsum()
        over = (np.arange(len(own)) + nodes[1]).repeat(many)
        shift = begin_of[under_level, under_lane] + first - lanes.low[under_lane, under_level]
        under = np.arange(total[-1]) + (shift - total + many).repeat(many)
        line_lane, line_level = under_lane.repeat(many), under_level.repeat(many)
        begin, end = piece[over], piece[under]
        half = (texts.ends.take(end - 1) - texts.starts.take(begin)) / 2
        asked = _asked(lanes, (line_lane, line_level), first=begin, last=end - 1, half=half)
        kept = (asked <= lanes.limit[line_lane]).nonzero()[0]
        line_level = line_level[kept]
        return cls(
            lanes=lanes,
            piece=piece,
            tops=begin_of[count, np.arange(len(count))],
            nodes=nodes,
            over=over[kept],
            under=under[kept],
            lane=line_lane[kept],
            edges=np.searchsorted(line_level, np.arange(levels)),
            half=half[kept],
            asked=asked[kept],
        )

    @cached_property
    def scales_under(self) -> Floats:
        """The scale that the tightest lines under each break ask for; shape (nodes,)."""
        found = np.full(len(self.piece), math.inf)
        found[: self.nodes[1]] = 0.0
        for low, high in pairwise(self.edges.tolist()):
            through = np.maximum(self.asked[low:high], found[self.under[low:high]])
            np.minimum.at(found, self.over[low:high], through)
        return found

    @property
    def scales(self) -> Floats:
        """The scale that each lane's tightest stack asks for, a lower bound; shape (K,)."""
        found: Floats = self.scales_under[self.tops]
        return found

    def tightest(self, lane: int) -> Stack:
        """The tightest stack of a lane, by the lower bounds; of equal ones the first."""
        base = int(self.lanes.texts.base[self.lanes.text[lane]])
        node, found = int(self.tops[lane]), [0]
        first = np.searchsorted(self.over, [node, node + 1]).tolist()
        while first[0] < first[1]:
            some = slice(*first)
            through = np.maximum(self.asked[some], self.scales_under[self.under[some]])
            node = int(self.under[some.start + int(through.argmin())])
            found.append(int(self.piece[node]) - base)
            first = np.searchsorted(self.over, [node, node + 1]).tolist()
        return tuple(found)

    def count_of_stacks(self) -> float:
        """How many stacks all lanes have together."""
        ways = np.zeros(len(self.piece))
        ways[: self.nodes[1]] = 1.0
        for low, high in pairwise(self.edges.tolist()):
            np.add.at(ways, self.over[low:high], ways[self.under[low:high]])
        return float(ways[self.tops].sum())

    def all_stacks(self) -> Iterator[Stack]:
        """Every stack of every lane; first see how many there are."""
        first = np.searchsorted(self.over, np.arange(len(self.piece) + 1)).tolist()
        under, piece, bottom = self.under.tolist(), self.piece.tolist(), int(self.nodes[1])

        def on(node: int, found: Stack) -> Iterator[Stack]:
            if node < bottom:
                yield found
            for line in range(first[node], first[node + 1]):
                below = under[line]
                yield from on(below, (*found, piece[below] - base))

        for lane, top in enumerate(self.tops.tolist()):
            base = int(self.lanes.texts.base[self.lanes.text[lane]])
            yield from on(top, (0,))

    def in_use(self, limit: Floats) -> "Graph":
        """Only the lines of stacks whose lines all ask for at most the limit, shape (K,)."""
        over = np.full(len(self.piece), math.inf)
        over[self.tops] = 0.0
        for low, high in list(pairwise(self.edges.tolist()))[::-1]:
            through = np.maximum(self.asked[low:high], over[self.over[low:high]])
            np.minimum.at(over, self.under[low:high], through)
        ask = np.maximum(over[self.over], self.scales_under[self.under])
        kept = (np.maximum(ask, self.asked) <= limit[self.lane]).nonzero()[0]
        return Graph(
            lanes=self.lanes,
            piece=self.piece,
            tops=self.tops,
            nodes=self.nodes,
            over=self.over[kept],
            under=self.under[kept],
            lane=self.lane[kept],
            edges=np.searchsorted(kept, self.edges),
            half=self.half[kept],
            asked=self.asked[kept],
        )


def _farthest(lanes: Lanes, first: Ints, lane: Ints, level: Ints) -> Ints:
    """One past the last piece that a line from `first` on may hold by its advance."""
    texts = lanes.texts
    reached = texts.shifted_starts[first] + lanes.capacity[lane, level]
    return texts.shifted_ends.searchsorted(reached, "right")


def _asked(
    lanes: Lanes, line: tuple[Ints, Ints], *, first: Ints, last: Ints, half: Floats
) -> Floats:
    """The scale that each line asks for, by the ink at its ends and by its height; shape (E,)."""
    texts = lanes.texts
    lane, level = line
    place = lanes.count[lane] - 1 - 2 * level
    steps = lanes.steps[lane, level]
    side = np.where(place < 0, UP, DOWN)
    away = np.abs(place) * texts.half_leading[lanes.text[lane]] + texts.air
    which = lanes.which[lane]
    asked = _at_ends(texts, steps, side=side, first=first, last=last)
    tall = _tall(texts, side=side, first=first, last=last)
    middle = (place == 0).nonzero()[0]
    if len(middle):
        ends = {"first": first[middle], "last": last[middle]}
        up = np.full(len(middle), UP)
        over = _at_ends(texts, steps[middle], side=up, **ends)
        asked[middle] = np.maximum(asked[middle], over)
        tall[middle] = np.maximum(tall[middle], _tall(texts, side=up, **ends))
    asked += half[:, None] * COS[steps]
    asked += away[:, None] * SIN[steps] + texts.air * (1 - SIN[steps])
    asked *= lanes.shapes.coarse[which[:, None], steps]
    tall += away
    tall *= lanes.shapes.coarse[which, LAST]
    result: Floats = np.maximum(asked.max(axis=1), tall)
    return result


def _at_ends(texts: Profiles, steps: Ints, *, side: Ints, first: Ints, last: Ints) -> Floats:
    """Support of lines' ink over half their advance, at either end: shape (E, d)."""
    # A line of one piece has no neighbours to look at.
    row = (side + 2 * (first < last))[:, None] * len(COS) + steps
    row *= len(texts.starts)
    result: Floats = np.maximum(
        texts.rights.ravel().take(row + last[:, None]),
        texts.lefts.ravel().take(row + first[:, None]),
    )
    return result


def _tall(texts: Profiles, *, side: Ints, first: Ints, last: Ints) -> Floats:
    """How far the ink of lines reaches from their middle, up or down: shape (E,)."""
    level = LEVELS.take(last - first)
    row = (level * 2 + side) * len(texts.starts)
    flat = texts.heights.ravel()
    result: Floats = np.maximum(flat.take(row + first), flat.take(row + last + 1 - (1 << level)))
    return result


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
