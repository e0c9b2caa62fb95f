"""Values sent to other processes, fonts left behind: each process is sent a font once.

A user's font may have megabytes, and every task of a script needs it. So a packed value names its
fonts by the checksum of their content, and a process keeps the fonts that it was sent. One that
does not have a font says so (`MissingFontsError`), and is sent the value again, with it. Nothing
else than the tasks themselves has to reach the workers: no shared disk, no way back.
"""

import io
import pickle
from collections.abc import Iterable
from dataclasses import dataclass

from letterfit.lettering.fonts.fontfile import FontFile

MOST_FONTS = 64
"""How many fonts a process keeps; a typeface of the user's own has one to four."""

_KEPT: dict[str, FontFile] = {}
"""The fonts of this process by checksum. No lock: a process that is forked would inherit it."""


class MissingFontsError(LookupError):
    """A packed value names a font that this process was not sent."""


@dataclass(frozen=True, slots=True)
class Packed:
    """A value as bytes, without the fonts that it names.

    Args:
        data: The value; `unpacked` makes it again.
        fonts: The user's fonts in it; bundled ones are read wherever they are needed.
    """

    data: bytes
    fonts: tuple[FontFile, ...]


class _Packer(pickle.Pickler):
    def __init__(self, file: io.BytesIO) -> None:
        super().__init__(file)
        self.fonts: dict[str, FontFile] = {}

    def persistent_id(self, obj: object) -> str | None:
        if not isinstance(obj, FontFile) or obj.content is None:
            return None
        self.fonts[obj.key] = obj
        return obj.key


class _Unpacker(pickle.Unpickler):
    def persistent_load(self, pid: str) -> FontFile:
        try:
            return _KEPT[pid]
        except KeyError:
            raise MissingFontsError(pid) from None


def packed(value: object) -> Packed:
    """A value as bytes, and the fonts of the user's that it names; they are kept here as well.

    >>> from letterfit.lettering.settings import Lettering
    >>> packed(Lettering()).fonts
    ()
    """
    file = io.BytesIO()
    packer = _Packer(file)
    packer.dump(value)
    fonts = tuple(packer.fonts.values())
    keep_fonts(fonts)
    return Packed(file.getvalue(), fonts)


def unpacked(data: bytes) -> object:
    """The value that was packed.

    Args:
        data: As `packed` made it, by this project's own processes: it is a pickle.

    Raises:
        MissingFontsError: When this process was not sent a font of it.

    >>> unpacked(packed({"air_mm": 1.2}).data)
    {'air_mm': 1.2}
    """
    return _Unpacker(io.BytesIO(data)).load()


def keep_fonts(fonts: Iterable[FontFile]) -> None:
    """Keep fonts for values to come; those kept longest go when there are too many."""
    for font in fonts:
        _KEPT.pop(font.key, None)
        _KEPT[font.key] = font
    for key in list(_KEPT)[:-MOST_FONTS]:
        _KEPT.pop(key, None)
