"""A face: one style of a typeface, and what HarfBuzz knows of it.

A `Face` is a plain value that says where its font's bytes are. The HarfBuzz objects, which cannot
be copied or sent to another process, stand in an `Engine` built from the bytes when they are first
needed, once in each process.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import uharfbuzz as hb

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.fonts.coverage import blank_characters, is_visible, mapped_characters
from letterfit.lettering.fonts.drawing import bitmap_box, contours, ink_box, path_data
from letterfit.lettering.fonts.fontfile import FontFile
from letterfit.outline import Floats

HYPHENS = "\u2010\u2011"
"""The hyphen and the no-break hyphen; most fonts have only the hyphen-minus."""

MOST_GLYPHS = 0x10000
"""Glyph numbers of OpenType are 16 bits long."""

OPEN_FACES = 128
"""How many faces a process keeps open; a script uses about ten."""


@dataclass(frozen=True, slots=True)
class Face:
    """One style of a typeface.

    Args:
        name: What it is called among the faces of its typeface, such as "Grandstander Bold".
        family: Its family's name.
        style: Its style.
        file: The font file.
        index: Its number in a collection of fonts.
        variations: Settings of a variable font: axis and value.

    All lengths are in em, heights upwards from the baseline.

    >>> import letterfit as lf
    >>> face = lf.open_typeface("bangers").styled("regular")
    >>> face.name, round(face.cap_height_em, 2), face.advance_em("M") > face.advance_em("I")
    ('Bangers Regular', 0.74, True)
    """

    name: str
    family: str
    style: Style
    file: FontFile
    index: int = 0
    variations: tuple[tuple[str, float], ...] = ()

    def __hash__(self) -> int:
        """By name and file alone: faces are looked up all the time, and differ in these."""
        return hash((self.name, self.file.key))

    @property
    def cap_height_em(self) -> float:
        """Height of the ink of H; of the tallest capital or letter where there is no H."""
        return self._top_of("HEXxABOabo")

    @property
    def x_height_em(self) -> float:
        """Height of the ink of x; of H where there is no x."""
        return self._top_of("xvzuH")

    def advance_em(self, char: str) -> float:
        """The advance in em of one character, `char`, unkerned; else of the missing glyph."""
        known = engine(self)
        glyph = known.font.get_nominal_glyph(ord(char)) or 0
        return float(known.font.get_glyph_h_advance(glyph)) / known.upem

    def _top_of(self, letters: str) -> float:
        known = engine(self)
        for letter in letters:
            glyph = known.font.get_nominal_glyph(ord(letter))
            if glyph:
                top = -float(known.inks(np.array([glyph]))[0, 1])
                if top > 0:
                    return top
        # A font without Latin letters: what it says of itself, else the usual share of an em.
        stated = known.font.get_metric_position(hb.OTMetricsTag.CAP_HEIGHT)
        return stated / known.upem if stated else 0.7


Features = Mapping[str, bool | Sequence[tuple[int, int, int]]] | None
"""OpenType features as HarfBuzz takes them: on, off, or on for stretches of the shaped text."""


class Engine:
    """HarfBuzz's font of one face, and what was asked of it before.

    Attributes:
        font: HarfBuzz's font, scaled to font units.
        upem: Font units per em.
        chars: The characters it can set; a visible one whose glyph is blank is none of them.
        blank: Visible characters that the font maps to a glyph without ink.
        spelling: Characters it sets by another one's glyph: both Unicode hyphens by "-".
    """

    __slots__ = ("_known", "_table", "blank", "chars", "font", "spelling", "upem")

    def __init__(self, face: Face) -> None:
        data = hb.Face(face.file.read(), face.index)
        self.font = hb.Font(data)
        if face.variations:
            self.font.set_variations(dict(face.variations))
        self.upem = int(data.upem)
        count = min(int(data.glyph_count), MOST_GLYPHS)
        if not count or not len(data.unicodes):
            raise FontError(
                f"{face.name} has no glyphs that can be measured",
                advice="give another file of this font",
            )
        self._table: Floats = np.full((count, 4), np.nan)
        self._known = np.zeros(count, dtype=np.bool_)
        mapped = mapped_characters(self.font, face.name)
        # The bundled fonts are known to be whole: a test looks at every glyph.
        self.blank = frozenset[str]()
        if face.file.content is not None:
            self.blank = blank_characters(self.font, mapped)
            if not any(is_visible(char) for char in mapped - self.blank):
                raise FontError(
                    f"every glyph of {face.name} is blank", advice="give another file of this font"
                )
        mapped -= self.blank
        self.spelling = {c: "-" for c in HYPHENS if "-" in mapped and c not in mapped}
        self.chars = mapped.union(self.spelling)

    def shape(self, buffer: hb.Buffer, features: Features = None) -> None:
        """Shape what is in a buffer.

        Raises:
            FontError: When the font makes so many glyphs of it that HarfBuzz gives up.
        """
        try:
            hb.shape(self.font, buffer, dict(features) if features else None)
        except MemoryError:
            raise FontError(
                "the font makes more glyphs of a text than any line holds",
                advice="give another file of this font",
            ) from None

    def inks(self, glyphs: npt.NDArray[np.int64]) -> Floats:
        """The ink boxes of glyphs in em: left, top, right, bottom, y downwards.

        Args:
            glyphs: Shape (g,), glyph numbers.

        Returns:
            Shape (g, 4); a row of NaN for a glyph without ink.
        """
        # A broken font may substitute a glyph that it does not have: take its missing glyph.
        glyphs = np.where(glyphs < len(self._known), glyphs, 0)
        new = glyphs[~self._known[glyphs]]
        for glyph in sorted(set(new.tolist())):
            box = ink_box(contours(self.font, glyph)) or bitmap_box(self.font, glyph)
            if box and all(map(math.isfinite, box)):
                self._table[glyph] = np.array(box) / self.upem
            self._known[glyph] = True
        found: Floats = self._table[glyphs]
        return found


@lru_cache(maxsize=OPEN_FACES)
def engine(face: Face) -> Engine:
    """The face, opened by HarfBuzz; the same object for the same face.

    Raises:
        FontError: When the font holds nothing that can be measured.
    """
    return Engine(face)


def glyph_path(face: Face, glyph_id: int) -> str:
    """The outline of a glyph as SVG path data in font units, x to the right, y DOWNWARDS.

    Scale it by `Glyph.em_mm / units_per_em(face)`; with y downwards no mirroring is needed.
    Empty for a glyph without ink, and for a number the face does not have.
    """
    return path_data(contours(engine(face).font, glyph_id))


def units_per_em(face: Face) -> int:
    """How many font units go into an em."""
    return engine(face).upem
