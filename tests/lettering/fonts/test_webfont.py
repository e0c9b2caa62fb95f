"""Packed web fonts: unpacked they measure as before, damaged they are refused, no bomb goes off."""

import functools
import io
import struct
import sys
import zlib
from collections.abc import Callable

import brotli
import pytest
from fontTools.ttLib import TTFont
from fontTools.ttLib.woff2 import WOFF2FlavorData

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import read_bundled
from letterfit.lettering.fonts.fontfile import font_file
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font
from tests.lettering.hostile_fonts import cff_font

TEXT = "THE TIDE TURNED AN HOUR AGO, AVA; TO LY. Ñ"
PACKINGS = ("woff", "woff2")


def packed(content: bytes, packing: str) -> bytes:
    """The font packed by fontTools."""
    font = TTFont(io.BytesIO(content), recalcTimestamp=False)
    font.flavor = packing
    stream = io.BytesIO()
    font.save(stream)
    return stream.getvalue()


@pytest.mark.parametrize("packing", PACKINGS)
@pytest.mark.parametrize(
    "content",
    [box_font(contextual=True), cff_font(), read_bundled("Grandstander/Grandstander-Bold.ttf")],
    ids=["TrueType", "PostScript", "bundled"],
)
def test_a_packed_font_measures_as_the_font_itself(content: bytes, packing: str) -> None:
    """Every width and every box of ink is the same."""
    plain, unpacked = (
        measure(TEXT, Lettering(typeface=open_typeface(font)))
        for font in (content, packed(content, packing))
    )
    last = len(plain) - 1
    assert unpacked.line(0, last).width_mm == plain.line(0, last).width_mm
    assert [g.glyph_id for p in unpacked.pieces for g in p.glyphs] == [
        g.glyph_id for p in plain.pieces for g in p.glyphs
    ]


@pytest.mark.parametrize("packing", PACKINGS)
def test_the_tables_are_those_that_another_reader_unpacks(packing: str) -> None:
    """Byte by byte those of fontTools' own reader."""
    content = packed(read_bundled("Bangers/Bangers-Regular.ttf"), packing)
    ours = TTFont(io.BytesIO(font_file(content, source="").read()))
    theirs = TTFont(io.BytesIO(content))
    assert ours.reader.keys() == theirs.reader.keys()
    for tag in list(theirs.reader.keys()):
        assert ours.reader[tag] == theirs.reader[tag], tag


def points(font: TTFont, name: str) -> tuple[object, ...]:
    """All that draws one glyph: box, contours, points, components."""
    glyph = font["glyf"][name]
    glyph.expand(font["glyf"])
    if not glyph.numberOfContours:
        return ()
    box = (glyph.xMin, glyph.yMin, glyph.xMax, glyph.yMax)
    if glyph.isComposite():
        parts = [(c.glyphName, c.x, c.y, getattr(c, "transform", None)) for c in glyph.components]
        return (*box, parts)
    on_curve = [flag & 1 for flag in glyph.flags]
    return (*box, list(glyph.endPtsOfContours), list(glyph.coordinates), on_curve)


@pytest.mark.parametrize("path", ["Bangers/Bangers-Regular.ttf", "ComicNeue/ComicNeue-Italic.ttf"])
def test_every_outline_of_a_woff2_font_is_that_of_the_font_itself(path: str) -> None:
    """Points, boxes and components of each glyph, the metrics packed as well."""
    font = TTFont(io.BytesIO(read_bundled(path)), recalcTimestamp=False)
    font.flavor = "woff2"
    font.flavorData = WOFF2FlavorData(transformedTables={"glyf", "loca", "hmtx"})
    stream = io.BytesIO()
    font.save(stream)
    ours = TTFont(io.BytesIO(font_file(stream.getvalue(), source="").read()))
    theirs = TTFont(io.BytesIO(read_bundled(path)))
    assert ours["hmtx"].metrics == theirs["hmtx"].metrics
    kinds = set()
    for name in theirs.getGlyphOrder():
        assert points(ours, name) == points(theirs, name), name
        kinds.add(theirs["glyf"][name].numberOfContours)
    assert {-1, 0, 1} <= kinds


