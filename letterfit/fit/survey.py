"""The survey: for every number of lines and every shape, how small the outline can get.

One table per (number of lines, shape) pair, all filled at once; lines at the same place in stacks of
different heights share their costs. Pairs that cannot matter are left out by a lower bound that
needs no table: for any directions t_k, one per line,

    scale * sum of h(t_k) / cos t_k  >=  sum of (x_k + (e_k sin t_k + m) / cos t_k),

x_k the half-width of line k and e_k its outer edge; the x_k add up to half the text's length at
least. The directions chosen are those in which a full outline of about the right size would touch.
"""

import math
from dataclasses import dataclass

import numpy as np

from letterfit.fit import table
from letterfit.fit.lines import COS, DIRECTIONS, SIN, Candidates, Ints, Shapes, reach_of
from letterfit.fit.stack import half_leadings
from letterfit.lettering.words import Words
from letterfit.outline import Floats

FIRST_GUESS = 1.12
"""Pairs whose lower bound lies within this factor of their shape's least are filled first."""

OVERSIZE = (1.15, 1.3, 1.5)
"""Guesses of an outline's area over that of its text, to choose the bound's directions."""


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
    """

    candidates: Candidates
    shapes: Shapes
    counts: Ints
    which: Ints
    costs: Floats
    rows_of_costs: Ints
    rows: tuple[Floats, ...]
    scales: Floats

    def line_costs(self, chosen: Ints, line: int) -> Floats:
        """Costs of line `line`, counted from the top, for pairs of one height: (c, reach, n)."""
        from_bottom = self.counts[chosen] - 1 - line
        result: Floats = self.costs[self.rows_of_costs[chosen, from_bottom]]
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


def survey(words: Words, shapes: Shapes, *, air: float, slack: float) -> Survey:
    """Fill the tables of all pairs that may hold a stack within `slack` of its shape's smallest.

    Args:
        words: A text with at least one piece.
        shapes: The unit outlines.
        air: mm.
        slack: A share of the area.
    """
    allow = math.sqrt(1 + slack)
    candidates = Candidates.of(
        words, air=air, reach=reach_of(words, _wide_enough(words, shapes, air))
    )
    while True:
        found = _survey(words, candidates, shapes, allow=allow)
        widest = 2 * max(
            float(found.scales[found.which == s].min()) * outline.half_width
            for s, outline in enumerate(shapes.outlines)
        )
        reach = reach_of(words, widest * allow)
        if reach <= candidates.advances.shape[0]:
            return found
        candidates = Candidates.of(words, air=air, reach=reach)


def _wide_enough(words: Words, shapes: Shapes, air: float) -> float:
    """A first guess of the width in mm of the widest outline that will matter."""
    ink = _length(words) * words.leading_mm + math.pi * (words.leading_mm / 2 + air) ** 2
    guess = [
        2 * outline.half_width * (math.sqrt(1.3 * ink / area) + air / 2)
        for outline, area in zip(shapes.outlines, shapes.areas.tolist(), strict=True)
    ]
    return max(guess)


def _length(words: Words) -> float:
    return float(words.starts[-1]) + words.pieces[-1].width_mm


def _survey(words: Words, candidates: Candidates, shapes: Shapes, *, allow: float) -> Survey:
    """Fill likely pairs, then whatever the answer so far does not rule out."""
    least = int(words.forced.sum())
    height = max(least, 1)
    while True:
        height = min(2 * height + 6, len(words))
        bounds = lower_bounds(words, candidates, shapes, least=least, most=height)
        floor = bounds.min(axis=0)
        if height == len(words) or np.all(bounds[-1] > floor * FIRST_GUESS * allow):
            break
    limit = floor * FIRST_GUESS
    while True:
        heights, which = np.nonzero(bounds <= limit)
        found = _filled(candidates, shapes, counts=heights + least, which=which)
        smallest = np.full(len(shapes.outlines), math.inf)
        np.minimum.at(smallest, found.which, found.scales)
        if np.all(smallest * allow <= limit):
            return found
        if np.isinf(smallest).any():
            limit = np.where(np.isinf(smallest), limit * FIRST_GUESS, limit)
            continue
        limit = np.maximum(limit, smallest * allow)
        if not (bounds <= limit).sum() > len(found.counts):
            return found


def lower_bounds(
    words: Words, candidates: Candidates, shapes: Shapes, *, least: int, most: int
) -> Floats:
    """A scale that no stack of `least` .. `most` lines stays under, shape (most - least + 1, S)."""
    counts = np.arange(least, most + 1)
    from_middle = np.abs(_places(counts, most))
    inside = np.arange(most)[None] < counts[:, None]
    low = min(float(candidates.down[-1, 0].min()), float(candidates.up[-1, 0].min()))
    edges = np.maximum(from_middle * candidates.half_leading + low, 0.0)
    half = _half_lengths(words, candidates, counts)
    ends = edges[:, 0] + candidates.air
    result = ends[:, None] * shapes.inverse[:, -1]
    text = _length(words) * 2 * candidates.half_leading
    for oversize in OVERSIZE:
        size = np.sqrt(oversize * text / shapes.areas) + candidates.air / 2
        rise = np.minimum(edges[:, None] / (size[:, None] * _half_height(shapes)[:, None]), 0.9)
        lean = np.arctan(_aspect(shapes)[:, None] * np.tan(np.arcsin(rise)))
        t = np.minimum((lean / DIRECTIONS[1]).round().astype(np.int64), len(DIRECTIONS) - 2)
        weight = inside[:, None] / COS[t]
        asked = (weight * (edges[:, None] * SIN[t] + candidates.air)).sum(axis=-1)
        h = (weight / shapes.inverse[np.arange(len(shapes.outlines))[:, None], t]).sum(axis=-1)
        result = np.maximum(result, (half[:, None] + asked) / h)
    return result


def _places(counts: Ints, most: int) -> Ints:
    """Half leadings from the centre per (stack height, line), garbage past a stack's last line."""
    return 2 * np.arange(most)[None] - (counts[:, None] - 1)


