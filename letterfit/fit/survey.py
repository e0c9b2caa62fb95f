"""The survey: for every number of lines and every shape, how small the outline can get.

One table per (number of lines, shape) pair, all filled at once; lines at the same place in stacks
of different heights share their costs. Pairs that cannot matter are left out by a lower bound that
needs no table: for any directions t_k, one per line,

    scale * sum of h(t_k) / cos t_k  >=  sum of (x_k + (e_k sin t_k + m) / cos t_k),

x_k the half-width of line k and e_k its outer edge; the x_k add up to half the text's length at
least. The directions chosen are those in which a full outline of about the right size would touch.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from letterfit.fit import table
from letterfit.fit.lines import (
    COS,
    DIRECTIONS,
    SIN,
    Candidates,
    Ints,
    Shapes,
    Singles,
    reach_of,
)
from letterfit.lettering.words import Words
from letterfit.outline import Floats

GUESS = (1.06, 0.45)
"""Pairs up to 1.06 + 0.45 / sqrt(pieces) times the least bound are filled first: most are then
enough, measured over play speeches. It decides the time, never the answer."""

OVERSIZE = 1.3
"""A guess of an outline's area over that of its text, to choose directions."""


@dataclass(frozen=True, slots=True, eq=False)
class Survey:
    """Filled tables of P pairs, those with most lines first.

    Args:
        candidates: The lines.
        shapes: The unit outlines.
        counts: Shape (P,): number of lines of each pair.
        which: Shape (P,): number of its shape.
        costs: Shape (K, reach, n): scales that lines ask for, lower bounds.
        rows_of_costs: Shape (P, most lines): the row of `costs` of line k, counted from the bottom.
        rows: The table's rows: rows[q] has shape (pairs of at least q lines, n + 1).
        scales: Shape (P,): the least scale of each pair, a lower bound.
        least: Shape (S,): the least of each shape.
        limits: Shape (S,): every pair left out asks for more than this.
    """

    candidates: Candidates
    shapes: Shapes
    counts: Ints
    which: Ints
    costs: Singles
    rows_of_costs: Ints
    rows: tuple[Singles, ...]
    scales: Floats
    least: Floats
    limits: Floats

    def line_costs(self, chosen: Ints, line: int) -> Singles:
        """Costs of line `line`, counted from the top, for pairs of one height: (c, reach, n)."""
        from_bottom = self.counts[chosen] - 1 - line
        result: Singles = self.costs[self.rows_of_costs[chosen, from_bottom]]
        return result

    def stacks(self, chosen: Ints) -> list[tuple[int, ...]]:
        """The smallest stack of each chosen pair: first piece of every line, and n."""
        found: dict[int, tuple[int, ...]] = {}
        for count in np.unique(self.counts[chosen]).tolist():
            same = chosen[self.counts[chosen] == count]
            costs = [self.line_costs(same, k) for k in range(count)]
            rows = [row[same] for row in self.rows[: count + 1]]
            firsts = table.first_pieces(costs, rows)
            found.update(zip(same.tolist(), map(tuple, firsts.tolist()), strict=True))
        return [found[pair] for pair in chosen.tolist()]


@dataclass(frozen=True, slots=True)
class Goal:
    """Up to which scales stacks matter.

    Args:
        slack: By what share an area may lie over the smallest.
        each: Whether that is the smallest of its own shape, or of all shapes.
        area: No area under this, in mm2, counts as the smallest of all shapes.
    """

    slack: float
    each: bool = False
    area: float = 0.0

    def limits(self, shapes: Shapes, least: Floats) -> Floats:
        """Per shape the scale up to which stacks matter, when the least scales are these."""
        if self.each:
            of_each: Floats = least * math.sqrt(1 + self.slack)
            return of_each
        smallest = max(float((least**2 * shapes.areas).min()), self.area)
        of_all: Floats = np.sqrt(smallest * (1 + self.slack) / shapes.areas)
        return of_all


def survey(words: Words, shapes: Shapes, *, goal: Goal, air: float) -> Survey:
    """Fill the tables of all pairs that may hold a stack that matters.

    Args:
        words: A text with at least one piece.
        shapes: The unit outlines.
        goal: Which stacks matter, the least scales being the survey's own.
        air: mm.
    """
    reach = reach_of(words, _wide_enough(words, shapes, air))
    while True:
        candidates = Candidates.of(words, air=air, reach=reach)
        found = _survey(words, candidates, shapes, goal=goal)
        reach = reach_of(words, 2 * float((found.limits * shapes.half_widths).max()))
        if reach <= candidates.advances.shape[0]:
            return found


def _wide_enough(words: Words, shapes: Shapes, air: float) -> float:
    """A first guess of the width in mm of the widest outline that will matter."""
    return 2 * float((_about(words, shapes, air) * shapes.half_widths).max())


def _about(words: Words, shapes: Shapes, air: float) -> Floats:
    """A guess of the scale each shape will need."""
    text = _length(words) * words.leading_mm
    result: Floats = np.sqrt(OVERSIZE * text / shapes.areas) + air / shapes.half_heights
    return result


def _length(words: Words) -> float:
    return float(words.ends[-1])


