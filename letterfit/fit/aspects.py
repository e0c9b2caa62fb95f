"""The range of aspects of a family of outlines, cut into cells whose middles are searched.

What one cell's middle says of the whole cell: if a family's outlines nest (a wider or a higher one
holds the narrower), a stack that fits some outline of area A with its aspect in the cell asks, at
the middle aspect, for a scale of at most `Cells.reach(A)`. So a stack refused there is refused by
the whole cell, and a search over all aspects can be exact.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from letterfit.errors import OutlineError
from letterfit.families import family
from letterfit.fit.lines import Shapes
from letterfit.outline import Floats, Outline

STEP = 0.08
"""Widest cell, as the logarithm of the aspect: areas within one differ by 4 % at most."""

FINER = 8
"""Into how many a cell is cut where a stack's best aspect is looked for."""


MOST_ASPECT = 1e6
"""Width over height, or height over width, of no balloon."""


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """A family's unit outlines (half-height 1) in the middles of cells of aspect.

    Args:
        name: The family.
        edges: Shape (S + 1,): the aspects between which the cells lie.
        shapes: The unit outlines at the cells' middles.
        edge_areas: Shape (S + 1,), mm2: areas of the unit outlines at the edges.
    """

    name: str
    edges: Floats
    shapes: Shapes
    edge_areas: Floats

    @property
    def aspects(self) -> Floats:
        """The middles of the cells, shape (S,)."""
        result: Floats = np.sqrt(self.edges[:-1] * self.edges[1:])
        return result

    @property
    def proves(self) -> bool:
        """Whether the cells are narrow enough to search all aspects between their middles."""
        return self.width <= STEP * (1 + 1e-9)

    def reach(self, area: float) -> Floats:
        """Per cell, the scale at its middle that no stack exceeds that fits `area` in the cell.

        With the aspect growing at a fixed area the half-height falls and the half-width grows; a
        stack that fits (a, b) fits any outline as wide and as high or more.
        """
        height = np.sqrt(area / self.edge_areas)
        width = height * self.edges
        result: Floats = np.maximum(height[:-1], width[1:] / self.aspects)
        return result

    def split(self, cell: int, *, parts: int) -> "Cells":
        """One cell cut into smaller ones."""
        return _cut(self.name, float(self.edges[cell]), float(self.edges[cell + 1]), parts)

    def ends(self, cell: int | None = None) -> tuple[float, float]:
        """Least and greatest aspect of a cell, or of them all."""
        first, last = (0, -1) if cell is None else (cell, cell + 1)
        return float(self.edges[first]), float(self.edges[last])

    @property
    def width(self) -> float:
        """The logarithm of a cell's greatest over its least aspect."""
        low, high = self.ends()
        return math.log(high / low) / len(self.shapes.outlines)


def unit_outline(name: str, aspect: float) -> Outline:
    """The outline of a family with half-height 1 mm and the given aspect."""
    return family(name).make(aspect, 1.0)


def aspect_range(name: str, aspect: tuple[float, float] | None) -> tuple[float, float]:
    """The range of aspects asked for, or the family's own.

    Raises:
        OutlineError: When there is no such family, or as `checked_aspect`.
    """
    return checked_aspect(family(name).aspect if aspect is None else aspect)


def checked_aspect(aspect: tuple[float, float]) -> tuple[float, float]:
    """A range of aspects, as it was given.

    Raises:
        OutlineError: When it is not two numbers, 0 < least <= greatest, that some balloon has.
    """
    advice = "give least and greatest width over height, both over 0, the least first"
    try:
        low, high = map(float, aspect)
    except (TypeError, ValueError):
        raise OutlineError(f"an aspect of {aspect!r} is no range", advice=advice) from None
    if not 1 / MOST_ASPECT <= low <= high <= MOST_ASPECT:
        raise OutlineError(f"an aspect from {low} to {high} is no range", advice=advice)
    return low, high


LONG = 300
"""Texts of more pieces are no balloons any more: they are set well, in fewer aspects and with less
slack, but nothing about them is proved, so that the search stays small."""


def cells(name: str, low: float, high: float, *, pieces: int) -> Cells:
    """The range of aspects cut into equal cells no wider than STEP in the logarithm.

    The cells of texts of more than LONG pieces are wider in step, and prove nothing.
    """
    step = STEP * max(1.0, pieces / LONG)
    return few_cells(name, low, high, max(1, math.ceil(math.log(high / low) / step)))


def shortened(slack: float, *, pieces: int) -> float:
    """The slack for a text's looks: less where the text is long."""
    return slack * min(1.0, (LONG / pieces) ** 2)


@lru_cache(maxsize=64)
def few_cells(name: str, low: float, high: float, count: int) -> Cells:
    """The range of aspects cut into `count` equal cells, or one where it is a single aspect."""
    return _cut(name, low, high, count if high > low else 1)


@lru_cache(maxsize=64)
def fine_cells(name: str, low: float, high: float, count: int) -> Cells:
    """The same range of aspects, cut FINER times as fine as `count` cells."""
    return _cut(name, low, high, FINER * count)


def _cut(name: str, low: float, high: float, parts: int) -> Cells:
    edges = np.exp(np.linspace(math.log(low), math.log(high), parts + 1))
    middles = np.sqrt(edges[:-1] * edges[1:]).tolist()
    shapes = Shapes.of(tuple(unit_outline(name, aspect) for aspect in middles))
    areas = np.array([unit_outline(name, aspect).area_mm2 for aspect in edges.tolist()])
    return Cells(name, edges, shapes, areas)
