"""What a font says of its licence, and whether it may be embedded in a file. No legal advice.

OS/2 fsType by OpenType 1.9.1 ("OS/2", fsType): bits 0 to 3 say how a font may be embedded, bit 8
that it must not be subsetted, bit 9 that only its bitmaps may be embedded. Bits 8 and 9 came with
version 2 of the table: in versions 0 and 1 they say nothing. Since version 3 at most one of bits
1, 2 and 3 may be set; where an older table sets several, the least restrictive holds.
"""

import struct
from dataclasses import dataclass
from typing import Literal

import uharfbuzz as hb

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.fonts.naming import notice_of

Permission = Literal["installable", "editable", "preview", "restricted", "unstated"]

RESTRICTED, PREVIEW, EDITABLE = 0x0002, 0x0004, 0x0008
NO_SUBSETTING, BITMAPS_ONLY = 0x0100, 0x0200

FREEST_FIRST: tuple[tuple[int, Permission], ...] = (
    (EDITABLE, "editable"),
    (PREVIEW, "preview"),
    (RESTRICTED, "restricted"),
)

WORDS: dict[Permission, str] = {
    "installable": "may be embedded and installed",
    "editable": "may be embedded in documents that can be edited",
    "preview": "may be embedded in documents for viewing and printing only",
    "restricted": "must not be embedded without its owner's leave",
    "unstated": "does not say whether it may be embedded",
}

NO_ADVICE = "What fonts say of themselves is no legal advice: their licence decides."


@dataclass(frozen=True, slots=True, kw_only=True)
class Embedding:
    """How a font may be embedded, as it says itself.

    Args:
        permission: "installable", "editable", "preview" (viewing and printing), "restricted"; or
            "unstated" when the font has no OS/2 table.
        subsetting: Whether a part of it may be embedded.
        outlines: Whether its outlines may be embedded, and not its bitmaps alone.
        contradictory: Whether it states several permissions where only one may stand; the most
            restrictive is taken then.

    >>> Embedding(permission="preview", subsetting=False).words
    'may be embedded in documents for viewing and printing only, whole, not in part'
    """

    permission: Permission
    subsetting: bool = True
    outlines: bool = True
    contradictory: bool = False

    @property
    def words(self) -> str:
        """The permission in plain words, to follow the font's name."""
        parts = [WORDS[self.permission]]
        if not self.subsetting:
            parts.append("whole, not in part")
        if not self.outlines:
            parts.append("its bitmaps alone")
        if self.contradictory:
            parts.append("but contradicts itself")
        return ", ".join(parts)

    @property
    def is_restricted(self) -> bool:
        """Whether its outlines must not be embedded at all."""
        return self.permission == "restricted" or not self.outlines


@dataclass(frozen=True, slots=True, kw_only=True)
class Licence:
    """What a font says of its licence, each in one line, empty where it says nothing.

    Args:
        text: The licence (name 13).
        url: Where it can be read (name 14).
        copyright: Who owns the font (name 0).

    >>> import letterfit as lf
    >>> lf.font_facts(lf.open_typeface("bangers")).licence.url
    'https://scripts.sil.org/OFL'
    """

    text: str
    url: str
    copyright: str


def embedding(face: Face) -> Embedding:
    """How a face's font may be embedded.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> embedding(open_typeface("Bangers").styled("regular")).permission
    'installable'
    """
    data = engine(face).font.face.reference_table("OS/2").data
    if len(data) < 10:
        return Embedding(permission="unstated")
    version, _, _, _, bits = struct.unpack_from(">HhHHH", data)
    return read_fs_type(bits, version=version)


def read_fs_type(bits: int, *, version: int) -> Embedding:
    """What the bits of OS/2 fsType say.

    Args:
        bits: The field.
        version: The version of the OS/2 table.

    >>> read_fs_type(0x0006, version=1).permission, read_fs_type(0x0006, version=4).permission
    ('preview', 'restricted')
    """
    stated = [permission for bit, permission in FREEST_FIRST if bits & bit]
    strict = version >= 3
    chosen: Permission = (stated[-1] if strict else stated[0]) if stated else "installable"
    later = bits if version >= 2 else 0
    return Embedding(
        permission=chosen,
        subsetting=not later & NO_SUBSETTING,
        outlines=not later & BITMAPS_ONLY,
        contradictory=strict and len(stated) > 1,
    )


def licence(face: Face) -> Licence:
    """What a face's font says of its licence.

    >>> from letterfit.lettering.fonts.typeface import open_typeface
    >>> licence(open_typeface("Bangers").styled("regular")).url
    'https://scripts.sil.org/OFL'
    """
    font, name = engine(face).font.face, hb.OTNameIdPredefined
    return Licence(
        text=notice_of(font, name.LICENSE),
        url=notice_of(font, name.LICENSE_URL),
        copyright=notice_of(font, name.COPYRIGHT),
    )
