"""Plans of a script, and where they put a page's panels, as values."""

from dataclasses import dataclass

from letterfit.findings import Finding
from letterfit.geometry import Rect
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper
from letterfit.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Plans:
    r"""The plans of a whole script.

    Args:
        every_page: The shape of all pages that have no plan of their own, or None.
        pages: Page number and shape, by number.
        paper: The paper they were made for, or None.
        gutter_mm: Width between panels on every page; None for the paper's own.
        source: The file's name, or empty.

    >>> import letterfit as lf
    >>> plans = lf.parse_plans('paper = "a5"\n[all]\ntiers = "2/2"\n[page.3]\ntiers = "1"')
    >>> plans.paper.name, plans.every_page.panel_count, plans.shape(3).panel_count
    ('a5', 4, 1)
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
    r"""A panel that is more than a rectangle inside the live area.

    Args:
        index: Which panel of the page it is, in reading order, from 0.
        bleed: The panel as drawn, as far as the bleed; None where it ends at its border.
        insets: The panels set into it, by number, in reading order.
        host: The panel that it is set into, by number; None for all others.

    >>> import letterfit as lf
    >>> (page,) = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n\nPanel 2. Her hand.\n").pages
    >>> plan = lf.plan_page(page, lf.Paper.named("a5"), plan="1~[bottom-right 0.4x0.3]")
    >>> [(panel.index, panel.insets, panel.host) for panel in plan.special]
    [(0, (1,), None), (1, (), 0)]
    """

    index: int
    bleed: Rect | None = None
    insets: tuple[int, ...] = ()
    host: int | None = None


@dataclass(frozen=True, slots=True)
class Tier:
    r"""A row of panels.

    Args:
        panels: The rectangles in reading order, page coordinates in mm; where a panel bleeds, what
            is left of it on the trimmed page.
        box: The tier's own place in the live area; None is the box round its panels.

    >>> import letterfit as lf
    >>> (page,) = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n\nPanel 2. The tide.\n").pages
    >>> (tier,) = lf.plan_page(page, lf.Paper.named("a5"), plan="2").tiers
    >>> len(tier.panels), tier.height_mm == tier.panels[0].height
    (2, True)
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
class PagePlan(Shown):
    r"""Where a page's panels stand.

    Args:
        paper: The paper the panels stand on; two pages wide for a spread.
        tiers: The tiers from top to bottom.
        shape: The ratios it was laid by; None for a page without panels.
        source: Whose plan it is: "script", "page" or "all" of the plans, or "default".
        findings: What a reader should know of it: a plan for all pages that does not go here.
        special: The panels that bleed, hold insets or are insets, by number.

    >>> import letterfit as lf
    >>> (page,) = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\n\nPanel 2. The tide.\n").pages
    >>> plan = lf.plan_page(page, lf.Paper.named("a5"), plan="1 / 1")
    >>> len(plan.tiers), plan.panels[0].width
    (2, 130.24)
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
