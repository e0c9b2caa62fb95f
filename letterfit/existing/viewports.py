"""View boxes: from a rectangle of user units to the rectangle that it fills.

SVG 2, section 8.2 (the transform of a viewBox) and 8.6 (preserveAspectRatio).
"""

from dataclasses import dataclass

from letterfit.existing.lengths import numbers
from letterfit.existing.transforms import Transform

_SHARES = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle of user units: what percentages are of."""

    x: float
    y: float
    width: float
    height: float

    @property
    def diagonal(self) -> float:
        """The length that percentages of neither direction are of (SVG 2, section 8.9)."""
        return float(((self.width**2 + self.height**2) / 2) ** 0.5)


def view_box(text: str | None) -> Frame | None:
    """The rectangle of a viewBox attribute; None where there is none or it is broken or empty.

    >>> view_box("0 0 100 150")
    Frame(x=0.0, y=0.0, width=100.0, height=150.0)
    """
    values = None if text is None else numbers(text)
    if values is None or len(values) != 4 or min(values[2:]) <= 0:
        return None
    return Frame(*values)


def fitted(box: Frame, port: Frame, keep: str = "") -> Transform:
    """The transform that lays a view box into a viewport.

    Args:
        box: The view box.
        port: The viewport, in the units outside.
        keep: The value of preserveAspectRatio; empty for xMidYMid meet.

    >>> fitted(Frame(0, 0, 10, 10), Frame(0, 0, 40, 20)).point(0, 0)
    (10.0, 0.0)
    """
    words = keep.replace("defer", "").split() or ["xMidYMid"]
    align, slices = words[0], "slice" in words[1:]
    wide, high = port.width / box.width, port.height / box.height
    if align != "none":
        wide = high = max(wide, high) if slices else min(wide, high)
        across, down = _SHARES.get(align[1:4], 0.5), _SHARES.get(align[5:8], 0.5)
    else:
        across = down = 0.0
    return Transform(
        a=wide,
        d=high,
        e=port.x - box.x * wide + across * (port.width - box.width * wide),
        f=port.y - box.y * high + down * (port.height - box.height * high),
    )
