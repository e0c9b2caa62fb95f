"""The tables of a font file: that those which measuring needs are there, whole, and no traps.

HarfBuzz opens anything without complaint and then finds no glyphs: what is wrong with a file is
found out here, by the table directory that every OpenType file begins with (OpenType 1.9.1,
"Organization of an OpenType font"). Inside the tables HarfBuzz checks every offset itself.
"""

import struct

from letterfit.errors import FontError

LARGEST_FONT = 64 * 2**20
"""Bytes. The largest font files in use, of Chinese characters, have about 30 MB."""

MOST_FACES = 256
"""Faces of a collection that are looked at; the largest in use have some dozens."""

MOST_AXES, MOST_INSTANCES = 64, 1024
"""Of a variable font; the fonts richest in axes have about twenty."""

FVAR_HEAD, FVAR_AXIS = 16, 20
"""Bytes of the head of "fvar", and of each axis there."""

OPENTYPE = (b"\0\1\0\0", b"OTTO", b"true")
COLLECTION = b"ttcf"
WOFF, WOFF2 = b"wOFF", b"wOF2"
WEB_FONTS = (WOFF, WOFF2)
NEEDED = (b"cmap", b"head", b"hmtx", b"maxp")
OUTLINES = frozenset({b"glyf", b"CFF ", b"CFF2", b"CBDT", b"sbix", b"SVG "})
ADVICE = "give a font file (.ttf, .otf, .ttc, .woff or .woff2)"

Table = tuple[bytes, int, int]
"""Tag, offset and length."""


def check_tables(content: bytes, *, source: str) -> None:
    """Complain about bytes that are no font which can be measured.

    Args:
        content: The bytes of an OpenType file or collection.
        source: What to call it in an error.

    Raises:
        FontError: When tables are missing or cut short, or claim what no font has.
    """
    for start in _directories(content, source):
        tables = _directory(content, start, source)
        if any(offset + length > len(content) for _, offset, length in tables):
            raise FontError("the font file is cut short", advice=ADVICE, source=source)
        _check_needed(tables, source)
        _check_axes(content, tables, source)


def _directories(content: bytes, source: str) -> tuple[int, ...]:
    """Where the table directories start: one, or one for each font of a collection."""
    if content[:4] != COLLECTION:
        return (0,)
    try:
        (count,) = struct.unpack_from(">L", content, 8)
        return struct.unpack_from(f">{min(count, MOST_FACES)}L", content, 12)
    except struct.error:
        raise FontError("the font file is cut short", advice=ADVICE, source=source) from None


def _directory(content: bytes, start: int, source: str) -> list[Table]:
    """The tables of one font; of two with one tag the first, as HarfBuzz takes it."""
    if content[start : start + 4] not in OPENTYPE:
        raise FontError("this is not a font", advice=ADVICE, source=source)
    try:
        (count,) = struct.unpack_from(">H", content, start + 4)
        records = [struct.unpack_from(">4sLLL", content, start + 12 + 16 * k) for k in range(count)]
    except struct.error:
        raise FontError("the font file is cut short", advice=ADVICE, source=source) from None
    return [(tag, offset, length) for tag, _, offset, length in records]


def _check_needed(tables: list[Table], source: str) -> None:
    """Complain unless the tables that measuring needs are there."""
    tags = {tag for tag, _, length in tables if length}
    missing = [tag.decode() for tag in NEEDED if tag not in tags]
    if missing or not tags & OUTLINES:
        lost = ", ".join(missing) or "glyph outlines"
        raise FontError(f"the font has no {lost}", advice=ADVICE, source=source)


def _check_axes(content: bytes, tables: list[Table], source: str) -> None:
    """Complain about a variable font whose axes are like no font's (OpenType 1.9.1, "fvar")."""
    for tag, offset, length in tables:
        if tag != b"fvar" or length < FVAR_HEAD:
            continue
        fvar = content[offset : offset + length]
        first, _, axes, _, instances = struct.unpack_from(">5H", fvar, 4)
        if axes > MOST_AXES or instances > MOST_INSTANCES:
            raise FontError(
                f"the font claims {axes} axes and {instances} named instances",
                advice=ADVICE,
                source=source,
            )
        for k in range(axes):
            name = fvar[first + k * FVAR_AXIS :][:4]
            if not all(0x20 <= byte < 0x7F for byte in name):
                raise FontError("an axis of the font has no name", advice=ADVICE, source=source)
