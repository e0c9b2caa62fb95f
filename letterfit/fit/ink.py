"""The ink of a stack: what must keep clear of the outline, as few points as can be.

An outline is symmetric about both axes, so a box of ink is clear of it when its corner farthest
from both axes is; and a corner that another one exceeds both ways never touches first.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from letterfit.fit.stack import baselines
from letterfit.lettering.words import Words
from letterfit.outline import Floats
from letterfit.separation import foremost

MOST_FLUSH = 300
"""Pieces. Longer texts are no balloons any more, and are not searched for blocks."""

TEXTS = 256
"""Texts whose ink is kept: those of the pages that are lettered together."""

Stack = tuple[int, ...]
"""The first piece of every line from the top, and one past the last piece at the end."""


@dataclass(frozen=True, slots=True, eq=False)
class Ink:
    """All ink boxes of a text set on one line.

    Args:
        words: The text.
        boxes: Shape (g, 4), mm: left, top, right, bottom from the text's start and the baseline.
        begin: Shape (n + 1,): the first box of every piece, and g.
        ends: Shape (n,), mm: how far along the text the advance of every piece ends.
        way: 1 where pieces stand from left to right, -1 where from right to left.
    """

    words: Words
    boxes: Floats
    begin: npt.NDArray[np.int64]
    ends: Floats
    way: int

    @staticmethod
    def of(words: Words) -> "Ink":
        """The ink of a text with at least one piece, looked up once while the text is in hand."""
        return _ink(words)

    def points(self, stack: Stack) -> Floats:
        """Corners of a stack's ink about the outline's centre, folded into the first quadrant.

        Returns:
            Shape (q, 2), mm: only points that no other one exceeds both ways; the centre alone when
            the stack has no ink.
        """
        count = len(stack) - 1
        drop = baselines(
            count, leading_mm=self.words.leading_mm, cap_height_mm=self.words.cap_height_mm
        )
        return self._folded(stack, drop, flush=begins_together(self.words))

    def line_points(self, stack: Stack, line: int) -> Floats:
        """The same for one line of the stack, centred."""
        count = len(stack) - 1
        drop = baselines(
            count, leading_mm=self.words.leading_mm, cap_height_mm=self.words.cap_height_mm
        )
        return self._folded(stack[line : line + 2], drop[line : line + 1], flush=False)

    def _folded(self, stack: Stack, drop: Floats, *, flush: bool) -> Floats:
        first, last = np.array(stack[:-1]), np.array(stack[1:]) - 1
        if flush:
            middle = self.way * (self.words.starts[first] + half_longest(self.words, stack))
        else:
            middle = self.way * (self.words.starts[first] + self.ends[last]) / 2
        many = self.begin[last + 1] - self.begin[first]
        boxes = self.boxes[self.begin[stack[0]] : self.begin[stack[-1]]]
        boxes = boxes - np.repeat(np.stack([middle, -drop] * 2, axis=1), many, axis=0)
        if self.words.reshaped:
            boxes = self._with_reshaped(stack, drop, boxes, flush=flush)
        far = np.abs(boxes)
        points = np.stack([np.maximum(far[:, 0], far[:, 2]), np.maximum(far[:, 1], far[:, 3])], 1)
        return foremost(points) if len(points) else np.zeros((1, 2))

    def _with_reshaped(self, stack: Stack, drop: Floats, boxes: Floats, *, flush: bool) -> Floats:
        """The boxes with those of lines that are set otherwise than the slice put in place."""
        parts = []
        half = half_longest(self.words, stack) if flush else None
        for first, end, baseline in zip(stack, stack[1:], drop.tolist(), strict=False):
            line = self.words.reshaped.get((first, end - 1))
            if line is None:
                origin = self.begin[stack[0]]
                parts.append(boxes[self.begin[first] - origin : self.begin[end] - origin])
            else:
                left = left_end(line.width_mm, half, rtl=self.words.rtl)
                shift = np.array([left, baseline] * 2)
                parts.append(line.ink.reshape(-1, 4) + shift)
        return np.concatenate(parts)


@lru_cache(maxsize=TEXTS)
def _ink(words: Words) -> Ink:
    boxes, begin = words.ink_boxes()
    shifts = -words.ends if words.rtl else words.starts
    boxes[:, ::2] += np.repeat(shifts, np.diff(begin))[:, None]
    return Ink(words, boxes, begin, words.ends, -1 if words.rtl else 1)


def stack_points(words: Words, stack: Stack) -> Floats:
    """As `Ink.points` of a text, when the ink of one stack is all that is wanted of it.

    Returns:
        Shape (g, 2), mm: as there, but of every box of ink.
    """
    runs = [(first, end - 1) for first, end in pairwise(stack)]
    anew = {k: words.reshaped[run].ink for k, run in enumerate(runs) if run in words.reshaped}
    spans = words.stretches
    boxes, sizes = words.setter.ink([(spans[first][0], spans[last][1]) for first, last in runs])
    half = half_longest(words, stack) if begins_together(words) else None
    left = [left_end(words.width(*run), half, rtl=words.rtl) for run in runs]
    drop = baselines(len(runs), leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm)
    if anew:
        parts = np.split(boxes, sizes.cumsum()[:-1])
        parts = [anew.get(k, part).reshape(-1, 4) for k, part in enumerate(parts)]
        boxes, sizes = np.concatenate(parts), np.array([len(part) for part in parts])
    boxes += np.stack([left, drop] * 2, axis=1).repeat(sizes, axis=0)
    far = np.abs(boxes, out=boxes)
    points: Floats = np.maximum(far[:, :2], far[:, 2:])
    return points if len(points) else np.zeros((1, 2))


def begins_together(words: Words) -> bool:
    """Whether a text's lines begin together; those of one too long for a balloon are centred."""
    return words.flush and len(words) <= MOST_FLUSH


def half_longest(words: Words, stack: Stack) -> float:
    """Half the advance of a stack's longest line, mm: how far from the centre flush lines begin."""
    return max(words.width(first, end - 1) for first, end in pairwise(stack)) / 2


def left_end(width: float, half: float | None, *, rtl: bool) -> float:
    """Where a line's left end stands from the stack's middle, mm.

    Args:
        width: The line's advance.
        half: Half the advance of the stack's longest line where lines begin together; None where
            they are centred.
        rtl: Whether lines begin at the right.

    >>> left_end(4.0, None, rtl=False), left_end(4.0, 5.0, rtl=False), left_end(4.0, 5.0, rtl=True)
    (-2.0, -5.0, 1.0)
    """
    if half is None:
        return -width / 2
    return half - width if rtl else -half
