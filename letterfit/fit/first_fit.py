"""First fit: each line takes all it can before the next one begins, from the outline's top.

That is how a browser sets text between two floats whose `shape-outside` leaves an outline free
(CSS Shapes 1; CSS 2.1, section 9.5: a line that has no room for its first word moves down until it
has), and what Knuth and Plass call first fit ("Breaking Paragraphs into Lines", Software: Practice
and Experience 11, 1981). A line is as long as the outline's chord over its height band, which is
one leading high. The stack hangs from the top: nothing is centred but the lines themselves, and no
break is weighed against another. It is what total fit is held against, and a quick draft.
"""

import math
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from letterfit.fit.balloon import check_words
from letterfit.fit.chords import Chords
from letterfit.fit.given import LEAST_ROOM, check_outline
from letterfit.fit.model import FittedBalloon, Line, Overflow
from letterfit.fit.setting import set_lines, shown
from letterfit.fit.turned import on_page, turned_outline
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline
from letterfit.separation import clearance

ROUNDING = 1e-12
"""A box wider than its chord by this share goes in."""

NEARLY = 1e-4
"""How closely, as a share, the outline and the size that would do are found."""


def first_fit_into(words: Words, outline: Outline, *, air_mm: float = 1.2) -> FittedBalloon:
    """Set a text in a given outline by first fit.

    Args:
        words: The measured text. Prices of breaks are not looked at, and lines are centred.
        outline: The outline.
        air_mm: The least distance from lines to outline: from their bands, and from their ink where
            it sticks out of them.

    Returns:
        When all words fit, the balloon. When not, the words that do, and the overflow: how many are
        left over, an outline of the same family and aspect, and a type size, in which all fit. Both
        are found by halving, to a share of 1e-4. First fit may fail in an outline though it does
        well in a smaller one, so either may be no more than nearly the best there is.

    Raises:
        OutlineError: When the text is empty or over 1,000 words, or a number is unusable.
    """
    check_words(words, air_mm=air_mm)
    check_outline(outline)
    shape = turned_outline(words, outline)
    text, count = _Text.of(words), len(words)
    lines = list(text.lines(Chords(shape, air_mm)))
    if lines and lines[-1].end == count:
        return on_page(words, _set(words, lines, shape))
    lines = _whole_words(words, lines)
    end = lines[-1].end if lines else 0
    overflow = Overflow(
        words=int(words.word_counts[end:].sum()),
        size_pt=_size(text, shape, air=air_mm),
        outline=_grown(text, shape, air=air_mm),
    )
    return on_page(words, replace(_set(words, lines, shape), overflow=overflow))


class _Box(NamedTuple):
    """What must go into the room: half its width, its top and bottom from the top of the band."""

    half: float
    top: float
    bottom: float


class _Placed(NamedTuple):
    """A line: its first piece, one past its last, and the top of its band from the centre."""

    first: int
    end: int
    top: float


@dataclass(frozen=True, slots=True, eq=False)
class _Text:
    """What first fit asks of a text: the boxes of its lines.

    Args:
        words: The text.
        extents: Shape (n, 4), mm: left, top, right, bottom of each piece's ink, along the text as
            it stands unbroken and from the baseline; infinite where it has none.
        limits: Per piece, one past the last piece that a line from it may hold.
    """

    words: Words
    extents: Floats
    limits: list[int]

    @classmethod
    def of(cls, words: Words) -> "_Text":
        """The text with its ink."""
        boxes, begin = words.ink_boxes()
        shifts = -words.ends if words.rtl else words.starts
        extents = np.array([math.inf, math.inf, -math.inf, -math.inf]) * np.ones((len(words), 1))
        inked = np.flatnonzero(np.diff(begin))
        if len(inked):
            at = begin[inked]
            extents[inked, :2] = np.minimum.reduceat(boxes[:, :2], at)
            extents[inked, 2:] = np.maximum.reduceat(boxes[:, 2:], at)
        extents[:, ::2] += shifts[:, None]
        ends = np.flatnonzero(words.forced)
        limits = ends[np.searchsorted(ends, np.arange(len(words)))] + 1
        return cls(words, extents, limits.tolist())

    def lines(self, chords: Chords) -> Iterator[_Placed]:
        """The lines that go in, from the top; all pieces are set when the last one ends there."""
        first, top = 0, -chords.half_height
        while first < len(self.limits):
            placed = self._line(first, top, chords)
            if placed is None:
                return
            yield placed
            first, top = placed.end, placed.top + self.words.leading_mm

    def _line(self, first: int, top: float, chords: Chords) -> _Placed | None:
        """The next line at `top`, or as far under it as its first piece asks; None for no room."""
        words = self.words
        band = chords.band(top, words.leading_mm)
        if not self._goes_in(_Placed(first, first + 1, top), chords, band=band):
            low = math.inf
            for box in self.boxes(first, first + 1):
                room = chords.half_height_at(box.half)
                top, low = max(top, -room - box.top), min(low, room - box.bottom)
            if top > low:
                return None
            band = chords.band(top, words.leading_mm)
        reach = words.starts[first] + 2 * band * (1 + ROUNDING)
        end = bisect_right(words.ends, reach, first) + 1  # one more: set anew it may be shorter
        end = min(max(end, first + 1), self.limits[first])
        while end > first + 1 and not self._goes_in(_Placed(first, end, top), chords, band=band):
            end -= 1
        return _Placed(first, end, top)

    def _goes_in(self, placed: _Placed, chords: Chords, *, band: float) -> bool:
        """Whether a line's boxes are in the room, whose half-width over the band is `band`."""
        line, ink = self.boxes(placed.first, placed.end)
        if line.half > band * (1 + ROUNDING):
            return False
        if ink.half <= band and ink.top >= 0 and ink.bottom <= line.bottom:
            return True
        room = chords.band(placed.top + ink.top, ink.bottom - ink.top)
        return ink.half <= room * (1 + ROUNDING)

    def boxes(self, first: int, end: int) -> tuple[_Box, _Box]:
        """A line's band and its ink."""
        words = self.words
        baseline = (words.leading_mm + words.cap_height_mm) / 2
        band = _Box(words.width(first, end - 1) / 2, 0.0, words.leading_mm)
        anew = words.reshaped.get((first, end - 1))
        if anew is not None:
            bounds, middle = _bounds(anew.ink.reshape(-1, 4)), band.half
        else:
            bounds = _bounds(self.extents[first:end])
            middle = float(words.starts[first] + words.ends[end - 1]) / 2
            middle = -middle if words.rtl else middle
        left, top, right, bottom = bounds
        half = max(middle - left, right - middle)
        if half < 0:  # no ink
            return band, band
        return band, _Box(half, baseline + top, baseline + bottom)


