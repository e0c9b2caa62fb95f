"""A page's plan as values: the shape that was asked for, and the panels' rectangles."""

import math
from dataclasses import dataclass

from letterfit.errors import PageError
from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.paper.sheet import Paper

MOST_RATIO = 1000.0
"""A width or height stated as more than this many times 1 (or less than 1 over it) is a slip."""


@dataclass(frozen=True, slots=True)
class TierShape:
    """A tier as a plan states it: relative widths, one per panel, and a relative height.

    Args:
        widths: The panels' widths in reading order, as ratios to each other.
        height: The tier's height, as a ratio to the other tiers of its page.

    Raises:
        PageError: When there is no panel, or a ratio is not a number over 0 and under 1000.

    >>> TierShape((2, 1), height=1.5).widths
    (2, 1)
    """

    widths: tuple[float, ...]
    height: float = 1.0

    def __post_init__(self) -> None:
        if not self.widths:
            raise PageError("a tier of no panels", advice="give every tier at least one panel")
        for what, ratio in (*(("width", w) for w in self.widths), ("height", self.height)):
            if not math.isfinite(ratio) or not 1 / MOST_RATIO <= ratio <= MOST_RATIO:
                raise PageError(
                    f"a relative {what} of {ratio:g}",
                    advice="give a number over 0, such as 1 or 1.5",
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class PageShape:
    """A page as a plan states it: its tiers from top to bottom.

    Args:
        tiers: The tiers.
        gutter_mm: Width between panels; None for the paper's own.
        line: The line that states it, counted from 1, where one is known.
    """

    tiers: tuple[TierShape, ...]
    gutter_mm: float | None = None
    line: int | None = None

    @property
    def panel_count(self) -> int:
        """How many panels it has.

        >>> PageShape(tiers=(TierShape((1, 1)), TierShape((1,)))).panel_count
        3
        """
        return sum(len(tier.widths) for tier in self.tiers)


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
        shape: The ratios it was laid by; None for a page without panels.
        source: Whose plan it is: "script", "page" or "all" of the plans, or "default".
        findings: What a reader should know of it: a plan for all pages that does not go here.
    """

    paper: Paper
    tiers: tuple[Tier, ...]
    shape: PageShape | None = None
    source: str = "default"
    findings: tuple[Finding, ...] = ()

    @property
    def panels(self) -> tuple[Rect, ...]:
        """All panels in reading order."""
        return tuple(panel for tier in self.tiers for panel in tier.panels)
