"""The legend at the foot of the sheet: each sign with its meaning, and whose word the limit is."""

from collections.abc import Callable
from dataclasses import dataclass

from letterfit.geometry import Point, Rect
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, box, length, tag, title
from letterfit.output.svg.figure import room_of, silhouette
from letterfit.output.svg.figures_labels import MARK_MM
from letterfit.output.svg.figures_panel import TIER_DASHES
from letterfit.output.svg.figures_view import Drawing
from letterfit.output.svg.hatch import hatch
from letterfit.output.svg.panel_label import mark
from letterfit.output.svg.small_text import TextBlock, wrapped
from letterfit.report.limits import Limits

LEGEND_PT = 5.0
SIGN_MM = (5.0, 3.2)
"""Width and height of a sign."""
APART_MM = 1.2
"""From a sign to its words, and from one line of the legend to the next."""
BETWEEN_MM = 5.0

Sign = Callable[[Rect], list[str]]


@dataclass(frozen=True, slots=True)
class Entry:
    """A sign and its words, at a place below the legend's upper left corner.

    Args:
        sign: Draws the sign in a box.
        words: What it means.
        left: From the legend's left.
        top: From the legend's top.
    """

    sign: Sign
    words: TextBlock
    left: float
    top: float


def legend_of(limits: Limits, *, width_mm: float) -> tuple[list[Entry], float]:
    """The entries in rows as wide as the sheet allows, and how deep they run."""
    entries: list[Entry] = []
    left = top = deepest = 0.0
    most = width_mm - SIGN_MM[0] - APART_MM
    for sign, text in _entries(limits):
        words = wrapped(text, size_pt=LEGEND_PT, most_mm=most)
        across = SIGN_MM[0] + APART_MM + words.width_mm
        if left and left + across > width_mm:
            left, top, deepest = 0.0, top + deepest + APART_MM, 0.0
        entries.append(Entry(sign, words, left, top))
        left += across + BETWEEN_MM
        deepest = max(deepest, SIGN_MM[1], words.height_mm)
    return entries, top + deepest


def drawn_legend(entries: list[Entry], spot: Point, *, drawing: Drawing) -> str:
    """The legend, its upper left corner at a point."""
    parts = []
    for entry in entries:
        sign = Rect(spot.x + entry.left, spot.y + entry.top, *SIGN_MM)
        left = sign.right + APART_MM
        high = entry.words.height_mm
        top = sign.y + max(0.0, (SIGN_MM[1] - high) / 2)
        words = entry.words.drawn(
            entry.words.box(left, top), colour=style.LABEL, glyphs=drawing.glyphs
        )
        said = title(" ".join(entry.words.lines))
        parts.append(tag("g", {"class": "label entry"}, [said, *entry.sign(sign), *words]))
    return tag("g", {"id": drawing.names.new("legend"), "class": "legend"}, parts)


def _entries(limits: Limits) -> list[tuple[Sign, str]]:
    share, whose = f"{limits.steady_share:.0%}", limits.basis("steady_share")
    return [
        (_figure, "tallest clear figure, mm, and the framing it allows"),
        (_line(style.INK, style.GUIDE_LINE, TIER_DASHES), "every panel of the tier holds this"),
        (
            _line(style.GUIDE, style.CAPTION_LINE, "none"),
            f"steady: {share} of the page's middle panel ({whose})",
        ),
        (_less, "holds less than steady"),
        (_fails, "lettering does not fit"),
        (_area, "lettering"),
    ]


def _figure(room: Rect) -> list[str]:
    high = room.height
    standing = Rect(room.centre.x - high / 6, room.y, high / 3, high)
    return [*_ground(room), *silhouette(room_of(standing), colour=style.FIGURE_LINE), *_frame(room)]


def _line(colour: str, weight: float, dashes: str) -> Sign:
    def drawn(room: Rect) -> list[str]:
        y = length(room.centre.y)
        data = f"M{length(room.x)} {y}L{length(room.right)} {y}"
        look: Attributes = {"stroke": colour, "stroke-width": weight, "stroke-dasharray": dashes}
        return [tag("path", {"d": data, **look})]

    return drawn


def _less(room: Rect) -> list[str]:
    look: Attributes = {"stroke": style.COLOURS["doubt"], "stroke-width": style.BORDER_LINE}
    shape = mark("doubt", room.centre, half_mm=MARK_MM)
    return [*_ground(room), shape, tag("rect", {**box(room), "fill": "none", **look})]


def _fails(room: Rect) -> list[str]:
    colour = style.COLOURS["fails"]
    data = hatch(room, gap_mm=1.6)
    thin: Attributes = {"stroke": colour, "stroke-width": style.GUIDE_LINE, "opacity": "0.45"}
    heavy: Attributes = {"stroke": colour, "stroke-width": style.BORDER_LINE}
    return [
        *_ground(room),
        tag("path", {"d": data, "fill": "none", **thin}),
        mark("fails", room.centre, half_mm=MARK_MM),
        tag("rect", {**box(room), "fill": "none", **heavy}),
    ]


def _area(room: Rect) -> list[str]:
    pale: Attributes = {
        "cx": room.centre.x,
        "cy": room.centre.y,
        "rx": 0.36 * room.width,
        "ry": 0.32 * room.height,
        "fill": style.PAPER,
    }
    return [*_ground(room), tag("ellipse", pale), *_frame(room)]


def _ground(room: Rect) -> list[str]:
    return [tag("rect", {**box(room), "fill": style.ROOM})]


def _frame(room: Rect) -> list[str]:
    line: Attributes = {"fill": "none", "stroke": style.INK, "stroke-width": style.GUIDE_LINE}
    return [tag("rect", {**box(room), **line})]
