"""Vertical text to try: its fonts, and where a column's ink stands as the page sees it.

Fonts: `tests/data/fonts/`; M PLUS Rounded 1c is on the em's grid, Yusei Magic states a vertical
advance of its own for every glyph. Both have vertical metrics and vertical forms; `without()` takes
them away.
"""

import functools
import io
from pathlib import Path
from typing import NamedTuple

import numpy as np
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import SetLine, Words

FONTS = Path(__file__).parents[1] / "data" / "fonts"
GRID = FONTS / "MPLUSRounded1c" / "MPLUSRounded1c-500Medium.ttf"
BRUSH = FONTS / "YuseiMagic" / "YuseiMagic-400Regular.ttf"

EM = 10 * 25.4 / 72
"""10 pt in mm."""


class Box(NamedTuple):
    """Ink in em on the page: x from the column's centre line, y from the column's top."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the box."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    @property
    def size(self) -> tuple[float, float]:
        """Width and height."""
        return self.right - self.left, self.bottom - self.top


@functools.cache
def font_bytes(path: Path, *tables: str) -> bytes:
    """A font without some of its tables."""
    font = TTFont(io.BytesIO(path.read_bytes()))
    for table in tables:
        del font[table]
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


@functools.cache
def lettering(path: Path = GRID, *without: str) -> Lettering:
    """Columns of 10 pt in a font, as typed."""
    source = font_bytes(path, *without) if without else path
    typeface = open_typeface(source)
    return Lettering(typeface=typeface, size_pt=10, case="as-typed", writing="vertical")


def column(text: str, path: Path = GRID, *without: str) -> tuple[Words, SetLine]:
    """A text as one column, and its words."""
    words = measure(text, lettering(path, *without), language="ja")
    return words, words.line(0, len(words) - 1)


def ink(text: str, path: Path = GRID, *without: str) -> list[Box]:
    """The ink of each glyph of a column, as the page sees it."""
    _, line = column(text, path, *without)
    along0, across0, along1, across1 = (line.ink / EM).T
    page = np.stack([-across1 - 0.5, along0, -across0 - 0.5, along1], axis=-1)
    return [Box(*row) for row in page.tolist()]