def _half_lengths(words: Words, candidates: Candidates, counts: Ints) -> Floats:
    """The least that the half-widths of the ink of so many lines add up to, mm."""
    ends = words.starts + np.array([piece.width_mm for piece in words.pieces])
    gaps = words.starts[1:] - ends[:-1]
    widest_gap = max(float(gaps.max()), 0.0) if len(gaps) else 0.0
    reach, count = candidates.advances.shape
    last = np.minimum(np.arange(count) + np.arange(reach)[:, None], count - 1)
    real = np.isfinite(candidates.advances)
    sliced = (ends[last] - words.starts) / 2
    ink = np.maximum(candidates.down[0], candidates.up[0])
    bearing = float((sliced - ink)[real].max())
    result: Floats = (ends[-1] - (counts - 1) * widest_gap) / 2 - counts * bearing
    return result


def _aspect(shapes: Shapes) -> Floats:
    return np.array([outline.aspect for outline in shapes.outlines])


def _half_height(shapes: Shapes) -> Floats:
    return np.array([outline.half_height for outline in shapes.outlines])


def _filled(candidates: Candidates, shapes: Shapes, *, counts: Ints, which: Ints) -> Survey:
    """Fill the tables of the given pairs."""
    order = np.lexsort((which, -counts))
    counts, which = counts[order], which[order]
    costs, rows_of_costs = _shared_costs(candidates, shapes, counts=counts, which=which)
    rows = [table.nothing_left((len(counts),), candidates.advances.shape[1])]
    scales = np.empty(len(counts))
    for line in range(int(counts[0])):
        active = int((counts > line).sum())
        above = table.row_above(costs[rows_of_costs[:active, line]], rows[-1][:active])
        scales[:active] = above[:, 0]
        rows.append(above)
    return Survey(candidates, shapes, counts, which, costs, rows_of_costs, tuple(rows), scales)


def _shared_costs(
    candidates: Candidates, shapes: Shapes, *, counts: Ints, which: Ints
) -> tuple[Floats, Ints]:
    """Costs at every (place, shape) that some pair uses, and where each pair's lines find theirs."""
    most = int(counts[0])
    places = counts[:, None] - 1 - 2 * np.arange(most)
    used = np.arange(most) < counts[:, None]
    keys = (places + most) * len(shapes.outlines) + which[:, None]
    unique, inverse = np.unique(keys[used], return_inverse=True)
    rows_of_costs = np.zeros(keys.shape, dtype=np.int64)
    rows_of_costs[used] = inverse
    place, shape = np.divmod(unique, len(shapes.outlines))
    return candidates.scales(shapes, places=place - most, which=shape), rows_of_costs
