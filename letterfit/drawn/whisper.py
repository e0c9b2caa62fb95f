"""The whisper: the speech outline itself, drawn with a dashed line."""

from dataclasses import dataclass, field
from typing import ClassVar

import numpy as np
import numpy.typing as npt

from letterfit.drawn.model import Drawn, corners
from letterfit.outline import Floats, Outline
from letterfit.separation import clearance


@dataclass(frozen=True, slots=True, kw_only=True)
class Whisper(Drawn):
    """An outline whose line is dashed.

    Args:
        core: The outline, which is also what the ink keeps its air from.

    >>> from letterfit.outline import Ellipse
    >>> Whisper(core=Ellipse(half_width=2, half_height=1)).svg_path()
    'M-2 0A2 1 0 0 1 2 0A2 1 0 0 1 -2 0Z'
    """

    kind: ClassVar[str] = "whisper"
    core: Outline = field()
    half_width: float = field(init=False, compare=False, repr=False)
    half_height: float = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "half_width", self.core.half_width)
        object.__setattr__(self, "half_height", self.core.half_height)

    @property
    def area_mm2(self) -> float:
        """The core's."""
        return self.core.area_mm2

    def support(self, angles: npt.ArrayLike) -> Floats:
        """The core's."""
        return self.core.support(angles)

    def contains(self, x: float, y: float) -> bool:
        """Whether the core holds the point."""
        return self.core.contains(x, y)

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """The core's."""
        return self.core.boundary(angles)

    def distance(self, boxes: npt.ArrayLike) -> float:
        """From the corners to the core."""
        ink = np.asarray(boxes, dtype=np.float64).reshape(-1, 4)
        return clearance(self.core, corners(ink).reshape(-1, 2))

    def svg_path(self) -> str:
        """The core's: who draws it sees to the dashes."""
        return self.core.svg_path()
