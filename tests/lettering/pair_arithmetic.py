"""Widths of plain capitals by hand arithmetic: advances of hmtx plus pair values of GPOS.

Written from the OpenType specification (1.9.1, GPOS, lookup type 2) on fontTools' tables alone: no
shaping engine has a part in it.
"""

import io
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from fontTools.ttLib import TTFont


class PairArithmetic:
    """A font's advances and kerning, by table lookups.

    >>> from tests.box_font import box_font
    >>> PairArithmetic(box_font(kerning=(("A", "V", -80),))).width_em("AVA")
    1.72
    """

    def __init__(self, content: bytes) -> None:
        self.font = TTFont(io.BytesIO(content))
        self.cmap: dict[int, str] = self.font.getBestCmap()
        self.upem = int(self.font["head"].unitsPerEm)

    def width_em(self, text: str) -> float:
        """Sum of the advances and of the kerning of neighbours."""
        names = [self.cmap[ord(char)] for char in text]
        total = sum(self.font["hmtx"][name][0] for name in names)
        return float(total + sum(self.kern(a, b) for a, b in pairwise(names))) / self.upem

    def kern(self, left: str, right: str) -> int:
        """What the kern lookups add between two glyphs: by the first subtable that knows it."""
        total = 0
        for subtables in self._lookups():
            total += next(
                (found for s in subtables if (found := _pair(s, left, right)) is not None), 0
            )
        return total

    def _lookups(self) -> Iterator[list[Any]]:
        if "GPOS" not in self.font:
            return
        table = self.font["GPOS"].table
        for number in _kern_lookups(table):
            subtables = [
                getattr(s, "ExtSubTable", s) for s in table.LookupList.Lookup[number].SubTable
            ]
            yield [s for s in subtables if s.LookupType == 2]


def _kern_lookups(table: Any) -> list[int]:  # noqa: ANN401 - fontTools tables have no types
    """The lookups of the feature kern for the script latn, default language."""
    scripts = {record.ScriptTag: record.Script for record in table.ScriptList.ScriptRecord}
    script = scripts.get("latn") or scripts["DFLT"]
    features = [table.FeatureList.FeatureRecord[k] for k in script.DefaultLangSys.FeatureIndex]
    kerns = [f.Feature.LookupListIndex for f in features if f.FeatureTag == "kern"]
    return sorted({number for numbers in kerns for number in numbers})


def _pair(subtable: Any, left: str, right: str) -> int | None:  # noqa: ANN401 - as above
    """The change of the left glyph's advance, None when the subtable does not know the pair."""
    if left not in subtable.Coverage.glyphs:
        return None
    if subtable.Format == 1:
        records = subtable.PairSet[subtable.Coverage.glyphs.index(left)].PairValueRecord
        known = {record.SecondGlyph: record.Value1 for record in records}
        return _advance(known[right]) if right in known else None
    row = subtable.ClassDef1.classDefs.get(left, 0)
    column = subtable.ClassDef2.classDefs.get(right, 0)
    return _advance(subtable.Class1Record[row].Class2Record[column].Value1)


def _advance(value: Any) -> int:  # noqa: ANN401 - as above
    return int(getattr(value, "XAdvance", 0) or 0)
