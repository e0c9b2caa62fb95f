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
    size = problem.size[batch.panel]
    owners, xs, outlines = [], [], []
    for count in np.unique(size).tolist():
        rows = np.flatnonzero(size == count)
        shifts, swaps = _moves(count, problem.most)
        owners.append(np.repeat(rows, shifts.shape[1]))
        xs.append((batch.x[:, rows, None] + shifts[:, None]).reshape(problem.most, -1))
        changed = batch.outline[:, rows, None] + swaps[:, None]
        menus = problem.menus[batch.panel[rows]].transpose(1, 0, 2)
        filled = menus[..., 0] >= 0
        first = np.where(filled, menus[..., 0], problem.blank)
        last = np.where(filled, menus.max(axis=2), problem.blank)
        changed = np.clip(changed, first[..., None], last[..., None])
        outlines.append(changed.reshape(problem.most, -1))
    return _kept_inside(
        problem,
        batch,
        Moves(np.concatenate(owners), np.concatenate(xs, axis=1), np.concatenate(outlines, axis=1)),
    )


def _kept_inside(problem: Problem, batch: Batch, moves: Moves) -> Moves:
    """The moves, what left the panel put back to its wall."""
    half = problem.half_width[moves.outline] + problem.margin
    most = problem.width[batch.panel[moves.owner]] - half
    return Moves(moves.owner, np.clip(moves.x, half, most), moves.outline)


@cache
def _moves(size: int, most: int) -> tuple[Floats, Ints]:
    """Shifts of x in mm and steps in the menus: (most, moves) both.

    Each balloon alone both ways, each run from a balloon to the last, each pair apart; then each
    balloon's outline changed to the next wider and narrower.
    """
    single = np.eye(size)
    runs = np.triu(np.ones((size, size)))[1:-1] if size > 2 else np.zeros((0, size))
    apart = single[:-1] - single[1:]
    moves = np.concatenate([single, runs, apart])
    sizes = {1: ALL_STEPS_MM, 2: MORE_STEPS_MM}.get(size, STEPS_MM)
    shifts = np.concatenate([sign * step * moves for step in sizes for sign in (1, -1)])
    swaps = np.concatenate([single, -single]).astype(np.intp)
    still = np.zeros((len(swaps), size))
    kept = np.zeros((len(shifts), size), dtype=np.intp)
    blanks = (0, most - size), (0, 0)
    return (
        np.pad(np.concatenate([shifts, still]).T, blanks),
        np.pad(np.concatenate([kept, swaps]).T, blanks),
    )
