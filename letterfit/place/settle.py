"""Pushing up: with x and outline chosen, each balloon in script order goes as high as it may.

Every term of the cost prefers high to low, so y is decoded, never searched. Reading order gives a
lower bound (below the earlier balloon, or right of it and not higher); outlines and keep-clear
regions each forbid an interval. The least y free of all of them is reached by jumping down to the
end of whatever interval holds y, until none does.
"""

from dataclasses import dataclass

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import Bools, Ints
from letterfit.place.problem import Problem, forbidden, pushes

RIGHT = 0.8
"""j stands right of i when their centres are this share of their joint half-widths apart: one may
tuck under the other's shoulder, and three readers written apart still took it second."""


@dataclass(frozen=True, slots=True, eq=False)
class Batch:
    """Layouts of the same balloons: centres in mm and outline numbers, each of shape (n, k)."""

    x: Floats
    y: Floats
    outline: Ints

    def __len__(self) -> int:
        return len(self.x)

    def take(self, rows: Ints) -> "Batch":
        """The layouts of the given rows."""
        return Batch(self.x[rows], self.y[rows], self.outline[rows])

    def joined(self, x: Floats, y: Floats, outline: Ints) -> "Batch":
        """Every layout with one balloon more."""
        return Batch(
            np.concatenate([self.x, x[:, None]], axis=1),
            np.concatenate([self.y, y[:, None]], axis=1),
            np.concatenate([self.outline, outline[:, None]], axis=1),
        )


def empty(count: int) -> Batch:
    """That many layouts without balloons."""
    return Batch(np.zeros((count, 0)), np.zeros((count, 0)), np.zeros((count, 0), dtype=np.intp))


def settle(
    problem: Problem, placed: Batch, *, x: Floats, outline: Ints, coarse: bool = False
) -> Floats:
    """The least legal y of one more balloon in each layout; infinite where it leaves the panel.

    Args:
        problem: The task.
        placed: n layouts of the balloons before it.
        x: Shape (n,), mm: where it stands.
        outline: Shape (n,): its outline's number.
        coarse: Whether half of the directions are enough: a little lower, still legal.
    """
    half = problem.half_height[outline]
    y = problem.margin + half
    lows, highs = [], []
    for region in problem.regions:
        low, high = forbidden(problem, region, x=x, outline=outline)
        lows.append(low[:, None])
        highs.append(high[:, None])
    if placed.x.shape[1]:
        dx = x[:, None] - placed.x
        need = pushes(
            problem, across=dx, first=placed.outline, second=outline[:, None], coarse=coarse
        )
        if problem.ordered:
            y = np.maximum(y, _first_in_order(problem, placed, dx=dx, need=need, outline=outline))
        lows.append(placed.y - need)
        highs.append(placed.y + need)
    if lows:
        y = _jump(y, np.concatenate(lows, axis=1), np.concatenate(highs, axis=1))
    result: Floats = np.where(y + half <= problem.height - problem.margin + 1e-9, y, np.inf)
    return result


def _first_in_order(
    problem: Problem, placed: Batch, *, dx: Floats, need: Floats, outline: Ints
) -> Floats:
    """The least y that the reading order allows after the balloons placed."""
    half = problem.half_height[outline][:, None]
    before = problem.half_height[placed.outline]
    widths = problem.half_width[placed.outline] + problem.half_width[outline][:, None]
    right = dx >= RIGHT * widths - 1e-12
    below = placed.y + np.maximum(before + half, need)
    least = np.where(right, placed.y - before + half, below).max(axis=1)
    # Wholly left of an earlier balloon it opens a new row: below everything before it. Otherwise
    # a reader who cuts in columns first would take it too early.
    opens = (dx <= -widths).any(axis=1)
    row = (placed.y + before).max(axis=1) + half[:, 0]
    result: Floats = np.where(opens, np.maximum(least, row), least)
    return result


def _jump(y: Floats, low: Floats, high: Floats) -> Floats:
    """The least value from y on that lies in none of the open intervals."""
    for _ in range(low.shape[1] + 1):
        at = y[:, None]
        held = (at > low) & (at < high)
        if not held.any():
            break
        y = np.where(held, high, at).max(axis=1)
    return y


def decode(problem: Problem, x: Floats, outline: Ints) -> tuple[Batch, Bools]:
    """Every layout of the given x and outlines (both (n, k)) settled, and whether it is legal."""
    batch = empty(len(x))
    for i in range(x.shape[1]):
        y = settle(problem, batch, x=x[:, i], outline=outline[:, i])
        batch = batch.joined(x[:, i], y, outline[:, i])
    legal = np.isfinite(batch.y).all(axis=1)
    legal &= problem.area[outline].sum(axis=1) <= problem.limit
    return batch, np.asarray(legal)
