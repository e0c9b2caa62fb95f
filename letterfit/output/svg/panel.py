"""One panel of a proof: its room, its figure, its balloons, its border and its label."""

from collections.abc import Sequence
from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.balloon import bridges, ghost, placed_run, runs
from letterfit.output.svg.elements import Attributes, Names, box, tag, title
from letterfit.output.svg.figure import Silhouette, figure, pale
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.hatch import hatch
from letterfit.output.svg.panel_label import panel_label
from letterfit.report.model import PanelReport

HATCH_MM = 3.5
"""From one line of the wash to the next."""
GHOST_GAP = 1.5
"""Between balloons that have no place and are only shown at their size."""


@dataclass(frozen=True, slots=True)
class PanelView:
    """What is the same for all panels of a page.

    Args:
        labels_outside: Whether there is a gutter for the panels' labels.
        insets: The ids of panels set into others, which no gutter surrounds.
        standing: What draws the figures.
    """

    labels_outside: bool
    insets: frozenset[str] = frozenset()
    standing: Silhouette = pale


def panel_group(
    panel: PanelReport, *, state: State, glyphs: Glyphs, names: Names, view: PanelView
) -> str:
    """A panel as one group, back to front: room, figure, balloons, border, label."""
    inside = panel_inside(panel, glyphs=glyphs, names=names, standing=view.standing)
    heading = f"panel {panel.id}, script line {panel.line}: {style.WORDS[state]}"
    drawn = box(panel.bleed or panel.rect)
    within = panel.bleed is not None or panel.id in view.insets
    parts = [
        title(f"{heading}. {panel.reason}" if panel.reason else heading),
        tag("rect", {**drawn, "fill": style.ROOM}),
        *inside,
        tag("rect", {**drawn, **border(state)}),
        panel_label(panel, state=state, glyphs=glyphs, inside=within or not view.labels_outside),
    ]
    return tag("g", {"id": names.new(f"panel-{panel.id}"), "class": f"panel {state}"}, parts)


def panel_inside(
    panel: PanelReport, *, glyphs: Glyphs, names: Names, standing: Silhouette = pale
) -> list[str]:
    """What stands in a panel, back to front: its figure and balloons, or those without a place."""
    if panel.verdict != "placed":
        return _not_placed(panel, glyphs, names)
    return _placed(panel, glyphs=glyphs, names=names, standing=standing)


def border(state: State) -> Attributes:
    """How a panel's border is drawn."""
    colour = style.COLOURS[state] if state == "fails" else style.INK
    return {"fill": "none", "stroke": colour, "stroke-width": style.BORDER_LINE}


def _placed(panel: PanelReport, *, glyphs: Glyphs, names: Names, standing: Silhouette) -> list[str]:
    clip, cut = None, []
    if any(balloon.overhang_mm for balloon in panel.balloons):
        clip = names.new(f"inside-{panel.id}")
        cut = [tag("clipPath", {"id": clip}, [tag("rect", box(panel.rect))])]
    drawn = [figure(room, standing=standing) for room in panel.figures]
    drawn += [placed_run(r, glyphs=glyphs, names=names, clip=clip) for r in runs(panel.balloons)]
    return [*cut, *drawn, *bridges(panel.balloons, names=names)]


def _not_placed(panel: PanelReport, glyphs: Glyphs, names: Names) -> list[str]:
    """The smallest balloons at their size, row by row, cut off where the panel ends; and a wash.

    Vertical ones stand from right to left, as they read.
    """
    clip = names.new(f"inside-{panel.id}")
    spots = shelves(
        [b.fitted.outline.half_width * 2 for b in panel.balloons],
        [b.fitted.outline.half_height * 2 for b in panel.balloons],
        panel.rect,
    )
    if any(balloon.fitted.vertical for balloon in panel.balloons):
        spots = [Point(2 * panel.rect.centre.x - spot.x, spot.y) for spot in spots]
    ghosts = [
        ghost(balloon, spot, glyphs=glyphs, names=names)
        for balloon, spot in zip(panel.balloons, spots, strict=True)
    ]
    return [
        tag("clipPath", {"id": clip}, [tag("rect", box(panel.rect))]),
        tag("g", {"clip-path": f"url(#{clip})"}, [_wash(panel), *ghosts]),
    ]


def shelves(widths: Sequence[float], heights: Sequence[float], panel: Rect) -> list[Point]:
    """Centres of boxes set in rows from the panel's top left corner, as words are on lines.

    A box too wide for the panel has a row to itself, its middle on the panel's.
    """
    spots: list[Point] = []
    left, top, deepest = panel.x + GHOST_GAP, panel.y + GHOST_GAP, 0.0
    for width, height in zip(widths, heights, strict=True):
        if left + width > panel.right and left > panel.x + GHOST_GAP:
            left, top, deepest = panel.x + GHOST_GAP, top + deepest + GHOST_GAP, 0.0
        wide = width > panel.width - 2 * GHOST_GAP
        middle = panel.centre.x if wide else left + width / 2
        spots.append(Point(middle, top + height / 2))
        left += width + GHOST_GAP
        deepest = max(deepest, height)
    return spots


def _wash(panel: PanelReport) -> str:
    """Slanting lines over a panel that fails: crossed where failure is proved."""
    proved = panel.verdict == "impossible"
    data = hatch(panel.rect, gap_mm=HATCH_MM, crossed=proved)
    stroke: Attributes = {"stroke": style.COLOURS["fails"], "stroke-width": style.GUIDE_LINE}
    return tag("path", {"d": data, "fill": "none", "opacity": "0.45", **stroke})
