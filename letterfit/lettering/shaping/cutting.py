"""Cutting: lines and pieces out of a shaped text, in mm, with their ink and their glyphs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise, repeat
from typing import NamedTuple

import numpy as np

from letterfit.lettering.bidi.levels import visual_order
from letterfit.lettering.breaks.breaks import SHY
from letterfit.lettering.breaks.pieces import Stretch
from letterfit.lettering.shaping.glyph_table import Table
from letterfit.lettering.shaping.shaping import Shaped
from letterfit.lettering.words import Glyph, Ints, SetLine
from letterfit.outline import Floats


@dataclass(frozen=True, slots=True, eq=False)
class TextSetter:
    """Sets stretches of a shaped text; exact where neither end of a stretch is unsafe.

    Args:
        shaped: The text.
        em_mm: The type size.
    """

    shaped: Shaped
    em_mm: float

    def set_lines(self, stretches: Sequence[Stretch]) -> list[SetLine]:
        """The stretches as set, each from its own left end; they may overlap."""
        if not stretches:
            return []
        placed = self._placed(stretches)
        boxes = placed.boxes(self.shaped.table, self.em_mm)
        glyphs = _glyphs(self.shaped, placed, stretches, self.em_mm)
        starts, ends = self.shaped.spans(*zip(*stretches, strict=True))
        widths = ((ends - starts) * self.em_mm).tolist()
        text = self.shaped.source.text
        return [
            SetLine(text[start:end], width, boxes[first:last], glyphs[first:last])
            for (start, end), width, (first, last) in zip(
                stretches, widths, pairwise([0, *placed.ends.tolist()]), strict=True
            )
        ]

    def ink(self, stretches: Sequence[Stretch]) -> tuple[Floats, Ints]:
        """The ink boxes of all stretches, each from its own left end, and how many each has."""
        if not stretches:
            return np.zeros((0, 4)), np.zeros(0, dtype=np.int64)
        placed = self._placed(stretches)
        return placed.boxes(self.shaped.table, self.em_mm), np.diff(placed.ends, prepend=0)

    def scaled(self, factor: float) -> "TextSetter":
        """The same at `factor` times the size."""
        return replace(self, em_mm=self.em_mm * factor)

    def _placed(self, stretches: Sequence[Stretch]) -> "_Placed":
        """The glyphs of all stretches that have ink, placed in one go."""
        table = self.shaped.table
        low = table.glyphs_before([start for start, _ in stretches])
        high = table.glyphs_before([end for _, end in stretches])
        ends = np.cumsum(high - low)
        begins = ends - (high - low)
        chosen = np.arange(ends[-1]) + np.repeat(low - begins, high - low)
        origins = _origins(self.shaped, low, high, chosen)
        inked = table.inked[chosen]
        return _Placed(chosen[inked], origins[inked], np.concatenate([[0], np.cumsum(inked)])[ends])


class _Placed(NamedTuple):
    """Glyphs of several stretches.

    Args:
        chosen: The number of each glyph in the table.
        origins: Its origin from its stretch's left end, em, y downwards.
        ends: Where each stretch's glyphs end.
    """

    chosen: Ints
    origins: Floats
    ends: Ints

    def boxes(self, table: Table, em_mm: float) -> Floats:
        """The ink box of each glyph from its stretch's left end, mm."""
        found: Floats = (table.inks[self.chosen] + self.origins[:, _TWICE]) * em_mm
        return found


def _origins(shaped: Shaped, low: Ints, high: Ints, chosen: Ints) -> Floats:
    """The origin in em of each chosen glyph, from its line's left end, y downwards."""
    table = shaped.table
    origins: Floats = table.offsets[chosen]
    if not any(glyphs.run.level for glyphs in shaped.runs):
        origins[:, 0] += table.pens[chosen] - np.repeat(table.pens[low], high - low)
        return origins
    at = 0
    for first, last in zip(low.tolist(), high.tolist(), strict=True):
        origins[at : at + last - first, 0] += _both_ways(shaped, first, last)
        at += last - first
    return origins


def _both_ways(shaped: Shaped, first: int, last: int) -> Floats:
    """Where the pens of a line's glyphs stand when runs of both directions meet.

    The runs of the line stand in visual order (UAX #9, rule L2), the glyphs of each run in its own.
    """
    pens = shaped.table.pens
    parts = [
        (max(begin, first), min(end, last), glyphs.run)
        for glyphs, (begin, end) in zip(shaped.runs, pairwise(shaped.table.bounds), strict=True)
        if max(begin, first) < min(end, last)
    ]
    found = np.zeros(last - first)
    left = 0.0
    for k in visual_order(bytes(run.level for _, _, run in parts)):
        a, b, run = parts[k]
        own = pens[b] - pens[a + 1 : b + 1] if run.rtl else pens[a:b] - pens[a]
        found[a - first : b - first] = left + own
        left += float(pens[b] - pens[a])
    return found


def _glyphs(
    shaped: Shaped, placed: _Placed, stretches: Sequence[Stretch], em_mm: float
) -> tuple[Glyph, ...]:
    names: list[str] = []
    for glyphs in shaped.runs:
        names += [glyphs.run.face.name] * len(glyphs.infos)
    xs, ys = (placed.origins * em_mm).T.tolist()
    picked = [names[k] for k in placed.chosen.tolist()]
    table = shaped.table
    ids = table.glyph_ids[placed.chosen].tolist()
    sizes: Iterable[float] = repeat(em_mm)
    turned: Iterable[bool] = repeat(False)
    if table.sizes is not None and table.turned is not None:
        sizes = (table.sizes[placed.chosen] * em_mm).tolist()
        turned = table.turned[placed.chosen].tolist()
    ats = _characters(shaped, placed, stretches)
    return tuple(map(_glyph, zip(picked, ids, xs, ys, sizes, turned, ats, strict=False)))


def _characters(shaped: Shaped, placed: _Placed, stretches: Sequence[Stretch]) -> list[int]:
    """Which character of its stretch each glyph begins with, soft hyphens not counted."""
    text = shaped.source.text
    begins = np.repeat([start for start, _ in stretches], np.diff(placed.ends, prepend=0))
    found: Ints = shaped.table.clusters[placed.chosen]
    ats: list[int] = (found - begins).tolist()
    if SHY in text:
        seen = np.cumsum([0, *(char != SHY for char in text)])
        ats = (seen[found] - seen[begins]).tolist()
    return ats


_TWICE = np.array([0, 1, 0, 1])
"""From an origin (x, y) to what is added to a box (left, top, right, bottom)."""

_glyph = partial(tuple.__new__, Glyph)
"""A glyph from its seven values; what `Glyph._make` does, without the check of their number."""
