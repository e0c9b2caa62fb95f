"""The label of a panel: the mark of its verdict, its number, and its figures in a few words."""

from letterfit.counting import counted
from letterfit.geometry import Point
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, length, tag, title
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.labels import label
from letterfit.report.model import PanelOverflow, PanelReport

MARK_MM = 1.1
"""Half the room of the mark beside the words."""

LABEL_PT = 4.6
RISE_MM = 0.75
"""From a border to the baseline of the label beside it."""

GUTTER_MM = 2.2
"""The least gutter that takes a label."""


def panel_label(panel: PanelReport, *, state: State, glyphs: Glyphs, inside: bool) -> str:
    """Mark and words: in the gutter above the panel's left end, or inside at its foot.

    Words that are wider than the panel are left off from the end, so that no label runs into its
    neighbour's.

    Args:
        panel: The panel.
        state: How it stands.
        glyphs: What draws the words.
        inside: Whether there is no gutter to stand in.
    """
    rect = panel.rect
    left, baseline = (
        (rect.x + RISE_MM, rect.bottom - 2 * RISE_MM) if inside else (rect.x, rect.y - RISE_MM)
    )
    parts = label_parts(panel)
    texts = [" · ".join(parts[:count]) for count in range(len(parts), 0, -1)]
    spot = Point(left + 2.4 * MARK_MM, baseline)
    colour = style.COLOURS[state] if state == "fails" else style.LABEL
    most = rect.right - spot.x
    words = label(texts, spot, size_pt=LABEL_PT, colour=colour, glyphs=glyphs, most_mm=most)
    shape = mark(state, Point(left + MARK_MM, baseline - MARK_MM * 0.75))
    return tag("g", {"class": "label"}, [title(texts[0]), shape, words])


def label_parts(panel: PanelReport) -> list[str]:
    """What a label says: its number, then what fits in it or what would make it fit."""
    if panel.verdict != "placed":
        ways = [] if panel.overflow is None else ways_out(panel.overflow)
        return [panel.id, "DOES NOT FIT", *([" or ".join(ways)] if ways else [])]
    effects = [f"effects {panel.effects_share:.0%}"] if panel.effects else []
    room = f"figure {panel.figure_height_mm:.0f} mm"
    return [panel.id, f"{panel.coverage:.0%} covered", room, *effects]


def ways_out(over: PanelOverflow) -> list[str]:
    """What would make a panel fit, in a few words each."""
    ways = []
    if over.words is not None:
        ways.append(f"cut {counted(over.words, 'word')}")
    if over.height_mm is not None:
        ways.append(f"{over.height_mm:.0f} mm high")
    if over.size_pt is not None:
        ways.append(f"{over.size_pt:g} pt")
    return ways


def mark(state: State, centre: Point, *, half_mm: float = MARK_MM) -> str:
    """A disc, a triangle or a cross: shape as well as colour."""
    x, y, r = centre.x, centre.y, half_mm * 0.8
    colour = style.COLOURS[state]
    if state == "fits":
        return tag("circle", {"cx": x, "cy": y, "r": r * 0.85, "fill": colour})
    if state == "doubt":
        corners = ((x, y - r), (x + r, y + r * 0.75), (x - r, y + r * 0.75))
        data = "M" + "L".join(f"{length(a)} {length(b)}" for a, b in corners) + "Z"
        return tag("path", {"d": data, "fill": colour})
    a, b, c, d = (length(v) for v in (x - r, y - r, x + r, y + r))
    stroke: Attributes = {"fill": "none", "stroke": colour, "stroke-width": 0.5 * half_mm / MARK_MM}
    return tag("path", {"d": f"M{a} {b}L{c} {d}M{a} {d}L{c} {b}", **stroke})
