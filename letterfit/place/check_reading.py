"""What the checker asks of the reading order: every pair in order, and two readers who agree.

Tops are those a reader sees: what hangs over the panel's border begins at the border.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from letterfit.geometry import Rect
from letterfit.place.check_fault import Fault, named
from letterfit.place.model import PlacedOutline, Reading
from letterfit.place.order import highest_first, reading_boxes, reading_order

TOLERANCE = 1e-6
"""Lengths in mm that rounding may cost: a rule broken by less is kept."""

RIGHT_OF = 0.8
"""Share of two balloons' joint half-widths from which on one stands right of the other."""


def reading_faults(
    panel: Rect, placed: Sequence[PlacedOutline], *, reading: Reading
) -> Iterator[Fault]:
    """Every pair out of order, and every reader who takes another order than the script's."""
    items = sorted(placed, key=lambda item: item.index)
    for i, j in combinations(items, 2):
        joined = j.joined and j.index == i.index + 1
        begins = i.y_mm if joined else i.y_mm + i.outline.half_height
        below = j.y_mm - j.outline.half_height >= begins - TOLERANCE
        if not (below or _beside(panel, i, j, sign=1 if reading == "ltr" else -1)):
            message = "The later one is neither below the earlier nor beside it and not higher."
            yield Fault("order-pair", message, named(i, j))
    boxes = reading_boxes(placed, panel=panel)
    for name, reader in (("rows and columns", reading_order), ("highest first", highest_first)):
        order = reader(boxes, reading=reading)
        if order != tuple(range(len(items))):
            told = ", ".join(named(items[i]) for i in order)
            yield Fault("order-reader", f"A reader of {name} takes them in the order {told}.")


def _beside(panel: Rect, one: PlacedOutline, other: PlacedOutline, *, sign: int) -> bool:
    """Whether the other stands right of the one (left where sign is -1) and not higher."""
    wide = one.outline.half_width + other.outline.half_width
    tops = [max(item.y_mm - item.outline.half_height, panel.y) for item in (one, other)]
    return (
        sign * (other.x_mm - one.x_mm) >= RIGHT_OF * wide - TOLERANCE
        and tops[1] >= tops[0] - TOLERANCE
    )
