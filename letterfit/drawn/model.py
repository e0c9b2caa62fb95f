"""A drawn outline: what is asked of the line round a core, and how the placing sees it.

The ink keeps its air from the *core*, a convex outline; the fit knows nothing else. The *outline*
is what is drawn: it holds the core, so the ink is at least as far from it. Outlines are packed by
the least convex outline that holds the drawn one and is symmetric about both axes: `support`,
`boundary`, `half_width` and `half_height` speak of that one, `area_mm2`, `contains`, `distance` and
`svg_path` of the line itself.
"""

from abc import abstractmethod
from dataclasses import replace
from typing import Self

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats, Outline


class Drawn(Outline):
    """What every drawn outline has besides: a core, and the distance from ink to the line."""

    __slots__ = ()
    core: Outline

    @abstractmethod
    def distance(self, boxes: npt.ArrayLike) -> float:
        """The least distance in mm from boxes of ink inside to the drawn line.

        Args:
            boxes: Shape (n, 4), mm, in the outline's own frame: left, top, right, bottom.

        Returns:
            Right to 0.001 mm, and never too large; negative when a box's corner lies outside,
            infinite for no boxes.
        """

    def round_core(self, core: Outline) -> Outline:
        """As many lobes or points, drawn round another core."""
        return replace(self, core=core)  # type: ignore[type-var]

    def scaled(self, factor: float) -> Self:
        """The outline grown by a factor about its centre: the same shape, lobe for lobe.

        Raises:
            OutlineError: When the factor is not finite and over 0.
        """
        return replace(self, core=self.core.scaled(factor))  # type: ignore[type-var]


def corners(boxes: Floats) -> Floats:
    """The corners of boxes, shape (n, 4, 2).

    >>> corners(np.array([[0.0, 1.0, 2.0, 3.0]])).tolist()
    [[[0.0, 1.0], [0.0, 3.0], [2.0, 1.0], [2.0, 3.0]]]
    """
    return boxes[:, [[0, 1], [0, 3], [2, 1], [2, 3]]]


def from_boxes(boxes: Floats, points: Floats) -> Floats:
    """The distance from each box to each point outside it, shape (n, m), mm.

    >>> from_boxes(np.array([[0.0, 0.0, 2.0, 1.0]]), np.array([[5.0, 5.0], [1.0, 3.0]])).tolist()
    [[5.0, 2.0]]
    """
    x, y = points.T
    left, top, right, bottom = boxes.T[:, :, None]
    across = np.maximum(np.maximum(left - x, x - right), 0.0)
    down = np.maximum(np.maximum(top - y, y - bottom), 0.0)
    result: Floats = np.hypot(across, down)
    return result


def cross(first: Floats, second: Floats) -> Floats:
    """The cross products of vectors (..., 2): positive when the second turns clockwise (y down)."""
    result: Floats = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return result
