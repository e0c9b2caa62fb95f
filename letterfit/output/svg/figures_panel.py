"""One panel of a small page: its frame, its lettering as pale areas, its tallest figure, its lines.

Every panel has the height that its whole tier holds as a dashed line and the page's steady height
as a plain one, both measured from the floor that its figures stand on.
"""

from dataclasses import dataclass

from letterfit.geometry import Rect
from letterfit.output.framing import framing
from letterfit.output.panel_state import State
from letterfit.output.report_json import centre_of
from letterfit.output.svg import style
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.elements import Attributes, box, length, tag, title
from letterfit.output.svg.figure import room_of, silhouette
from letterfit.output.svg.figures_labels import Labels, panel_labels
from letterfit.output.svg.figures_view import Drawing, View
from letterfit.output.svg.hatch import hatch
from letterfit.output.svg.panel import HATCH_MM
from letterfit.output.svg.tallest import tallest_box
from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport, PanelReport

TIER_DASHES = "0.9 0.6"
BLEED_MM = 1.0
"""How far a bleeding panel runs past the small page, at most."""

HATCH_SHARE = 0.6
"""The lines of the wash stand closer than on a proof, but not by the whole scale."""


@dataclass(frozen=True, slots=True)
class Heights:
    """The heights that a panel is held against, in mm on the page.

    Args:
        tier: What every panel of its tier holds.
        steady: What keeps its page's steady distance.
    """

    tier: float
    steady: float


def steadiness(panel: PanelReport) -> State:
    """How a panel stands by its figure: it keeps the steady distance, breaks it, or has none."""
    if panel.verdict != "placed":
        return "fails"
    return "fits" if panel.steadied is None else "doubt"


def small_panel(
    panel: PanelReport, page: PageReport, *, heights: Heights, view: View, drawing: Drawing
) -> str:
    """A panel as one group, back to front: room, lettering, figure, lines, frame, labels."""
    state = steadiness(panel)
    frame = view.rect(_frame(panel, page, view.scale))
    standing = tallest_box(panel, page) if state != "fails" else None
    figure = None if standing is None else view.rect(standing)
    parts = [
        title(told(panel, state, drawing)),
        tag("rect", {**box(frame), "fill": style.ROOM}),
        *_lettering(panel, view, drawing),
        *_figure(figure),
        *(_washed(panel, view) if state == "fails" else _lines(panel, page, heights, view)),
        *panel_labels(_labels(panel, page, view, drawing, figure), state=state, drawing=drawing),
        tag("rect", {"class": "frame", **box(frame), **_border(state)}),
    ]
    name = drawing.names.new(f"panel-{panel.id}")
    return tag("g", {"id": name, "class": f"panel {state}"}, parts)


def told(panel: PanelReport, state: State, drawing: Drawing) -> str:
    """What a panel's title says."""
    if state == "fails":
        return f"panel {panel.id}: {style.WORDS[state]}"
    word = framing_word(panel, drawing)
    less = ", less than the steady height" if state == "doubt" else ""
    return f"panel {panel.id}: figure {panel.figure_height_mm:.0f} mm, framing {word}{less}"


def framing_word(panel: PanelReport, drawing: Drawing) -> str:
    """The widest framing that a panel allows, in one word."""
    return framing(panel.figure_share, whole=drawing.limits.whole_figure)


def _frame(panel: PanelReport, page: PageReport, scale: float) -> Rect:
    """The panel on its page, where it bleeds a little beyond the trim."""
    if panel.bleed is None:
        return panel.rect
    beyond = min(BLEED_MM / scale, page.plan.paper.bleed)
    return panel.bleed.common(Rect(0, 0, *page.plan.paper.trim).inset(-beyond)) or panel.rect


def _border(state: State) -> Attributes:
    """Thin where the panel keeps the steady distance; heavy, and in its tone, where it does not."""
    if state == "fits":
        return {"fill": "none", "stroke": style.INK, "stroke-width": style.GUIDE_LINE}
    colour = style.COLOURS[state]
    return {"fill": "none", "stroke": colour, "stroke-width": style.BORDER_LINE}


