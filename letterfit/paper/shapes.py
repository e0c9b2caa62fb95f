"""A page's shape as a plan states it: tiers of panels, stacks within them, bleeds and insets."""

import math
from dataclasses import dataclass
from typing import Literal, get_args

from letterfit.errors import PageError

MOST_RATIO = 1000.0
"""A width or height stated as more than this many times 1 (or less than 1 over it) is a slip."""


Corner = Literal["top-left", "top-right", "bottom-left", "bottom-right"]
CORNERS: tuple[Corner, ...] = get_args(Corner)


@dataclass(frozen=True, slots=True)
class InsetShape:
    """A panel set into a corner of another, over its picture.

    Args:
        corner: The corner of the panel that holds it, as printed: right is right on every page.
        width: Its width as a share of that panel's.
        height: Its height as a share of that panel's.

    Raises:
        PageError: When there is no such corner, or a share is not over 0 and under 1.

    >>> InsetShape("bottom-right", 0.4, 0.3).height
    0.3
    """

    corner: Corner
    width: float
    height: float

    def __post_init__(self) -> None:
        if self.corner not in CORNERS:
            raise PageError(
                f"no corner is called {self.corner!r:.40}",
                advice=f"give one of {', '.join(CORNERS)}",
            )
        for share in (self.width, self.height):
            if not 0 < share < 1:
                raise PageError(
                    f"an inset of {share:g} of its panel's side",
                    advice="give shares over 0 and under 1, such as 0.4x0.3",
                )


@dataclass(frozen=True, slots=True)
class PanelShape:
    """What a plan says of one panel besides its size.

    Args:
        bleeds: Whether it runs off the page on every side where it meets the live area's edge.
        insets: The panels set into it; they read after it, in this order.

    >>> import letterfit as lf
    >>> ((_, panel),) = lf.parse_tiers("1~[top-left 0.3x0.3]").tiers[0].places
    >>> panel.bleeds, panel.insets[0].corner
    (True, 'top-left')
    """

    bleeds: bool = False
    insets: tuple[InsetShape, ...] = ()


@dataclass(frozen=True, slots=True)
class StackShape:
    """Tiers that stand over each other in the place of one panel, beside others of their tier.

    Args:
        tiers: The tiers from top to bottom.

    Raises:
        PageError: When there is none.

    >>> import letterfit as lf
    >>> ((_, stack), _) = lf.parse_tiers("(1/2):1").tiers[0].places
    >>> [tier.widths for tier in stack.tiers]
    [(1.0,), (1.0, 1.0)]
    """

    tiers: "tuple[TierShape, ...]"

    def __post_init__(self) -> None:
        if not self.tiers:
            raise PageError("a stack of no tiers", advice="give it at least one tier")


Cell = PanelShape | StackShape
"""What stands in one place of a tier."""


@dataclass(frozen=True, slots=True)
class TierShape:
    """A tier as a plan states it: relative widths, one for each place, and a relative height.

    Args:
        widths: The widths in reading order, as ratios to each other.
        height: The tier's height, as a ratio to the other tiers of its page or stack.
        cells: What stands in each place; none stated is one plain panel each.

    Raises:
        PageError: When there is no place, or a ratio is not a number over 0 and under 1000.

    >>> TierShape((2, 1), height=1.5).widths
    (2, 1)
    >>> TierShape((2, 1), cells=(PanelShape(), StackShape((TierShape((1,)),) * 2))).panel_count
    3
    """

    widths: tuple[float, ...]
    height: float = 1.0
    cells: tuple[Cell, ...] = ()

    def __post_init__(self) -> None:
        if not self.widths:
            raise PageError("a tier of no panels", advice="give every tier at least one panel")
        if self.cells and len(self.cells) != len(self.widths):
            raise PageError(
                f"a tier of {len(self.cells)} places with {len(self.widths)} widths",
                advice="give one width for each place",
            )
        for what, ratio in (*(("width", w) for w in self.widths), ("height", self.height)):
            if not math.isfinite(ratio) or not 1 / MOST_RATIO <= ratio <= MOST_RATIO:
                raise PageError(
                    f"a relative {what} of {ratio:g}",
                    advice="give a number over 0, such as 1 or 1.5",
                )

    @property
    def places(self) -> tuple[tuple[float, Cell], ...]:
        """Each place's relative width and what stands there, in reading order."""
        return tuple(zip(self.widths, self.cells or (PLAIN,) * len(self.widths), strict=True))

    @property
    def panel_count(self) -> int:
        """How many panels it has, those of stacks and insets included."""
        return sum(map(_panels_of, self.cells)) if self.cells else len(self.widths)


PLAIN = PanelShape()


def _panels_of(cell: Cell) -> int:
    if isinstance(cell, PanelShape):
        return 1 + len(cell.insets)
    return sum(tier.panel_count for tier in cell.tiers)


@dataclass(frozen=True, slots=True, kw_only=True)
class PageShape:
    """A page as a plan states it: its tiers from top to bottom.

    Args:
        tiers: The tiers.
        gutter_mm: Width between panels; None for the paper's own.
        line: The line that states it, counted from 1, where one is known.

    >>> import letterfit as lf
    >>> shape = lf.parse_tiers("3 / 2:1 @1.5")
    >>> [tier.widths for tier in shape.tiers], shape.panel_count
    ([(1.0, 1.0, 1.0), (2.0, 1.0)], 5)
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
        return sum(tier.panel_count for tier in self.tiers)
