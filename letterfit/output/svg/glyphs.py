"""Lettering as outlines: glyphs become path data on the page, no font needed to see them.

Path data is in whole micrometres, to be drawn inside a group that scales them to mm: short, and
exact to a tenth of a platesetter's dot. A glyph's contours are kept as relative moves, each taken
from rounded absolute positions so that no error adds up: drawing a glyph again costs one absolute
start per contour. Glyphs are drawn directly, not by reference: painting programs that cannot
follow a reference would lose the lettering.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType

from letterfit.fit.model import Line
from letterfit.geometry import Point
from letterfit.lettering.words import Glyph, SetLine
from letterfit.output.svg.elements import tag

GlyphSource = Callable[[str, int], tuple[str, float]]
"""Face name and glyph number to path data in font units, y downwards, and the units of an em."""

Contour = tuple[int, int, str]
"""Where a contour starts, from the glyph's origin in micrometres, and the rest of it as moves."""

PER_MM = 1000
KNOWN_GLYPHS = 4096
"""Glyphs kept between pages; a page has about eighty."""

NAMELESS: Mapping[str, str] = MappingProxyType({})
"""The names of a group that has none."""

_COMMAND = re.compile(r"([MLQCZ])([^MLQCZ]*)")
_NUMBER = re.compile(r"-?\d*\.?\d+(?:e[+-]?\d+)?")


class Glyphs:
    """Draws lines of lettering; keeps every glyph it has drawn.

    Args:
        source: Where the outlines come from.
    """

    def __init__(self, source: GlyphSource) -> None:
        self._source = source
        self._known: dict[tuple[str, int, float, bool], tuple[Contour, ...]] = {}

    def stack(
        self,
        lines: Sequence[Line],
        centre: Point,
        *,
        colour: str,
        names: Mapping[str, str] = NAMELESS,
    ) -> str:
        """A group with a path for each line of a stack, about its outline's centre in mm.

        Args:
            lines: The lines.
            centre: The outline's centre, mm.
            colour: Of the letters.
            names: The group's id and label.
        """
        drawn = (
            self.stack_line(line, Point(centre.x + line.x_mm, centre.y + line.baseline_mm))
            for line in lines
        )
        return group(drawn, colour=colour, name="lettering", names=names)

    def stack_line(self, line: Line, origin: Point) -> str:
        """As `line`, of a line of a stack."""
        return self.line(line.glyphs, origin)

    def line(self, glyphs: Sequence[Glyph], origin: Point) -> str:
        """An element in micrometres, of glyphs whose line starts at a point of the page in mm.

        Nothing when none has ink.
        """
        path = self.path(glyphs, origin)
        return tag("path", {"d": path}) if path else ""

    def set_line(self, line: SetLine, origin: Point) -> str:
        """As `line`, of a line that says what it reads."""
        return self.line(line.glyphs, origin)

    def path(self, glyphs: Sequence[Glyph], origin: Point) -> str:
        """Path data in micrometres of glyphs whose line starts at a point of the page in mm.

        Glyphs that are turned are rotated by 90 degrees clockwise about their own origins.
        """
        parts = []
        for glyph in glyphs:
            x = round((origin.x + glyph.x_mm) * PER_MM)
            y = round((origin.y + glyph.y_mm) * PER_MM)
            for left, top, rest in self._contours(glyph):
                parts.append(f"M{x + left} {y + top}{rest}")
        return "".join(parts)

    def _contours(self, glyph: Glyph) -> tuple[Contour, ...]:
        key = (glyph.face, glyph.glyph_id, glyph.em_mm, glyph.turned)
        if key not in self._known:
            path, units = self._source(glyph.face, glyph.glyph_id)
            self._known[key] = relative_contours(
                path, PER_MM * glyph.em_mm / units, turned=glyph.turned
            )
        return self._known[key]


def group(
    lines: Iterable[str], *, colour: str, name: str, names: Mapping[str, str] = NAMELESS
) -> str:
    """Lines in micrometres as one filled group in mm; nothing when none has ink."""
    drawn = [line for line in lines if line]
    scale = {**names, "class": name, "fill": colour, "transform": f"scale({1 / PER_MM:g})"}
    return tag("g", scale, drawn) if drawn else ""


@lru_cache(maxsize=KNOWN_GLYPHS)
def relative_contours(path: str, scale: float, *, turned: bool = False) -> tuple[Contour, ...]:
    """Absolute path data (M, L, Q, C, Z) scaled, as contours in relative moves.

    Args:
        path: In font units, y downwards.
        scale: Micrometres per font unit.
        turned: Whether to rotate by 90 degrees clockwise about the origin.

    >>> relative_contours("M0 0L100 0L100 -50Z", 2.5)
    ((0, 0, 'l250 0l0-125z'),)
    >>> relative_contours("M0 0L100 0L100 -50Z", 2.5, turned=True)
    ((0, 0, 'l0 250l125 0z'),)
    """
    contours: list[Contour] = []
    start, here = (0, 0), (0, 0)
    moves: list[str] = []
    for command, values in _COMMAND.findall(path):
        numbers = [round(float(number) * scale) for number in _NUMBER.findall(values)]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        if turned:
            points = [(-y, x) for x, y in points]
        if command == "M":
            start, here, moves = points[0], points[0], []
        elif command == "Z":
            contours.append((*start, "".join(moves) + "z"))
        else:
            x, y = here
            steps = [f"{px - x}" + f" {py - y}".replace(" -", "-") for px, py in points]
            moves.append(command.lower() + " ".join(steps).replace(" -", "-"))
            here = points[-1]
    return tuple(contours)