def _lettering(panel: PanelReport, view: View, drawing: Drawing) -> list[str]:
    """The balloons without words and tails, as pale areas; what hangs over is cut off."""
    areas = [
        tag("path", {"d": contour(balloon.fitted.outline, centre)})
        for balloon in panel.balloons
        if (centre := centre_of(balloon)) is not None
    ]
    if not areas:
        return []
    cut, clipped = [], {}
    if any(balloon.overhang_mm for balloon in panel.balloons):
        name = drawing.names.new(f"inside-{panel.id}")
        cut = [tag("clipPath", {"id": name}, [tag("rect", box(panel.rect))])]
        clipped = {"clip-path": f"url(#{name})"}
    inside = [*cut, tag("g", clipped, areas)] if cut else areas
    pale = {"class": "lettering", "fill": style.PAPER, "transform": view.transform}
    return [tag("g", pale, inside)]


def _figure(figure: Rect | None) -> list[str]:
    """A figure as tall as its box, from the soles to the crown."""
    if figure is None:
        return []
    drawn = silhouette(room_of(figure), colour=style.FIGURE_LINE)
    return [tag("g", {"class": "figure"}, drawn)]


def _washed(panel: PanelReport, view: View) -> list[str]:
    data = hatch(
        view.rect(panel.rect),
        gap_mm=HATCH_MM * HATCH_SHARE,
        crossed=panel.verdict == "impossible",
    )
    stroke: Attributes = {"stroke": style.COLOURS["fails"], "stroke-width": style.GUIDE_LINE}
    return [tag("path", {"class": "hatch", "d": data, "fill": "none", "opacity": "0.45", **stroke})]


def floor_of(panel: PanelReport, page: PageReport) -> float:
    """The y on the page that figures stand at: in the live area, as lettering does."""
    return (panel.rect.common(page.plan.paper.live) or panel.rect).bottom


def _lines(panel: PanelReport, page: PageReport, heights: Heights, view: View) -> list[str]:
    """The tier's height, dashed, and the page's steady height, where the panel is as tall."""
    floor, frame = floor_of(panel, page), view.rect(_frame(panel, page, view.scale))
    tier: Attributes = {"stroke": style.INK, "stroke-dasharray": TIER_DASHES}
    steady: Attributes = {"stroke": style.GUIDE}
    looks = (
        ("steady", heights.steady, steady | {"stroke-width": style.CAPTION_LINE}),
        ("tier", heights.tier, tier | {"stroke-width": style.GUIDE_LINE}),
    )
    drawn = []
    for name, height, look in looks:
        y = floor - height
        if height > 0 and panel.rect.y <= y + 1e-6:
            level = length(view.origin.y + view.scale * y)
            data = f"M{length(frame.x)} {level}L{length(frame.right)} {level}"
            drawn.append(tag("path", {"class": f"height {name}", "d": data, **look}))
    return drawn


def fold_of(paper: Paper) -> Rect:
    """The fold of a spread, as thin as it is drawn."""
    across, down = paper.trim
    return Rect((across - style.GUIDE_LINE) / 2, 0, style.GUIDE_LINE, down)


def _labels(
    panel: PanelReport, page: PageReport, view: View, drawing: Drawing, figure: Rect | None
) -> Labels:
    """What is written in the panel, and what that keeps clear of."""
    paper = page.plan.paper
    seen = panel.rect.common(Rect(0, 0, *paper.trim)) or panel.rect
    fold = [] if paper.spine is None else [fold_of(paper)]
    return Labels(
        number=panel.id.removeprefix(f"{page.label}."),
        height=f"{panel.figure_height_mm:.0f}",
        framing=framing_word(panel, drawing),
        room=view.rect(seen),
        figure=figure,
        kept=tuple(view.rect(area) for area in (*panel.insets, *fold)),
        balloons=tuple(
            view.rect(
                Rect(
                    centre.x - balloon.fitted.outline.half_width,
                    centre.y - balloon.fitted.outline.half_height,
                    2 * balloon.fitted.outline.half_width,
                    2 * balloon.fitted.outline.half_height,
                )
            )
            for balloon in panel.balloons
            if (centre := centre_of(balloon)) is not None
        ),
    )
