"""The room an outline leaves to ink once its air is taken off, as a shape to compare with."""

from dataclasses import dataclass
from typing import ClassVar

import numpy as np
import numpy.typing as npt

from letterfit.outline import Floats, Outline
from letterfit.separation import clearance


@dataclass(frozen=True, slots=True, kw_only=True)
class Room(Outline):
    """What an outline leaves to ink after its air: the shape of support h - m, never drawn.

    Args:
        outer: The outline.
        air: m, in mm, less than the outline's half-width and half-height.
    """

    kind: ClassVar[str] = "room"
    outer: Outline
    air: float
    half_width: float
    half_height: float

    @classmethod
    def inside(cls, outer: Outline, *, air: float) -> "Room | None":
        """The room, or None when the air leaves none."""
        if min(outer.half_width, outer.half_height) <= air:
            return None
        return cls(
            outer=outer,
            air=air,
            half_width=outer.half_width - air,
            half_height=outer.half_height - air,
        )

    @property
    def area_mm2(self) -> float:
        """The outer outline's area less a strip of the air's width."""
        share = (
            self.half_width * self.half_height / (self.outer.half_width * self.outer.half_height)
        )
        return self.outer.area_mm2 * share

    def support(self, angles: npt.ArrayLike) -> Floats:
        """The outer support less the air."""
        return self.outer.support(angles) - self.air

    def contains(self, x: float, y: float) -> bool:
        """Whether the point has the air."""
        return clearance(self.outer, [[x, y]]) >= self.air

    def boundary(self, angles: npt.ArrayLike) -> Floats:
        """The outer boundary moved in by the air."""
        t = np.asarray(angles, dtype=np.float64)
        result: Floats = self.outer.boundary(t) - self.air * np.stack(
            [np.cos(t), np.sin(t)], axis=-1
        )
        return result

    def svg_path(self) -> str:
        """Never drawn: the outer outline's path."""
        return self.outer.svg_path()
