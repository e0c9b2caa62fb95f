"""What every candidate line asks of an outline: how large it must be to hold the line clear.

A line at a place in the stack, its ink's support H(t) about the outline's centre, keeps the air m
from the outline k K (K a unit outline with support h, grown by k) when k h(t) >= H(t) + m for all
t. So the line asks for the scale max over t of (H(t) + m) / h(t). The outline is symmetric, so the
ink is folded into one quadrant: `down` under the line's middle, `up` above it.

Over a finite set of directions the maximum comes out too small, never too large, and the more so
when only the half of the ink away from the outline's centre is looked at. That is what a search
wants: a line refused is refused for good. `letterfit.fit.bound` then gives the exact scale.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

Ints = npt.NDArray[np.int64]

DIRECTIONS: Floats = np.linspace(0.0, math.pi / 2, 13)
"""The directions of the search, rad: 7.5 degrees apart a scale is at most 0.3 % too small."""

COS, SIN = np.cos(DIRECTIONS), np.sin(DIRECTIONS)
COS[-1] = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Shapes:
    """Unit outlines to be grown, and what the search needs of them.

    Args:
        outlines: S outlines.
        inverse: 1 / h at DIRECTIONS, shape (S, T), 1/mm.
        areas: Their areas, shape (S,), mm2.
    """

    outlines: tuple[Outline, ...]
    inverse: Floats
    areas: Floats

    @classmethod
    def of(cls, outlines: tuple[Outline, ...]) -> "Shapes":
        """The shapes of the given unit outlines."""
        inverse = 1 / np.stack([outline.support(DIRECTIONS) for outline in outlines])
        return cls(outlines, inverse, np.array([outline.area_mm2 for outline in outlines]))


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """All lines a text can be broken into, as the search sees them.

    Args:
        advances: Shape (reach, n), mm: entry [r, i] is the line of pieces i .. i + r; infinite
            where there is none.
        down: Shape (T, reach, n), mm: support of the ink about the line's middle (half a cap
            height over its baseline), the lower quadrants folded into one.
        up: The same for the upper quadrants.
        half_leading: Half of the distance between baselines, mm.
        half_cap: Half of the cap height, mm.
        air: The air to keep, mm.
    """

    advances: Floats
    down: Floats
    up: Floats
    half_leading: float
    half_cap: float
    air: float

    @classmethod
    def of(cls, words: Words, *, air: float, reach: int) -> "Candidates":
        """The lines of up to `reach` pieces."""
        turn = np.concatenate([DIRECTIONS, math.pi - DIRECTIONS, -DIRECTIONS, math.pi + DIRECTIONS])
        quadrants = words.supports(turn, reach).transpose(2, 1, 0).reshape(4, len(DIRECTIONS), -1)
        drop = (words.cap_height_mm / 2 * SIN)[:, None]
        shape = (len(DIRECTIONS), reach, len(words))
        down = (np.maximum(quadrants[0], quadrants[1]) + drop).reshape(shape)
        up = (np.maximum(quadrants[2], quadrants[3]) - drop).reshape(shape)
        advances = np.ascontiguousarray(words.advances(reach).T)
        return cls(advances, down, up, words.leading_mm / 2, words.cap_height_mm / 2, air)

    def outward(self, side: int) -> Floats:
        """The support away from the outline's centre for lines over (-1), on (0), under (1) it."""
        if side == 0:
            return np.maximum(self.up, self.down)
        return self.down if side > 0 else self.up

    def scales(self, shapes: Shapes, *, places: Ints, which: Ints) -> Floats:
        """The scale every line asks for, a lower bound, at each of K (place, shape).

        Args:
            shapes: The unit outlines.
            places: Shape (K,): half leadings of the line's middle under the centre.
            which: Shape (K,): the number of the shape.

        Returns:
            Shape (K, reach, n); infinite where there is no line.
        """
        _, reach, count = self.down.shape
        result = np.empty((len(places), reach * count))
        for side in (-1, 0, 1):
            chosen = np.flatnonzero(np.sign(places) == side)
            if not len(chosen):
                continue
            ink = self.outward(side).reshape(len(DIRECTIONS), -1)
            inverse = shapes.inverse[which[chosen]]
            offset = np.abs(places[chosen])[:, None] * self.half_leading * SIN + self.air
            result[chosen] = _largest(ink, inverse, offset * inverse)
        return result.reshape(len(places), reach, count)


def _largest(ink: Floats, inverse: Floats, offset: Floats) -> Floats:
    """The largest over t of ink[t] * inverse[:, t] + offset[:, t], a direction at a time."""
    best = np.full((len(inverse), ink.shape[1]), -math.inf)
    work = np.empty_like(best)
    for t in range(len(ink)):
        np.multiply(ink[t], inverse[:, t, None], out=work)
        work += offset[:, t, None]
        np.maximum(best, work, out=best)
    return best


def reach_of(words: Words, width: float) -> int:
    """How many pieces the longest line of at most `width` mm of advance holds, and one more."""
    ends = words.starts + np.array([piece.width_mm for piece in words.pieces])
    held = np.searchsorted(ends, words.starts + width, side="right") - np.arange(len(words))
    return int(np.clip(held.max() + 1, 1, len(words)))