def test_more_outlines_than_can_be_rebuilt_in_a_moment_are_refused() -> None:
    """Sixty thousand empty glyphs in a hundred bytes."""
    count = 60_000
    head = struct.pack(">4H7L", 0, 0, count, 1, 2 * count, 0, 0, 0, 0, (count + 31) // 32 * 4, 0)
    outlines = head + bytes(2 * count + (count + 31) // 32 * 4)
    content = woff2(brotli.compress(outlines), len(outlines), table=b"\x0a")
    with pytest.raises(FontError, match="more than 8192 glyphs"):
        open_typeface(content)


@pytest.mark.parametrize("packing", PACKINGS)
@pytest.mark.parametrize("kept", [4, 12, 30, 47, 60, 100, 400, 2000])
def test_a_packed_font_cut_short_is_refused(packing: str, kept: int) -> None:
    """In the head, in the directory, in the tables."""
    content = packed(read_bundled("Bangers/Bangers-Regular.ttf"), packing)
    with pytest.raises(FontError, match="web font is damaged"):
        open_typeface(content[:kept])


@pytest.mark.parametrize("packing", PACKINGS)
def test_damaged_packed_fonts_are_refused_or_used(packing: str) -> None:
    """Bytes overwritten here and there: an error of ours, or a font."""
    content = packed(box_font(contextual=True), packing)
    refused = 0
    for seed in range(60):
        changed = bytearray(content)
        for k in range(1 + seed % 4):
            changed[(seed * 7919 + k * 104_729) % len(changed)] ^= 1 + (seed * 31 + k * 17) % 255
        try:
            open_typeface(bytes(changed))
        except FontError:
            refused += 1
    assert refused


def woff(tables: list[tuple[bytes, bytes, int]]) -> bytes:
    """A WOFF 1.0 file of tables: tag, packed bytes, and the size that is claimed."""
    start = 44 + 20 * len(tables)
    entries = b""
    for tag, data, size in tables:
        entries += struct.pack(">4sLLLL", tag, start, len(data), size, 0)
        start += len(data)
    head = struct.pack(">4s4sLHHLHHLLLLL", b"wOFF", b"\0\1\0\0", start, len(tables), 0, *[0] * 8)
    return head + entries + b"".join(data for _, data, _ in tables)


def woff2(stream: bytes, size: int, *, table: bytes = b"\x00") -> bytes:
    """A WOFF 2.0 file of one table, "cmap" or "glyf" (10), and the size that is claimed."""
    base128 = bytes(
        (size >> shift) & 0x7F | (0x80 if shift else 0) for shift in (28, 21, 14, 7, 0)
    ).lstrip(b"\x80")
    entry = table + base128 * (2 if table == b"\x0a" else 1)
    length = 48 + len(entry) + len(stream)
    head = struct.pack(
        ">4s4sLHHLLHHLLLLL", b"wOF2", b"\0\1\0\0", length, 1, 0, size, len(stream), *[0] * 7
    )
    return head + entry + stream


@functools.cache
def zlib_bomb() -> bytes:
    """Twenty megabytes of zeros in twenty kilobytes."""
    packer = zlib.compressobj(9)
    return b"".join([*(packer.compress(bytes(2**20)) for _ in range(20)), packer.flush()])


@functools.cache
def brotli_bomb() -> bytes:
    """Twenty megabytes of zeros in a hundred bytes."""
    packer = brotli.Compressor(quality=1)
    return b"".join([*(packer.process(bytes(2**20)) for _ in range(20)), packer.finish()])


@pytest.mark.parametrize(
    ("make", "what"),
    [
        (lambda: woff([(b"cmap", zlib_bomb(), 100 * 2**20)]), "more than 64 MB"),
        (lambda: woff([(b"cmap", b"x" * 100, 2**31), (b"head", b"x", 2**31)]), "more than 64 MB"),
        (lambda: woff([(b"cmap", zlib_bomb(), 200_000)]), "damaged"),
        (lambda: woff2(brotli_bomb(), 100 * 2**20), "more than 8 MB"),
        (lambda: woff2(brotli_bomb(), 1000), "damaged"),
        (lambda: woff2(brotli.compress(bytes(1000)), 999), "damaged"),
        (lambda: woff2(b"", 2**31), "more than 8 MB"),
        (lambda: b"wOF2ttcf" + bytes(100), "packed collection"),
    ],
)
def test_bombs_do_not_go_off(
    make: Callable[[], bytes], what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is claimed is refused before it is unpacked, and no more than the claim is unpacked."""

    def whole(_data: bytes) -> bytes:
        pytest.fail("unpacked without a limit")

    monkeypatch.setattr(brotli, "decompress", whole)
    with pytest.raises(FontError, match=what) as caught:
        open_typeface(make())
    assert caught.value.advice


def test_without_brotli_the_extra_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """WOFF2 says what to install; WOFF needs nothing."""
    monkeypatch.setitem(sys.modules, "brotli", None)
    with pytest.raises(FontError, match=r"needs Brotli; pip install brotli"):
        open_typeface(PACKED_WOFF2)
    assert open_typeface(packed(box_font(), "woff")).family == "Box"


PACKED_WOFF2 = packed(box_font(), "woff2")
