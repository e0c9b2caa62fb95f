"""Plain faces: proved from the fonts' own tables, which fontTools reads."""

from collections.abc import Collection, Iterator
from io import BytesIO

import pytest
from fontTools.misc.xmlWriter import XMLWriter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.otBase import BaseTable

from letterfit.lettering.fonts.face import Face
from letterfit.lettering.fonts.plainness import (
    PAIRWISE_FAMILIES,
    PLAIN_FAMILIES,
    is_pairwise,
    is_plain,
)
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.shaping.pair_book import MIDDLE_DOT, TYPOGRAPHIC
from letterfit.lettering.shaping.runs import LATIN_END
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


# --- pairs

DEFAULT_FEATURES = frozenset(
    ("rvrn", "ccmp", "locl", "rlig", "rclt", "calt", "liga", "clig", "kern", "dist", "curs", "mark")
)
"""Features that HarfBuzz applies to horizontal Latin text unasked (HarfBuzz manual, "Shaping and
shape plans"; from memory), besides those of numbers, which need a fraction slash."""


def shortsighted(face: Face) -> list[str]:
    """Why a letter may look farther than to the letter before it: none in a pairwise face.

    What changes letters by default is single substitutions, ligatures that two letters begin, and
    contexts in which something else than the letters of the book takes part, such as a combining
    mark; what moves them is the advance of a pair's first letter.
    """
    font = TTFont(BytesIO(face.file.read()), fontNumber=face.index)
    cmap = font.getBestCmap()
    latin = [code for code in cmap if 0x20 <= code < ord(LATIN_END) or chr(code) in TYPOGRAPHIC]
    letters = {cmap[code] for code in latin if chr(code) != MIDDLE_DOT}
    found = ["kern"] if "kern" in font else []
    for tag in ("GSUB", "GPOS"):
        for subtable in _by_default(font, tag):
            name = type(subtable).__name__
            if name == "SingleSubst" or "Mark" in name:
                continue
            if name == "LigatureSubst":
                found += _hidden_ligatures(subtable, letters)
            elif name == "PairPos":
                found += _far_pairs(subtable)
            elif not all(
                any(letters.isdisjoint(place) for place in context)
                for context in _contexts(subtable)
            ):
                found.append(f"{tag} {name}")
    return found


def _by_default(font: TTFont, tag: str) -> Iterator[BaseTable]:
    table = font[tag].table if tag in font else None
    if table is None or not table.LookupList:
        return
    records = table.FeatureList.FeatureRecord
    chosen = {
        index
        for record in records
        if record.FeatureTag in DEFAULT_FEATURES
        for index in record.Feature.LookupListIndex
    }
    for index in sorted(chosen):
        for subtable in table.LookupList.Lookup[index].SubTable:
            yield getattr(subtable, "ExtSubTable", subtable)


def _hidden_ligatures(subtable: BaseTable, letters: set[str]) -> list[str]:
    """Ligatures of three letters and more that no ligature of two letters begins."""
    return [
        f"ligature {first} {' '.join(ligature.Component)}"
        for first, ligatures in subtable.ligatures.items()
        for ligature in ligatures
        if len(ligature.Component) > 1
        and first in letters
        and letters.issuperset(ligature.Component)
        and [ligature.Component[0]] not in [other.Component for other in ligatures]
    ]


def _far_pairs(subtable: BaseTable) -> list[str]:
    """Pairs that move more than the first letter's advance."""
    if subtable.Format == 1:
        values = [
            value
            for pairs in subtable.PairSet
            for pair in pairs.PairValueRecord
            for value in (pair.Value1, pair.Value2)
        ]
        seconds = [pair.Value2 for pairs in subtable.PairSet for pair in pairs.PairValueRecord]
    else:
        records = [r for one in subtable.Class1Record for r in one.Class2Record]
        values = [value for record in records for value in (record.Value1, record.Value2)]
        seconds = [record.Value2 for record in records]
    moved = any(set(vars(value)) - {"XAdvance"} for value in values if value)
    return ["pairs move more than an advance"] if moved or any(seconds) else []


def _contexts(subtable: BaseTable) -> Iterator[list[Collection[str]]]:
    """The contexts of a lookup: of each, the glyphs that can stand at each of its places.

    Those by classes are given without a place: they may be anything.
    """
    chained = type(subtable).__name__.startswith("Chain")
    kind = "Chain" if chained else ""
    form = getattr(subtable, "Format", None)
    if form == 1:
        sets = getattr(subtable, f"{kind}SubRuleSet", ())
        for first, rules in zip(subtable.Coverage.glyphs, sets, strict=True):
            for rule in getattr(rules, f"{kind}SubRule") if rules else ():
                around = [*rule.Backtrack, *rule.LookAhead] if chained else []
                yield [{first}, *({glyph} for glyph in [*rule.Input, *around])]
    elif form == 3:
        around = [*subtable.BacktrackCoverage, *subtable.LookAheadCoverage] if chained else []
        inner = subtable.InputCoverage if chained else subtable.Coverage
        yield [place.glyphs for place in [*inner, *around]]
    else:
        yield []


@pytest.mark.parametrize("family", sorted(PAIRWISE_FAMILIES))
def test_letters_look_no_farther_than_one_letter_in_the_families_named(family: str) -> None:
    """No table of any of their faces looks farther."""
    for face in open_typeface(family).faces:
        assert shortsighted(face) == []
        assert is_pairwise(face)


def test_a_font_with_contexts_is_found_out() -> None:
    """A display face and a font made with a contextual alternate look farther."""
    for face in (
        open_typeface("Bangers").styled("regular"),
        open_typeface(box_font(contextual=True)).styled("regular"),
    ):
        assert shortsighted(face)
        assert not is_pairwise(face)
