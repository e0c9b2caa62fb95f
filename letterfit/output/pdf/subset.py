"""A face cut down to the glyphs that a document uses, to be embedded in it.

The glyphs are taken as HarfBuzz draws them, the very outlines that were measured, and written as
CFF (Adobe Technical Note 5176): so every kind of font is embedded in one way, a variable one at the
face's own place on its axes, and nothing else that a font file may hold gets into the document.
Hints, which serve screens, stay behind.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.lettering.fonts.drawing import Contour, contours
from letterfit.lettering.fonts.embedding import embedding
from letterfit.lettering.fonts.face import Face, engine

PER_EM = 1000
"""Units of an em in the document: a unit is 2.6 micrometres at 7.5 pt."""

OUTLINES = frozenset({"glyf", "CFF ", "CFF2"})
"""Tables that hold outlines; a font with none of them has pictures (OpenType 1.9.1)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Subset:
    """A font program.

    Args:
        data: A bare CFF table.
        codes: The code of each glyph of the face that was asked for, and of its glyph 0.
        widths: The advance of each glyph in thousandths of an em.
        box: The box round all its ink in thousandths of an em, y upwards.
    """

    data: bytes
    codes: Mapping[int, int]
    widths: Mapping[int, float]
    box: tuple[int, int, int, int]


def why_not(face: Face) -> str:
    """Why a face is not embedded, to follow its name; empty when it may be."""
    says = embedding(face)
    if says.is_restricted or not says.subsetting:
        return says.words
    if not OUTLINES & set(engine(face).font.face.table_tags):
        return "has no outlines that a PDF can hold"
    return ""


def subset(face: Face, glyphs: Sequence[int]) -> Subset:
    """The face with these glyphs alone, and its glyph for what is missing.

    Args:
        face: The face.
        glyphs: Numbers of its glyphs.

    Returns:
        The same bytes for the same glyphs, whatever their order.
    """
    from fontTools.fontBuilder import FontBuilder  # noqa: PLC0415 - slow to import

    known = engine(face)
    wanted = sorted({0, *glyphs})
    scale = PER_EM / known.upem
    codes = {glyph: code for code, glyph in enumerate(wanted)}
    widths = {glyph: known.font.get_glyph_h_advance(glyph) * scale for glyph in wanted}
    names = [f"g{code}" if code else ".notdef" for code in codes.values()]
    drawn = {
        name: _charstring(contours(known.font, glyph), width=widths[glyph], scale=scale)
        for name, glyph in zip(names, wanted, strict=True)
    }
    builder = FontBuilder(PER_EM, isTTF=False)
    builder.setupGlyphOrder(names)
    builder.setupCFF("Subset", {}, drawn, {})
    return Subset(
        data=bytes(builder.font["CFF "].compile(builder.font)),
        codes=codes,
        widths={glyph: round(width, 2) for glyph, width in widths.items()},
        box=_box(face, wanted),
    )


def _charstring(drawn: Sequence[Contour], *, width: float, scale: float) -> object:
    """A glyph's outline as a Type 2 charstring, quadratic curves raised to cubic ones."""
    from fontTools.pens.t2CharStringPen import T2CharStringPen  # noqa: PLC0415 - slow to import

    pen = T2CharStringPen(round(width), None)
    for contour in drawn:
        steps = [[(x * scale, -y * scale) for x, y in step] for step in contour]
        pen.moveTo(steps[0][0])
        for step in steps[1:]:
            draw = {1: pen.lineTo, 2: pen.qCurveTo, 3: pen.curveTo}[len(step)]
            draw(*step)
        pen.closePath()
    return pen.getCharString()


def _box(face: Face, glyphs: Sequence[int]) -> tuple[int, int, int, int]:
    inks = engine(face).inks(np.array(glyphs)) * PER_EM
    inks = inks[~np.isnan(inks).any(axis=1)]
    if not len(inks):
        return (0, 0, 0, 0)
    left, top = inks[:, :2].min(axis=0).tolist()
    right, bottom = inks[:, 2:].max(axis=0).tolist()
    return (round(left), round(-bottom), round(right), round(-top))
