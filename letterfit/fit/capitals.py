"""Lines of capitals in one outline, and how small it may be for a text to go in by its advances.

With the outline and the number of lines given, the lines' places are, and so is the room of each:
half the chord between the airs at the outer edge of its capitals, of which there is one for every
whole number of half leadings from the centre. At the scale s of the outline it is

    min over t of (s h(t) - m - edge sin t) / cos t,

m the air, over the directions of the fast search (long by 0.2 % at most). Filled from the top, each
line as long as goes in, a break stands as late as it can; filled from the bottom as early: every
stack has its breaks in these *windows*. That is a few looks into sorted lists a line, and for one
text plain Python is done with them before numpy has begun.

Words that a roomy outline holds *keep together* where they would go into one of the same form and
little more than the least size. That size is found among sizes a hundredth apart, which depend on
the text and the outline's form alone: a larger outline sets the words no other way.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from operator import sub

import numpy as np

from letterfit.fit.profiles import COS, DIRECTIONS, SIN
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

ROOMY = 0.25
"""By what share the area that the stack fills may exceed that of the tightest one, if there is
room: common practice, no source."""

SPARE = math.sqrt(1 + ROOMY)

STEP, FINE = 1.01, 12
"""Sizes that are tried are so far apart; one of so many is tried before those in between."""

CLOSE = 1e-9
"""A line wider than its room by this share is as wide as its room."""

_ACROSS, _UP = COS[:-1], SIN[:-1]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Capitals:
    """A text and an outline, as far as lines of capitals go.

    Args:
        starts: mm: where each piece starts in the unbroken text.
        ends: mm: where its advance ends.
        gaps: mm: the narrowest and the widest space between two pieces; 0 where there is one piece.
        half_leading: mm.
        half_cap: mm.
        air: mm.
        half_height: Half the outline's height, mm.
        area: Its area, mm2.
        clear: Shape (T,), mm: the outline's chord in each direction, without air.
        taken: Shape (P, T), mm: what air and height take of it, by half leadings from the centre.
    """

    starts: list[float]
    ends: list[float]
    gaps: tuple[float, float]
    half_leading: float
    half_cap: float
    air: float
    half_height: float
    area: float
    clear: Floats
    taken: Floats

    @classmethod
    def of(cls, words: Words, outline: Outline, *, air: float) -> "Capitals":
        """The capitals of a text with at least one piece."""
        starts, ends = words.starts.tolist(), words.ends.tolist()
        gaps = list(map(sub, starts[1:], ends)) or [0.0]
        half_leading, half_cap = words.leading_mm / 2, words.cap_height_mm / 2
        places = 1 + (outline.half_height - air - half_cap) / half_leading
        edges = np.arange(max(1, int(min(places, len(words))))) * half_leading + half_cap
        return cls(
            starts=starts,
            ends=ends,
            gaps=(min(gaps), max(gaps)),
            half_leading=half_leading,
            half_cap=half_cap,
            air=air,
            half_height=outline.half_height,
            area=outline.area_mm2,
            clear=outline.support(DIRECTIONS[:-1]) / _ACROSS,
            taken=(air + edges[:, None] * _UP) / _ACROSS,
        )

    def room(self, scale: float) -> list[float]:
        """Half the room of a line, mm, by half leadings from the centre, at a scale up to 1."""
        (found,) = self.rooms([scale])
        return found[: self.most_lines(scale)]

    def rooms(self, scales: Sequence[float]) -> list[list[float]]:
        """The same at several scales, for places outside, too."""
        clear = np.multiply.outer(np.array(scales), self.clear)
        found: list[list[float]] = (clear[:, None] - self.taken).min(axis=2).tolist()
        return found

    def most_lines(self, scale: float) -> int:
        """So many lines keep their capitals in the outline's height."""
        places = (scale * self.half_height - self.air - self.half_cap) / self.half_leading
        return int(min(1 + places, len(self.ends)))

    def long_enough(self, room: Sequence[float]) -> list[tuple[int, float]]:
        """The numbers of lines that are long enough together, and half of what they leave, mm.

        Args:
            room: Half the room of a line, by half leadings from the centre.

        What is left would be at least so much if no line end took a space away.
        """
        half, wide = self.ends[-1] / 2, self.gaps[1] / 2
        totals = [0.0, *room[:1]]
        for chord in room[1:]:
            totals.append(totals[-2] + 2 * chord)
        left = [(count, total - half) for count, total in enumerate(totals) if count]
        return [(count, more) for count, more in left if more + (count - 1) * wide >= -CLOSE * half]

    def goes_in(self, count: int, room: Sequence[float]) -> bool:
        """Whether all pieces go into so many lines, no more than there are pieces."""
        starts, ends = self.starts, self.ends
        first, last = 0, len(ends) - count  # a piece is left for each line to come
        for place in range(1 - count, count, 2):
            last += 1
            reach = (starts[first] + 2 * room[abs(place)]) * (1 + CLOSE)
            end = min(bisect_right(ends, reach, first), last)
            if end <= first:
                return False
            first = end
        return first == len(ends)

    def windows(self, count: int, room: Sequence[float]) -> list[range] | None:
        """Where each of so many lines may begin, from the top, and the end of the text.

        Returns:
            Breaks 0 to `count`, the last the number of pieces; None where no stack goes in.
        """
        starts, ends = self.starts, self.ends
        pieces = len(ends)
        reach = [2 * room[abs(place)] * (1 + CLOSE) for place in range(1 - count, count, 2)]
        latest, first = [0], 0
        for line in range(count):
            if first < pieces:
                first = bisect_right(ends, starts[first] + reach[line], first)
            latest.append(min(first, pieces - count + line + 1))
        if first < pieces or count > pieces:
            return None
        windows = [range(pieces, pieces + 1)]
        first = pieces
        for line in range(count - 1, 0, -1):
            first = max(line, bisect_left(starts, ends[first - 1] - reach[line]))
            windows.append(range(first, latest[line] + 1))
        windows.append(range(1))
        return windows[::-1] if all(windows) else None

    def together(self) -> float | None:
        """The scale at which the words keep together; None where it is over 1.

        It is a little over the least at which they go in: by the share of ROOMY in area, and by up
        to a STEP more.
        """
        # Capitals lie apart from each other inside the outline, and their air over and under them.
        covered = (sum(self.ends) - sum(self.starts)) * 2 * self.half_cap
        height = (self.half_cap + self.air) / self.half_height
        least = max(height, math.sqrt(covered / self.area))
        if least * SPARE > 1:
            return None
        leap = STEP**FINE
        large = math.ceil(math.log(1 / (SPARE * least), leap))
        counts: Sequence[int] = range(1, self.most_lines(1.0) + 1)
        place, counts = self._first([least * leap**k for k in range(large + 1)], counts)
        if place > large:
            return None
        least *= leap ** (place - 1)
        place, _ = self._first([least * STEP**k for k in range(1, FINE)], counts)
        scale = least * STEP ** (place + 1) * SPARE
        return scale if scale <= 1 else None

    def _first(self, scales: list[float], counts: Sequence[int]) -> tuple[int, Sequence[int]]:
        """The first of growing scales at which a stack goes in, and the numbers of lines it has."""
        rooms = self.rooms(scales)
        low, high = 0, len(scales)
        while low < high:
            middle = (low + high) // 2
            room = rooms[middle][: max(0, self.most_lines(scales[middle]))]
            going = [c for c, _ in self.long_enough(room) if c in counts and self.goes_in(c, room)]
            if going:
                counts, high = going, middle
            else:
                low = middle + 1
        return high, counts
