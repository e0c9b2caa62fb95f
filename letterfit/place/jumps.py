"""Moves of whole layouts: small shifts and swaps of outlines, and jumps.

Small moves end where every one of them costs more for a while: where a balloon would have to pass
another, or to change its outline and its place at once. A jump does that in one step: one balloon
in any of its outlines goes to any telling place.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from letterfit.outline import Floats
from letterfit.place.candidates import candidates
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem, columns

STEPS_MM = (30.0, 12.0, 5.0, 1.6, 0.4)
"""Sizes of moves, all tried in every round."""

MORE_STEPS_MM = (5.0, 3.6, 2.6, 1.8, 1.2, 0.8, 0.4)
"""Sizes of moves of two balloons, where more moves a round cost less than more rounds."""

SWAPS = (-2, -1, 1, 2)
"""How far off in the menu outlines are tried in place of a balloon's own."""

ENDS = (0.0, 1.0, -1.0)
"""Which way a balloon moves by what its outline is wider: its middle, its left end, its right end
stays."""

ROW = 0.7
"""Two balloons are in one row when their middles are this share of their joint half-heights apart
or less."""

ALL_STEPS_MM = tuple(step / 5 for step in range(1, 26))
"""Sizes of moves of a balloon alone: one round finds its place."""


@dataclass(frozen=True, slots=True, eq=False)
class Moves:
    """Layouts tried in place of others.

    Args:
        owner: Shape (m,): which layout each would replace.
        x: Shape (k, m), mm.
        outline: Shape (k, m).
    """

    owner: Ints
    x: Floats
    outline: Ints


def jumps(problem: Problem, batch: Batch) -> Moves:
    """Every balloon of every layout in every outline of its menu at every telling place."""
    owners, xs, outlines = [], [], []
    for index in range(problem.most):
        rows = np.flatnonzero(problem.size[batch.panel] > index)
        if not len(rows):
            break
        some = batch.take(rows)
        before = Batch(some.panel, some.x[:index], some.y[:index], some.outline[:index])
        menu = problem.menus[some.panel, index]
        tried = candidates(problem, before, index, menu=menu)
        x, outline = columns(some.x, tried.row), columns(some.outline, tried.row)
        x[index], outline[index] = tried.x, tried.outline
        owners.append(rows[tried.row])
        xs.append(x)
        outlines.append(outline)
    return _kept_inside(
        problem,
        batch,
        Moves(np.concatenate(owners), np.concatenate(xs, axis=1), np.concatenate(outlines, axis=1)),
    )


def steps(problem: Problem, batch: Batch) -> Moves:
    """Every small move of every layout: shifts of one, of two, of a run; swaps of outlines."""
    shifted, swapped = _shifted(problem, batch), _swapped(problem, batch)
    return _kept_inside(
        problem,
        batch,
        Moves(
            np.concatenate([shifted.owner, swapped.owner]),
            np.concatenate([shifted.x, swapped.x], axis=1),
            np.concatenate([shifted.outline, swapped.outline], axis=1),
        ),
    )


def _shifted(problem: Problem, batch: Batch) -> Moves:
    """Each balloon alone both ways, each run to the last, each pair apart, by all sizes."""
    size = problem.size[batch.panel]
    owners, xs = [], []
    for count in sorted(set(size.tolist())):
        rows = np.flatnonzero(size == count)
        shifts = _shifts(count, problem.most)
        owners.append(np.repeat(rows, shifts.shape[1]))
        xs.append((columns(batch.x, rows)[:, :, None] + shifts[:, None]).reshape(problem.most, -1))
    owner = np.concatenate(owners)
    return Moves(owner, np.concatenate(xs, axis=1), columns(batch.outline, owner))


def _swapped(problem: Problem, batch: Batch) -> Moves:
    """Each balloon in an outline near its own in the menu: about its middle, or either end kept.

    Where an end is kept, what stands beyond the other end in the same row moves along.
    """
    index, step, end = _swaps(problem.most)
    own = batch.outline[index]
    other = own + step[:, None]
    menus = problem.menus[batch.panel].transpose(1, 0, 2)
    first, last = menus[..., 0], menus.max(axis=2)
    valid = (other >= first[index]) & (other <= last[index]) & (first[index] >= 0)
    wider = problem.half_width[np.where(valid, other, own)] - problem.half_width[own]
    # Arrays of balloons by moves by layouts.
    moved = end[:, None] * wider
    x = batch.x[:, None] + np.where(_sides(problem, batch)[:, index] == end[:, None], 2 * moved, 0)
    outline = np.broadcast_to(batch.outline[:, None], x.shape).copy()
    at = np.arange(len(index))
    x[index, at] = batch.x[index] + moved
    outline[index, at] = other
    move, owner = np.nonzero(valid)
    return Moves(owner, x[:, move, owner], outline[:, move, owner])


def _sides(problem: Problem, batch: Batch) -> Floats:
    """Where each balloon stands from each other of its row: 1 right, -1 left: (k, k, n).

    Itself and what is in no row with it are neither, and not in the middle either.
    """
    half = problem.half_height[batch.outline]
    level = np.abs(batch.y[:, None] - batch.y) < ROW * (half[:, None] + half)
    side = np.sign(batch.x[:, None] - batch.x)
    result: Floats = np.where(level & (side != 0), side, np.inf)
    return result


@cache
def _swaps(most: int) -> tuple[Ints, Ints, Floats]:
    """Which balloon, how far in its menu, and which way it moves: each of shape (moves,)."""
    ends = ENDS if most > 1 else ENDS[:1]
    ways = np.array([(i, step, end) for i in range(most) for step in SWAPS for end in ends])
    index, step, end = ways.T
    return index.astype(np.intp), step.astype(np.intp), end


def _kept_inside(problem: Problem, batch: Batch, moves: Moves) -> Moves:
    """The moves, what left the panel put back to its wall."""
    half = problem.half_width[moves.outline]
    most = problem.width[batch.panel[moves.owner]] - problem.margin.right - half
    half += problem.margin.left
    return Moves(moves.owner, np.minimum(np.maximum(moves.x, half), most), moves.outline)


@cache
def _shifts(size: int, most: int) -> Floats:
    """Shifts of x in mm: (most, moves)."""
    single = np.eye(size)
    runs = np.triu(np.ones((size, size)))[1:-1] if size > 2 else np.zeros((0, size))
    apart = single[:-1] - single[1:]
    moves = np.concatenate([single, runs, apart])
    sizes = {1: ALL_STEPS_MM, 2: MORE_STEPS_MM}.get(size, STEPS_MM)
    shifts = np.concatenate([sign * step * moves for step in sizes for sign in (1, -1)])
    return np.pad(shifts.T, ((0, most - size), (0, 0)))
