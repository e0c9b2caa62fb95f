"""Pushing up: with x and outline chosen, each balloon in script order goes as high as it may.

Every term of the cost prefers high to low, so y is decoded, never searched. Reading order gives a
lower bound (below the earlier balloon, or right of it and not higher); outlines, keep-clear regions
and the border that a balloon may be cut by but not kiss each forbid an interval. The least y free
of all of them is reached by jumping down to the end of whatever interval holds y, until none does.
A balloon joined to the one before it has one y only: where the two overlap by the depth asked for.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import COT, SIN, Bools, Ints
from letterfit.place.problem import FAR, Batch, Problem, Regions
from letterfit.separation import drop

RIGHT = 0.8
"""j stands right of i when their centres are this share of their joint half-widths apart: one may
tuck under the other's shoulder, and three readers written apart still took it second."""

SMALL = 1000
"""Distances of which all tangents are asked in one go: of more they would crowd the memory."""

ROUNDING = 1e-9
"""In mm: what rounding may cost is no fault."""


@dataclass(frozen=True, slots=True, eq=False)
class Meeting:
    """How a later balloon meets earlier ones, wherever they all come to hang: rows of pairs.

    Args:
        dx: Shape (c, n), mm: how far right of each earlier one it stands.
        need: Shape (c, n), mm: the least distance down between their centres.
        right: Shape (c, n): whether it stands right of each.
        opens: Shape (c, n): whether it is wholly left of each, and so opens a new row.
    """

    dx: Floats
    need: Floats
    right: Bools
    opens: Bools

    def rows(self, start: int, stop: int) -> "Meeting":
        """Some of the pairs."""
        at = slice(start, stop)
        return Meeting(self.dx[at], self.need[at], self.right[at], self.opens[at])


def meeting(
    problem: Problem, first: Ints, second: Ints, *, dx: Floats, fine: bool = False
) -> Meeting:
    """How balloons meet earlier ones.

    Args:
        problem: The task.
        first: Shape (c, n): numbers of the earlier outlines.
        second: Shape (c, n) or (n,): numbers of the later.
        dx: Shape (c, n), mm: how far right of the earlier one each later one stands.
        fine: Whether all tangents are asked.
    """
    need = downs(problem, first, second, across=np.abs(dx), fine=fine)
    widths = problem.half_width[first] + problem.half_width[second]
    return Meeting(dx, need, dx >= RIGHT * widths - 1e-12, dx <= -widths)


def settle(  # noqa: PLR0913 - where it stands, and how finely
    problem: Problem,
    placed: Batch,
    *,
    x: Floats,
    outline: Ints,
    fine: bool = False,
    met: Meeting | None = None,
) -> Floats:
    """The least legal y of one more balloon in each layout; infinite where it leaves the panel.

    Args:
        problem: The task.
        placed: n layouts of the balloons before it.
        x: Shape (n,), mm: where it stands.
        outline: Shape (n,): its outline's number.
        fine: Whether all tangents are asked and not only the likely one: a little higher.
        met: How it meets those before it, where that is known.
    """
    half = problem.half_height[outline]
    y = problem.margin.top + half
    lows, highs = [], []
    over = problem.overhang[outline]
    if over.any():
        lows.append(np.where(over > 0, half - over, y)[None])
        highs.append(y[None])
        y = lows[-1][0]
    for region in problem.regions:
        low, high = _forbidden(problem, region, panel=placed.panel, x=x, outline=outline)
        lows.append(low[None])
        highs.append(high[None])
    index = len(placed.x)
    if index:
        if met is None:
            met = meeting(problem, placed.outline, outline, dx=x - placed.x, fine=fine)
        joined = problem.voices.joined[index, placed.panel]
        if problem.ordered:
            y = np.maximum(y, _first_in_order(problem, placed, met, half=half, free=joined))
        need = met.need
        if joined.any():
            need = need.copy()
            need[-1][joined] = 0.0
        lows.append(placed.y - need)
        highs.append(placed.y + need)
    if lows:
        low, high = (lows[0], highs[0]) if len(lows) == 1 else map(np.concatenate, (lows, highs))
        y = _jump(y, low, high)
        if index and joined.any():
            y = _joined(problem, placed, x=x, outline=outline, least=y, held=(low, high), fine=fine)
    floor = problem.height[placed.panel] - problem.margin.bottom
    result: Floats = np.where(y + half <= floor + ROUNDING, y, np.inf)
    return result


