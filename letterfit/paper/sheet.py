"""Paper: the trimmed page, its bleed and its live area."""

from dataclasses import dataclass

from letterfit.geometry import Rect


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A page to print on. The origin is the top left corner of the trimmed page.

    Args:
        name: The name it is reported by.
        trim: Width and height of the trimmed page in mm.
        live: The area that is safe from the knife and the spine; lettering stays inside.
        bleed_mm: How far pictures run past the trim.
        gutter_mm: Width between panels, across and down.
    """

    name: str
    trim: tuple[float, float]
    live: Rect
    bleed_mm: float = 3.0
    gutter_mm: float = 3.0
