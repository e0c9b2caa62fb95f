"""One panel of a proof: its room, its figure, its balloons, its border and its label."""

from collections.abc import Sequence

from letterfit.geometry import Point, Rect
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.balloon import bridges, ghost, placed_balloon
from letterfit.output.svg.elements import Attributes, Names, box, length, tag, title
from letterfit.output.svg.figure import figure, stand
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.labels import label
from letterfit.place.model import PlacedOutline
from letterfit.report.model import PanelOverflow, PanelReport

HATCH_MM = 3.5
"""From one line of the wash to the next."""
GHOST_GAP = 1.5
"""Between balloons that have no place and are only shown at their size."""
MARK_MM = 1.1
"""Radius of the mark beside a label."""
LABEL_PT = 4.6
LABEL_RISE_MM = 0.75
"""From a panel's border up to the baseline of its label, in the gutter."""


def panel_group(
    panel: PanelReport, *, state: State, glyphs: Glyphs, names: Names, aspect: float
) -> str:
    """A panel as one group, back to front: room, figure, balloons, border, label."""
    placed = panel.verdict == "placed"
    inside = _placed(panel, glyphs, names, aspect) if placed else _not_placed(panel, glyphs, names)
    heading = f"panel {panel.id}, script line {panel.line}: {style.WORDS[state]}"
    parts = [
        title(f"{heading}. {panel.reason}" if panel.reason else heading),
        tag("rect", {**box(panel.rect), "fill": style.ROOM}),
        *inside,
        tag("rect", {**box(panel.rect), **_border(state)}),
        _label(panel, state, glyphs),
    ]
    return tag("g", {"id": names.new(f"panel-{panel.id}"), "class": f"panel {state}"}, parts)


def _border(state: State) -> Attributes:
    colour = style.COLOURS[state] if state == "fails" else style.INK
    return {"fill": "none", "stroke": colour, "stroke-width": style.BORDER_LINE}


def _placed(panel: PanelReport, glyphs: Glyphs, names: Names, aspect: float) -> list[str]:
    outlines = [
        PlacedOutline(
            index=i, choice=0, outline=b.fitted.outline, x_mm=b.x_mm, y_mm=b.y_mm, tail=b.tail
        )
        for i, b in enumerate(panel.balloons)
        if b.x_mm is not None and b.y_mm is not None
    ]
    box = stand(panel.rect, outlines, height=panel.figure_height_mm, aspect=aspect)
    drawn = [figure(box)] if box else []
    drawn += [placed_balloon(b, glyphs=glyphs, names=names) for b in panel.balloons]
    return drawn + bridges(panel.balloons)


def _not_placed(panel: PanelReport, glyphs: Glyphs, names: Names) -> list[str]:
    """The smallest balloons at their size, row by row, cut off where the panel ends; and a wash."""
    clip = names.new(f"inside-{panel.id}")
    spots = shelves(
        [b.fitted.outline.half_width * 2 for b in panel.balloons],
        [b.fitted.outline.half_height * 2 for b in panel.balloons],
        panel.rect,
    )
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
    down = panel.verdict == "impossible"
    data = _slanting(panel.rect, 1) + (_slanting(panel.rect, -1) if down else "")
    stroke: Attributes = {"stroke": style.COLOURS["fails"], "stroke-width": style.GUIDE_LINE}
    return tag("path", {"d": data, "fill": "none", "opacity": "0.45", **stroke})


def _slanting(rect: Rect, sign: int) -> str:
    """Lines at 45 degrees across a rectangle; sign 1 falls to the right, -1 rises."""
    count = int((rect.width + rect.height) / HATCH_MM)
    parts = []
    for step in range(1, count + 1):
        offset = step * HATCH_MM
        x0, y0 = max(0.0, offset - rect.height), min(offset, rect.height)
        x1, y1 = min(offset, rect.width), max(0.0, offset - rect.width)
        if sign > 0:
            y0, y1 = rect.height - y0, rect.height - y1
        parts.append(
            f"M{length(rect.x + x0)} {length(rect.y + y0)}L{length(rect.x + x1)} "
            f"{length(rect.y + y1)}"
        )
    return "".join(parts)


def _label(panel: PanelReport, state: State, glyphs: Glyphs) -> str:
    """The mark of the verdict, the panel's number and its figures, above the panel's left end."""
    spot = Point(panel.rect.x, panel.rect.y - LABEL_RISE_MM)
    text = label_text(panel)
    mark = _mark(state, Point(spot.x + MARK_MM, spot.y - MARK_MM * 0.75))
    beside = Point(spot.x + 2.4 * MARK_MM, spot.y)
    colour = style.COLOURS[state] if state == "fails" else style.LABEL
    words = label(text, beside, size_pt=LABEL_PT, colour=colour, glyphs=glyphs)
    return tag("g", {"class": "label"}, [title(text), mark, words])


def label_text(panel: PanelReport) -> str:
    """What stands above a panel: its number, then what fits in it or what would make it fit."""
    if panel.verdict != "placed":
        ways = [] if panel.overflow is None else ways_out(panel.overflow)
        return " · ".join([panel.id, "DOES NOT FIT", *([" or ".join(ways)] if ways else [])])
    parts = [panel.id, f"{panel.coverage:.0%} covered"]
    if panel.effects:
        parts.append(f"effects {panel.effects_share:.0%}")
    return " · ".join([*parts, f"figure {panel.figure_height_mm:.0f} mm"])


def ways_out(over: PanelOverflow) -> list[str]:
    """What would make a panel fit, in a few words each."""
    ways = []
    if over.words is not None:
        ways.append(f"cut {over.words} " + ("word" if over.words == 1 else "words"))
    if over.height_mm is not None:
        ways.append(f"{over.height_mm:.0f} mm high")
    if over.size_pt is not None:
        ways.append(f"{over.size_pt:g} pt")
    return ways


def _mark(state: State, centre: Point) -> str:
    """A disc, a triangle or a cross: shape as well as colour."""
    x, y, r = centre.x, centre.y, MARK_MM * 0.8
    colour = style.COLOURS[state]
    if state == "fits":
        return tag("circle", {"cx": x, "cy": y, "r": r * 0.85, "fill": colour})
    if state == "doubt":
        corners = ((x, y - r), (x + r, y + r * 0.75), (x - r, y + r * 0.75))
        data = "M" + "L".join(f"{length(a)} {length(b)}" for a, b in corners) + "Z"
        return tag("path", {"d": data, "fill": colour})
    a, b, c, d = (length(v) for v in (x - r, y - r, x + r, y + r))
    stroke: Attributes = {"fill": "none", "stroke": colour, "stroke-width": 0.5}
    return tag("path", {"d": f"M{a} {b}L{c} {d}M{a} {d}L{c} {b}", **stroke})
