"""One panel of a report as an SVG file of its own, at print size."""

from letterfit.output.panel_state import state_of
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, Names, box, document, length, tag
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.panel import border, panel_inside
from letterfit.report.model import PanelReport


def drawn_panel(panel: PanelReport, *, glyphs: Glyphs) -> str:
    """A panel as one SVG file in mm: its figure, its balloons, its border, the panels set into it.

    Args:
        panel: The panel; one that is not placed shows its smallest balloons, and a wash.
        glyphs: What draws the lettering.
    """
    whole = (panel.bleed or panel.rect).inset(-style.MARGIN_MM)
    names = Names()
    inset: Attributes = {"fill": style.PAPER, **border("fits")}
    drawn = box(panel.bleed or panel.rect)
    parts = [
        tag("rect", {**drawn, "fill": style.ROOM}),
        *panel_inside(panel, glyphs=glyphs, names=names),
        *(tag("rect", {**box(rect), **inset}) for rect in panel.insets),
        tag("rect", {**drawn, **border(state_of(panel, ()))}),
    ]
    moved = {"transform": f"translate({length(-whole.x)} {length(-whole.y)})"}
    return document(
        width=whole.width,
        height=whole.height,
        heading=f"panel {panel.id}",
        children=[tag("g", moved, parts)],
    )
