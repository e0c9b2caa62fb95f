"""Plans of a script, and where they put a page's panels, as values."""

from dataclasses import dataclass

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Plans:
    """The plans of a whole script.

    Args:
        every_page: The shape of all pages that have no plan of their own, or None.
        pages: Page number and shape, by number.
        paper: The paper they were made for, or None.
        gutter_mm: Width between panels on every page; None for the paper's own.
        source: The file's name, or empty.
    """

    every_page: PageShape | None = None
    pages: tuple[tuple[int, PageShape], ...] = ()
    paper: Paper | None = None
    gutter_mm: float | None = None
    source: str = ""

    def shape(self, number: int) -> PageShape | None:
        """The shape stated for the page of that number itself, if any.

        >>> Plans().shape(3) is None
        True
        """
        return dict(self.pages).get(number)


@dataclass(frozen=True, slots=True)
class PlannedPanel:
    """A panel that is more than a rectangle inside the live area.

    Args:
        index: Which panel of the page it is, in reading order, from 0.
        bleed: The panel as drawn, as far as the bleed; None where it ends at its border.
        insets: The panels set into it, by number, in reading order.
        host: The panel that it is set into, by number; None for all others.
    """

    index: int
    bleed: Rect | None = None
    insets: tuple[int, ...] = ()
    host: int | None = None


@dataclass(frozen=True, slots=True)
class Tier:
    """A row of panels.

    Args:
        panels: The rectangles in reading order, page coordinates in mm; where a panel bleeds, what
            is left of it on the trimmed page.
        box: The tier's own place in the live area; None is the box round its panels.
    """

    panels: tuple[Rect, ...]
    box: Rect | None = None

    @property
    def height_mm(self) -> float:
        """The height of the tier in mm.

        >>> Tier((Rect(0, 0, 40, 60), Rect(45, 0, 40, 28), Rect(45, 32, 40, 28))).height_mm
        60
        """
        if self.box is not None:
            return self.box.height
        return max(p.bottom for p in self.panels) - min(p.y for p in self.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePlan:
    """Where a page's panels stand.

    Args:
        paper: The paper the panels stand on; two pages wide for a spread.
        tiers: The tiers from top to bottom.
        shape: The ratios it was laid by; None for a page without panels.
        source: Whose plan it is: "script", "page" or "all" of the plans, or "default".
        findings: What a reader should know of it: a plan for all pages that does not go here.
        special: The panels that bleed, hold insets or are insets, by number.
    """

    paper: Paper
    tiers: tuple[Tier, ...]
    shape: PageShape | None = None
    source: str = "default"
    findings: tuple[Finding, ...] = ()
    special: tuple[PlannedPanel, ...] = ()

    @property
    def panels(self) -> tuple[Rect, ...]:
        """All panels in reading order."""
        return tuple(panel for tier in self.tiers for panel in tier.panels)