def _survey(words: Words, candidates: Candidates, shapes: Shapes, *, goal: Goal) -> Survey:
    """Fill likely pairs, then whatever the answer so far does not rule out."""
    about = _about(words, shapes, candidates.air)
    least = int(words.forced.sum())
    most = least + int((about * shapes.half_heights).max() / candidates.half_leading) + 1
    bounds = _bounds(words, candidates, shapes, most=most, about=about)
    guess = (GUESS[0] + GUESS[1] / math.sqrt(len(words))) ** 2
    limits = replace(goal, slack=guess - 1).limits(shapes, bounds.min(axis=0))
    while True:
        while least + len(bounds) <= len(words) and np.any(bounds[-1] <= limits):
            most = 2 * (least + len(bounds))
            bounds = _bounds(words, candidates, shapes, most=most, about=about)
        heights, which = np.nonzero(bounds <= limits)
        found = _filled(
            (candidates, shapes),
            counts=heights + least,
            which=which,
            expected=bounds.min(axis=0) * math.sqrt((1 + guess) / 2),
            limits=limits,
        )
        some = np.isfinite(found.least)
        if some.all() or (some.any() and not goal.each):
            wanted = np.maximum(limits, goal.limits(shapes, found.least))
            tall = least + len(bounds) <= len(words) and bool(np.any(bounds[-1] <= wanted))
            if not tall and (bounds <= wanted).sum() == len(heights):
                return replace(found, limits=wanted)
        else:
            guess *= 2
            wanted = replace(goal, slack=guess - 1).limits(shapes, bounds.min(axis=0))
        limits = wanted


def _bounds(
    words: Words, candidates: Candidates, shapes: Shapes, *, most: int, about: Floats
) -> Floats:
    """Lower bounds for as many lines as the text has forced ends, and up to `most`."""
    least = int(words.forced.sum())
    counts = np.arange(least, min(max(most, least), len(words)) + 1)
    return lower_bounds(words, candidates, shapes, counts=counts, about=about)


def lower_bounds(
    words: Words, candidates: Candidates, shapes: Shapes, *, counts: Ints, about: Floats
) -> Floats:
    """A scale that no stack of so many lines stays under, per number of lines and shape.

    `about` is a guess of the scale of each shape: the better, the tighter the bound.
    """
    most = int(counts[-1])
    places = np.abs(2 * np.arange(most) - (counts[:, None] - 1))
    inside = np.arange(most) < counts[:, None]
    low = float(candidates.ink[:, -1, 0].min())
    edges = np.maximum(places * candidates.half_leading + low, 0.0)
    half = _half_lengths(words, candidates, counts)
    result: Floats = (edges[:, 0] + candidates.air)[:, None] * shapes.inverse[:, -1]
    widest = max(float(candidates.ink[:, 0, 0].max()), 0.0) + candidates.air
    result = np.maximum(result, widest * shapes.inverse[:, 0])
    rise = np.minimum(edges[:, None] / (about * shapes.half_heights)[:, None], 0.9)
    lean = (shapes.half_widths / shapes.half_heights)[:, None] * rise / np.sqrt(1 - rise**2)
    t = np.minimum((np.arctan(lean) / DIRECTIONS[1]).astype(np.int64), len(DIRECTIONS) - 2)
    weight = inside[:, None] / COS[t]
    asked = (weight * (edges[:, None] * SIN[t] + candidates.air)).sum(axis=-1)
    h = (weight / shapes.inverse[np.arange(len(shapes.outlines))[:, None], t]).sum(axis=-1)
    by_length: Floats = (half[:, None] + asked) / h
    return np.maximum(result, by_length)


def _half_lengths(words: Words, candidates: Candidates, counts: Ints) -> Floats:
    """The least that the half-widths of the ink of so many lines add up to, mm."""
    ends = words.ends
    gaps = words.starts[1:] - ends[:-1]
    widest_gap = max(float(gaps.max()), 0.0) if len(gaps) else 0.0
    reach, count = candidates.advances.shape
    last = np.minimum(np.arange(count) + np.arange(reach)[:, None], count - 1)
    real = np.isfinite(candidates.advances)
    sliced = (ends[last] - words.starts) / 2
    ink = candidates.ink[:, 0].max(axis=0)
    bearing = float((sliced - ink)[real].max())
    result: Floats = (ends[-1] - (counts - 1) * widest_gap) / 2 - counts * bearing
    return result


def _filled(
    inputs: tuple[Candidates, Shapes],
    *,
    counts: Ints,
    which: Ints,
    expected: Floats,
    limits: Floats,
) -> Survey:
    """Fill the tables of the given pairs."""
    candidates, shapes = inputs
    order = np.lexsort((which, -counts))
    counts, which = counts[order], which[order]
    costs, rows_of_costs = _shared_costs(
        candidates, shapes, counts=counts, which=which, expected=expected
    )
    bottom = table.nothing_left((len(counts),), candidates.advances.shape[1])
    rows: list[Singles] = [bottom.astype(np.float32)]
    scales = np.empty(len(counts))
    for line in range(int(counts[0])):
        active = int((counts > line).sum())
        above = table.row_above(costs[rows_of_costs[:active, line]], rows[-1][:active])
        scales[:active] = above[:, 0]
        rows.append(above.astype(np.float32, copy=False))
    least = np.full(len(shapes.outlines), math.inf)
    np.minimum.at(least, which, scales)
    return Survey(
        candidates, shapes, counts, which, costs, rows_of_costs, tuple(rows), scales, least, limits
    )


def _shared_costs(
    candidates: Candidates, shapes: Shapes, *, counts: Ints, which: Ints, expected: Floats
) -> tuple[Singles, Ints]:
    """Costs at every (place, shape) that is used, and where each pair's lines find theirs."""
    most = int(counts[0])
    places = counts[:, None] - 1 - 2 * np.arange(most)
    used = np.arange(most) < counts[:, None]
    keys = (places + most) * len(shapes.outlines) + which[:, None]
    unique, inverse = np.unique(keys[used], return_inverse=True)
    rows_of_costs = np.zeros(keys.shape, dtype=np.int64)
    rows_of_costs[used] = inverse
    place, shape = np.divmod(unique, len(shapes.outlines))
    costs = candidates.scales(shapes, places=place - most, which=shape, expected=expected)
    return costs, rows_of_costs
