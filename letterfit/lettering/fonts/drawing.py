"""Glyph outlines: their path for drawing, and the exact box of their ink.

The box is that of the curves themselves, not of their control points, and leaves out contours that
enclose nothing: a stray point left in a font would otherwise count as ink.
"""

import math
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

import uharfbuzz as hb

Point = tuple[float, float]

Contour = list[tuple[Point, ...]]
"""Its start, then for each line or curve its handles (0, 1 or 2) and its end."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom; y downwards."""


def contours(font: hb.Font, glyph_id: int) -> tuple[Contour, ...]:
    """The contours of a glyph that enclose something, in font units, y downwards."""
    drawn: list[Contour] = []
    font.draw_glyph(glyph_id, _draw_funcs(), drawn)
    return tuple(contour for contour in drawn if _encloses(contour))


def path_data(drawn: tuple[Contour, ...]) -> str:
    """The contours as SVG path data.

    >>> path_data(([((0, 0),), ((4, 0),), ((4, 3), (0, 3))],))
    'M0 0L4 0Q4 3 0 3Z'
    """
    return "".join(
        "".join(letter + " ".join(f"{x:.6g} {y:.6g}" for x, y in step) for letter, step in steps)
        + "Z"
        for steps in (_lettered(contour) for contour in drawn)
    )


def ink_box(drawn: tuple[Contour, ...]) -> Box | None:
    """The smallest box round the contours; None when there are none.

    >>> ink_box(([((0, 0),), ((2, 4), (4, 0))],))
    (0, 0, 4, 2.0)
    """
    xs: list[float] = []
    ys: list[float] = []
    for contour in drawn:
        at = contour[0][0]
        for step in contour:
            end = step[-1]
            xs.append(end[0])
            ys.append(end[1])
            if len(step) > 1:
                xs += _bends([at[0], *(x for x, _ in step)])
                ys += _bends([at[1], *(y for _, y in step)])
            at = end
    return (min(xs), min(ys), max(xs), max(ys)) if xs else None


def bitmap_box(font: hb.Font, glyph_id: int) -> Box | None:
    """The box a font states for a glyph that is a picture; None when it is empty."""
    extents = font.get_glyph_extents(glyph_id)
    if extents is None or not (extents.width and extents.height):
        return None
    left, top = float(extents.x_bearing), -float(extents.y_bearing)
    return (left, top, left + extents.width, top - extents.height)


def _lettered(contour: Contour) -> Iterator[tuple[str, tuple[Point, ...]]]:
    """Each step with its letter of SVG path data."""
    yield "M", contour[0]
    for step in contour[1:]:
        yield "LQC"[len(step) - 1], step


def _encloses(contour: Contour) -> bool:
    """Whether its points and handles do not all lie on one straight line."""
    points = [point for step in contour for point in step]
    x0, y0 = points[0]
    x1, y1 = next((point for point in points if point != points[0]), points[0])
    return any((x1 - x0) * (y - y0) != (y1 - y0) * (x - x0) for x, y in points)


def _bends(values: list[float]) -> list[float]:
    """The values of one coordinate of a Bezier curve where it turns back inside the curve."""
    low, high = min(values[0], values[-1]), max(values[0], values[-1])
    if low <= min(values) and max(values) <= high:
        return []
    return [_on_curve(values, t) for t in _turns(values) if 0 < t < 1]


def _turns(v: list[float]) -> list[float]:
    """Where the derivative of a quadratic or cubic Bezier polynomial vanishes."""
    if len(v) == 3:
        bend = v[0] - 2 * v[1] + v[2]
        return [(v[0] - v[1]) / bend] if bend else []
    a = v[3] - v[0] + 3 * (v[1] - v[2])
    half_b = v[0] - 2 * v[1] + v[2]
    c = v[1] - v[0]
    if not a:
        return [-c / (2 * half_b)] if half_b else []
    inner = half_b * half_b - a * c
    if inner < 0:
        return []
    root = math.sqrt(inner)
    return [(-half_b - root) / a, (-half_b + root) / a]


def _on_curve(values: list[float], t: float) -> float:
    """De Casteljau's construction, in one coordinate."""
    row = values
    while len(row) > 1:
        row = [a + (b - a) * t for a, b in pairwise(row)]
    return row[0]


@cache
def _draw_funcs() -> hb.DrawFuncs:
    """Calls that collect contours; HarfBuzz draws with y upwards, we keep it downwards."""

    def move(x: float, y: float, drawn: list[Contour]) -> None:
        drawn.append([((x, 0.0 - y),)])

    def line(x: float, y: float, drawn: list[Contour]) -> None:
        drawn[-1].append(((x, 0.0 - y),))

    def quadratic(x1: float, y1: float, x: float, y: float, drawn: list[Contour]) -> None:
        drawn[-1].append(((x1, 0.0 - y1), (x, 0.0 - y)))

    def cubic(  # noqa: PLR0913, PLR0917 - the argument list is the callback's
        x1: float, y1: float, x2: float, y2: float, x: float, y: float, drawn: list[Contour]
    ) -> None:
        drawn[-1].append(((x1, 0.0 - y1), (x2, 0.0 - y2), (x, 0.0 - y)))

    funcs = hb.DrawFuncs()
    funcs.set_move_to_func(move)
    funcs.set_line_to_func(line)
    funcs.set_quadratic_to_func(quadratic)
    funcs.set_cubic_to_func(cubic)
    return funcs
