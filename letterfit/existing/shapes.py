"""Shapes of SVG drawn with a pen: the basic ones (SVG 2, chapter 10) and paths (chapter 9).

Path data is read by fontTools.
"""

import math
from collections.abc import Callable, Mapping

from fontTools.svgLib.path import parse_path

from letterfit.existing.curves import Pen, Point2
from letterfit.existing.lengths import MOST_CHARACTERS, length, numbers
from letterfit.existing.viewports import Frame

ARCS = 8
"""Curves round an ellipse: off it by 4e-6 of its half-axes (Goldapp 1991)."""


def path_pen(data: str) -> Pen | None:
    """A pen that has drawn path data; None where it is broken.

    >>> path_pen("M0 0H4V2H0Z").chain().curves.shape
    (4, 4, 2)
    >>> path_pen("M0 0L1e999 2Z").chain() is None
    True
    """
    if len(data) > MOST_CHARACTERS:
        return None
    pen = Pen()
    try:
        parse_path(" ".join(data.split()), pen)
    except (ValueError, IndexError, TypeError, ArithmeticError, AssertionError):
        return None
    return pen


def _rect(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    x, y, width, height = said("x", 0), said("y", 0), said("width", 0), said("height", 0)
    if width <= 0 or height <= 0:
        return None
    rx, ry = said("rx", -1), said("ry", -1)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    pen = Pen()
    if rx == 0 or ry == 0:
        pen.moveTo((x, y))
        for point in ((x + width, y), (x + width, y + height), (x, y + height), (x, y)):
            pen.lineTo(point)
        pen.closePath()
        return pen
    pen.moveTo((x + width - rx, y))
    corners = (
        (x + width - rx, y + ry),
        (x + width - rx, y + height - ry),
        (x + rx, y + height - ry),
        (x + rx, y + ry),
    )
    for quarter, centre in enumerate(corners):
        _turn(pen, centre, (rx, ry), first=(quarter - 1) * math.pi / 2, arcs=ARCS // 4)
    pen.lineTo((x + width - rx, y))
    pen.closePath()
    return pen


def _turn(pen: Pen, centre: Point2, radii: Point2, *, first: float, arcs: int) -> None:
    """Some eighths of a turn of an ellipse, after a line to where they begin."""
    step = 2 * math.pi / ARCS
    reach = 4 / 3 * math.tan(step / 4)

    def at(angle: float, out: float) -> Point2:
        cos, sin = math.cos(angle), math.sin(angle)
        return (
            centre[0] + radii[0] * (cos - out * sin),
            centre[1] + radii[1] * (sin + out * cos),
        )

    pen.lineTo(at(first, 0.0))
    for number in range(arcs):
        start, end = first + number * step, first + (number + 1) * step
        pen.curveTo(at(start, reach), at(end, -reach), at(end, 0.0))


def _ellipse(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    rx, ry = said("rx", -1), said("ry", -1)
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    return _oval((said("cx", 0), said("cy", 0)), (rx, ry))


def _circle(said: Callable[[str, float], float], _frame: Frame) -> Pen | None:
    radius = said("r", 0)
    return _oval((said("cx", 0), said("cy", 0)), (radius, radius))


def _oval(centre: Point2, radii: Point2) -> Pen | None:
    if min(radii) <= 0:
        return None
    pen = Pen()
    pen.moveTo((centre[0] + radii[0], centre[1]))
    _turn(pen, centre, radii, first=0.0, arcs=ARCS)
    pen.closePath()
    return pen


_SHAPES = {"rect": _rect, "ellipse": _ellipse, "circle": _circle}


_HEIGHTS = {"y", "height", "ry", "cy"}


_WIDTHS = {"x", "width", "rx", "cx"}


def shape_pen(
    tag: str, attributes: Mapping[str, str], frame: Frame, *, em: float = 16.0
) -> Pen | None:
    """A pen that has drawn a basic shape or a path, in user units; None where it draws nothing.

    Args:
        tag: "rect", "circle", "ellipse", "polygon", "polyline" or "path".
        attributes: The element's.
        frame: What percentages are of.
        em: What an em is, in user units.

    >>> shape_pen("rect", {"width": "4", "height": "2"}, Frame(0, 0, 10, 10)).size()
    (4.0, 2.0)
    """
    if tag == "path":
        return path_pen(attributes.get("d", ""))
    if tag in ("polygon", "polyline"):
        return _straight(attributes.get("points", ""), closed=tag == "polygon")

    def said(name: str, missing: float) -> float:
        whole = (
            frame.height if name in _HEIGHTS else frame.width if name in _WIDTHS else frame.diagonal
        )
        value = length(attributes.get(name), whole=whole, em=em)
        return missing if value is None else value

    return _SHAPES[tag](said, frame)


def _straight(points: str, *, closed: bool) -> Pen | None:
    values = numbers(points)
    if values is None or len(values) < 4:
        return None
    corners = list(zip(values[::2], values[1::2], strict=False))
    pen = Pen()
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    if closed:
        pen.lineTo(corners[0])
        pen.closePath()
    else:
        pen.endPath()
    return pen
