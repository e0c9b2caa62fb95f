"""Telling places for one more balloon: walls, a coarse grid, the speaker's side, and contacts.

Contacts beat finer grids: beside an earlier balloon, tucked under its shoulder, under its middle,
under its left end. A joined balloon stands where it can touch the one before it.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import Ints
from letterfit.place.problem import Batch, Problem
from letterfit.place.rooms import cap_height
from letterfit.place.settle import RIGHT

GRID = np.array([0.0, 0.5, 1.0])
"""Places between the walls, as shares of the room to move."""

FINE = np.linspace(0.0, 1.0, 25)
"""Places between the walls for a balloon alone, where no contact tells a place."""

NEAR = 3
"""How many balloons back contacts are looked for."""

JOINTS = np.array([-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0])
"""Places of a joined balloon, as shares of the way to where it touches from the side."""

SAME = 1e-6
"""In mm: two places as near as this are one."""


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """Places for one more balloon.

    Args:
        x: Shape (c,), mm.
        outline: Shape (c,): the outline's number.
        row: Shape (c,): the layout it would join, in order.
    """

    x: Floats
    outline: Ints
    row: Ints


def candidates(problem: Problem, batch: Batch, index: int, *, menu: Ints) -> Candidates:
    """The telling places of balloon `index` after each layout.

    Args:
        problem: The task.
        batch: n layouts of the balloons before it.
        index: Which balloon.
        menu: Shape (n, m): the outlines tried in each layout; -1 is blank.
    """
    shapes = menu.T
    half = problem.half_width[shapes]
    low = problem.margin.left + half
    high = problem.width[batch.panel] - problem.margin.right - half
    fixed = _fixed(problem, batch, index, low=low, high=high)
    near = _contacts(problem, batch, index, shapes=shapes, half=half)
    x = np.concatenate([fixed, near]) if len(near) else fixed
    legal = (x >= low - 1e-9) & (x <= high + 1e-9) & (shapes >= 0)
    if len(near):
        # Most contacts with what hangs at a wall are that wall again.
        there = x[len(fixed) :]
        wall = (np.abs(there - low) < SAME) | (np.abs(there - high) < SAME)
        joined = problem.voices.joined[index, batch.panel]
        legal[len(fixed) :] &= ~wall | joined
        legal[: len(fixed)] &= ~joined
    # Layouts outermost: what belongs to one stands together.
    row, place, choice = np.nonzero(legal.transpose(2, 0, 1))
    return Candidates(x[place, choice, row], shapes[choice, row], row)


def _fixed(problem: Problem, batch: Batch, index: int, *, low: Floats, high: Floats) -> Floats:
    """Places that no other balloon tells: (c, m, n)."""
    shares = GRID if problem.most > 1 else FINE
    lean, leans = problem.voices.lean[index, batch.panel], problem.voices.leans[index, batch.panel]
    lean = np.where(leans, np.minimum(np.maximum(lean, low), high), np.nan)
    grid = low + shares[:, None, None] * (high - low)
    if problem.most == 1:
        return np.concatenate([grid, lean[None]])
    # Beside the tallest figure that earns anything, standing at either wall.
    box = (problem.aspect * cap_height(problem))[batch.panel]
    half = low - problem.margin.left
    figure = np.stack([box + half, problem.width[batch.panel] - box - half])
    return np.concatenate([grid, lean[None], figure])


def _contacts(problem: Problem, batch: Batch, index: int, *, shapes: Ints, half: Floats) -> Floats:
    """Places by contact with each balloon placed: (c, m, n)."""
    if not index:
        return np.zeros((0, *shapes.shape))
    found: list[Floats] = []
    for before in range(max(0, index - NEAR), index):
        x, outline = batch.x[before], batch.outline[before]
        own = problem.half_width[outline]
        beside = problem.pairs.beside[problem.pairs.of(outline, shapes)]
        found += _beside(problem, x=x, own=own, half=half, beside=beside)
    if problem.voices.joined[index].any():
        _only_joints(problem, batch, index, half=half, found=found)
    return np.stack(found)


def _beside(
    problem: Problem, *, x: Floats, own: Floats, half: Floats, beside: Floats
) -> list[Floats]:
    """Places told by one balloon at x, of half-width `own`."""
    if not problem.ordered:
        ends = own - half
        near = [x + ends, x - ends, x + 0 * beside]
        return [x + beside, x - beside, x + beside / 2, x - beside / 2, *near]
    shoulder = RIGHT * (own + half)
    tucked = np.where(beside > shoulder + SAME, x + shoulder, np.nan)
    return [x + np.maximum(beside, shoulder), tucked, x + 0 * beside, x - own + half]


def _only_joints(
    problem: Problem, batch: Batch, index: int, *, half: Floats, found: list[Floats]
) -> None:
    """Adds the places of joined balloons, and takes all others from them."""
    joined = problem.voices.joined[index, batch.panel]
    for there in found:
        there[:, joined] = np.nan
    own = problem.half_width[batch.outline[index - 1]]
    reach = own + half - problem.overlap
    last = batch.x[index - 1]
    found += [np.where(joined, last + share * reach, np.nan) for share in JOINTS]
