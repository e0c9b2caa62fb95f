"""Where the tallest clear figure of a panel stands.

Where several speak, a report's figures stand side by side and are lower than the tallest one that
goes in alone. Its height is in the report; the gap between balloons that takes it is found here.
"""

from letterfit.geometry import Rect
from letterfit.output.report_json import centre_of
from letterfit.place.figure import Obstacle, free_gaps, span_below
from letterfit.place.model import PlacedOutline
from letterfit.report.model import PageReport, PanelReport

SHADE = 1e-6
"""By this share a lower box is looked for, so that rounding does not matter."""

SMALLEST = 0.1
"""In mm: lower boxes are no figures."""


def tallest_box(panel: PanelReport, page: PageReport) -> Rect | None:
    """The box of a figure of `figure_height_mm`, on the floor and clear of balloons and insets.

    Args:
        panel: The panel.
        page: Its page.

    Returns:
        The report's own box where a single figure stands; else one in a gap that takes it, as near
        to the first figure as can be. None where no figure stands.
    """
    if not panel.figures or panel.figure_height_mm < SMALLEST:
        return None
    first, *others = panel.figures
    if not others:
        return first
    height = panel.figure_height_mm * (1 - SHADE)
    width = height * first.width / first.height
    top = first.bottom - height
    room = panel.rect.common(page.plan.paper.live) or panel.rect
    spans = (span_below(item, top) for item in _obstacles(panel, page, room))
    gaps = free_gaps(room, [span for span in spans if span is not None])
    wanted = first.centre.x - width / 2
    spots = [min(max(wanted, a), b - width) for a, b in gaps if b - a >= width]
    if not spots:
        return first
    return Rect(min(spots, key=lambda x: abs(x - wanted)), top, width, height)


def _obstacles(panel: PanelReport, page: PageReport, room: Rect) -> list[Obstacle]:
    """The balloons, the fold of a spread, and insets with the margin kept from them."""
    margin = page.setting.margin_mm if page.setting else 0.0
    spine = page.plan.paper.spine
    kept = [inset.inset(-margin) for inset in panel.insets] + ([spine] if spine else [])
    found: list[Obstacle] = [part for area in kept if (part := area.common(room)) is not None]
    for number, balloon in enumerate(panel.balloons):
        centre = centre_of(balloon)
        if centre is not None:
            shape = balloon.fitted.outline
            found.append(
                PlacedOutline(index=number, choice=0, outline=shape, x_mm=centre.x, y_mm=centre.y)
            )
    return found
