"""Texts as the fast search sees them: where pieces begin and end, and how far their ink reaches.

Whether a line goes into an outline is decided at its ends: by the ink of its last piece on the
right and of its first on the left, or of the piece next to it where that one is short or low. So
the reach of ink is kept per piece, not per line: its support over the end of the piece's advance,
in the directions of one quadrant, for the half of the page over the line's middle and under it.
(That leaves out tall ink deep inside a line. Whoever sets the stack measures all of it.)
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from letterfit.fit import lines, looks
from letterfit.fit.ink import Ink
from letterfit.fit.lines import Ints
from letterfit.lettering.words import Words
from letterfit.outline import Floats

Number = TypeVar("Number", np.float64, np.int64)

DIRECTIONS: Floats = lines.DIRECTIONS[::2]
COS, SIN = lines.COS[::2], lines.SIN[::2]
"""The directions of the fast search: 5.6 degrees apart."""

UP, DOWN = 0, 1
"""The half of the page over a line's middle, and under it."""

APART = 1e6
"""mm between texts on one line: more than any line is long."""

INKLESS = 2.0
"""Leadings: how far from the end of its advance the ink of a piece without ink is taken to be."""


@dataclass(frozen=True, eq=False, kw_only=True)
class Profiles:
    """The pieces of several texts, one text after the other, N in all.

    Args:
        words: The texts, W of them.
        inks: Their ink.
        base: Shape (W + 1,): the first piece of each text, and N.
        starts: Shape (N,), mm: where each piece starts in its unbroken text.
        ends: Shape (N,), mm: where its advance ends.
        rights: Shape (4, T, N), mm: UP and DOWN, the support of its ink over the end of its
            advance on the line's middle; then the same with the ink of the piece before it.
        lefts: Shape (4, T, N), mm: the same over its start; then with the piece after it.
        heights: Shape (G, 2, N), mm: UP and DOWN, how far the ink of 2^g pieces from each one on
            reaches from the line's middle.
        bonus: Shape (W, 2, T), mm: in each direction, by how much half a line of the text may
            exceed the room for a line of capitals whose ink fills its advance.
        prices: Shape (N,): the cost of ending a line after each piece.
        letters: Shape (N + W,): letters and digits before each piece of a text, and of all.
        counts: Shape (N + W,): the same for words.
        gaps: Shape (W,), mm: the widest space between two pieces of each text.
        lowest: Shape (W,), mm: how far from a line's middle every piece's ink reaches at least.
        half_leading: Shape (W,), mm.
        half_cap: Shape (W,), mm.
        air: mm.
    """

    words: tuple[Words, ...]
    inks: tuple[Ink, ...]
    base: Ints
    starts: Floats
    ends: Floats
    rights: Floats
    lefts: Floats
    heights: Floats
    bonus: Floats
    prices: Floats
    letters: Ints
    counts: Ints
    gaps: Floats
    lowest: Floats
    half_leading: Floats
    half_cap: Floats
    air: float

    @classmethod
    def of(cls, texts: Sequence[Words], *, air: float) -> "Profiles":
        """The profiles of texts that have pieces and no forced line ends."""
        inks = tuple(map(Ink.of, texts))
        base = np.cumsum([0, *map(len, texts)])
        half_cap = np.array([words.cap_height_mm / 2 for words in texts])
        rights, lefts = _reaches(inks, base)
        reach = rights[:2, -1]
        return cls(
            words=tuple(texts),
            inks=inks,
            base=base,
            starts=_joined([words.starts for words in texts]),
            ends=_joined([words.ends for words in texts]),
            rights=rights,
            lefts=lefts,
            heights=_heights(reach),
            bonus=_bonus(rights, lefts, base=base, half_cap=half_cap),
            prices=looks.break_price(_joined([words.penalties for words in texts])),
            letters=_joined([_before(_letters(words)) for words in texts]),
            counts=_joined([_before(words.word_counts) for words in texts]),
            gaps=np.array([_widest_gap(words) for words in texts]),
            lowest=np.minimum.reduceat(reach, base[:-1], axis=1).min(axis=0),
            half_leading=np.array([words.leading_mm / 2 for words in texts]),
            half_cap=half_cap,
            air=air,
        )

    @classmethod
    def of_capitals(cls, words: Words, *, air: float) -> "Profiles":
        """The profiles of one text, its pieces taken for capitals that fill their advance."""
        half_cap = words.cap_height_mm / 2
        height = np.full((2, len(words)), half_cap)
        ends = np.empty((4, len(DIRECTIONS), len(words)))
        ends[:] = (half_cap * SIN)[:, None]
        return cls(
            words=(words,),
            inks=(),
            base=np.array([0, len(words)]),
            starts=words.starts,
            ends=words.ends,
            rights=ends,
            lefts=ends,
            heights=_heights(height),
            bonus=np.zeros((1, 2, len(DIRECTIONS))),
            prices=looks.break_price(words.penalties),
            letters=_before(_letters(words)),
            counts=_before(words.word_counts),
            gaps=np.array([_widest_gap(words)]),
            lowest=np.array([half_cap]),
            half_leading=np.array([words.leading_mm / 2]),
            half_cap=np.array([half_cap]),
            air=air,
        )

    @cached_property
    def shifts(self) -> Floats:
        """Where each text begins when all stand on one line, so that one search serves them all."""
        found = np.zeros(len(self.base) - 1)
        np.cumsum(self.ends[self.base[1:-1] - 1] + APART, out=found[1:])
        return found

    @cached_property
    def shifted_starts(self) -> Floats:
        """Where each piece starts on that line."""
        found: Floats = self.starts + self.shifts.repeat(np.diff(self.base))
        return found

    @cached_property
    def shifted_ends(self) -> Floats:
        """Where its advance ends there."""
        found: Floats = self.ends + self.shifts.repeat(np.diff(self.base))
        return found


