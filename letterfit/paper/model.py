"""A page's plan as values: tiers, and the panels' rectangles in reading order."""

from dataclasses import dataclass

from letterfit.geometry import Rect
from letterfit.paper.sheet import Paper


@dataclass(frozen=True, slots=True)
class Tier:
    """A row of panels.

    Args:
        panels: The rectangles in reading order, page coordinates in mm.
    """

    panels: tuple[Rect, ...]

    @property
    def height_mm(self) -> float:
        """The height of the tier in mm: that of its tallest panel."""
        return max(panel.height for panel in self.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePlan:
    """Where a page's panels stand.

    Args:
        paper: The paper the panels stand on; two pages wide for a spread.
        tiers: The tiers from top to bottom.
    """

    paper: Paper
    tiers: tuple[Tier, ...]

    @property
    def panels(self) -> tuple[Rect, ...]:
        """All panels in reading order."""
        return tuple(panel for tier in self.tiers for panel in tier.panels)
