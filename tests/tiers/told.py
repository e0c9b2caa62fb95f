"""A page's places without a page: what does at which size is told by a function."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from letterfit.geometry import Rect
from letterfit.paper.shapes import PanelShape
from letterfit.tiers.ground import Ground, Size, Spot

Does = Callable[[tuple[int, int], Size], bool]


@dataclass(frozen=True, slots=True)
class Told(Ground):
    """Places by tier and number in it; `does` says whether all is well in one at a size."""

    does: Does = lambda _place, _size: True
    asked: list[tuple[tuple[int, int], Size]] = field(default_factory=list)

    def _found(self, new: Sequence[tuple[Spot, Size]]) -> list[bool]:
        where = {id(spot): (t, p) for t, row in enumerate(self.spots) for p, spot in enumerate(row)}
        self.asked.extend((where[id(spot)], size) for spot, size in new)
        return [self.does(where[id(spot)], size) for spot, size in new]


def told(heights: Sequence[float], widths: Sequence[Sequence[float]], does: Does) -> Told:
    """Places of these sizes, mm."""
    spots = tuple(
        tuple(
            Spot(cell=PanelShape(), box=Rect(0, 0, width, height), tier=tier, jobs=(), menus=())
            for width in own
        )
        for tier, (height, own) in enumerate(zip(heights, widths, strict=True))
    )
    nothing: Any = None
    return Told(spots, nothing, 0.0, nothing, does=does)
