"""The bundled Grandstander with its outlines as CFF, by name or by CID: fonts as .otf files are."""

import functools
import io

from fontTools.cffLib import FDArrayIndex, FDSelect, FontDict
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.bundled import BUNDLED, read_bundled

LETTERS = [chr(code) for code in range(0x20, 0x7F)]
FIRST_CID, STEP = 100, 3
"""CIDs that are no glyph numbers."""


@functools.cache
def cff_font(*, by_cid: bool) -> bytes:
    """The font of ASCII, every glyph with its quadratic curves raised to cubic ones."""
    source = TTFont(io.BytesIO(read_bundled(BUNDLED["Grandstander"].path_of("regular"))))
    shapes, mapped = source.getGlyphSet(), source.getBestCmap()
    named = {letter: mapped[ord(letter)] for letter in LETTERS}
    called = {
        letter: f"cid{FIRST_CID + STEP * number:05d}" if by_cid else f"letter{ord(letter)}"
        for number, letter in enumerate(LETTERS)
    }
    order = [".notdef", *called.values()]
    drawn, metrics = {}, {}
    for name, origin in [(".notdef", ".notdef"), *((called[c], named[c]) for c in LETTERS)]:
        pen = T2CharStringPen(shapes[origin].width, shapes)
        shapes[origin].draw(pen)
        drawn[name] = pen.getCharString()
        metrics[name] = (shapes[origin].width, 0)
    builder = FontBuilder(source["head"].unitsPerEm, isTTF=False)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({ord(letter): name for letter, name in called.items()})
    builder.setupCFF("Gate-Regular", {}, drawn, {})
    builder.setupHorizontalMetrics(metrics)
    builder.setupHorizontalHeader(ascent=source["hhea"].ascent, descent=source["hhea"].descent)
    builder.setupNameTable({"familyName": "Gate", "styleName": "Regular"})
    builder.setupOS2(fsType=0)
    builder.setupPost()
    if by_cid:
        _number(builder.font)
    stream = io.BytesIO()
    builder.font.save(stream)
    return stream.getvalue()


def _number(font: TTFont) -> None:
    """Make the font CID-keyed (Adobe Technical Note 5176, section 18)."""
    table = font["CFF "].cff
    top = table.topDictIndex[0]
    part = FontDict()
    part.Private = top.Private
    parts = FDArrayIndex()
    parts.strings = None
    parts.append(part)
    select = FDSelect(format=3)
    select.gidArray = [0] * len(font.getGlyphOrder())
    top.ROS = ("Adobe", "Identity", 0)
    top.CIDCount = FIRST_CID + STEP * len(LETTERS)
    top.FDArray, top.FDSelect = parts, select
    top.CharStrings.fdArray, top.CharStrings.fdSelect = parts, select
    del top.Private
    for name in font.getGlyphOrder():
        top.CharStrings[name].fdSelectIndex = 0
