"""One small page: its trim, its panels, its notes."""

from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, box, tag, title
from letterfit.output.svg.figures_notes import Note, drawn_notes, notes_height, notes_of
from letterfit.output.svg.figures_panel import Heights, small_panel
from letterfit.output.svg.figures_view import Drawing, View
from letterfit.report.model import PageReport

UNDER_MM = 1.6
"""From a page to the words under it."""


@dataclass(frozen=True, slots=True)
class SmallPage:
    """A page with what it takes up on the sheet.

    Args:
        page: The page.
        size: Of its drawing, mm.
        width_mm: Of its drawing and its notes.
        notes: What stands under it.
    """

    page: PageReport
    size: tuple[float, float]
    width_mm: float
    notes: list[Note]

    @property
    def height_mm(self) -> float:
        """Of the drawing and the notes together."""
        return self.size[1] + UNDER_MM + notes_height(self.notes)


def small_page(page: PageReport, *, scale: float, least_mm: float) -> SmallPage:
    """A page at its scale; it takes at least some width, for its notes."""
    across, down = page.plan.paper.trim
    width = max(scale * across, least_mm)
    notes = notes_of(page, width_mm=width)
    return SmallPage(page, (scale * across, scale * down), width, notes)


def drawn_small_page(small: SmallPage, spot: Point, *, drawing: Drawing) -> str:
    """A page and its notes as one group, its upper left corner at a point of the sheet."""
    page, view = small.page, View(spot, drawing.scale)
    name = drawing.names.new(f"page-{page.label}")
    paper = view.rect(Rect(0, 0, *page.plan.paper.trim))
    line: Attributes = {"stroke": style.GUIDE, "stroke-width": style.GUIDE_LINE}
    parts = [
        title(f"page {page.label}"),
        tag("rect", {"class": "trim", **box(paper), "fill": style.PAPER, **line}),
        *_panels(page, view, drawing),
        _fold(page, paper),
        drawn_notes(small.notes, Point(spot.x, paper.bottom + UNDER_MM), drawing=drawing),
    ]
    return tag("g", {"id": name, "class": "page"}, parts)


def _panels(page: PageReport, view: View, drawing: Drawing) -> list[str]:
    drawn = []
    for own, held in zip(page.tier_panels, page.tier_figure_heights_mm, strict=True):
        heights = Heights(tier=held, steady=page.steady_height_mm)
        drawn += [
            small_panel(panel, page, heights=heights, view=view, drawing=drawing) for panel in own
        ]
    return drawn


def _fold(page: PageReport, paper: Rect) -> str:
    """Where a spread is folded."""
    if page.plan.paper.pages == 1:
        return ""
    x = paper.centre.x
    data = f"M{x:.3f} {paper.y:.3f}V{paper.bottom:.3f}"
    line: Attributes = {
        "stroke": style.GUIDE,
        "stroke-width": style.GUIDE_LINE,
        "stroke-dasharray": "0.5 1",
    }
    return tag("path", {"class": "fold", "d": data, **line})