def stands(problem: Problem, placed: Batch, *, x: Floats, y: Floats, outline: Ints) -> Bools:
    """Whether one more balloon at (x, y) mm is legal in each layout, inside the margins or not.

    Args:
        problem: The task.
        placed: n layouts of the balloons before it, some.
        x: Shape (n,), mm.
        y: Shape (n,), mm.
        outline: Shape (n,): its outline's number.
    """
    met = meeting(problem, placed.outline, outline, dx=x - placed.x, fine=True)
    clear = (np.abs(y - placed.y) >= met.need - ROUNDING).all(axis=0)
    for region in problem.regions:
        low, high = _forbidden(problem, region, panel=placed.panel, x=x, outline=outline)
        clear &= (y <= low) | (y >= high)
    if problem.ordered:
        none = np.zeros(len(x), dtype=np.bool_)
        half = problem.half_height[outline]
        clear &= y >= _first_in_order(problem, placed, met, half=half, free=none) - ROUNDING
    return np.asarray(clear)


def downs(
    problem: Problem, first: Ints, second: Ints, *, across: Floats, fine: bool = False
) -> Floats:
    """The least distance down between earlier and later outlines of the same panels.

    Args:
        problem: The task.
        first: Shape (k, n): numbers of the earlier outlines.
        second: Shape (n,): numbers of the later.
        across: Shape (k, n), mm: how far their centres are apart across.
        fine: Whether all tangents are asked.
    """
    if fine:
        return _exact(problem, first, second, across=across)
    pairs = problem.pairs
    return pairs.down(pairs.of(first, second), across)


def _exact(problem: Problem, first: Ints, second: Ints, *, across: Floats) -> Floats:
    """The least distance down over all tangents."""
    if across.size <= SMALL:
        lines = problem.push[:, first] + problem.push[:, np.broadcast_to(second, first.shape)]
        need = (lines - COT[:, None, None] * across).min(axis=0)
    else:
        need = np.full(across.shape, np.inf)
        for push, cot in zip(problem.push, COT, strict=True):
            np.minimum(need, push[first] + push[second] - cot * across, out=need)
    reach = problem.half_width[first] + problem.half_width[second] + problem.gap
    result: Floats = np.where(across >= reach, 0.0, np.maximum(need, 0.0))
    return result


def _touching(problem: Problem, first: Ints, second: Ints, *, across: Floats) -> Floats:
    """About how far down joined outlines overlap by the depth asked for: (n,)."""
    shallow = (problem.gap / 2 + problem.overlap / 2) / SIN
    need = np.full(across.shape, np.inf)
    for push, less, cot in zip(problem.push, shallow, COT, strict=True):
        np.minimum(need, push[first] + push[second] - 2 * less - cot * across, out=need)
    result: Floats = np.maximum(need, 0.0)
    return result


def _meeting(problem: Problem, first: Ints, second: Ints, *, across: Floats) -> Floats:
    """Exactly how far down: (n,)."""
    outlines = problem.outlines
    meetings = zip(first.tolist(), second.tolist(), across.tolist(), strict=True)
    return np.array(
        [drop(outlines[o], outlines[p], dx=dx, gap=-problem.overlap) for o, p, dx in meetings]
    )


def _first_in_order(
    problem: Problem, placed: Batch, met: Meeting, *, half: Floats, free: Bools
) -> Floats:
    """The least y that the reading order allows after the balloons placed."""
    before = problem.half_height[placed.outline]
    bottom = placed.y + before
    below = placed.y + met.need
    np.maximum(below, bottom + half, out=below)
    # What the border cuts begins at the border: nothing is higher than that.
    top = _tops(problem, placed, before)
    level = top + half
    level[top < 0] = -np.inf
    least = np.where(met.right, level, below)
    opens = met.opens
    if free.any():
        # Joined to the last one, it need only begin below that one's middle.
        tucked = np.where(met.right[-1], least[-1], placed.y[-1] + half)
        least[-1] = np.where(free, tucked, least[-1])
        opens = opens.copy()
        opens[-1] &= ~free
    # Wholly left of an earlier balloon it opens a new row: below everything before it. Otherwise
    # a reader who cuts in columns first would take it too early.
    result: Floats = least.max(axis=0)
    if problem.lenient:
        # Of its own row, what began it may stand beside it: only rows up to that one are above it.
        above = np.logical_or.accumulate(opens[::-1], axis=0)[::-1]
        row = np.where(above, bottom, -np.inf).max(axis=0) + half
        np.maximum(result, row, out=result)
    else:
        row = bottom.max(axis=0) + half
        np.maximum(result, row, out=result, where=opens.any(axis=0))
    return result


