"""Reshaping: the candidate lines that are not a slice of the unbroken text, set anew.

A line that begins at a cut which HarfBuzz calls unsafe is cut out of the text shaped from there on;
one that ends at an unsafe cut, out of the text shaped up to there. Both are whole texts in their
own right, so HarfBuzz's promise holds for the other end of the line; where it does not, the line
is shaped alone. A line that ends at a soft hyphen gets its hyphen here.

Few lines need it: fonts that kern a hyphen or a space with the letter after it, contextual
alternates, ligatures across a hyphen. Lines wider than could matter are left out (`widest_line`).
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.lettering.breaks import SHY
from letterfit.lettering.cutting import cut_lines
from letterfit.lettering.pieces import Pieces
from letterfit.lettering.shaping import Shaped, Source, shape
from letterfit.lettering.words import SetLine

FLATTEST = 14.0
"""The flattest outline that is fitted: the caption box's width over its height."""

UNEVEN = 2.0
"""The longest line over the mean of its stack that is still considered."""


def widest_line(total: float, leading: float) -> float:
    """The width beyond which no line of a stack matters, in the unit of `total` and `leading`.

    L lines of a text of that total width, the longest w, are at least w / FLATTEST high and on
    average w / UNEVEN long: L leading >= w / FLATTEST and L w / UNEVEN <= total, so that
    w^2 <= FLATTEST UNEVEN leading total. The whole text on one line is exact in any case.

    >>> round(widest_line(82.0, 1.08), 1)
    49.8
    """
    return math.sqrt(FLATTEST * UNEVEN * leading * total)


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Cutting:
    """A text shaped in one piece, and where its pieces begin and end.

    Args:
        source: The text.
        whole: The text as shaped.
        pieces: Its pieces.
        em_mm: The size.
        widest: The widest line to set anew, em.
    """

    source: Source
    whole: Shaped
    pieces: Pieces
    em_mm: float
    widest: float

    @property
    def stretches(self) -> Sequence[tuple[int, int]]:
        """Where each piece begins and ends in the text."""
        return self.pieces.stretches

    def ends_soft(self, last: int) -> bool:
        """Whether a line after piece `last` is broken at a soft hyphen."""
        return self.source.text[self.stretches[last][1] - 1] == SHY

    def alone(self, first: int, last: int) -> Shaped:
        """Pieces first .. last shaped alone, asked about all cuts between them."""
        start, end = self.stretches[first][0], self.stretches[last][1]
        inside = [at for p in range(first, last + 1) for at in self.stretches[p]]
        source = self.source
        if self.ends_soft(last):
            source = replace(source, text=f"{source.text[: end - 1]}-{source.text[end:]}")
        return shape(source, start=start, end=end, cuts=sorted(set(inside) - {start, end}))

    def line(self, shaped: Shaped, first: int, last: int) -> SetLine:
        """Pieces first .. last cut out of a shaped text as one line."""
        stretch = (self.stretches[first][0], self.stretches[last][1])
        text = self.source.text
        if self.ends_soft(last):
            text = f"{text[: stretch[1] - 1]}-"
        return cut_lines(shaped, [stretch], text=text, em_mm=self.em_mm)[0]

    def reaches(self) -> list[int]:
        """For each piece the last piece of the widest line from it that could matter."""
        pens = self.whole.pens[self.whole.glyphs_before([start for start, _ in self.stretches])]
        within = np.searchsorted(pens, pens + self.widest) - 1
        last: list[int] = np.minimum(within, self.pieces.runs_on()).tolist()
        return last


def reshaped_lines(cutting: Cutting) -> dict[tuple[int, int], SetLine]:
    """The lines that are set otherwise than the slice of the unbroken text, by their pieces."""
    found = {}
    for first, last, shaped in _exact(cutting):
        if not _same(cutting, shaped, first, last):
            found[first, last] = cutting.line(shaped, first, last)
    return dict(sorted(found.items()))


def _exact(cutting: Cutting) -> Iterator[tuple[int, int, Shaped]]:
    """Each line that an unsafe cut changes, and a shaping it can be cut out of exactly."""
    starts = [p for p in _unsafe_starts(cutting) if _changes_start(cutting, p)]
    ends = [p for p in _unsafe_ends(cutting) if _changes_end(cutting, p)]
    if not starts and not ends:
        return
    reaches = cutting.reaches()
    for first in starts:
        shaped = cutting.alone(first, reaches[first])
        for last in range(first, reaches[first] + 1):
            yield first, last, _ending(cutting, shaped, first, last, reaches[first])
    for last in ends:
        begins = [p for p in range(last + 1) if reaches[p] >= last and p not in starts]
        shaped = cutting.alone(begins[0], last) if begins else cutting.whole
        for first in begins:
            exact = first == begins[0] or cutting.stretches[first][0] not in shaped.unsafe
            yield first, last, shaped if exact else cutting.alone(first, last)


def _unsafe_starts(cutting: Cutting) -> list[int]:
    unsafe = cutting.whole.unsafe
    return [p for p, (start, _) in enumerate(cutting.stretches) if start in unsafe and p]


def _unsafe_ends(cutting: Cutting) -> list[int]:
    unsafe, last = cutting.whole.unsafe, len(cutting.stretches) - 1
    return [
        p
        for p, (_, end) in enumerate(cutting.stretches)
        if p < last and (end in unsafe or cutting.ends_soft(p))
    ]


def _changes_start(cutting: Cutting, first: int) -> bool:
    """Whether a line from piece `first` is set otherwise than the slice, up to the next safe cut.

    Often it is not: a font that kerns a space with the letter after it moves the space only.
    """
    unsafe, stretches = cutting.whole.unsafe, cutting.stretches
    last = first
    while last < len(stretches) - 1 and stretches[last + 1][0] in unsafe:
        last += 1
    return not _same(cutting, cutting.alone(first, last), first, last)


def _changes_end(cutting: Cutting, last: int) -> bool:
    """Whether a line up to piece `last` is set otherwise than the slice, from the last safe cut."""
    unsafe, stretches = cutting.whole.unsafe, cutting.stretches
    first = last
    while first and stretches[first][0] in unsafe:
        first -= 1
    return cutting.ends_soft(last) or not _same(cutting, cutting.alone(first, last), first, last)


def _ending(cutting: Cutting, shaped: Shaped, first: int, last: int, reach: int) -> Shaped:
    """The shaping from `first` on if it may be cut after `last`, else the line alone."""
    end = cutting.stretches[last][1]
    safe = end not in shaped.unsafe and not cutting.ends_soft(last)
    return shaped if safe or last == reach else cutting.alone(first, last)


def _same(cutting: Cutting, shaped: Shaped, first: int, last: int) -> bool:
    """Whether a line has the same glyphs at the same places as the slice of the unbroken text."""
    ends = (cutting.stretches[first][0], cutting.stretches[last][1])
    a, b = cutting.whole.glyphs_before(ends)
    c, d = shaped.glyphs_before(ends)
    whole = cutting.whole
    return bool(
        b - a == d - c
        and np.array_equal(whole.glyph_ids[a:b], shaped.glyph_ids[c:d])
        and np.array_equal(whole.advances[a:b], shaped.advances[c:d])
        and np.array_equal(whole.offsets[a:b], shaped.offsets[c:d])
    )
