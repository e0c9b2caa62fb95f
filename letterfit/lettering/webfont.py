"""Packed web fonts: WOFF and WOFF2 unpacked to OpenType, never to more than a font may have.

What a file claims of its size is added up before anything is unpacked, and no more than that is
ever unpacked (W3C, "WOFF File Format 1.0" and "WOFF File Format 2.0").
"""

import struct
import zlib
from collections.abc import Mapping

from letterfit.errors import FontError
from letterfit.lettering.tables import ADVICE, COLLECTION
from letterfit.lettering.woff2 import read_directory, unpacked_tables

WOFF, WOFF2 = b"wOFF", b"wOF2"
WEB_FONTS = (WOFF, WOFF2)

LARGEST_UNPACKED = 16 * 2**20
"""Bytes. Fonts are packed for the web to be small; one of Chinese characters has about 10 MB."""

WHOLE = "give the whole file, or the same font as .ttf or .otf"


def unpacked(content: bytes, *, source: str) -> bytes:
    """The OpenType font that is packed in a WOFF or WOFF2 file.

    Args:
        content: The bytes of the file.
        source: What to call it in an error.

    Raises:
        FontError: When the file is damaged or claims too much, or when it is WOFF2 and its
            unpacker, the extra `letterfit[woff2]`, is not installed.
    """
    if content[4:8] == COLLECTION:
        raise FontError("this is a packed collection", advice="unpack it to .ttc", source=source)
    try:
        tables = _woff(content, source) if content[:4] == WOFF else _woff2(content, source)
    except (IndexError, KeyError, ValueError, struct.error, zlib.error):
        raise FontError("the web font is damaged", advice=WHOLE, source=source) from None
    return _opentype(content[4:8], tables)


def _woff(content: bytes, source: str) -> dict[bytes, bytes]:
    """WOFF 1.0, sections 3 to 5: each table packed alone by zlib, or as it is."""
    (count,) = struct.unpack_from(">H", content, 12)
    entries = [struct.unpack_from(">4sLLLL", content, 44 + 20 * k) for k in range(count)]
    _check_claim(sum(entry[3] for entry in entries), source)
    tables: dict[bytes, bytes] = {}
    for tag, offset, packed, size, _ in entries:
        data = content[offset : offset + packed]
        if packed < size:
            data = zlib.decompressobj().decompress(data, size + 1)
        if len(data) != size:
            raise ValueError
        tables.setdefault(tag, data)
    return tables


def _woff2(content: bytes, source: str) -> dict[bytes, bytes]:
    """WOFF 2.0: all tables packed in one stream."""
    entries, packed = read_directory(content)
    _check_claim(max(sum(e.size for e in entries), sum(e.packed for e in entries)), source)
    return unpacked_tables(entries, packed, source=source)


def _check_claim(size: int, source: str) -> None:
    if size > LARGEST_UNPACKED:
        raise FontError(
            f"the web font claims to unpack to more than {LARGEST_UNPACKED // 2**20} MB",
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
