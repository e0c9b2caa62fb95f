"""Lettering as outlines: glyphs become path data on the page, no font needed to see them.

A glyph's contours are kept as relative moves, each taken from rounded absolute positions so that
no error adds up: drawing a glyph again costs one absolute start per contour.
"""

import re
from collections.abc import Callable, Sequence

from letterfit.fit.model import Line
from letterfit.geometry import Point
from letterfit.lettering.words import Glyph
from letterfit.output.svg.elements import DIGITS, length

GlyphSource = Callable[[str, int], tuple[str, float]]
"""Face name and glyph number to path data in font units, y downwards, and the units of an em."""

Contour = tuple[float, float, str]
"""Where a contour starts, from the glyph's origin in mm, and the rest of it in relative moves."""

_COMMAND = re.compile(r"([MLQCZ])([^MLQCZ]*)")
_NUMBER = re.compile(r"-?\d*\.?\d+(?:e[+-]?\d+)?")


class Glyphs:
    """Draws lines of lettering; keeps every glyph it has drawn.

    Args:
        source: Where the outlines come from.
    """

    def __init__(self, source: GlyphSource) -> None:
        self._source = source
        self._known: dict[tuple[str, int, float], tuple[Contour, ...]] = {}

    def lines_path(self, lines: Sequence[Line], centre: Point) -> tuple[str, ...]:
        """Path data of each line of a stack, for its outline's centre; empty for a blank line."""
        return tuple(
            self.path(line.glyphs, Point(centre.x + line.x_mm, centre.y + line.baseline_mm))
            for line in lines
        )

    def path(self, glyphs: Sequence[Glyph], origin: Point) -> str:
        """Path data of glyphs whose line starts at a point of the page (advance and baseline)."""
        parts = []
        for glyph in glyphs:
            x, y = origin.x + glyph.x_mm, origin.y + glyph.y_mm
            for left, top, rest in self._contours(glyph):
                parts.append(f"M{x + left:.{DIGITS}f} {y + top:.{DIGITS}f}{rest}")
        return "".join(parts)

    def _contours(self, glyph: Glyph) -> tuple[Contour, ...]:
        key = (glyph.face, glyph.glyph_id, glyph.em_mm)
        if key not in self._known:
            path, units = self._source(glyph.face, glyph.glyph_id)
            self._known[key] = relative_contours(path, glyph.em_mm / units)
        return self._known[key]


def relative_contours(path: str, scale: float) -> tuple[Contour, ...]:
    """Absolute path data (M, L, Q, C, Z) scaled, as contours in relative moves.

    Args:
        path: In font units, y downwards.
        scale: mm per font unit.

    >>> relative_contours("M0 0L100 0L100 -50Z", 0.01)
    ((0.0, 0.0, 'l1 0l0-.5z'),)
    """
    contours: list[Contour] = []
    start, here = (0.0, 0.0), (0.0, 0.0)
    moves: list[str] = []
    for command, values in _COMMAND.findall(path):
        numbers = [round(float(n) * scale, DIGITS) for n in _NUMBER.findall(values)]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        if command == "M":
            start, here, moves = points[0], points[0], []
        elif command == "Z":
            contours.append((*start, "".join(moves) + "z"))
        else:
            steps = [c - h for point in points for c, h in zip(point, here, strict=True)]
            moves.append(command.lower() + _terse(steps))
            here = points[-1]
    return tuple(contours)


def _terse(numbers: Sequence[float]) -> str:
    """Numbers as short as path data allows: no leading nought, no space before a minus sign."""
    texts = [re.sub(r"^(-?)0\.", r"\1.", length(number)) for number in numbers]
    return texts[0] + "".join(text if text[0] == "-" else f" {text}" for text in texts[1:])
