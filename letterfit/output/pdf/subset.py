"""A face cut down to the glyphs that a document uses, to be embedded in it.

TrueType outlines become a font file of the tables that ISO 32000-1, 9.9, asks for; CFF outlines the
bare CFF table. A variable font is set to the face's own place on its axes first.
"""

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from letterfit.lettering import Face, embedding
from letterfit.lettering.fonts.face import engine

TRUETYPE_TABLES = frozenset({"glyf", "head", "hhea", "hmtx", "loca", "maxp"})
"""Without cvt, fpgm and prep: hints serve screens, and are dropped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Subset:
    """A font program.

    Args:
        kind: Its outlines.
        data: Its bytes.
        codes: The code, or CID, of each glyph of the face that was asked for.
        bbox: The box round all glyphs in thousandths of an em, y upwards.
        ascent: Thousandths of an em.
        descent: Thousandths of an em, downwards negative.
    """

    kind: Literal["truetype", "cff"]
    data: bytes
    codes: Mapping[int, int]
    bbox: tuple[int, int, int, int]
    ascent: int
    descent: int


def why_not(face: Face) -> str:
    """Why a face is not embedded, to follow its name; empty when it may be."""
    says = embedding(face)
    if says.is_restricted or not says.subsetting:
        return says.words
    tables = set(engine(face).font.face.table_tags)
    if not tables & {"glyf", "CFF ", "CFF2"}:
        return "has no outlines that a PDF can hold"
    return ""


def subset(face: Face, glyphs: Sequence[int]) -> Subset | None:
    """The face with these glyphs alone, and those they are made of; None if it is damaged.

    Args:
        face: The face.
        glyphs: Numbers of its glyphs.

    Returns:
        The same bytes for the same glyphs, whatever their order.
    """
    try:
        return _cut_down(face, sorted(set(glyphs)))
    except Exception:  # noqa: BLE001 - a damaged font may fail anywhere in fontTools
        return None


def _cut_down(face: Face, glyphs: Sequence[int]) -> Subset:
    from fontTools.subset import Options, Subsetter  # noqa: PLC0415 - slow to import
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    font = TTFont(
        io.BytesIO(face.file.read()),
        fontNumber=face.index,
        recalcBBoxes=False,
        recalcTimestamp=False,
        lazy=True,
    )
    order = font.getGlyphOrder()
    names = {glyph: order[glyph] for glyph in glyphs}
    options = Options(
        layout_features=[],
        hinting=False,
        notdef_outline=True,
        name_IDs=[],
        glyph_names=False,
        drop_tables=[
            *Options().drop_tables,
            "GSUB",
            "GPOS",
            "GDEF",
            "BASE",
            "kern",
            "morx",
            "SVG ",
        ],
    )
    subsetter = Subsetter(options)
    subsetter.populate(gids=glyphs)
    subsetter.subset(font)
    if "fvar" in font:
        font = _instance(font, face)
    return _program(font, names)


def _instance(font: Any, face: Face) -> Any:  # noqa: ANN401 - fontTools has no types
    """The variable font at the face's place on its axes."""
    from fontTools.varLib.instancer import instantiateVariableFont  # noqa: PLC0415 - slow to import

    chosen = dict(face.variations)
    places = {
        axis.axisTag: min(
            max(chosen.get(axis.axisTag, axis.defaultValue), axis.minValue), axis.maxValue
        )
        for axis in font["fvar"].axes
    }
    more = {"downgradeCFF2": True} if "CFF2" in font else {}
    return instantiateVariableFont(font, places, inplace=True, **more)


def _program(font: Any, names: Mapping[int, str]) -> Subset:  # noqa: ANN401 - as above
    """What is embedded of a font that is cut down."""
    head, hhea = font["head"], font["hhea"]
    place = {name: number for number, name in enumerate(font.getGlyphOrder())}
    codes = {glyph: place[name] for glyph, name in names.items()}
    if "CFF " in font:
        kind: Literal["truetype", "cff"] = "cff"
        top = font["CFF "].cff.topDictIndex[0]
        if hasattr(top, "ROS"):  # by CID, not by number (ISO 32000-1, 9.7.4.2)
            codes = {glyph: int(name.removeprefix("cid")) for glyph, name in names.items()}
        data = font["CFF "].compile(font)
    else:
        kind = "truetype"
        for tag in set(font.keys()) - TRUETYPE_TABLES - {"GlyphOrder"}:
            del font[tag]
        written = io.BytesIO()
        font.save(written)
        data = written.getvalue()
    per_mille = 1000 / head.unitsPerEm
    left, low, right, high = (
        round(value * per_mille) for value in (head.xMin, head.yMin, head.xMax, head.yMax)
    )
    return Subset(
        kind=kind,
        data=bytes(data),
        codes=codes,
        bbox=(left, low, right, high),
        ascent=round(hhea.ascent * per_mille),
        descent=round(hhea.descent * per_mille),
    )