def _bounds(boxes: Floats) -> tuple[float, float, float, float]:
    """The box round boxes: left, top, right, bottom."""
    if not len(boxes):
        return (math.inf, math.inf, -math.inf, -math.inf)
    left, top = boxes[:, :2].min(axis=0).tolist()
    right, bottom = boxes[:, 2:].max(axis=0).tolist()
    return (left, top, right, bottom)


def _whole_words(words: Words, lines: list[_Placed]) -> list[_Placed]:
    """The lines without the beginning of a word whose end is left over."""
    while lines and not words.word_counts[lines[-1].end]:
        first, end, top = lines.pop()
        if end > first + 1:
            lines.append(_Placed(first, end - 1, top))
    return lines


def _set(words: Words, lines: list[_Placed], outline: Outline) -> FittedBalloon:
    """The lines of a text at their places, centred on the outline's middle."""
    drop = (words.leading_mm + words.cap_height_mm) / 2
    placed, ink = [], [np.empty((0, 4))]
    runs = [(line.first, line.end - 1) for line in lines]
    for line, (first, end, top) in zip(set_lines(words, runs), lines, strict=True):
        width = words.width(first, end - 1)
        left, baseline = -width / 2, top + drop
        placed.append(Line(shown(line.text), left, baseline, width, line.glyphs))
        ink.append(line.ink.reshape(-1, 4) + np.array([left, baseline] * 2))
    far = np.abs(np.concatenate(ink))  # the outline is symmetric
    return FittedBalloon(
        text=shown(words.text),
        lines=tuple(placed),
        outline=outline,
        clearance_mm=clearance(outline, np.maximum(far[:, :2], far[:, 2:])),
        words=words.count,
        size_pt=words.size_pt,
        findings=words.findings,
    )


def _holds(text: _Text, outline: Outline, *, air: float) -> bool:
    """Whether all pieces go in."""
    end = 0
    for line in text.lines(Chords(outline, air)):
        end = line.end
    return end == len(text.limits)


def _grown(text: _Text, outline: Outline, *, air: float) -> Outline:
    """An outline of the same family and aspect that holds all, found by halving."""
    low, high = 1.0, 2.0
    while not _holds(text, outline.scaled(high), air=air):
        low, high = high, 2 * high
    while high > low * (1 + NEARLY):
        middle = math.sqrt(low * high)
        held = _holds(text, outline.scaled(middle), air=air)
        low, high = (low, middle) if held else (middle, high)
    return outline.scaled(high)


def _size(text: _Text, outline: Outline, *, air: float) -> float | None:
    """A type size at which all go in, the air unchanged, found by halving.

    Type at f times its size goes in where the type itself goes into the room at 1 / f.
    """
    if min(outline.half_width, outline.half_height) - air < LEAST_ROOM:
        return None

    def fits(f: float) -> bool:
        return _holds(text, outline.scaled(1 / f), air=air / f)

    low, high = 0.5, 1.0
    while not fits(low):
        low, high = low / 2, low
    while high > low * (1 + NEARLY):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if fits(middle) else (low, middle)
    return text.words.size_pt * low
