"""What a small drawing of a page is drawn with: its scale, its place on the sheet, its limits."""

from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.output.svg.elements import Names, length
from letterfit.output.svg.glyphs import Glyphs
from letterfit.place.model import Reading
from letterfit.report.limits import Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """What is the same for all pages of a sheet.

    Args:
        scale: Sheet mm over page mm.
        limits: What the pages were held against.
        reading: "ltr" or "rtl".
        glyphs: What draws the words.
        names: What gives out ids.
    """

    scale: float
    limits: Limits
    reading: Reading
    glyphs: Glyphs
    names: Names


@dataclass(frozen=True, slots=True)
class View:
    """Where a page lies on the sheet.

    Args:
        origin: Its upper left corner on the sheet, mm.
        scale: Sheet mm over page mm.
    """

    origin: Point
    scale: float

    def rect(self, area: Rect) -> Rect:
        """A rectangle of the page, on the sheet."""
        return Rect(
            self.origin.x + self.scale * area.x,
            self.origin.y + self.scale * area.y,
            self.scale * area.width,
            self.scale * area.height,
        )

    @property
    def transform(self) -> str:
        """The same as an attribute of SVG."""
        return f"translate({length(self.origin.x)} {length(self.origin.y)}) scale({self.scale:.6g})"
