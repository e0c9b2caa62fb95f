"""Lettering by reference: every glyph's shape stands in the document once, and every word.

A page of outlines is half a megabyte, a whole issue ten; references make it a tenth of that. They
are followed by every browser, unlike by every drawing program (`letterfit.output.svg.glyphs`).
"""

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from letterfit.geometry import Point
from letterfit.lettering.words import Glyph
from letterfit.output.svg.elements import Names, tag
from letterfit.output.svg.glyphs import PER_MM, Glyphs, GlyphSource, relative_contours

SPACE_EM = 0.15
"""More than this between the ink of a glyph and the origin of the next is a space."""

_NUMBER = re.compile(r"-?\d*\.?\d+(?:e[+-]?\d+)?")


class Shape(NamedTuple):
    """The shape of a glyph.

    Args:
        name: Its id in the document; empty without ink.
        units: The units of its font's em.
        right: Where its ink ends, in those units.
    """

    name: str
    units: float
    right: float


Spot = tuple[str, int, int]
"""The id of a shape, and where its origin stands, in font units."""


class SharedGlyphs(Glyphs):
    """Draws lines of lettering as uses of words, and words as uses of shapes in font units.

    Args:
        source: Where the outlines come from.
        names: What gives out ids.
    """

    def __init__(self, source: GlyphSource, names: Names) -> None:
        super().__init__(source)
        self._names = names
        self._shapes: dict[tuple[str, int, bool], Shape] = {}
        self._words: dict[tuple[Spot, ...], str] = {}
        self._drawn: list[str] = []

    def line(self, glyphs: Sequence[Glyph], origin: Point) -> str:
        """An element in micrometres, of glyphs whose line starts at a point of the page in mm."""
        drawn = []
        for (em_mm, units), run in groupby(glyphs, key=self._size):
            uses = "".join(self._word(word, units / em_mm) for word in self._words_of(run))
            if uses:
                x, y = round(origin.x * PER_MM), round(origin.y * PER_MM)
                scale = f"{PER_MM * em_mm / units:.5f}".rstrip("0").rstrip(".")
                drawn.append(tag("g", {"transform": f"translate({x} {y})scale({scale})"}, [uses]))
        return "".join(drawn)

    def shapes(self) -> str:
        """The shapes and words used so far, each once, in the order of their first use."""
        return tag("defs", {}, self._drawn)

    def _size(self, glyph: Glyph) -> tuple[float, float]:
        """The em of a glyph in mm, and the units of its font's em."""
        return glyph.em_mm, self._shape(glyph).units

    def _words_of(self, run: Iterator[Glyph]) -> Iterator[list[Glyph]]:
        """The words of a run: glyphs with ink that stand close.

        A wrong guess costs some characters, and moves nothing.
        """
        word: list[Glyph] = []
        reach = 0.0
        for glyph in run:
            shape = self._shape(glyph)
            if not shape.name:
                continue
            if word and glyph.x_mm - reach > SPACE_EM * glyph.em_mm:
                yield word
                word = []
            word.append(glyph)
            reach = glyph.x_mm + shape.right * glyph.em_mm / shape.units
        if word:
            yield word

    def _word(self, word: Sequence[Glyph], per_mm: float) -> str:
        """A use of a word; of its one shape where it has but one."""
        first = word[0]
        spots = tuple(
            (
                self._shape(glyph).name,
                round((glyph.x_mm - first.x_mm) * per_mm),
                round((glyph.y_mm - first.y_mm) * per_mm),
            )
            for glyph in word
        )
        name = spots[0][0] if len(spots) == 1 else self._named(spots)
        return use(name, x=round(first.x_mm * per_mm), y=round(first.y_mm * per_mm))

    def _named(self, spots: tuple[Spot, ...]) -> str:
        """The id of a word."""
        if spots not in self._words:
            self._words[spots] = self._names.new(f"w{len(self._words)}")
            shapes = "".join(use(shape, x=x, y=y) for shape, x, y in spots)
            self._drawn.append(tag("g", {"id": self._words[spots]}, [shapes]))
        return self._words[spots]

    def _shape(self, glyph: Glyph) -> Shape:
        key = (glyph.face, glyph.glyph_id, glyph.turned)
        if key not in self._shapes:
            path, units = self._source(glyph.face, glyph.glyph_id)
            contours = relative_contours(path, 1.0, turned=glyph.turned)
            data = "".join(f"M{left} {top}{rest}" for left, top, rest in contours)
            name = self._names.new(f"g{len(self._shapes)}") if data else ""
            right = max((float(x) for x in _NUMBER.findall(path)[::2]), default=0.0)
            self._shapes[key] = Shape(name, units, right)
            if data:
                self._drawn.append(tag("path", {"id": name, "d": data}))
        return self._shapes[key]


def use(name: str, *, x: int, y: int) -> str:
    """A reference to a shape at a place.

    >>> use("g3", x=120, y=0)
    '<use href="#g3" x="120"/>'
    """
    across, down = f' x="{x}"' if x else "", f' y="{y}"' if y else ""
    return f'<use href="#{name}"{across}{down}/>'
