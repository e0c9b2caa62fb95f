"""Pressing: balloons that go into a taller panel are moved until they go into this one.

Where a beam finds nothing it is often by a millimetre: its places are walls and contacts, and a
tight panel wants a balloon between two others, just so. So the same balloons are set in a panel
made taller, and then moved and given other outlines as long as the lowest of them comes up, or all
of them on average. When the lowest stands inside the panel, that is a layout.
"""

from dataclasses import replace

import numpy as np

from letterfit.outline import Floats
from letterfit.place.beam import squeezed
from letterfit.place.jumps import Moves, jumps, steps
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem, replaced
from letterfit.place.settle import ROUNDING, decode, summed

TALLER = 1.3
"""How much taller the panel is made."""

WIDTH = 384
"""States kept by the search in it."""

STARTS = 96
"""Layouts that are pressed: those whose lowest balloon is highest."""

ROUNDS = 40
"""Moves of each at most."""

ALL = 0.02
"""What the mean of all balloons' lower ends counts, against 1 for the lowest."""

GAIN = 1e-3
"""In mm: a move that gains less is none."""


def pressed(problem: Problem, panel: int) -> Batch:
    """Layouts of one panel, blanks filled up; none when none could be pressed into it."""
    tall = replace(problem, height=problem.height * TALLER)
    batch = squeezed(tall, np.array([panel], dtype=np.intp), width=WIDTH, fine=True)
    batch = batch.take(np.argsort(_depth(tall, batch), kind="stable")[:STARTS])
    floor = float(problem.height[panel] - problem.margin.bottom) + ROUNDING
    rows = np.arange(len(batch))
    for _ in range(ROUNDS):
        if not len(rows) or (_lowest(tall, batch) <= floor).any():
            break
        stuck = rows
        rows = rows[:0]
        for moves in (steps, jumps):
            some = batch.take(stuck)
            better, which = _moved(tall, some, moves=moves(tall, some))
            batch = replaced(batch, stuck[which], better)
            rows = np.concatenate([rows, stuck[which]])
            stuck = np.setdiff1d(stuck, rows)
            if not len(stuck):
                break
    return batch.take(np.flatnonzero(_lowest(tall, batch) <= floor))


def _moved(problem: Problem, batch: Batch, *, moves: Moves) -> tuple[Batch, Ints]:
    """Each layout that a move helps after its best move, and which these are."""
    owner = moves.owner
    tried, legal = decode(problem, batch.panel[owner], x=moves.x, outline=moves.outline, fine=True)
    depth = np.where(legal, _depth(problem, tried), np.inf)
    order = np.lexsort((np.arange(len(owner)), depth, owner))
    best = order[np.flatnonzero(np.diff(owner[order], prepend=-1))]
    gains = depth[best] < _depth(problem, batch)[owner[best]] - GAIN
    return tried.take(best[gains]), owner[best[gains]]


def _depth(problem: Problem, batch: Batch) -> Floats:
    """How deep each layout reaches, mm: the lowest balloon's end, and a little of all."""
    share = problem.voices.share[:, batch.panel]
    ends = np.where(share > 0, batch.y + problem.half_height[batch.outline], 0.0)
    return _lowest(problem, batch) + ALL * summed(ends * share)


def _lowest(problem: Problem, batch: Batch) -> Floats:
    """The lower end of the lowest balloon of each layout, mm."""
    result: Floats = (batch.y + problem.half_height[batch.outline]).max(axis=0, initial=-np.inf)
    return result
