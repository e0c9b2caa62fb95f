"""The figure that stands in panels by reference: its shape stands in the document once."""

from letterfit.geometry import Rect
from letterfit.output.svg.elements import Names, length, tag
from letterfit.output.svg.figure import pale

ROOM = Rect(0, 0, 100, 300)
"""The box that the shape is drawn in: three times as high as wide."""


class SharedFigure:
    """Draws figures as uses of one shape.

    Args:
        names: What gives out ids.
    """

    def __init__(self, names: Names) -> None:
        self._name = names.new("figure")

    def standing(self, room: Rect) -> list[str]:
        """A figure standing in a box."""
        across, down = room.width / ROOM.width, room.height / ROOM.height
        size = f"{across:.5f}" if abs(across - down) < 1e-6 else f"{across:.5f} {down:.5f}"
        moved = f"translate({length(room.x)} {length(room.y)})scale({size})"
        return [tag("use", {"href": f"#{self._name}", "transform": moved})]

    def shape(self) -> str:
        """The shape, to be put where it is not seen."""
        return tag("defs", {}, [tag("g", {"id": self._name}, pale(ROOM))])
