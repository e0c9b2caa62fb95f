"""What every candidate line asks of an outline: how large it must be to hold the line clear.

A line at a place in the stack, its ink's support H(t) about the outline's centre, keeps the air m
from the outline k K (K a unit outline with support h, grown by k) when k h(t) >= H(t) + m for all
t. So the line asks for the scale max over t of (H(t) + m) / h(t). The outline is symmetric, so the
ink is folded into one quadrant: `down` under the line's middle, `up` above it.

Over a few directions the maximum comes out too small, never too large. That is what a search wants:
a line refused is refused for good. The few are those in which a line that fills an outline of about
the expected size touches it, and the vertical; `letterfit.fit.bound` gives the exact scale.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.fit.ink import Ink
from letterfit.lettering.words import ResetLine, SetLine, Words
from letterfit.outline import Floats, Outline

Ints = npt.NDArray[np.int64]
Singles = npt.NDArray[np.float32]

DIRECTIONS: Floats = np.linspace(0.0, math.pi / 2, 33)
"""The directions of the search, rad: 2.8 degrees apart."""

NEARBY = (-2, 0, 2)
"""Directions looked at, counted from the one in which a full line touches: 0.1 % of the scale is
missed between them."""

COS, SIN = np.cos(DIRECTIONS), np.sin(DIRECTIONS)
COS[-1] = 0.0

ROUNDING = 1e-6
"""Single precision is enough for a lower bound that is lowered by its rounding."""


@dataclass(frozen=True, slots=True, eq=False)
class Shapes:
    """Unit outlines to be grown, and what the search needs of them.

    Args:
        outlines: S outlines.
        inverse: 1 / h at DIRECTIONS, shape (S, T), 1/mm.
        areas: Their areas, shape (S,), mm2.
        half_widths: Half their widths, shape (S,), mm.
        half_heights: Half their heights, shape (S,), mm.
    """

    outlines: tuple[Outline, ...]
    inverse: Floats
    areas: Floats
    half_widths: Floats
    half_heights: Floats

    @classmethod
    def of(cls, outlines: tuple[Outline, ...]) -> "Shapes":
        """The shapes of the given unit outlines."""
        return cls(
            outlines,
            1 / np.stack([outline.support(DIRECTIONS) for outline in outlines]),
            np.array([outline.area_mm2 for outline in outlines]),
            np.array([outline.half_width for outline in outlines]),
            np.array([outline.half_height for outline in outlines]),
        )

    @property
    def coarse(self) -> Floats:
        """1 / h at every other of DIRECTIONS, 1/mm."""
        return self.inverse[:, ::2]

    @classmethod
    def joined(cls, parts: Sequence["Shapes"]) -> "Shapes":
        """The shapes of several lists in one."""
        return cls(
            tuple(outline for part in parts for outline in part.outlines),
            np.concatenate([part.inverse for part in parts]),
            np.concatenate([part.areas for part in parts]),
            np.concatenate([part.half_widths for part in parts]),
            np.concatenate([part.half_heights for part in parts]),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """All lines a text can be broken into, as the search sees them.

    Args:
        advances: Shape (reach, n), mm: entry [r, i] is the line of pieces i .. i + r; infinite
            where there is none.
        ink: Shape (2, T, reach, n), mm: support of the ink about the line's middle (half a cap
            height over its baseline), folded left to right: [0] the upper half, [1] the lower.
        boxes: The ink itself.
        half_leading: Half of the distance between baselines, mm.
        half_cap: Half of the cap height, mm.
        air: The air to keep, mm.
    """

    advances: Floats
    ink: Floats
    boxes: Ink
    half_leading: float
    half_cap: float
    air: float

    @classmethod
    def of(cls, words: Words, *, air: float, reach: int) -> "Candidates":
        """The lines of up to `reach` pieces."""
        advances = np.ascontiguousarray(words.advances(reach).T)
        half_cap = words.cap_height_mm / 2
        boxes = Ink.of(words)
        ink = folded_ink(boxes, advances)
        ink[0] -= (half_cap * SIN)[:, None, None]
        ink[1] += (half_cap * SIN)[:, None, None]
        return cls(advances, ink, boxes, words.leading_mm / 2, half_cap, air)

    def scales(self, shapes: Shapes, *, places: Ints, which: Ints, expected: Floats) -> Singles:
        """The scale every line asks for, a lower bound, at each of K (place, shape).

        Args:
            shapes: The unit outlines.
            places: Shape (K,): half leadings of the line's middle under the centre.
            which: Shape (K,): the number of the shape.
            expected: Shape (S,): about the scale that each shape will need.

        Returns:
            Shape (K, reach, n); infinite where there is no line.
        """
        _, _, reach, count = self.ink.shape
        steps = self._steps(shapes, places=places, which=which, expected=expected)
        inverse = shapes.inverse[which[:, None], steps] * (1 - ROUNDING)
        away = np.abs(places)[:, None] * self.half_leading * SIN[steps] + self.air
        offset = (away * inverse).astype(np.float32)[:, :, None]
        factor = inverse.astype(np.float32)[:, :, None]
        upper, lower = self.ink.reshape(2, len(DIRECTIONS), -1).astype(np.float32)
        result = np.empty((len(places), reach * count), dtype=np.float32)
        for side, ink in ((-1, upper), (0, np.maximum(upper, lower)), (1, lower)):
            rows = np.flatnonzero(np.sign(places) == side)
            if len(rows):
                result[rows] = _largest(ink, steps[rows], (factor[rows], offset[rows]))
        return result.reshape(len(places), reach, count)

    def _steps(self, shapes: Shapes, *, places: Ints, which: Ints, expected: Floats) -> Ints:
        """The directions to look at per (place, shape): shape (K, len(NEARBY) + 1)."""
        edge = np.abs(places) * self.half_leading + self.half_cap
        touch = self.chords(shapes, edges=edge, which=which, scales=expected[which]).argmin(axis=1)
        last = len(DIRECTIONS) - 1
        near = np.clip(touch[:, None] + np.array(NEARBY), 0, last)
        return np.concatenate([near, np.full((len(places), 1), last)], axis=1)

    def chords(self, shapes: Shapes, *, edges: Floats, which: Ints, scales: Floats) -> Floats:
        """Bounds on half the room between the airs at a height, per direction but the vertical.

        Args:
            shapes: The unit outlines.
            edges: Shape (K,), mm: the height over or under the centre.
            which: Shape (K,): the number of the shape.
            scales: Shape (K,): its scale.

        Returns:
            Shape (K, T - 1), mm: the least of a row is the room.
        """
        clear = scales[:, None] / shapes.inverse[which] - self.air
        result: Floats = (clear[:, :-1] - edges[:, None] * SIN[:-1]) / COS[:-1]
        return result


def _largest(ink: Singles, steps: Ints, linear: tuple[Singles, Singles]) -> Singles:
    """The largest over a row's directions of ink * factor + offset."""
    factor, offset = linear
    best: Singles = ink[steps[:, 0]] * factor[:, 0] + offset[:, 0]
    work = np.empty_like(best)
    for slot in range(1, steps.shape[1]):
        np.take(ink, steps[:, slot], axis=0, out=work)
        work *= factor[:, slot]
        work += offset[:, slot]
        np.maximum(best, work, out=best)
    return best


