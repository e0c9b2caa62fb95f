"""What tier advice may change, and what it says."""

import math
from dataclasses import dataclass
from typing import Literal

from letterfit.errors import PageError
from letterfit.paper.model import PagePlan
from letterfit.report.model import PageReport
from letterfit.shown import Shown

Outcome = Literal["kept", "advised", "not found"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TierLimits:
    """How far the grid of a page may be changed, and what its panels are to hold.

    Args:
        tier_change: By what share of its height a tier may grow or shrink, 0 to under 1.
        panel_change: By what share of its width a panel, or a stack, may grow or shrink, 0 to under
            1; 0 leaves all widths as they are.
        figure_mm: The height of the figure that every panel is to hold; None asks for the page's
            own steady height. Placing seeks no figure over 80 % of its panel's height, so a taller
            one may ask for a taller panel than it needs.

    Raises:
        PageError: When a number is out of its range.

    >>> TierLimits(panel_change=0).tier_change
    0.4
    """

    tier_change: float = 0.4
    panel_change: float = 0.25
    figure_mm: float | None = None

    def __post_init__(self) -> None:
        for what, share in (("tier", self.tier_change), ("panel", self.panel_change)):
            if not 0 <= share < 1:
                raise PageError(
                    f"a {what} cannot change by {share:g} of its size",
                    advice="give a share of 0 or more and under 1",
                )
        if self.figure_mm is not None and not 0 <= self.figure_mm < math.inf:
            raise PageError(
                f"a figure of {self.figure_mm:g} mm", advice="give a height of 0 mm or more"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class TierAdvice(Shown):
    r"""A page's grid, changed least, and what came of it when the page was run again.

    Args:
        outcome: "kept" where the page is as it should be; "advised" where a change was found that
            makes it so; "not found" where none was within the limits.
        figure_mm: The height of the figure asked for.
        change: The share of the page that passes from one panel to another, 0 to 1: half the sum of
            what tiers gain and lose over the height of all, and in each tier half of what panels
            gain and lose over its width, times the tier's share of the page.
        plan: The plan that is advised; where none was found, the page's own.
        before: The page as it was reported.
        after: The page run again on the plan; the same as `before` where nothing was changed.
        where: The panel, tier or page that is in the way, where no change was found.
        reason: Why, in words.
        tallest_mm: Where no change was found, the tallest figure in whole mm for which there is
            one, or for which none is needed; None where there is none either.

    >>> import letterfit as lf
    >>> (page,) = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1.\nWENNA: Shut.\n")).pages
    >>> advice = lf.tier_advice(page)
    >>> advice.outcome, advice.change
    ('kept', 0.0)
    """

    outcome: Outcome
    figure_mm: float
    change: float
    plan: PagePlan
    before: PageReport
    after: PageReport
    where: str = ""
    reason: str = ""
    tallest_mm: float | None = None
