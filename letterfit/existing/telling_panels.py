"""Which shapes are panels.

By name first: a closed shape that is called panel, or stands in a group called panel or panels. Of
shapes that have the name from one group, those inside another of them are its content. Where
nothing is so named, by size and nesting: a shape as large as the page is its ground and left out,
and so is a frame that is mostly filled by others; a closed shape of at least a fiftieth of the page
that lies in no other such shape is a panel. A page without any panel is one panel.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from letterfit.errors import DrawingError
from letterfit.existing.model import Region, Rule
from letterfit.existing.rings import clipped, is_inside, largest, signed_area
from letterfit.existing.walk import Shape
from letterfit.geometry import Rect
from letterfit.outline import Floats

LEAST_SIDE_MM = 5.0
"""A panel with a shorter side takes no line of type."""

LEAST_SHARE = 0.02
"""A shape that no name calls a panel is one from this share of the page on (common practice)."""

PAGE_SIZE = 0.95
"""A shape that reaches over this share of the page both ways is its ground."""

FRAME_SHARE = 0.6
"""A shape that takes this share of the page and is filled by others to as much of itself is a frame
round the panels, not one of them."""

SLACK_MM = 0.5
"""How far a shape may stick out of another and still lie in it: half a border's line and more."""

MOST_PANELS = 100
"""Shapes of a panel's size on one page."""

ToldPanel = tuple[Shape, Floats, Rule]
"""A panel: its shape, its outline inside the page, what told it."""


def tell_panels(shapes: Sequence[Shape], page: Rect, *, source: str = "") -> list[ToldPanel]:
    """The panels among the shapes of a page, in the order of the file.

    Args:
        shapes: All closed shapes.
        page: The trimmed page.
        source: The file's name, for messages.

    Returns:
        No panels for a page where nothing has the size of one.

    Raises:
        DrawingError: When there are more than 100 shapes of a panel's size.
    """
    named = [one for one in shapes if one.kind == "panel"]
    rule: Rule = "name" if named else "geometry"
    candidates = []
    for shape in named or [one for one in shapes if one.kind is None]:
        outline = _on_page(shape, page)
        if outline is not None and _is_large(outline, page, named=bool(named)):
            candidates.append((shape, outline, Region((outline,)).box))
    if len(candidates) > MOST_PANELS:
        raise DrawingError(
            f"{len(candidates):,} shapes of a panel's size, over {MOST_PANELS}",
            advice="name the panels, or hide the layers of the artwork",
            source=source,
        )
    if not named:
        boxes = [box for *_, box in candidates]
        candidates = [one for one in candidates if not _is_frame(one[2], boxes, page)]
    kept = _outermost(candidates, named=bool(named))
    return [(shape, outline, rule) for shape, outline in kept]


def _on_page(shape: Shape, page: Rect) -> Floats | None:
    """The shape's largest ring inside the page, clockwise."""
    ring = clipped(largest(shape.rings), (page.x, page.y, page.right, page.bottom))
    if len(ring) < 3:
        return None
    ring = ring if signed_area(ring) > 0 else ring[::-1]
    sides = np.ptp(ring, axis=0)
    return ring if sides.min() >= LEAST_SIDE_MM else None


def _is_large(outline: Floats, page: Rect, *, named: bool) -> bool:
    """Whether a shape is as large as a panel, and where no name calls it one, less than a page."""
    if named:
        return True
    wide, high = np.ptp(outline, axis=0).tolist()
    ground = wide >= PAGE_SIZE * page.width and high >= PAGE_SIZE * page.height
    return not ground and signed_area(outline) >= LEAST_SHARE * page.area_mm2


def _is_frame(box: Rect, boxes: Sequence[Rect], page: Rect) -> bool:
    """Whether a shape is a frame round two or more others."""
    if box.area_mm2 < FRAME_SHARE * page.area_mm2:
        return False
    inside = [o for o in boxes if o is not box and box.holds(o) and o.area_mm2 < box.area_mm2 * 0.9]
    apart = list(_apart(inside))
    return len(apart) > 1 and sum(o.area_mm2 for o in apart) >= FRAME_SHARE * box.area_mm2


def _apart(boxes: Sequence[Rect]) -> Iterator[Rect]:
    """The largest boxes first, of those that meet none that came before."""
    taken: list[Rect] = []
    for box in sorted(boxes, key=lambda one: -one.area_mm2):
        if all(box.common(other) is None for other in taken):
            taken.append(box)
            yield box


def _outermost(
    candidates: Sequence[tuple[Shape, Floats, Rect]], *, named: bool
) -> list[tuple[Shape, Floats]]:
    """Those that lie in no other; of two in the same place, the first."""
    kept = []
    for number, (shape, outline, box) in enumerate(candidates):
        rivals = [
            (k, other)
            for k, (rival, _, other) in enumerate(candidates)
            if k != number and not (named and (shape.own or rival.namer != shape.namer))
        ]
        inside = any(
            other.holds(box, tolerance=SLACK_MM)
            and (k < number or not box.holds(other, tolerance=SLACK_MM))
            for k, other in rivals
        )
        if not inside:
            kept.append((shape, outline))
    return kept


def home_of(box: Rect, outlines: Sequence[Floats]) -> int | None:
    """The panel that a box's middle lies in, the last drawn of several; else the one it meets most.

    None where it meets none.
    """
    middle = np.array([[box.centre.x, box.centre.y]])
    inside = [k for k, outline in enumerate(outlines) if is_inside(middle, [outline])[0]]
    if inside:
        return inside[-1]
    shared = [(box.common(Region((outline,)).box), k) for k, outline in enumerate(outlines)]
    areas = [(part.area_mm2, -k) for part, k in shared if part is not None]
    return -max(areas)[1] if areas else None
