"""Font files: where the bytes of a font come from, and that they are a font at all."""

import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from letterfit.errors import FontError
from letterfit.files import NoOrdinaryFileError, read_ordinary
from letterfit.lettering.fonts.bundled import read_bundled
from letterfit.lettering.fonts.tables import (
    ADVICE,
    LARGEST_FONT,
    MOST_FACES,
    WEB_FONTS,
    check_tables,
)

__all__ = ["LARGEST_FONT", "MOST_FACES", "FontFile", "font_file", "read_font"]


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
    """The user's font, its bytes checked; a packed web font is unpacked.

    Args:
        content: The bytes of a font file or a collection.
        source: What to call it in an error.

    Raises:
        FontError: When the bytes are no font that can be measured.
    """
    if not content:
        raise FontError("the font is empty", advice=ADVICE, source=source)
    _check_size(len(content), source)
    if content[:4] in WEB_FONTS:
        from letterfit.lettering.fonts.webfont import unpacked  # noqa: PLC0415 - few fonts are packed

        content = unpacked(content, source=source)
    check_tables(content, source=source)
    return FontFile(hashlib.sha256(content).hexdigest(), content)


def read_font(path: Path) -> FontFile:
    """The font file at `path`, its bytes checked.

    Raises:
        FontError: When there is none, it cannot be read, or it is no font.
    """
    source = str(path)
    try:
        content = read_ordinary(path, most_bytes=LARGEST_FONT + 1)
    except (OSError, ValueError) as error:
        raise FontError(_unreadable(error), advice=ADVICE, source=source) from None
    return font_file(content, source=source)


def _unreadable(error: OSError | ValueError) -> str:
    """Why no font can be read there."""
    if isinstance(error, NoOrdinaryFileError):
        return "this is a pipe or a device, no font file"
    if isinstance(error, FileNotFoundError):
        return "there is no such font file"
    if isinstance(error, IsADirectoryError):
        return "this is a folder, no font file"
    reason = getattr(error, "strerror", None) or "the path is impossible"
    return f"the font cannot be read ({reason})"


def _check_size(size: int, source: str) -> None:
    if size > LARGEST_FONT:
        raise FontError(
            f"the font has more than {LARGEST_FONT // 2**20} MB", advice=ADVICE, source=source
        )
