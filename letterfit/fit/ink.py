"""The ink of a stack: what must keep clear of the outline, as few points as can be.

An outline is symmetric about both axes, so a box of ink is clear of it when its corner farthest
from both axes is; and a corner that another one exceeds both ways never touches first.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from letterfit.fit.stack import baselines
from letterfit.lettering.words import Words
from letterfit.outline import Floats
from letterfit.separation import foremost

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

    @classmethod
    def of(cls, words: Words) -> "Ink":
        """The ink of a text with at least one piece."""
        boxes, begin = words.ink_boxes()
        shifts = -words.ends if words.rtl else words.starts
        boxes[:, ::2] += np.repeat(shifts, np.diff(begin))[:, None]
        return cls(words, boxes, begin, words.ends, -1 if words.rtl else 1)

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
        return self._folded(stack, drop)

    def line_points(self, stack: Stack, line: int) -> Floats:
        """The same for one line of the stack."""
        count = len(stack) - 1
        drop = baselines(
            count, leading_mm=self.words.leading_mm, cap_height_mm=self.words.cap_height_mm
        )
        return self._folded(stack[line : line + 2], drop[line : line + 1])

    def _folded(self, stack: Stack, drop: Floats) -> Floats:
        first, last = np.array(stack[:-1]), np.array(stack[1:]) - 1
        middle = self.way * (self.words.starts[first] + self.ends[last]) / 2
        many = self.begin[last + 1] - self.begin[first]
        boxes = self.boxes[self.begin[stack[0]] : self.begin[stack[-1]]]
        boxes = boxes - np.repeat(np.stack([middle, -drop] * 2, axis=1), many, axis=0)
        if self.words.reshaped:
            boxes = self._with_reshaped(stack, drop, boxes)
        far = np.abs(boxes)
        points = np.stack([np.maximum(far[:, 0], far[:, 2]), np.maximum(far[:, 1], far[:, 3])], 1)
        return foremost(points) if len(points) else np.zeros((1, 2))

    def _with_reshaped(self, stack: Stack, drop: Floats, boxes: Floats) -> Floats:
        """The boxes with those of lines that are set otherwise than the slice put in place."""
        parts = []
        for first, end, baseline in zip(stack, stack[1:], drop.tolist(), strict=False):
            line = self.words.reshaped.get((first, end - 1))
            if line is None:
                origin = self.begin[stack[0]]
                parts.append(boxes[self.begin[first] - origin : self.begin[end] - origin])
            else:
                shift = np.array([-line.width_mm / 2, baseline] * 2)
                parts.append(line.ink.reshape(-1, 4) + shift)
        return np.concatenate(parts)