def folded_ink(ink: Ink, advances: Floats) -> Floats:
    """Support of every candidate line's ink about its baseline's middle, folded left to right.

    Args:
        ink: The text's ink.
        advances: Shape (reach, n), mm, as in `Candidates`.

    Returns:
        Shape (2, T, reach, n), mm: [0] at -t and pi + t (upwards), [1] at t and pi - t; infinite
        where there is no line.
    """
    reach, count = advances.shape
    middle = ink.way * (ink.words.starts + advances / 2)
    middle[np.isinf(middle)] = 0.0
    alone = quadrants(ink.boxes, ink.begin)
    widest = alone.copy()
    result = np.full((2, len(DIRECTIONS), reach, count), math.inf)
    for run in range(reach):
        some = count - run
        np.maximum(widest[..., :some], alone[..., run:], out=widest[..., :some])
        centre = middle[run, :some] * COS[:, None]
        right, left = widest[:, 0, :, :some] - centre, widest[:, 1, :, :some] + centre
        np.maximum(right, left, out=result[:, :, run, :some])
    result[..., np.isinf(advances)] = math.inf
    _put_reshaped(ink.words, advances, result)
    return result


def _put_reshaped(words: Words, advances: Floats, ink: Floats) -> None:
    """Overwrite the lines that are set otherwise than the slice of the unbroken text."""
    for (first, last), line in words.reshaped.items():
        if last - first < len(advances) and np.isfinite(advances[last - first, first]):
            ink[:, :, last - first, first] = _alone(line)


def _alone(line: SetLine | ResetLine) -> Floats:
    """Folded support of one line's ink about its baseline's middle, shape (2, T)."""
    if not len(line.ink):
        return np.full((2, len(DIRECTIONS)), -math.inf)
    left, top, right, bottom = line.ink.T
    across = np.maximum(right - line.width_mm / 2, line.width_mm / 2 - left)
    return np.stack(
        [(across * COS[:, None] + edge * SIN[:, None]).max(axis=1) for edge in (-top, bottom)]
    )


def quadrants(boxes: Floats, begin: Ints, *, every: int = 1) -> Floats:
    """Support of each piece's ink in place, (up or down, right or left, T, n); none: -infinity.

    Args:
        boxes: Shape (g, 4), mm: the ink.
        begin: Shape (n + 1,): the first box of every piece, and g.
        every: 1 for all DIRECTIONS, 2 for every other one.
    """
    sizes = np.diff(begin)
    cos, sin = COS[::every], SIN[::every]
    result = np.full((2, 2, len(cos), len(sizes)), -math.inf)
    across = np.stack([boxes[:, 2], -boxes[:, 0]])[:, None] * cos[:, None]
    along = np.stack([-boxes[:, 1], boxes[:, 3]])[:, None] * sin[:, None]
    if sizes.all():
        np.maximum.reduceat(along[:, None] + across, begin[:-1], axis=-1, out=result)
        return result
    some = sizes > 0
    if some.any():
        first = begin[:-1][some]
        result[..., some] = np.maximum.reduceat(along[:, None] + across, first, axis=-1)
    return result


def reach_of(words: Words, width: float) -> int:
    """How many pieces the longest line of at most `width` mm of advance holds, and one more."""
    held = np.searchsorted(words.ends, words.starts + width, side="right") - np.arange(len(words))
    return int(np.clip(held.max() + 1, 1, len(words)))
