"""Reshaping: the candidate lines that are not a slice of the unbroken text, set anew.

A line that begins at a cut which HarfBuzz calls unsafe is cut out of the text shaped from there on;
one that ends at an unsafe cut, out of the text shaped up to there. Both are whole texts in their
own right, so HarfBuzz's promise holds for the other end of the line; where it does not, the line
is shaped alone. A line that ends at a soft hyphen gets its hyphen here.

Few lines need it: fonts that kern a hyphen or a space with the letter after it, contextual
alternates, ligatures across a hyphen. Lines wider than could matter are left out (`widest_line`).
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from letterfit.lettering.breaks import SHY
from letterfit.lettering.cutting import cut_lines
from letterfit.lettering.pieces import Pieces
from letterfit.lettering.shaping import Shaped, Source, shape, shape_raw
from letterfit.lettering.words import SetLine

Line = tuple[int, int]
"""A candidate line by its first and last piece."""

FLATTEST = 14.0
"""The flattest outline that is fitted: the caption box's width over its height."""

UNEVEN = 2.0
"""The longest line over the mean of its stack that is still considered."""

MOST_LINES = 20_000
"""Lines set anew for one text; reached only by texts of hundreds of kerned hyphens, whose longest
lines are then left as slices."""

NEAR = 8
"""Pieces within which the next safe cut is looked for; farther off, the line is set anew."""


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
        inside = {at for stretch in self.stretches[first : last + 1] for at in stretch}
        return shape(self._ending(last), start=start, end=end, cuts=sorted(inside - {start, end}))

    def cut(self, shaped: Shaped, lines: Sequence[Line], last: int) -> dict[Line, SetLine]:
        """Lines cut out of a text that was shaped to end with piece `last`."""
        stretches = [(self.stretches[i][0], self.stretches[j][1]) for i, j in lines]
        text = self._ending(last).text
        cut = cut_lines(shaped, stretches, text=text, em_mm=self.em_mm) if lines else []
        return dict(zip(lines, cut, strict=True))

    def is_slice(self, start: int, end: int) -> bool:
        """Whether characters start .. end, shaped alone, are as they are in the unbroken text."""
        raw = shape_raw(self.source, start=start, end=end)
        low, high = self.whole.glyphs_before((start, end)).tolist()
        return raw.values == self.whole.values[low:high]

    def reaches(self, cuts: int) -> list[int]:
        """For each piece the last piece of the longest line from it that is set anew.

        Args:
            cuts: How many cuts need it.
        """
        pens = self.whole.pens[self.whole.glyphs_before([start for start, _ in self.stretches])]
        within = np.searchsorted(pens, pens + self.widest) - 1
        count = np.arange(len(pens)) + max(1, MOST_LINES // cuts)
        last: list[int] = np.minimum(np.minimum(within, count), self.pieces.runs_on()).tolist()
        return last

    def _ending(self, last: int) -> Source:
        """The text as it is when a line ends with piece `last`: a soft hyphen is seen."""
        if not self.ends_soft(last):
            return self.source
        text, at = self.source.text, self.stretches[last][1] - 1
        return replace(self.source, text=f"{text[:at]}-{text[at + 1 :]}")


def reshaped_lines(cutting: Cutting) -> dict[Line, SetLine]:
    """The lines that are set otherwise than the slice of the unbroken text, by their pieces."""
    starts = [p for p in _unsafe_starts(cutting) if _changes_start(cutting, p)]
    ends = [p for p in _unsafe_ends(cutting) if _changes_end(cutting, p)]
    if not starts and not ends:
        return {}
    reaches = cutting.reaches(len(starts) + len(ends))
    changed = set(starts), set(ends)
    found: dict[Line, SetLine] = {}
    for first in starts:
        lines = [(first, last) for last in range(first, reaches[first] + 1)]
        found |= _cut(cutting, lines, changed)
    for last in ends:
        begins = range(bisect_left(reaches, last), last + 1)
        found |= _cut(cutting, [(p, last) for p in begins if p not in changed[0]], changed)
    return dict(sorted(found.items()))


def _cut(
    cutting: Cutting, lines: Sequence[Line], changed: tuple[set[int], set[int]]
) -> dict[Line, SetLine]:
    """Lines that share their first or their last piece, cut out of the longest of them."""
    if not lines:
        return {}
    longest = (lines[0][0], lines[-1][1])
    shaped = cutting.alone(*longest)
    exact: list[Line] = []
    others: list[Line] = []
    for line in lines:
        safe = line == longest or _is_safe(cutting, shaped, line, longest, changed)
        (exact if safe else others).append(line)
    found = cutting.cut(shaped, exact, longest[1])
    for line in others:
        found |= cutting.cut(cutting.alone(*line), [line], line[1])
    return found


def _is_safe(
    cutting: Cutting, shaped: Shaped, line: Line, longest: Line, changed: tuple[set[int], set[int]]
) -> bool:
    """Whether a line may be cut out of a longer one that shares one of its ends.

    At the other end the cut must not be flagged, or known to change nothing up to a safe cut that
    lies inside the line.
    """
    (first, last), stretches = line, cutting.stretches
    begins, unchanged = first != longest[0], False
    if any(start not in cutting.whole.unsafe for start, _ in stretches[first + 1 : last + 1]):
        unchanged = first not in changed[0] if begins else last not in changed[1]
    if begins:
        return unchanged or stretches[first][0] not in shaped.unsafe
    return not cutting.ends_soft(last) and (unchanged or stretches[last][1] not in shaped.unsafe)


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
    near = [start for start, _ in stretches[first + 1 : first + NEAR] if start not in unsafe]
    if not near and first + NEAR < len(stretches):
        return True
    return not cutting.is_slice(stretches[first][0], near[0] if near else stretches[-1][1])


def _changes_end(cutting: Cutting, last: int) -> bool:
    """Whether a line up to piece `last` is set otherwise than the slice, from the last safe cut."""
    unsafe, stretches = cutting.whole.unsafe, cutting.stretches
    low = max(0, last - NEAR)
    near = [start for start, _ in stretches[low : last + 1] if start not in unsafe]
    if cutting.ends_soft(last) or not near:
        return True
    return not cutting.is_slice(near[-1], stretches[last][1])
