"""One panel's balloons and the room they may stand in: what is placed, and what remedies vary."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place import can_place
from letterfit.report.menus import Menu
from letterfit.report.setting import Setting


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A panel's balloons, their room and how they are set.

    Args:
        menus: Its balloons.
        room: Where they may stand.
        largest: The most width and height the page could give the panel, in mm.
        setting: How the script is lettered.
        keep_clear: What they may not cover.
        under_border: Whether the room begins at the panel's top border: only there can it cut
            balloons flat.
        most_covered: The greatest share of the room that lettering is to cover, where that can be.
    """

    menus: tuple[Menu, ...]
    room: Rect
    largest: tuple[float, float]
    setting: Setting
    keep_clear: tuple[Rect, ...] = ()
    under_border: bool = True
    most_covered: float = 1.0

    @property
    def flood(self) -> Menu | None:
        """The first of its texts that no balloon takes, if there is one."""
        return next((menu for menu in self.menus if not menu.fits), None)

    def goes_in(self, menus: Sequence[Menu], *, room: Rect | None = None) -> bool:
        """Whether a quick search finds a place for these balloons: then they are placed."""
        if not all(menu.fits for menu in menus):
            return False
        return self._takes([menu.outlines for menu in menus], room or self.room)

    def would_go_in(self, scales: Sequence[float]) -> bool:
        """Whether the balloons would, were all of each but its air so many times as large."""
        menus = zip(self.menus, scales, strict=True)
        return self._takes([self._scaled(menu, scale) for menu, scale in menus], self.room)

    def _takes(self, outlines: Sequence[Sequence[Outline]], room: Rect) -> bool:
        return can_place(
            room,
            outlines,
            gap_mm=self.setting.gap_mm,
            margin_mm=self.setting.margin_mm,
            reading=self.setting.reading,
            keep_clear=self.keep_clear,
        )

    def _scaled(self, menu: Menu, scale: float) -> list[Outline]:
        air, small = self.setting.lettering.air_mm, menu.smallest.outline
        half = math.sqrt(small.half_width * small.half_height)
        factor = scale + (1 - scale) * min(air / half, 1.0)
        return [outline.scaled(factor) for outline in menu.outlines]
