"""Font files: where the bytes of a font come from, and whether they are a font at all.

HarfBuzz opens anything without complaint and then finds no glyphs: what is wrong with a file is
found out here, by the table directory that every OpenType file begins with (OpenType 1.9.1,
"Organization of an OpenType font").
"""

import hashlib
import struct
from dataclasses import dataclass, field
from pathlib import Path

from letterfit.errors import FontError
from letterfit.lettering.bundled import read_bundled

LARGEST_FONT = 64 * 2**20
"""Bytes. The largest font files in use, of Chinese characters, have about 30 MB."""

OPENTYPE = (b"\0\1\0\0", b"OTTO", b"true")
COLLECTION = b"ttcf"
WEB_FONTS = (b"wOFF", b"wOF2")
OUTLINES = frozenset({b"glyf", b"CFF ", b"CFF2", b"CBDT", b"sbix", b"SVG "})
ADVICE = "give a TrueType or OpenType file (.ttf, .otf, .ttc)"


@dataclass(frozen=True, slots=True)
class FontFile:
    """A font's bytes, or the place of a bundled font; equal when the bytes are.

    Args:
        key: Path of a bundled font, or the checksum (SHA-256) of the content.
        content: The bytes; None for a bundled font, which every process reads for itself.
    """

    key: str
    content: bytes | None = field(default=None, repr=False, compare=False)

    def read(self) -> bytes:
        """The bytes of the font.

        Raises:
            FontError: When a bundled font is missing.
        """
        return read_bundled(self.key) if self.content is None else self.content


def font_file(content: bytes, *, source: str) -> FontFile:
    """The user's font, its bytes checked.

    Args:
        content: The bytes of a font file or a collection.
        source: What to call it in an error.

    Raises:
        FontError: When the bytes are no font that can be measured.
    """
    if not content:
        raise FontError("the font is empty", advice=ADVICE, source=source)
    if len(content) > LARGEST_FONT:
        raise FontError(
            f"the font has more than {LARGEST_FONT // 2**20} MB", advice=ADVICE, source=source
        )
    if content[:4] in WEB_FONTS:
        raise FontError("this is a packed web font", advice=ADVICE, source=source)
    for start in _directories(content, source):
        _check_directory(content, start, source)
    return FontFile(hashlib.sha256(content).hexdigest(), content)


def read_font(path: Path) -> FontFile:
    """The font file at `path`, its bytes checked.

    Raises:
        FontError: When there is none, it cannot be read, or it is no font.
    """
    source = str(path)
    try:
        if not path.is_file():
            raise FontError("there is no such font file", advice=ADVICE, source=source)
        if path.stat().st_size > LARGEST_FONT:
            raise FontError(
                f"the font has more than {LARGEST_FONT // 2**20} MB", advice=ADVICE, source=source
            )
        return font_file(path.read_bytes(), source=source)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the path is impossible"
        raise FontError(
            f"the font cannot be read ({reason})", advice=ADVICE, source=source
        ) from None


def _directories(content: bytes, source: str) -> tuple[int, ...]:
    """Where the table directories start: one, or one for each font of a collection."""
    if content[:4] != COLLECTION:
        return (0,)
    try:
        (count,) = struct.unpack_from(">L", content, 8)
        return struct.unpack_from(f">{min(count, 256)}L", content, 12)
    except struct.error:
        raise FontError("the font file is cut short", advice=ADVICE, source=source) from None


def _check_directory(content: bytes, start: int, source: str) -> None:
    """Complain unless the tables that measuring needs are there, whole."""
    if content[start : start + 4] not in OPENTYPE:
        raise FontError("this is not a font", advice=ADVICE, source=source)
    try:
        (count,) = struct.unpack_from(">H", content, start + 4)
        records = [struct.unpack_from(">4sLLL", content, start + 12 + 16 * k) for k in range(count)]
    except struct.error:
        raise FontError("the font file is cut short", advice=ADVICE, source=source) from None
    if any(offset + length > len(content) for _, _, offset, length in records):
        raise FontError("the font file is cut short", advice=ADVICE, source=source)
    tags = {tag for tag, _, _, length in records if length}
    missing = [tag.decode() for tag in (b"cmap", b"head", b"hmtx", b"maxp") if tag not in tags]
    if missing or not tags & OUTLINES:
        lost = ", ".join(missing) or "glyph outlines"
        raise FontError(f"the font has no {lost}", advice=ADVICE, source=source)
