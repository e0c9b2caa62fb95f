"""The best-looking stack of one text in rooms of given lengths, in plain Python.

What `letterfit.fit.stacks` does for all texts and shapes at once, for one text in one outline: some
hundred lines between the windows of breaks, and a table from the bottom line up with two values a
line, what it and all under it cost while the stack still rises and when it falls already. So few
lines are sooner looked at one by one than laid out for numpy. The costs are those of
`letterfit.fit.looks`: what depends on counted things is looked up in tables of its functions, the
two terms of lengths are written out, and tests hold them to it.

Numbers of lines that may cost little are tried first, and lines that cost more than a whole stack
found before are left out.
"""

import math
from collections.abc import Sequence
from itertools import accumulate
from operator import itemgetter

from letterfit.fit import looks
from letterfit.fit.capitals import CLOSE, Capitals
from letterfit.fit.ink import Stack
from letterfit.lettering.words import Words

_COUNTED = range(looks.LONG_WORD + 1)
"""Letters of a word alone that are told apart."""

_OUTER: list[float] = looks.lone_word(_COUNTED, [1] * len(_COUNTED)).tolist()
_INNER: list[float] = looks.short_line(_COUNTED, [1] * len(_COUNTED)).tolist()

_STEP, _LEAST_STEP, _EQUAL = looks.STEP, looks.STEP * looks.LEAST_STEP, looks.EQUAL

Line = tuple[float, float, float, int, "Line | None", "Line | None"]
"""A line and what is best under it: its length over the outline's width; what it and all under it
cost when the stack rises to it, or has its longest line there, and when it falls; its end; the next
line when the stack rises on (else None), and when it falls."""

Rows = list[tuple[int, float, float, int, list[Line]]]
"""The breaks of a window that have lines under them: the piece that begins there, where the line
over it ends, the price of ending there, the words begun before it; and the lines."""


def best_stack(
    words: Words, capitals: Capitals, *, room: Sequence[float], half_width: float
) -> Stack | None:
    """The stack of least cost of looks among all whose lines go into their rooms.

    Args:
        words: A plain text (`letterfit.fit.batch`).
        capitals: The same.
        room: mm: half the room of a line, by half leadings from the centre.
        half_width: Half the outline's width, mm.

    Returns:
        None where no stack goes in; of equal ones one with the fewest lines.
    """
    table = _Table(words, capitals, room=room, half_width=half_width)
    best: tuple[float, int, Stack] | None = None
    for floor, count in table.floors():
        most = math.inf if best is None else best[0]
        if floor > most:
            break
        found = table.best(count, most=most)
        if found is not None and (best is None or found < best):
            best = found
    return None if best is None else best[2]


class _Table:
    """The costs of one text's lines in given rooms; lengths are over the outline's width."""

    def __init__(
        self, words: Words, capitals: Capitals, *, room: Sequence[float], half_width: float
    ) -> None:
        self._words, self._capitals, self._room = words, capitals, room
        self._starts = [start / (2 * half_width) for start in capitals.starts]
        self._ends = [end / (2 * half_width) for end in capitals.ends]
        self._half_width = half_width
        self._chords = [half / half_width for half in room]
        self._prices: list[float] = looks.break_price(words.cut.prices).tolist()
        self._known: dict[tuple[int, int], int] = {}
        self._begun = [0, *accumulate(words.cut.counts)]

    def floors(self) -> list[tuple[float, int]]:
        """What no stack of so many lines costs less than, and the number, the cheapest first.

        Its breaks are no cheaper than the cheapest ones of the text, and its lines leave no less
        uneven air than if all left the same (the mean of squares is no less than the mean squared).
        Numbers are left out whose lines are too short in sum.
        """
        capitals = self._capitals
        cheapest = list(accumulate(sorted(self._prices[:-1]), initial=0.0))
        found = []
        for count, left in capitals.long_enough(self._room):
            gap = max(0.0, left + (count - 1) * capitals.gaps[0] / 2) / count / self._half_width
            found.append((cheapest[count - 1] + looks.unevenness_of(gap), count))
        return sorted(found)

    def best(self, count: int, *, most: float) -> tuple[float, int, Stack] | None:
        """The cost of the best stack of so many lines, that number, and the stack.

        Args:
            count: Lines.
            most: What it may cost at most.
        """
        windows = self._capitals.windows(count, self._room)
        if windows is None:
            return None
        rows: Rows = [self._break(windows[-1][0], [])]
        for line in range(count - 1, -1, -1):
            rows = self._row(windows[line], rows, place=(line, count), most=most)
        if not rows:
            return None
        top = min(rows[0][-1], key=itemgetter(1))
        return top[1], count, _stack(top)

    def _row(self, window: range, rows: Rows, *, place: tuple[int, int], most: float) -> Rows:
        """The lines at a place (number from the top, of how many) over those at the next."""
        line, count = place
        starts, begun = self._starts, self._begun
        chord = self._chords[abs(2 * line + 1 - count)]
        longest = chord * (1 + CLOSE)
        uneven, peak = looks.UNEVENNESS / count, looks.peak_place_of(line, count)
        alone = _INNER if 0 < line < count - 1 else _OUTER if count > 1 else None
        over: Rows = []
        for first in window:
            lines: list[Line] = []
            start, begun_first = starts[first], begun[first + 1]
            for end, stop, price, begun_end, below in rows:
                if end <= first:
                    continue
                length = stop - start
                if length > longest:
                    break
                own = price + uneven * (chord - length) ** 2
                if own > most:
                    continue
                if begun_end == begun_first and alone:
                    own += alone[self._letters(first, end)]
                made = _over(below, length, own=own, peak=peak, end=end)
                if made[1] <= most or made[2] <= most:
                    lines.append(made)
            if lines:
                over.append(self._break(first, lines))
        return over

    def _break(self, first: int, lines: list[Line]) -> tuple[int, float, float, int, list[Line]]:
        return first, self._ends[first - 1], self._prices[first - 1], self._begun[first], lines

    def _letters(self, first: int, end: int) -> int:
        """The letters of a line of one word, as far as they are told apart."""
        known = self._known.get((first, end))
        if known is None:
            text = self._words.slice_text(first, end - 1)
            known = self._known[first, end] = min(looks.letters(text), len(_COUNTED) - 1)
        return known


def _over(below: list[Line], length: float, *, own: float, peak: float, end: int) -> Line:
    """A line with the best of those that may stand under it; under the last there is none."""
    if not below:
        return length, own + peak, own, end, None, None
    rise = fall = math.inf
    risen = fallen = None
    for line in below:
        under, rising, falling, _, _, _ = line
        longer = under - length
        if longer > _EQUAL:
            falling += _STEP * longer + _LEAST_STEP
        elif longer < -_EQUAL:
            rising += _LEAST_STEP - _STEP * longer
        if rising < rise:
            rise, risen = rising, line
        if falling < fall:
            fall, fallen = falling, line
    if fall + peak < rise:
        rise, risen = fall + peak, None
    return length, own + rise, own + fall, end, risen, fallen


def _stack(top: Line) -> Stack:
    """The stack of which a line is the top."""
    stack, line, rising = [0], top, True
    while True:
        stack.append(line[3])
        rising = rising and line[4] is not None
        under = line[4] if rising else line[5]
        if under is None:
            return tuple(stack)
        line = under
