"""Rounding: the one place where a measured number loses digits, on its way out.

Every number that leaves is finite; what is not (the clearance of a text without ink) is absent.
"""

import math

from letterfit.geometry import Rect

MM_DIGITS = 3
"""A micrometre: ten times finer than a platesetter's 2540 dpi dot."""

PERCENT_DIGITS = 1
SHARE_DIGITS = 3


def mm(value: float) -> float:
    """A length in mm (or an area in mm2) to a thousandth, never minus nought.

    >>> mm(-0.0000001), mm(12.34567)
    (0.0, 12.346)
    """
    return _rounded(value, MM_DIGITS)


def mm_or_none(value: float) -> float | None:
    """A length to a thousandth; None when there is none, as for a text without ink."""
    return mm(value) if math.isfinite(value) else None


def mm_up_or_none(value: float) -> float | None:
    """What is proved to be the most, rounded up so that it still is; None when it is not finite.

    >>> mm_up_or_none(31.0001)
    31.001
    """
    return (
        _rounded(math.ceil(round(value * 1000, 6)) / 1000, MM_DIGITS)
        if math.isfinite(value)
        else None
    )


def rect(area: Rect) -> list[float]:
    """A rectangle as its left, top, width and height, each as `mm`.

    >>> rect(Rect(1, 2, 3, 4.00001))
    [1.0, 2.0, 3.0, 4.0]
    """
    return [mm(value) for value in (area.x, area.y, area.width, area.height)]


def percent(share: float) -> float:
    """A share of 1 as percent, to a tenth.

    >>> percent(1 / 3)
    33.3
    """
    return _rounded(100 * share, PERCENT_DIGITS)


def share(value: float) -> float:
    """A share of 1, to a thousandth."""
    return _rounded(value, SHARE_DIGITS)


def points(value: float) -> float:
    """A type size in points, to a hundredth."""
    return _rounded(value, 2)


def points_down_or_none(value: float | None) -> float | None:
    """The largest size that still fits, rounded down to a hundredth; None when there is none.

    >>> points_down_or_none(6.4599)
    6.45
    """
    return None if value is None else math.floor(round(value * 100, 6)) / 100


def _rounded(value: float, digits: int) -> float:
    # Adding nought turns -0.0 into 0.0.
    return round(float(value), digits) + 0.0
