"""Reshaping: the candidate lines that are not a slice of the unbroken text, set anew.

A line that begins at a cut which HarfBuzz calls unsafe is cut out of the text shaped from there on;
one that ends at an unsafe cut, out of the text shaped up to there. Both are whole texts in their
own right, so HarfBuzz's promise holds for the other end of the line; where it does not, the line
is shaped alone. A line that ends at a soft hyphen gets its hyphen here.

Few lines need it: fonts that kern a hyphen or a space with the letter after it, contextual
alternates, ligatures across a hyphen. Lines wider than could matter are left out (`widest_line`).
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from letterfit.lettering.breaks.breaks import SHY
from letterfit.lettering.breaks.pieces import Pieces, Stretch
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.shaping import Shaped, Source, shape
from letterfit.lettering.words import ResetLine

Line = tuple[int, int]
"""A candidate line by its first and last piece."""

FLATTEST = 14.0
"""The flattest outline that is fitted: the caption box's width over its height."""

UNEVEN = 2.0
"""The longest line over the mean of its stack that is still considered."""

MOST_LINES = 10_000
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
        whole: The text as shaped.
        unsafe: The ends of pieces at which it must not be cut.
        pieces: Its pieces.
        em_mm: The size.
        widest: The widest line to set anew, em.
    """

    whole: Shaped
    unsafe: frozenset[int]
    pieces: Pieces
    em_mm: float
    widest: float

    @property
    def source(self) -> Source:
        """The text."""
        return self.whole.source

    @property
    def stretches(self) -> Sequence[Stretch]:
        """Where each piece begins and ends in the text."""
        return self.pieces.stretches

    def ends_soft(self, last: int) -> bool:
        """Whether a line after piece `last` is broken at a soft hyphen."""
        return self.source.text[self.stretches[last][1] - 1] == SHY

    def alone(self, first: int, last: int) -> Shaped:
        """Pieces first .. last shaped alone."""
        start, end = self.stretches[first][0], self.stretches[last][1]
        return shape(self._ending(last), start=start, end=end)

    def cut(self, shaped: Shaped, lines: Sequence[Line]) -> dict[Line, ResetLine]:
        """Lines cut out of a shaped text."""
        if not lines:
            return {}
        stretches = [(self.stretches[i][0], self.stretches[j][1]) for i, j in lines]
        setter = TextSetter(shaped, self.em_mm)
        boxes, sizes = setter.ink(stretches)
        starts, ends = shaped.spans(*zip(*stretches, strict=True))
        widths = ((ends - starts) * self.em_mm).tolist()
        inks = np.split(boxes, np.cumsum(sizes)[:-1])
        return {
            line: ResetLine(width, ink, setter, stretch)
            for line, width, ink, stretch in zip(lines, widths, inks, stretches, strict=True)
        }

    def is_slice(self, start: int, end: int) -> bool:
        """Whether characters start .. end, shaped alone, are as they are in the unbroken text."""
        low, high = self.whole.table.glyphs_before((start, end)).tolist()
        return shape(self.source, start=start, end=end).values == self.whole.values[low:high]

    def reaches(self, cuts: int) -> list[int]:
        """For each piece the last piece of the longest line from it that is set anew.

        Args:
            cuts: How many cuts need it.
        """
        pens = self.whole.pens(self.pieces.starts)
        within = np.searchsorted(pens, pens + self.widest) - 1
        count = np.arange(len(pens)) + max(1, MOST_LINES // cuts)
        last: list[int] = np.minimum(np.minimum(within, count), self.pieces.runs_on()).tolist()
        return last

    def _ending(self, last: int) -> Source:
        """The text as it is when a line ends with piece `last`: a soft hyphen is seen."""
        if not self.ends_soft(last):
            return self.source
        return self.source.ending_soft(self.stretches[last][1] - 1)


def reshaped_lines(cutting: Cutting) -> dict[Line, ResetLine]:
    """The lines that are set otherwise than the slice of the unbroken text, by their pieces."""
    bound = _bound(cutting)
    if not cutting.unsafe and not bound and SHY not in cutting.source.text:
        return {}
    starts = [p for p in _unsafe_starts(cutting) if _changes_start(cutting, p)]
    ends = [p for p in _unsafe_ends(cutting) if _changes_end(cutting, p)]
    if not starts and not ends and not bound:
        return {}
    reaches = cutting.reaches(len(starts) + len(ends) + len(bound))
    changed = set(starts), set(ends)
    found: dict[Line, ResetLine] = {}
    for first in starts:
        lines = [(first, last) for last in range(first, reaches[first] + 1)]
        found |= _cut(cutting, lines, changed)
    for last in ends:
        begins = range(bisect_left(reaches, last), last + 1)
        found |= _cut(cutting, [(p, last) for p in begins if p not in changed[0]], changed)
    ordered = [line for line in _across(bound, reaches) if line not in found]
    return dict(sorted((found | cutting.cut(cutting.whole, ordered)).items()))


def _cut(
    cutting: Cutting, lines: Sequence[Line], changed: tuple[set[int], set[int]]
) -> dict[Line, ResetLine]:
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
    found = cutting.cut(shaped, exact)
    for line in others:
        found |= cutting.cut(cutting.alone(*line), [line])
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
    if any(start not in cutting.unsafe for start, _ in stretches[first + 1 : last + 1]):
        unchanged = first not in changed[0] if begins else last not in changed[1]
    if begins:
        return unchanged or not shaped.is_unsafe(stretches[first][0])
    return not cutting.ends_soft(last) and (unchanged or not shaped.is_unsafe(stretches[last][1]))


def _bound(cutting: Cutting) -> list[int]:
    """Pieces that change places with the next one on a line: both in a stretch set against it.

    Pieces stand side by side in the direction of the text unless a stretch of a higher level
    (UAX #9, rule L2) runs from one into the next: two Latin words in a Hebrew line.
    """
    source = cutting.source
    base = int(source.rtl)
    if all(run.level == base for run in source.runs):
        return []
    runs = source.runs
    firsts = [run.start for run in runs]
    found = []
    for p, ((_, end), (start, _)) in enumerate(pairwise(cutting.stretches)):
        low, high = bisect_right(firsts, end - 1) - 1, bisect_right(firsts, start)
        if all(run.level > base for run in runs[low:high]):
            found.append(p)
    return found


def _across(bound: Sequence[int], reaches: Sequence[int]) -> list[Line]:
    """All lines that hold a bound pair of pieces."""
    lines: dict[Line, None] = {}
    for p in bound:
        for first in range(bisect_left(reaches, p + 1), p + 1):
            lines |= dict.fromkeys((first, last) for last in range(p + 1, reaches[first] + 1))
    return list(lines)


def _unsafe_starts(cutting: Cutting) -> list[int]:
    unsafe = cutting.unsafe
    return [p for p, (start, _) in enumerate(cutting.stretches) if start in unsafe and p]


def _unsafe_ends(cutting: Cutting) -> list[int]:
    unsafe, last = cutting.unsafe, len(cutting.stretches) - 1
    return [
        p
        for p, (_, end) in enumerate(cutting.stretches)
        if p < last and (end in unsafe or cutting.ends_soft(p))
    ]


def _changes_start(cutting: Cutting, first: int) -> bool:
    """Whether a line from piece `first` is set otherwise than the slice, up to the next safe cut.

    Often it is not: a font that kerns a space with the letter after it moves the space only.
    """
    unsafe, stretches = cutting.unsafe, cutting.stretches
    near = [start for start, _ in stretches[first + 1 : first + NEAR] if start not in unsafe]
    if not near and first + NEAR < len(stretches):
        return True
    return not cutting.is_slice(stretches[first][0], near[0] if near else stretches[-1][1])


def _changes_end(cutting: Cutting, last: int) -> bool:
    """Whether a line up to piece `last` is set otherwise than the slice, from the last safe cut."""
    unsafe, stretches = cutting.unsafe, cutting.stretches
    low = max(0, last - NEAR)
    near = [start for start, _ in stretches[low : last + 1] if start not in unsafe]
    if cutting.ends_soft(last) or not near:
        return True
    return not cutting.is_slice(near[-1], stretches[last][1])
