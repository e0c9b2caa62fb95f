"""Slanting lines over a rectangle: a wash that shows in grey print what colour alone would not."""

from letterfit.geometry import Rect
from letterfit.output.svg.elements import length


def hatch(rect: Rect, *, gap_mm: float, crossed: bool = False) -> str:
    """Path data of lines at 45 degrees across a rectangle.

    Args:
        rect: The rectangle.
        gap_mm: From one line to the next, along a side.
        crossed: Whether they run both ways.

    >>> hatch(Rect(0, 0, 4, 2), gap_mm=2)
    'M0 2L2 0M2 2L4 0'
    """
    rising = _rising(rect, gap_mm)
    lines = rising
    if crossed:
        middle = 2 * rect.centre.x
        lines = [*rising, *((middle - x0, y0, middle - x1, y1) for x0, y0, x1, y1 in rising)]
    return "".join(
        f"M{length(x0)} {length(y0)}L{length(x1)} {length(y1)}" for x0, y0, x1, y1 in lines
    )


def _rising(rect: Rect, gap_mm: float) -> list[tuple[float, float, float, float]]:
    """Lines from the left or lower side up to the upper or right one: those with any length."""
    lines = []
    count = int((rect.width + rect.height) / gap_mm - 1e-9)
    for offset in (gap_mm * step for step in range(1, count + 1)):
        # On this line x + y is the same all along: `offset` from the upper left corner.
        left, right = max(0.0, offset - rect.height), min(offset, rect.width)
        lines.append(
            (rect.x + left, rect.y + offset - left, rect.x + right, rect.y + offset - right)
        )
    return lines