def _tops(problem: Problem, placed: Batch, half: Floats) -> Floats:
    """Where each balloon begins to a reader: one joined to that above it where the two part."""
    top = placed.y - half
    for index in range(1, len(top)) if problem.voices.joined.any() else ():
        joined = problem.voices.joined[index, placed.panel]
        if not joined.any():
            continue
        one, two = placed.outline[index - 1], placed.outline[index]
        with np.errstate(invalid="ignore"):  # what stands nowhere has no place from another
            down = half[index - 1] + half[index] - (placed.y[index] - placed.y[index - 1])
        across = problem.half_width[one] + problem.half_width[two]
        across = across - np.abs(placed.x[index] - placed.x[index - 1])
        top[index] += np.where(joined & (down <= across), np.maximum(down, 0.0) / 2, 0.0)
    return top


def _joined(  # noqa: PLR0913 - where it may stand, and where not
    problem: Problem,
    placed: Batch,
    *,
    x: Floats,
    outline: Ints,
    least: Floats,
    held: tuple[Floats, Floats],
    fine: bool,
) -> Floats:
    """The one y at which a joined balloon overlaps the one before it, where that is legal."""
    rows = np.flatnonzero(problem.voices.joined[len(placed.x), placed.panel])
    first, second = placed.outline[-1, rows], outline[rows]
    across = np.abs(x[rows] - placed.x[-1, rows])
    reach = problem.half_width[first] + problem.half_width[second] - problem.overlap
    depth = (_meeting if fine else _touching)(problem, first, second, across=across)
    y = placed.y[-1, rows] + depth
    clash = ((y > held[0][:, rows]) & (y < held[1][:, rows])).any(axis=0)
    legal = (across <= reach + ROUNDING) & (y >= least[rows] - ROUNDING) & ~clash
    if problem.ordered:
        # Side by side more than one under the other, the later is on the side read later.
        shared_x = reach + problem.overlap - across
        shared_y = problem.half_height[first] + problem.half_height[second] - depth
        legal &= (x[rows] >= placed.x[-1, rows]) | (shared_x >= shared_y)
    result = least.copy()
    result[rows] = np.where(legal, y, np.inf)
    return result


def _jump(y: Floats, low: Floats, high: Floats) -> Floats:
    """The least value from y on that lies in none of the open intervals."""
    for _ in range(len(low) + 1):
        held = (y > low) & (y < high)
        if not held.any():
            break
        y = np.maximum(y, np.where(held, high, -np.inf).max(axis=0))
    return y


def _forbidden(
    problem: Problem, region: Regions, *, panel: Ints, x: Floats, outline: Ints
) -> tuple[Floats, Floats]:
    """The open interval of y that a keep-clear region forbids to outlines at x."""
    gap = region.gap[panel]
    low = np.full(x.shape, -np.inf)
    high = np.full(x.shape, np.inf)
    for t, cot in enumerate(COT):
        grown = problem.push[t, outline] + (gap - problem.gap / 2) / SIN[t]
        for side, slope in ((0, cot * x), (1, -cot * x)):
            np.minimum(high, region.down[panel, side, t] + grown - slope, out=high)
            np.maximum(low, -(region.up[panel, side, t] + grown - slope), out=low)
    reach = problem.half_width[outline] + gap
    clear = (x >= region.right[panel] + reach) | (x <= region.left[panel] - reach) | (low >= high)
    return np.where(clear, 0.0, low), np.where(clear, 0.0, high)


def decode(
    problem: Problem, panel: Ints, *, x: Floats, outline: Ints, fine: bool = False
) -> tuple[Batch, Bools]:
    """Every layout of the given x and outlines settled, and whether it is legal.

    Args:
        problem: The task.
        panel: Shape (n,): which panel's.
        x: Shape (k, n), mm, with as many balloons as the largest panel has.
        outline: Shape (k, n); blanks where there is no balloon.
        fine: Whether all tangents are asked.
    """
    count = len(x)
    later, earlier = _twos(count)
    met = meeting(problem, outline[earlier], outline[later], dx=x[later] - x[earlier], fine=fine)
    y = np.empty(x.shape)
    blank = outline == problem.blank
    for index in range(count):
        before = Batch(panel, x[:index], y[:index], outline[:index])
        pairs = met.rows(index * (index - 1) // 2, index * (index + 1) // 2)
        y[index] = settle(problem, before, x=x[index], outline=outline[index], fine=fine, met=pairs)
        y[index, blank[index]] = -FAR
    legal = np.isfinite(y).all(axis=0)
    legal &= summed(problem.area[outline]) <= problem.limit[panel]
    return Batch(panel, x, y, outline), np.asarray(legal)


@cache
def _twos(count: int) -> tuple[Ints, Ints]:
    """The later and the earlier of any two balloons, those of each later one together."""
    later, earlier = np.tril_indices(count, -1)
    return later, earlier


def summed(rows: Floats) -> Floats:
    """The sum over balloons, in their order: the same however many blanks follow."""
    total = np.zeros(rows.shape[1])
    for row in rows:
        total += row
    return total
