"""Plain lines round a core: a whisper's, dashed, and the squared box of a machine's voice."""

import math
from abc import abstractmethod
from dataclasses import dataclass, field
from typing import ClassVar

import numpy as np
import numpy.typing as npt

from letterfit.drawn.model import Drawn, corners
from letterfit.outline import Floats, Outline, RoundedRect
from letterfit.separation import clearance

SQUARED_SHARE = 0.15
"""Corner radius of a squared box over its shorter half-side (common practice, no source)."""


class PlainLine(Drawn):
    """A drawn outline whose line is a convex outline itself."""

    __slots__ = ()

    @property
    @abstractmethod
    def line(self) -> Outline:
        """The line."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "half_width", self.core.half_width)
        object.__setattr__(self, "half_height", self.core.half_height)

    @property
    def area_mm2(self) -> float:
        """The line's."""
        return self.line.area_mm2

    def support(self, angles: npt.ArrayLike) -> Floats:
        """The line's."""
        return self.line.support(angles)

    def contains(self, x: float, y: float) -> bool:
        """Whether the line holds the point."""
        return self.line.contains(x, y)

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """The line's."""
        return self.line.boundary(angles)

    def distance(self, boxes: npt.ArrayLike) -> float:
        """From the corners to the line."""
        ink = np.asarray(boxes, dtype=np.float64).reshape(-1, 4)
        return clearance(self.line, corners(ink).reshape(-1, 2)) if len(ink) else math.inf

    def svg_path(self) -> str:
        """The line's: who draws it sees to the dashes."""
        return self.line.svg_path()


@dataclass(frozen=True, slots=True, kw_only=True)
class Whisper(PlainLine):
    """An outline whose line is dashed.

    Args:
        core: The outline, which is also what the ink keeps its air from.

    >>> from letterfit import Ellipse
    >>> Whisper(core=Ellipse(half_width=2, half_height=1)).svg_path()
    'M-2 0A2 1 0 0 1 2 0A2 1 0 0 1 -2 0Z'
    """

    kind: ClassVar[str] = "whisper"
    core: Outline = field()
    half_width: float = field(init=False, compare=False, repr=False)
    half_height: float = field(init=False, compare=False, repr=False)

    @property
    def line(self) -> Outline:
        """The core."""
        return self.core


@dataclass(frozen=True, slots=True, kw_only=True)
class Squared(PlainLine):
    """A box with small round corners round a core as wide and as high.

    Args:
        core: What the ink keeps its air from; a rounded rectangle, say.

    >>> core = RoundedRect(half_width=20, half_height=10, radius=6)
    >>> round(Squared(core=core).area_mm2 / core.area_mm2, 3)
    1.038
    """

    kind: ClassVar[str] = "squared"
    core: Outline = field()
    half_width: float = field(init=False, compare=False, repr=False)
    half_height: float = field(init=False, compare=False, repr=False)

    @property
    def line(self) -> Outline:
        """The box; of a core that is squarer still, the core."""
        a, b = self.core.half_width, self.core.half_height
        box = RoundedRect(half_width=a, half_height=b, radius=SQUARED_SHARE * min(a, b))
        return box if box.area_mm2 > self.core.area_mm2 else self.core
