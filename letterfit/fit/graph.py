"""The graph of lanes: all lines that they allow, each from the break over it to the one under it.

Breaks and lines are listed level by level from the bottom, all lanes together, so that each step of
a table is one operation on a slice. The tightest stack of a lane is the one whose most demanding
line asks for least.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, reduce
from itertools import pairwise

import numpy as np

from letterfit.fit.ink import Stack
from letterfit.fit.lanes import LAST, Bools, Lanes
from letterfit.fit.lines import Ints
from letterfit.fit.profiles import COS, DOWN, SIN, UP, Profiles
from letterfit.outline import Floats

CHUNK = 8192
"""Lines that are asked at once: so many stay in a processor's cache while they are worked on."""

LEVELS: Ints = np.log2(np.arange(1, 4097)).astype(np.int64)
"""The largest g such that a run of 1, 2, 3... pieces holds 2^g."""


@dataclass(frozen=True, slots=True, eq=False)
class Breaks:
    """Every break that the windows of lanes allow, by level, then lane, then place.

    Args:
        piece: Shape (nodes,): the piece that begins after each break.
        level: Shape (nodes,): the lines under it.
        lane: Shape (nodes,): its lane.
        first: Shape (M + 1, K): the first break of each level and lane.
    """

    piece: Ints
    level: Ints
    lane: Ints
    first: Ints

    @classmethod
    def of(cls, lanes: Lanes) -> "Breaks":
        """The breaks of lanes."""
        inside = np.arange(lanes.low.shape[1])[:, None] <= lanes.count
        low = lanes.low.T[inside]
        sizes = lanes.high.T[inside] - low + 1
        begins = sizes.cumsum() - sizes
        level, lane = (axis.repeat(sizes) for axis in inside.nonzero())
        first = np.zeros(inside.shape, dtype=np.int64)
        first[inside] = begins
        piece = np.arange(len(level)) + (low - begins).repeat(sizes)
        return cls(piece, level, lane, first)

    def lines(self, lanes: Lanes) -> tuple[Ints, Ints]:
        """The breaks over and under every line whose advance may go in, by the break over it."""
        (upper,) = (self.level > 0).nonzero()
        lane, level, piece = self.lane[upper], self.level[upper] - 1, self.piece[upper]
        low = lanes.low[lane, level]
        begin = np.maximum(low, piece + 1)
        end = np.minimum(lanes.high[lane, level], _farthest(lanes, piece, lane, level))
        many = (end - begin + 1).clip(0)
        shift = self.first[level, lane] + begin - low - (many.cumsum() - many)
        return upper.repeat(many), np.arange(many.sum()) + shift.repeat(many)


@dataclass(frozen=True, eq=False, kw_only=True)
class Graph:
    """Lines that lanes allow, by level, then lane, first piece and end; level 0 is the bottom.

    Args:
        lanes: The lanes.
        piece: Shape (nodes,): the piece that begins after each break.
        tops: Shape (K,): the break over each lane's top line.
        bottom: How many breaks are the ends of texts; they come first.
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
    bottom: int
    over: Ints
    under: Ints
    lane: Ints
    edges: Ints
    half: Floats
    asked: Floats

    @classmethod
    def of(cls, lanes: Lanes) -> "Graph":
        """The lines of lanes that ask for at most the lanes' limits."""
        breaks = Breaks.of(lanes)
        over, under = breaks.lines(lanes)
        lane, level = breaks.lane[under], breaks.level[under]
        begin, end = breaks.piece[over], breaks.piece[under]
        texts = lanes.texts
        half = (texts.ends.take(end - 1) - texts.starts.take(begin)) / 2
        asked = _asked(lanes, (lane, level), first=begin, last=end - 1, half=half)
        (kept,) = (asked <= lanes.limit[lane]).nonzero()
        return cls(
            lanes=lanes,
            piece=breaks.piece,
            tops=breaks.first[lanes.count, np.arange(len(lanes.count))],
            bottom=len(lanes.count),
            over=over[kept],
            under=under[kept],
            lane=lane[kept],
            edges=np.searchsorted(level[kept], np.arange(lanes.low.shape[1])),
            half=half[kept],
            asked=asked[kept],
        )

    @cached_property
    def scales_under(self) -> Floats:
        """The scale that the tightest lines under each break ask for; shape (nodes,)."""
        found = np.full(len(self.piece), math.inf)
        found[: self.bottom] = 0.0
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
        ways[: self.bottom] = 1.0
        for low, high in pairwise(self.edges.tolist()):
            np.add.at(ways, self.over[low:high], ways[self.under[low:high]])
        return float(ways[self.tops].sum())

    def all_stacks(self) -> Iterator[Stack]:
        """Every stack of every lane; first see how many there are."""
        first = np.searchsorted(self.over, np.arange(len(self.piece) + 1)).tolist()
        under, piece, bottom = self.under.tolist(), self.piece.tolist(), self.bottom

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
            bottom=self.bottom,
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


