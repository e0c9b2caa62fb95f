"""Pages that exist already: SVG -> `DrawnPage` > `DrawnPanel` > `DrawnBalloon`, in mm."""

from letterfit.existing.model import (
    DrawnBalloon,
    DrawnLettering,
    DrawnLine,
    DrawnPage,
    DrawnPanel,
    Region,
)
from letterfit.existing.reading import parse_drawn_page, read_drawn_page

__all__ = [
    "DrawnBalloon",
    "DrawnLettering",
    "DrawnLine",
    "DrawnPage",
    "DrawnPanel",
    "Region",
    "parse_drawn_page",
    "read_drawn_page",
]
