"""Fonts that were made to harm: loops, explosions, impossible claims, names full of traps.

All are the box font with one thing changed, so that each attack stands alone.
"""

import io
import struct
from itertools import pairwise

from fontTools.cffLib import SubrsIndex
from fontTools.feaLib.builder import addOpenTypeFeaturesFromString
from fontTools.fontBuilder import FontBuilder
from fontTools.misc.psCharStrings import T2CharString
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphComponent

from tests.box_font import CHARACTERS, advance, box_font, draw_box, ink

LINE_ENDS = "Nib\r\n\x1b[2J\u202eBold\u2028\x00"


def saved(font: TTFont) -> bytes:
    """The bytes of a font."""
    stream = io.BytesIO()
    font.save(stream)
    return stream.getvalue()


def opened(content: bytes | None = None) -> TTFont:
    """The box font, or another, ready for changes."""
    return TTFont(io.BytesIO(content or box_font()), recalcBBoxes=False, recalcTimestamp=False)


def with_table(tag: str, data: bytes, content: bytes | None = None) -> bytes:
    """The box font with one table of raw bytes."""
    font = opened(content)
    table = newTable(tag)
    table.decompile = lambda *_: None
    table.compile = lambda *_: data
    font[tag] = table
    font.tables[tag] = table
    return saved(font)


def cmap_of_groups(groups: bytes, *, form: int) -> bytes:
    """A "cmap" of one subtable in format 12 or 13 (OpenType 1.9.1)."""
    head = struct.pack(">HHHHL", 0, 1, 3, 10, 12)
    size = 16 + len(groups)
    return head + struct.pack(">HHLLL", form, 0, size, 0, len(groups) // 12) + groups


def all_of_unicode() -> bytes:
    """Every code point there is mapped to one glyph, that of the space."""
    return with_table("cmap", cmap_of_groups(struct.pack(">LLL", 0, 0x10FFFF, 1), form=13))


def million_groups() -> bytes:
    """A million groups, every one of which claims all of Unicode."""
    group = struct.pack(">LLL", 0, 0x10FFFF, 1)
    return with_table("cmap", cmap_of_groups(group * 1_000_000, form=12))


def more_characters_than_there_are() -> bytes:
    """Twenty thousand groups of fifty characters, each of which has a glyph."""
    groups = b"".join(struct.pack(">LLL", 50 * k, 50 * k + 49, 1) for k in range(20_000))
    return with_table("cmap", cmap_of_groups(groups, form=12))


def many_glyphs() -> bytes:
    """A count of glyphs far beyond those that are there."""
    content = bytearray(box_font())
    at = content.index(b"maxp")
    (offset,) = struct.unpack_from(">L", content, at + 8)
    struct.pack_into(">H", content, offset + 4, 0xFFFF)
    return bytes(content)


def composite_of(parts: dict[str, tuple[str, ...]]) -> bytes:
    """The box font with these glyphs made of other glyphs."""
    font = opened()
    for name, components in parts.items():
        glyph = Glyph()
        glyph.numberOfContours = -1
        glyph.components = []
        for used in components:
            component = GlyphComponent()
            component.glyphName, component.x, component.y, component.flags = used, 10, 10, 0x0206
            glyph.components.append(component)
        glyph.xMin = glyph.yMin = 0
        glyph.xMax = glyph.yMax = 700
        font["glyf"][name] = glyph
    return saved(font)


def looping_composite() -> bytes:
    """A is made of B, B of C, C of A."""
    return composite_of({"u0041": ("u0042",), "u0042": ("u0043",), "u0043": ("u0041",)})


def bursting_composite() -> bytes:
    """Each capital is eight times the next: 8 to the power of 25 boxes."""
    names = [f"u{code:04X}" for code in range(0x41, 0x5B)]
    return composite_of({a: (b,) * 8 for a, b in pairwise(names)})


def bursting_substitution(*, rounds: int = 40) -> bytes:
    """Every A becomes two, forty times over."""
    lookups = "".join(f"lookup L{k} {{ sub u0041 by u0041 u0041; }} L{k};\n" for k in range(rounds))
    uses = "".join(f"lookup L{k};\n" for k in range(rounds))
    font = opened()
    addOpenTypeFeaturesFromString(font, f"{lookups} feature ccmp {{ {uses} }} ccmp;")
    return saved(font)


def cff_font(
    program: list[object] | None = None,
    *,
    subroutine: list[object] | None = None,
    characters: str = CHARACTERS,
) -> bytes:
    """The box font with PostScript outlines (CFF).

    Args:
        program: What draws A instead of its box.
        subroutine: The font's only local subroutine.
        characters: What it covers.
    """
    names = {c: f"u{ord(c):04X}" if c != " " else "space" for c in characters}
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder([".notdef", *names.values()])
    builder.setupCharacterMap({ord(c): name for c, name in names.items()})
    drawn = {".notdef": _box((50, 0, 550, 700)), **{n: _box(ink(c)) for c, n in names.items()}}
    builder.setupCFF("BoxCFF", {}, drawn, {})
    widths = {".notdef": (600, 50), **{n: (advance(c), 50) for c, n in names.items()}}
    builder.setupHorizontalMetrics(widths)
    builder.setupHorizontalHeader(ascent=900, descent=-300)
    builder.setupNameTable({"familyName": "Box CFF", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=700, sxHeight=500, fsType=0)
    builder.setupPost()
    if program is not None:
        builder.font.recalcBBoxes = False  # it would run the program
        top = builder.font["CFF "].cff.topDictIndex[0]
        top.CharStrings["u0041"].program = program
    if subroutine is not None:
        _add_subroutine(builder.font, subroutine)
    return saved(builder.font)


def looping_subroutine() -> bytes:
    """A subroutine that calls itself."""
    return cff_font([-107, "callsubr", "endchar"], subroutine=[-107, "callsubr", "return"])


def _add_subroutine(font: TTFont, program: list[object]) -> None:
    private = font["CFF "].cff.topDictIndex[0].Private
    private.Subrs = SubrsIndex()
    private.Subrs.append(T2CharString(program=program))


def _box(box: tuple[int, int, int, int] | None) -> object:
    pen = T2CharStringPen(600, None)
    draw_box(pen, box)
    return pen.getCharString()


def named_font(family: str, *, style: str = "Regular") -> bytes:
    """The box font under another name."""
    font = opened()
    font["name"].names = [name for name in font["name"].names if name.platformID == 3]
    for record in font["name"].names:
        if record.nameID in {1, 16}:
            record.string = family
        if record.nameID in {2, 17}:
            record.string = style
    return saved(font)


def blank_font(characters: str) -> bytes:
    """The box font with these characters mapped to glyphs without ink."""
    font = opened()
    for char in characters:
        font["glyf"][f"u{ord(char):04X}"] = Glyph()
    return saved(font)


def axes_font(*, count: int = 1, tag: bytes = b"wght") -> bytes:
    """The box font with so many axes of that tag, from 100 to 900 (OpenType 1.9.1, "fvar")."""
    axis = struct.pack(">4s3lHH", tag, 100 << 16, 400 << 16, 900 << 16, 0, 256)
    head = struct.pack(">8H", 1, 0, 16, 2, count, 20, 0, 4 + 4 * count)
    return with_table("fvar", head + axis * count)
