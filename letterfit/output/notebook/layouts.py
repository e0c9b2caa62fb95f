"""A panel's layout in a notebook: outlines, tails and figures at their places, without letters.

A layout knows neither its panel's border nor any words, so neither is drawn: the ground reaches as
far as what stands on it.
"""

from letterfit.counting import counted
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point, Rect
from letterfit.output.notebook.frame import figure, image
from letterfit.output.notebook.letters import lettered
from letterfit.output.notebook.pages import PANEL_SCALE
from letterfit.output.svg import style
from letterfit.output.svg.balloon import bridges, placed_run, runs
from letterfit.output.svg.elements import Names, box, document, length, tag
from letterfit.output.svg.figure import figure as standing
from letterfit.output.svg.glyphs import Glyphs
from letterfit.place.model import PanelLayout, PlacedOutline
from letterfit.report.model import BalloonReport
from letterfit.shown import as_html, as_text

MARGIN_MM = 1.5


@as_html.register
def layout_html(value: PanelLayout) -> str | None:
    """What was placed; nothing is drawn where nothing was."""
    if not value.placed:
        return None
    svg, _ = lettered(lambda glyphs: _drawn(value, glyphs))
    told = layout_text(value).split("\n")
    return figure(image(svg, scale=PANEL_SCALE, alt=told[0]), told)


@as_text.register
def layout_text(value: PanelLayout) -> str:
    """The verdict and its figures, the reason, what remains doubtful."""
    if value.verdict != "placed":
        return f"{value.verdict}: {value.reason}"
    told = (
        f"{counted(len(value.placed), 'outline')} placed · {value.coverage:.0%} covered · "
        f"figure {value.figure_height_mm:.0f} mm"
    )
    return "\n".join([told, *(f"! {finding.message}" for finding in value.findings)])


def _drawn(layout: PanelLayout, glyphs: Glyphs) -> str:
    balloons = [_empty(placed) for placed in layout.placed]
    ground = _ground(layout)
    names = Names()
    parts = [
        tag("rect", {**box(ground), "fill": style.ROOM}),
        *(standing(room) for room in layout.figures),
        *(placed_run(run, glyphs=glyphs, names=names) for run in runs(balloons)),
        *bridges(balloons, names=names),
    ]
    moved = {"transform": f"translate({length(-ground.x)} {length(-ground.y)})"}
    return document(
        width=ground.width,
        height=ground.height,
        heading="layout",
        children=[tag("g", moved, parts)],
    )


def _empty(placed: PlacedOutline) -> BalloonReport:
    """An outline at its place as a balloon without words."""
    fitted = FittedBalloon(
        text="", lines=(), outline=placed.outline, clearance_mm=0.0, words=0, size_pt=0.0
    )
    return BalloonReport(
        id=str(placed.index + 1),
        line=0,
        kind="dialogue",
        speaker=None,
        modifiers=(),
        fitted=fitted,
        x_mm=placed.x_mm,
        y_mm=placed.y_mm,
        tail=placed.tail,
        joined=placed.joined,
        overhang_mm=placed.overhang_mm,
    )


def _ground(layout: PanelLayout) -> Rect:
    """The box round all that stands in a layout, and a little more."""
    corners = [Point(one.x, one.y) for one in layout.figures]
    corners += [Point(one.right, one.bottom) for one in layout.figures]
    for one in layout.placed:
        wide, high = one.outline.half_width, one.outline.half_height
        corners += [
            Point(one.x_mm - wide, one.y_mm - high),
            Point(one.x_mm + wide, one.y_mm + high),
        ]
        corners += [one.tail.tip] if one.tail else []
    left, top = min(p.x for p in corners), min(p.y for p in corners)
    right, bottom = max(p.x for p in corners), max(p.y for p in corners)
    return Rect(left, top, right - left, bottom - top).inset(-MARGIN_MM)
