"""Points, rectangles and insets in millimetres: x grows to the right, y grows downwards."""

import math
from dataclasses import dataclass

from letterfit.errors import PageError

MM_PER_INCH = 25.4
"""The international inch, exact."""

MM_PER_PT = MM_PER_INCH / 72
"""One point in millimetres: 1 pt = 1/72 in (ISO 32000-1, 8.3.2.3, the default user space unit)."""


@dataclass(frozen=True, slots=True)
class Point:
    """A position in mm.

    Args:
        x: From the left, mm.
        y: From the top, downwards, mm.

    >>> Point(3, 4).distance(Point(0, 0))
    5.0
    """

    x: float
    y: float

    def distance(self, other: "Point") -> float:
        """The distance in mm to another point, `other`."""
        return math.hypot(self.x - other.x, self.y - other.y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Insets:
    """Widths in mm to take off the four sides of a rectangle; negative widths add.

    Args:
        top: Off the upper side, mm.
        right: Off the right side, mm.
        bottom: Off the lower side, mm.
        left: Off the left side, mm.

    >>> Rect(0, 0, 100, 150).inset(Insets(top=10, bottom=10, left=5, right=15))
    Rect(x=5, y=10, width=80, height=130)
    """

    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0
    left: float = 0.0

    @classmethod
    def even(cls, width: float) -> "Insets":
        """The same `width` in mm on all four sides.

        >>> Insets.even(1.5)
        Insets(top=1.5, right=1.5, bottom=1.5, left=1.5)
        """
        return cls(top=width, right=width, bottom=width, left=width)

    @classmethod
    def of(cls, widths: "float | Insets") -> "Insets":
        """The `widths` as they are, or one width in mm for all four sides.

        >>> Insets.of(2) == Insets.even(2) == Insets.of(Insets.even(2))
        True
        """
        return widths if isinstance(widths, Insets) else cls.even(widths)


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle by its top left corner and its size, all in mm.

    Args:
        x: Its left side, mm.
        y: Its upper side, mm, y downwards.
        width: Its width, mm, over 0.
        height: Its height, mm, over 0.

    Raises:
        PageError: When a number is not finite, or a side is not longer than 0.

    >>> panel = Rect(10, 20, 60, 40)
    >>> panel.right, panel.bottom, panel.area_mm2
    (70, 60, 2400)
    """

    x: float
    y: float
    width: float
    height: float

    def __post_init__(self) -> None:
        values = (self.x, self.y, self.width, self.height)
        if not all(map(math.isfinite, values)) or self.width <= 0 or self.height <= 0:
            raise PageError(
                f"a rectangle of {self.width} x {self.height} mm at ({self.x}, {self.y}) is empty",
                advice="give finite numbers and sides longer than 0 mm",
            )

    @property
    def right(self) -> float:
        """The x of the right side, in mm."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The y of the lower side, in mm."""
        return self.y + self.height

    @property
    def centre(self) -> Point:
        """The middle of the rectangle."""
        return Point(self.x + self.width / 2, self.y + self.height / 2)

    @property
    def area_mm2(self) -> float:
        """The area in mm2."""
        return self.width * self.height

    def inset(self, by: Insets | float) -> "Rect":
        """The rectangle made smaller by the given widths in mm.

        Raises:
            PageError: When nothing is left.

        >>> Rect(0, 0, 10, 8).inset(1)
        Rect(x=1, y=1, width=8, height=6)
        """
        sides = Insets.of(by)
        return Rect(
            self.x + sides.left,
            self.y + sides.top,
            self.width - sides.left - sides.right,
            self.height - sides.top - sides.bottom,
        )

    def moved(self, dx: float, dy: float) -> "Rect":
        """The rectangle moved by (dx, dy) mm."""
        return Rect(self.x + dx, self.y + dy, self.width, self.height)

    def common(self, other: "Rect") -> "Rect | None":
        """The part that this and the `other` rectangle cover; None without common area.

        >>> Rect(0, 0, 10, 10).common(Rect(5, 2, 10, 4))
        Rect(x=5, y=2, width=5, height=4)
        >>> Rect(0, 0, 10, 10).common(Rect(10, 0, 5, 5)) is None
        True
        """
        left, top = max(self.x, other.x), max(self.y, other.y)
        right, bottom = min(self.right, other.right), min(self.bottom, other.bottom)
        if right <= left or bottom <= top:
            return None
        if (left, top, right, bottom) == (self.x, self.y, self.right, self.bottom):
            return self  # its sides as they are, not a sum taken apart
        return Rect(left, top, right - left, bottom - top)

    def holds(self, other: "Rect", *, tolerance: float = 1e-9) -> bool:
        """Whether the `other` rectangle lies wholly inside, up to a tolerance in mm."""
        return (
            other.x >= self.x - tolerance
            and other.y >= self.y - tolerance
            and other.right <= self.right + tolerance
            and other.bottom <= self.bottom + tolerance
        )
