"""One panel's balloons and the room they may stand in: what is placed, and what remedies vary."""

from dataclasses import dataclass

from letterfit.geometry import Rect
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