@dataclass(frozen=True, slots=True, eq=False)
class _Places:
    """What all lines at one place of one lane have in common; lane by lane, n = K M of them.

    Args:
        lanes: The lanes.
        steps: Shape (n, 4): the directions in which a line may touch.
        side: Shape (n,): whether it touches above or below its middle.
        middle: Shape (n,): whether it may touch either way.
        away: Shape (n,), mm: how far its middle and the air are from the outline's.
        row: Shape (n, 4): where the reaches of lines of one piece begin in those directions.
        cos: Shape (n, 4): what half its advance counts for in those directions.
        rest: Shape (n, 4), mm: what `away` and the air count for.
        coarse: Shape (n, 4): the scale that a reach of 1 mm asks for.
    """

    lanes: Lanes
    steps: Ints
    side: Ints
    middle: Bools
    away: Floats
    row: Ints
    cos: Floats
    rest: Floats
    coarse: Floats

    @classmethod
    def of(cls, lanes: Lanes) -> "_Places":
        """The places of lanes."""
        texts, (most, directions) = lanes.texts, lanes.steps.shape[1:]
        steps = lanes.steps.reshape(-1, directions)
        place = (lanes.count[:, None] - 1 - 2 * np.arange(most)).ravel()
        side = np.where(place < 0, UP, DOWN)
        away = np.abs(place) * texts.half_leading[lanes.text].repeat(most) + texts.air
        sin = SIN[steps]
        return cls(
            lanes=lanes,
            steps=steps,
            side=side,
            middle=place == 0,
            away=away,
            row=_row(texts, side, steps),
            cos=COS[steps],
            rest=away[:, None] * sin + texts.air * (1 - sin),
            coarse=lanes.shapes.coarse[lanes.which.repeat(most)[:, None], steps],
        )

    def asked(self, at: Ints, *, first: Ints, last: Ints, half: Floats) -> Floats:
        """The scale that lines ask for, by the ink at their ends and by their height; shape (E,).

        Args:
            at: Shape (E,): the place of each.
            first: Shape (E,): its first piece.
            last: Shape (E,): its last piece.
            half: Shape (E,), mm: half its advance.
        """
        texts, lanes = self.lanes.texts, self.lanes
        asked = _at_ends(texts, self.row.take(at, axis=0), first=first, last=last)
        tall = _tall(texts, side=self.side.take(at), first=first, last=last)
        (middle,) = self.middle.take(at).nonzero()
        if len(middle):
            ends = {"first": first[middle], "last": last[middle]}
            up = np.full(len(middle), UP)
            row = _row(texts, up, self.steps.take(at[middle], axis=0))
            asked[middle] = np.maximum(asked[middle], _at_ends(texts, row, **ends))
            tall[middle] = np.maximum(tall[middle], _tall(texts, side=up, **ends))
        asked += self.cos.take(at, axis=0) * half[:, None]
        asked += self.rest.take(at, axis=0)
        asked *= self.coarse.take(at, axis=0)
        tall += self.away.take(at)
        tall *= lanes.shapes.coarse[lanes.which.take(at // lanes.steps.shape[1]), LAST]
        return reduce(np.maximum, asked.T, tall)  # over so few columns sooner than max(axis=1)


def _asked(
    lanes: Lanes, line: tuple[Ints, Ints], *, first: Ints, last: Ints, half: Floats
) -> Floats:
    """The scale that each line asks for, a lower bound; shape (E,)."""
    places, (lane, level) = _Places.of(lanes), line
    at = lane * lanes.steps.shape[1] + level
    asked = np.empty(len(at))
    for start in range(0, len(at), CHUNK):
        own = slice(start, start + CHUNK)
        asked[own] = places.asked(at[own], first=first[own], last=last[own], half=half[own])
    return asked


def _row(texts: Profiles, side: Ints, steps: Ints) -> Ints:
    """Where the reaches of lines of one piece begin to a side in some directions: shape (n, 4)."""
    row: Ints = (side[:, None] * len(COS) + steps) * len(texts.starts)
    return row


def _at_ends(texts: Profiles, row: Ints, *, first: Ints, last: Ints) -> Floats:
    """Support of lines' ink over half their advance, at either end: shape (E, 4)."""
    # A line of one piece has no neighbours to look at.
    several = 2 * len(COS) * len(texts.starts) * (first < last)
    right = row + (several + last)[:, None]
    left = row + (several + first)[:, None]
    reach: Floats = texts.rights.ravel().take(right)
    return np.maximum(reach, texts.lefts.ravel().take(left), out=reach)


def _tall(texts: Profiles, *, side: Ints, first: Ints, last: Ints) -> Floats:
    """How far the ink of lines reaches from their middle, up or down: shape (E,)."""
    level = LEVELS.take(last - first)
    row = (level * 2 + side) * len(texts.starts)
    flat = texts.heights.ravel()
    result: Floats = np.maximum(flat.take(row + first), flat.take(row + last + 1 - (1 << level)))
    return result
