"""A real layout from places across: each balloon as high as order and distances let it.

It is only tried: what comes out counts where the checker of layouts finds nothing against it.
"""

from collections.abc import Sequence
from itertools import chain

from letterfit.geometry import Rect
from letterfit.place.check_down import down_once, downs
from letterfit.place.check_options import SLACK, Option, Room
from letterfit.place.check_reading import RIGHT_OF, reading_faults
from letterfit.place.check_spacing import spacing_faults
from letterfit.place.model import PlacedOutline

ROUNDS = 3
"""How often each balloon is pushed past each earlier one."""

SPARE = 1e-4
"""In mm: balloons are put so much lower than tables say, which are from below."""


def is_legal(
    room: Room, ways: Sequence[Option], *, joined: Sequence[bool], x: Sequence[float]
) -> bool:
    """Whether balloons with their centres there across, pushed up, break no rule.

    Args:
        room: The room.
        ways: How each balloon enters.
        joined: Per balloon, whether it is joined to the one before it.
        x: The centres, mm from the panel's left.

    >>> from letterfit.outline import CaptionBox
    >>> way = Option(CaptionBox(half_width=5, half_height=3), 0.0)
    >>> from letterfit.geometry import Insets
    >>> room = Room(width=30, height=20, margin=Insets.even(1), gap=2, overlap=1)
    >>> is_legal(room, [way, way], joined=[False, False], x=[6, 24])
    True
    >>> is_legal(room, [way, way], joined=[False, False], x=[2, 24])
    False
    """
    placed: list[PlacedOutline] = []
    for index, (way, at, meets) in enumerate(zip(ways, x, joined, strict=True)):
        y = room.reach(way)[0]
        for _ in range(ROUNDS if placed and not way.over else 0):
            for i, item in enumerate(placed):
                if meets and i == index - 1:
                    y = max(y, _joined(room, item, way, at))
                else:
                    y = _past(room, item, way, at, y=y)
        if y > room.reach(way)[1] + SLACK:
            return False
        placed.append(
            PlacedOutline(
                index=index,
                choice=0,
                outline=way.outline,
                x_mm=at,
                y_mm=y,
                joined=bool(meets),
                overhang_mm=way.over,
            )
        )
    panel = Rect(0, 0, room.width, room.height)
    faults = chain(
        reading_faults(panel, placed, reading="ltr"),
        spacing_faults(
            panel,
            placed,
            regions=(),
            gap_mm=room.gap,
            margin=room.margin,
            overlap_mm=room.overlap,
        ),
    )
    return next(faults, None) is None


def _joined(room: Room, before: PlacedOutline, way: Option, x: float) -> float:
    """Where a balloon joined to the one before it comes to overlap it by what is asked."""
    down = _down(before, way, x, apart=-room.overlap)
    beside = x - before.x_mm >= RIGHT_OF * (before.outline.half_width + way.outline.half_width)
    higher = before.y_mm - down
    top = before.y_mm - before.outline.half_height + way.outline.half_height
    return higher if beside and higher >= top else before.y_mm + down


def _past(room: Room, before: PlacedOutline, way: Option, x: float, *, y: float) -> float:
    """The least y from the given one on that an earlier balloon leaves free."""
    down = _down(before, way, x, apart=room.gap) + SPARE
    taller, tall = way.outline.half_height, before.outline.half_height
    below = max(y, before.y_mm + max(tall + taller, down))
    if x - before.x_mm < RIGHT_OF * (before.outline.half_width + way.outline.half_width):
        return below
    beside = y if before.overhang_mm else max(y, before.y_mm - tall + taller)
    if before.y_mm - down < beside:
        beside = max(beside, before.y_mm + down)
    return min(below, beside)


def _down(before: PlacedOutline, way: Option, x: float, *, apart: float) -> float:
    return down_once(downs(before.outline, way.outline, apart), abs(x - before.x_mm))
