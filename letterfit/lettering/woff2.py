"""WOFF2 files unpacked to tables: one stream for all of them, packed by Brotli.

W3C, "WOFF File Format 2.0". Brotli is an extra, imported late; no more than the directory claims
is ever unpacked.
"""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from letterfit.errors import FontError
from letterfit.lettering.woff2_outlines import Outlines, rebuilt, rebuilt_metrics
from letterfit.lettering.woff2_streams import base_128

EXTRA = "install letterfit[woff2], or give the same font as .ttf or .otf"

HEAD = 48
OTHER_TAG = 63
"""The index that says that a tag is spelled out."""

TAGS = (
    "cmap head hhea hmtx maxp name OS/2 post cvt_ fpgm glyf loca prep CFF_ VORG EBDT EBLC "
    "gasp hdmx kern LTSH PCLT VDMX vhea vmtx BASE GDEF GPOS GSUB EBSC JSTF MATH CBDT CBLC "
    "COLR CPAL SVG_ sbix acnt avar bdat bloc bsln cvar fdsc feat fmtx fvar gvar hsty just "
    "lcar mort morx opbd prop trak Zapf Silf Glat Gloc Feat Sill"
)
KNOWN_TAGS = tuple(tag.replace("_", " ").encode() for tag in TAGS.split())
"""The tags by index (section 4.1)."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A table of the directory.

    Args:
        tag: Its tag.
        size: Its size when all is unpacked.
        packed: Its size in the stream.
        is_changed: Whether it stands there in another form.
    """

    tag: bytes
    size: int
    packed: int
    is_changed: bool


def read_directory(content: bytes) -> tuple[tuple[Entry, ...], bytes]:
    """The directory of a WOFF2 file, and its packed stream.

    Raises:
        IndexError, struct.error: When it is cut short.
    """
    (count,) = struct.unpack_from(">H", content, 12)
    (size,) = struct.unpack_from(">L", content, 20)
    entries, at = [], HEAD
    for _ in range(count):
        entry, at = _entry(content, at)
        entries.append(entry)
    return tuple(entries), content[at : at + size]


def unpacked_tables(
    entries: tuple[Entry, ...], packed: bytes, *, source: str
) -> dict[bytes, bytes]:
    """The tables by tag, as they stand in an OpenType file.

    Args:
        entries: The directory.
        packed: The packed stream.
        source: What to call the font in an error.

    Raises:
        FontError: When Brotli is not installed.
        IndexError, KeyError, ValueError, struct.error: When the stream is damaged.
    """
    stream = _unpacked(packed, sum(entry.packed for entry in entries), source)
    tables: dict[bytes, bytes] = {}
    changed = set()
    at = 0
    for entry in entries:
        if entry.tag not in tables:
            tables[entry.tag] = stream[at : at + entry.packed]
            changed |= {entry.tag} if entry.is_changed else set()
        at += entry.packed
    if b"glyf" in changed:
        outlines = rebuilt(tables[b"glyf"])
        tables |= _outline_tables(tables, outlines)
        if b"hmtx" in changed:
            (full,) = struct.unpack_from(">H", tables[b"hhea"], 34)
            tables[b"hmtx"] = rebuilt_metrics(tables[b"hmtx"], lefts=outlines.lefts, full=full)
    elif changed:
        raise ValueError  # metrics without the outlines they were taken from
    return tables


def _outline_tables(tables: Mapping[bytes, bytes], outlines: Outlines) -> dict[bytes, bytes]:
    """The outlines, where they are, and "head" with the long format of "loca" stated."""
    head = bytearray(tables[b"head"])
    struct.pack_into(">h", head, 50, 1)
    return {b"glyf": outlines.glyf, b"loca": outlines.loca, b"head": bytes(head)}


def _entry(content: bytes, at: int) -> tuple[Entry, int]:
    flags = content[at]
    at += 1
    if flags & 0x3F == OTHER_TAG:
        tag = content[at : at + 4]
        at += 4
    else:
        tag = KNOWN_TAGS[flags & 0x3F]
    version = flags >> 6
    is_changed = version == 0 if tag in {b"glyf", b"loca"} else version != 0
    if is_changed and tag not in {b"glyf", b"loca", b"hmtx"}:
        raise ValueError
    size, at = base_128(content, at)
    packed = size
    if is_changed:
        packed, at = base_128(content, at)
    return Entry(tag, size, packed, is_changed), at


def _unpacked(packed: bytes, size: int, source: str) -> bytes:
    """The stream, of exactly the size that was claimed."""
    brotli = _brotli(source)
    unpacker = brotli.Decompressor()
    try:
        stream = bytes(unpacker.process(packed, output_buffer_limit=size + 1))
    except brotli.error:
        raise ValueError from None
    if len(stream) != size:
        raise ValueError
    return stream


def _brotli(source: str) -> Any:  # noqa: ANN401 - it has no types
    """The unpacker."""
    try:
        import brotli  # noqa: PLC0415 - an extra
    except ImportError:
        raise FontError("a WOFF2 font needs Brotli", advice=EXTRA, source=source) from None
    return brotli
