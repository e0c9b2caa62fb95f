"""What may be where, as the checker of proofs sees it: every way each balloon can enter a panel.

A balloon enters with an outline of its menu that stands inside the margins, or hangs over the top
border by just what that outline may and keeps the other three margins.
"""

from collections.abc import Sequence
from typing import NamedTuple

from letterfit.geometry import Insets, Rect
from letterfit.outline import Outline

SLACK = 1e-6
"""In mm: what rounding may have cost proves nothing."""


class Option(NamedTuple):
    """One way to enter.

    Args:
        outline: The outline.
        over: How far it hangs over the top border, mm; 0 inside.
    """

    outline: Outline
    over: float


class Room(NamedTuple):
    """The panel's sizes and what is kept in it, all mm.

    Args:
        width: The panel's.
        height: The panel's.
        margin: Least distances from the sides of the border.
        gap: Least distance between outlines.
        overlap: Depth of joints.
    """

    width: float
    height: float
    margin: Insets
    gap: float
    overlap: float

    @property
    def inner_width(self) -> float:
        """The width within the margins."""
        return self.width - self.margin.left - self.margin.right

    @property
    def inner_height(self) -> float:
        """The height within the margins."""
        return self.height - self.margin.top - self.margin.bottom

    def reach(self, option: Option) -> tuple[float, float]:
        """The least and the greatest y of an option's centre, mm below the panel's top."""
        b = option.outline.half_height
        if option.over:
            return b - option.over, b - option.over
        return self.margin.top + b, self.height - self.margin.bottom - b


def make_room(panel: Rect, *, margin_mm: float | Insets, gap_mm: float, overlap_mm: float) -> Room:
    """The sizes of a panel and what is kept in it."""
    return Room(panel.width, panel.height, Insets.of(margin_mm), gap_mm, overlap_mm)


def options(
    room: Room,
    menus: Sequence[Sequence[Outline]],
    overhangs: Sequence[Sequence[float]] | None = None,
) -> list[list[Option]]:
    """Every way each balloon enters; none for one that cannot.

    >>> from letterfit.outline import CaptionBox
    >>> room = Room(width=20, height=10, margin=Insets.even(1), gap=1, overlap=1)
    >>> ways = options(room, [[CaptionBox(half_width=5, half_height=4.5)]], [[1.0]])
    >>> [way.over for way in ways[0]]
    [1.0]
    """
    found = []
    for index, menu in enumerate(menus):
        overs = overhangs[index] if overhangs is not None else (0.0,) * len(menu)
        ways = [Option(outline, 0.0) for outline in menu]
        ways += [Option(o, over) for o, over in zip(menu, overs, strict=True) if over > 0]
        found.append([way for way in ways if _enters(room, way)])
    return found


def _enters(room: Room, way: Option) -> bool:
    low = way.outline.half_height * 2 - way.over + room.margin.bottom
    high = 0.0 if way.over else room.margin.top
    wide = 2 * way.outline.half_width <= room.inner_width + SLACK
    return wide and low + high <= room.height + SLACK