def _joined(parts: list[npt.NDArray[Number]]) -> npt.NDArray[Number]:
    """Arrays of all texts one after the other, along their last axis."""
    return parts[0] if len(parts) == 1 else np.concatenate(parts, axis=-1)


def _before(values: Ints) -> Ints:
    return np.concatenate([[0], values.cumsum()])


def _widest_gap(words: Words) -> float:
    gaps = words.starts[1:] - words.ends[:-1]
    return max(float(gaps.max()), 0.0) if len(gaps) else 0.0


def _letters(words: Words) -> Ints:
    text = words.cut.text
    counted = [looks.letters(text[start:end]) for start, end in words.stretches]
    return np.array(counted, dtype=np.int64)


def _reaches(inks: Sequence[Ink], base: Ints) -> tuple[Floats, Floats]:
    """Support of each piece's ink over its end and over its start, as in `Profiles`."""
    texts, sizes = [ink.words for ink in inks], np.diff(base)
    boxes = [len(ink.boxes) for ink in inks]
    shifts = np.cumsum([0, *boxes[:-1]]).repeat(sizes)
    begin = np.append(_joined([ink.begin[:-1] for ink in inks]) + shifts, sum(boxes))
    alone = lines.quadrants(_joined([ink.boxes.T for ink in inks]).T, begin, every=2)
    backwards = np.array([words.rtl for words in texts])
    if backwards.any():  # mirrored, the pieces stand from left to right
        alone = np.where(backwards.repeat(sizes), alone[:, ::-1], alone)
    starts = _joined([words.starts for words in texts])
    ends = _joined([words.ends for words in texts])
    level = SIN[:, None] * np.array([words.cap_height_mm / 2 for words in texts]).repeat(sizes)
    level = np.stack([-level, level])
    least = COS[:, None] * np.array([-INKLESS * words.leading_mm for words in texts]).repeat(sizes)
    right = np.maximum(alone[:, 0] + level - ends * COS[:, None], least)
    left = np.maximum(alone[:, 1] + level + starts * COS[:, None], least)
    # Of two neighbours the one that reaches farther counts, each from its own place.
    rights, lefts = np.concatenate([right, right]), np.concatenate([left, left])
    before = right[..., :-1] - (ends[1:] - ends[:-1]) * COS[:, None]
    after = left[..., 1:] - (starts[1:] - starts[:-1]) * COS[:, None]
    before[..., base[1:-1] - 1] = after[..., base[1:-1] - 1] = -math.inf
    np.maximum(rights[2:, :, 1:], before, out=rights[2:, :, 1:])
    np.maximum(lefts[2:, :, :-1], after, out=lefts[2:, :, :-1])
    return rights, lefts


def _bonus(rights: Floats, lefts: Floats, *, base: Ints, half_cap: Floats) -> Floats:
    """What a line may exceed its room by, per text, as in `Profiles`."""
    shortest = np.maximum(
        np.minimum.reduceat(rights[2:, :-1], base[:-1], axis=2),
        np.minimum.reduceat(lefts[2:, :-1], base[:-1], axis=2),
    )
    bonus = np.zeros((len(half_cap), 2, len(DIRECTIONS)))
    full = SIN[:-1, None] * half_cap
    bonus[..., :-1] = np.moveaxis((full - shortest) / COS[:-1, None], 2, 0)
    return bonus


def _heights(alone: Floats) -> Floats:
    """The greatest of 2^g neighbours from each one on, level by level: shape (G, 2, N)."""
    levels, step = [alone], 1
    while 2 * step <= alone.shape[1]:
        level = levels[-1].copy()
        np.maximum(level[:, :-step], level[:, step:], out=level[:, :-step])
        levels.append(level)
        step *= 2
    return np.stack(levels)
