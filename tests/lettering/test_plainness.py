"""Plain faces: proved from the fonts' own tables, which fontTools reads."""

from collections.abc import Iterator
from io import BytesIO

import pytest
from fontTools.misc.xmlWriter import XMLWriter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.otBase import BaseTable

from letterfit.lettering import Face, open_typeface
from letterfit.lettering.plainness import PLAIN_FAMILIES, is_plain
from tests.box_font import box_font

BASE_GLYPHS_ARE_SKIPPED = 0x0002
"""OpenType 1.9.1, "OpenType Layout Common Table Formats", lookupFlag IGNORE_BASE_GLYPHS."""


def reasons(face: Face) -> list[str]:
    """Why the space may take part in shaping: none when a font is plain.

    A space takes part when a table names it, when kerning by classes has a value for the class that
    it falls into without being named, when a context goes by classes, or when a lookup skips base
    glyphs and so could look across it.
    """
    font = TTFont(BytesIO(face.file.read()), fontNumber=face.index)
    space = font.getBestCmap()[0x20]
    found = ["kern"] if "kern" in font else []
    for tag, flag, subtable in _subtables(font):
        name = f"{tag} {type(subtable).__name__}"
        if flag & BASE_GLYPHS_ARE_SKIPPED or _names(subtable, font, space):
            found.append(name)
        if "Context" in name and subtable.Format == 2:
            found.append(f"{name} by classes")
        if name == "GPOS PairPos" and subtable.Format == 2 and _kerns_class(subtable, space):
            found.append(f"{name} by classes")
    return found


def _subtables(font: TTFont) -> Iterator[tuple[str, int, BaseTable]]:
    for tag in ("GSUB", "GPOS"):
        lookups = font[tag].table.LookupList if tag in font else None
        for lookup in lookups.Lookup if lookups else ():
            for subtable in lookup.SubTable:
                yield tag, lookup.LookupFlag, getattr(subtable, "ExtSubTable", subtable)


def _names(subtable: BaseTable, font: TTFont, glyph: str) -> bool:
    written = BytesIO()
    subtable.toXML(XMLWriter(written), font)
    return f'"{glyph}"' in written.getvalue().decode()


def _kerns_class(subtable: BaseTable, glyph: str) -> bool:
    second = subtable.ClassDef2.classDefs.get(glyph, 0)
    values = [
        value
        for record in subtable.Class1Record
        for value in (record.Class2Record[second].Value1, record.Class2Record[second].Value2)
        if value is not None
    ]
    return any(any(vars(value).values()) for value in values)


@pytest.mark.parametrize("family", sorted(PLAIN_FAMILIES))
def test_the_space_takes_no_part_in_the_families_named(family: str) -> None:
    """No table of any of their faces has to do with the space."""
    for face in open_typeface(family).faces:
        assert reasons(face) == []
        assert is_plain(face)


def test_a_family_that_kerns_spaces_is_not_among_them() -> None:
    """Balsamiq Sans does: the proof finds it out, and it is not trusted."""
    face = open_typeface("Balsamiq Sans").styled("regular")
    assert reasons(face)
    assert not is_plain(face)


@pytest.mark.parametrize(
    "font", [box_font(kerning=((" ", "A", -50),)), box_font(kerning=(("A", " ", -50),))]
)
def test_the_proof_finds_a_planted_pair(font: bytes) -> None:
    """A font with one pair of a letter and a space is found out."""
    assert reasons(open_typeface(font).styled("regular"))


def test_a_users_font_is_never_trusted() -> None:
    """Its name may be any."""
    assert not is_plain(open_typeface(box_font()).styled("regular"))
