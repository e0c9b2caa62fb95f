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

STEPS_MM = (5.0, 1.6, 0.4)
"""Sizes of moves, all tried in every round."""

MORE_STEPS_MM = (5.0, 3.6, 2.6, 1.8, 1.2, 0.8, 0.4)
"""Sizes of moves of two balloons, where more moves a round cost less than more rounds."""

SWAPS = (-2, -1, 1, 2)
"""How far off in the menu outlines are tried in place of a balloon's own."""

ENDS = ((0.0, ""), (1.0, "right"), (-1.0, "left"))
"""Which way a balloon moves that changes its outline, and what moves along: its middle kept, its
left end, its right end."""

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
    for count in np.unique(size).tolist():
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
    owners, xs, outlines = [], [], []
    half_height = problem.half_height[batch.outline]
    for index in range(problem.most):
        level = np.abs(batch.y - batch.y[index]) < ROW * (half_height + half_height[index])
        beside = {
            "right": level & (batch.x > batch.x[index]),
            "left": level & (batch.x < batch.x[index]),
        }
        menu = problem.menus[batch.panel, index]
        last = menu.max(axis=1)
        for step in SWAPS:
            other = batch.outline[index] + step
            rows = np.flatnonzero((other >= menu[:, 0]) & (other <= last) & (menu[:, 0] >= 0))
            outline = columns(batch.outline, rows)
            wider = problem.half_width[other[rows]] - problem.half_width[outline[index]]
            outline[index] = other[rows]
            for side, beyond in ENDS if problem.most > 1 else ENDS[:1]:
                x = columns(batch.x, rows)
                if beyond:
                    x += np.where(columns(beside[beyond], rows), 2 * side * wider, 0.0)
                    x[index] += side * wider
                owners.append(rows)
                xs.append(x)
                outlines.append(outline)
    return Moves(
        np.concatenate(owners), np.concatenate(xs, axis=1), np.concatenate(outlines, axis=1)
    )


def _kept_inside(problem: Problem, batch: Batch, moves: Moves) -> Moves:
    """The moves, what left the panel put back to its wall."""
    half = problem.half_width[moves.outline]
    most = problem.width[batch.panel[moves.owner]] - problem.margin.right - half
    return Moves(moves.owner, np.clip(moves.x, problem.margin.left + half, most), moves.outline)


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
