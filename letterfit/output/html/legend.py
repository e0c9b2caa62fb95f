"""What the signs of the drawings mean, each with a sample of it as it is drawn there."""

from letterfit.geometry import Point, Rect
from letterfit.output.html.markup import classed, element, words
from letterfit.output.panel_state import State
from letterfit.output.svg import style
from letterfit.output.svg.elements import Attributes, box, length, tag
from letterfit.output.svg.figure import figure
from letterfit.output.svg.hatch import hatch
from letterfit.output.svg.panel_label import mark

SAMPLE = Rect(0, 0, 18, 12)
"""A sample, mm."""

STATES: tuple[State, ...] = ("fits", "doubt", "fails")

SIZES = (
    "The drawings are as large as the screen or the sheet allows, not at print size: that is what "
    "the PDF proof is for."
)


def legend() -> str:
    """The signs with their meanings.

    >>> from tests.output.html.parsed import parse
    >>> len(parse(legend()).classed("sample"))
    5
    """
    signs = [
        (_marks(), "Disc, triangle, cross", "fits; fits against advice; does not fit."),
        (
            [_room(SAMPLE), figure(Rect(4, 2, 10, 30))],
            "Dashed box",
            "the figure room: the tallest place where a whole figure stands clear.",
        ),
        (
            _hatched(),
            "Slanting lines",
            "no place was found for the balloons; crossed: there is none, proved.",
        ),
        (_ghost(), "Grey balloons", "those without a place, each at its smallest."),
        (_guides(), "Pale blue lines", "trim and, dashed, the live area."),
    ]
    told = [
        element("dt", [_sample(drawn), " ", words(sign)]) + element("dd", words(what))
        for drawn, sign, what in signs
    ]
    return classed("dl.legend", told) + element("p", words(SIZES))


def _sample(drawn: list[str]) -> str:
    frame = f"0 0 {length(SAMPLE.width)} {length(SAMPLE.height)}"
    paper = tag("rect", {**box(SAMPLE), "fill": style.PAPER})
    return tag("svg", {"class": "sample", "viewBox": frame, "aria-hidden": "true"}, [paper, *drawn])


def _room(rect: Rect) -> str:
    return tag("rect", {**box(rect), "fill": style.ROOM})


def _marks() -> list[str]:
    spots = [Point(4 + 5 * k, SAMPLE.centre.y) for k in range(len(STATES))]
    return [mark(state, spot, half_mm=2) for state, spot in zip(STATES, spots, strict=True)]


def _hatched() -> list[str]:
    line: Attributes = {"fill": "none", "stroke": style.COLOURS["fails"], "stroke-width": 0.3}
    halves = Rect(0, 0, 8.5, 12), Rect(9.5, 0, 8.5, 12)
    drawn = [hatch(half, gap_mm=2, crossed=half.x > 0) for half in halves]
    return [*map(_room, halves), *(tag("path", {"d": data, **line}) for data in drawn)]


def _ghost() -> list[str]:
    line: Attributes = {
        "fill": style.PAPER,
        "stroke": style.GHOST,
        "stroke-width": style.BALLOON_LINE,
    }
    at: Attributes = {"cx": SAMPLE.centre.x, "cy": SAMPLE.centre.y, "rx": 7, "ry": 4}
    return [_room(SAMPLE), tag("ellipse", {**at, **line})]


def _guides() -> list[str]:
    line: Attributes = {"fill": "none", "stroke": style.GUIDE, "stroke-width": 0.4}
    live: Attributes = {**box(SAMPLE.inset(3.5)), **line, "stroke-dasharray": "2 1"}
    return [tag("rect", {**box(SAMPLE.inset(1)), **line}), tag("rect", live)]
