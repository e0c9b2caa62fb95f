"""Packed web fonts: WOFF and WOFF2 unpacked to OpenType, never to more than a font may have.

What a file claims of its size is added up before anything is unpacked, and no more than that is
ever unpacked (W3C, "WOFF File Format 1.0" and "WOFF File Format 2.0").
"""

import io
import struct
import zlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from types import ModuleType
from typing import Any

from letterfit.errors import FontError
from letterfit.lettering.fonts.tables import ADVICE, COLLECTION, LARGEST_FONT, WOFF

LARGEST_WOFF2 = 8 * 2**20
"""Bytes of a WOFF2 font when unpacked; those fonts are made small for the web."""

LARGEST_OUTLINES, MOST_GLYPHS = 384 * 2**10, 8192
"""Bytes and number of the TrueType outlines of a WOFF2 font. They are rebuilt glyph by glyph, which
takes a second for that many; fonts of alphabets have 50 to 200 kB and up to 3000 glyphs."""

WHOLE = "give the whole file, or the same font as .ttf or .otf"
EXTRA = "pip install brotli, or give the same font as .ttf or .otf"


def unpacked(content: bytes, *, source: str) -> bytes:
    """The OpenType font that is packed in a WOFF or WOFF2 file.

    Args:
        content: The bytes of the file.
        source: What to call it in an error.

    Raises:
        FontError: When the file is damaged or claims too much, or when it is WOFF2 and its
            unpacker, the extra `letterfit[woff2]`, is not installed.
    """
    try:
        return _woff(content, source) if content[:4] == WOFF else _woff2(content, source)
    except (struct.error, zlib.error):
        raise FontError("the web font is damaged", advice=WHOLE, source=source) from None


def _woff(content: bytes, source: str) -> bytes:
    """WOFF 1.0, sections 3 to 5: each table packed alone by zlib, or as it is."""
    flavour, _, count = struct.unpack_from(">4sLH", content, 4)
    entries = [struct.unpack_from(">4sLLLL", content, 44 + 20 * k) for k in range(count)]
    _check_claim(sum(entry[3] for entry in entries), LARGEST_FONT, source)
    tables: dict[bytes, bytes] = {}
    for tag, offset, packed, size, _ in entries:
        data = content[offset : offset + packed]
        if packed < size:
            data = zlib.decompressobj().decompress(data, size + 1) if size else b""
        if len(data) != size:
            raise FontError("the web font is damaged", advice=WHOLE, source=source)
        tables.setdefault(tag, data)
    return _opentype(flavour, tables)


def _woff2(content: bytes, source: str) -> bytes:
    """WOFF 2.0: all tables packed in one stream by Brotli, outlines rebuilt by fontTools."""
    brotli = _brotli(source)
    from fontTools.ttLib import woff2  # noqa: PLC0415 - late: few fonts need it

    if content[4:8] == COLLECTION:
        raise FontError("this is a packed collection", advice="unpack it to .ttc", source=source)
    with _stumbling(source):
        packed, entries = _directory(content, woff2)
        size = sum(entry.length for entry in entries)
    _check_claim(max(size, sum(entry.origLength for entry in entries)), LARGEST_WOFF2, source)
    with _stumbling(source):
        stream = brotli.Decompressor().process(packed, output_buffer_limit=size + 1)
    if len(stream) != size:
        raise FontError("the web font is damaged", advice=WHOLE, source=source)
    _check_outlines(stream, entries, source)
    with _stumbling(source):
        reader = woff2.WOFF2Reader(io.BytesIO(content))
        tables = {str(tag).encode("latin-1"): bytes(reader[tag]) for tag in reader.tables}
    _check_claim(sum(map(len, tables.values())), LARGEST_FONT, source)
    return _opentype(content[4:8], tables)


def _check_outlines(stream: bytes, entries: Sequence[Any], source: str) -> None:
    """Complain about more outlines than can be rebuilt in a moment (WOFF 2.0, section 5.1)."""
    start = 0
    for entry in entries:
        if entry.tag == "glyf" and entry.transformed:
            glyphs = int.from_bytes(stream[start + 4 : start + 6])
            if entry.length > LARGEST_OUTLINES or glyphs > MOST_GLYPHS:
                raise FontError(
                    f"this WOFF2 font has more than {LARGEST_OUTLINES // 2**10} kB of outlines, or "
                    f"more than {MOST_GLYPHS} glyphs",
                    advice="give the same font as .ttf or .otf",
                    source=source,
                )
        start += entry.length


@contextmanager
def _stumbling(source: str) -> Iterator[None]:
    """Whatever the unpackers stumble over, and they raise all kinds, is damage in the file."""
    try:
        yield
    except Exception:  # noqa: BLE001 - see above
        raise FontError("the web font is damaged", advice=WHOLE, source=source) from None


def _brotli(source: str) -> Any:  # noqa: ANN401 - it has no types
    """The unpacker of WOFF2."""
    try:
        import brotli  # noqa: PLC0415 - an extra
    except ImportError:
        raise FontError("a WOFF2 font needs Brotli", advice=EXTRA, source=source) from None
    return brotli


def _directory(content: bytes, woff2: ModuleType) -> tuple[bytes, list[Any]]:
    """The packed stream, and the tables that the directory claims to be in it."""
    (count,) = struct.unpack_from(">H", content, 12)
    (packed,) = struct.unpack_from(">L", content, 20)
    file = io.BytesIO(content)
    file.seek(woff2.woff2DirectorySize)
    entries = []
    for _ in range(count):
        entry = woff2.WOFF2DirectoryEntry()
        entry.fromFile(file)
        entries.append(entry)
    return content[file.tell() : file.tell() + packed], entries


def _check_claim(size: int, largest: int, source: str) -> None:
    if size > largest:
        raise FontError(
            f"the web font claims to unpack to more than {largest // 2**20} MB",
            advice=ADVICE,
            source=source,
        )


def _opentype(flavour: bytes, tables: Mapping[bytes, bytes]) -> bytes:
    """The tables as an OpenType file, sorted by tag, each at a multiple of four bytes.

    Check sums are left at zero: nothing that measures looks at them.
    """
    start = 12 + 16 * len(tables)
    head, body = [struct.pack(">4sHHHH", flavour, len(tables), 0, 0, 0)], []
    for tag in sorted(tables):
        data = tables[tag]
        head.append(struct.pack(">4sLLL", tag, 0, start, len(data)))
        body.append(data + bytes(-len(data) % 4))
        start += len(body[-1])
    return b"".join([*head, *body])
