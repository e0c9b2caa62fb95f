"""What no cut of so many words can get round: the least area of the balloon that is left.

As in `letterfit.cuts.bound` a line of advance W is centred, and the ink of its first and last word
stands inside only if, for every direction t of the outline's support function h,
(W/2 - x) cos t + |y| sin t + air <= s h(t), s being the outline's scale. Here x and y are those of
the word that asks for least, words may lose the marks and take the capitals that cuts bring, and a
line of some run of words is at least as wide as all of it less the widest words that go. For
outlines of falling area a table over (lines, words set) finds how few words must go. The aspects of
the family are cut into cells, and h is the greatest in each: the support functions of every family
are convex in the logarithm of the aspect at a fixed product of the sides, so the greatest stands at
an end of the cell.
"""

import math
from bisect import insort
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np
import numpy.typing as npt

from letterfit.cuts.mend import forms
from letterfit.cuts.pieces import Measure, Piece, TextPieces
from letterfit.cuts.tokens import Token
from letterfit.families import Family, family
from letterfit.fit.stack import half_leadings
from letterfit.lettering.words import Words
from letterfit.outline import Floats

MOST_PIECES, MOST_GONE = 60, 40
"""Pieces of a text, and words gone, past which nothing is said."""

NONE = 60
"""Words that go where none would be enough; twice as many are a number of 8 bits."""

MOST_LINES = 24

STEP = 0.06
"""Widest cell, as the logarithm of the aspect."""

STEPS = 512
"""Advances of a line that are told apart."""

SAFE = 1 - 1e-9
"""A bound is taken for less by so much: rounding proves nothing."""

_ANGLES: Floats = np.linspace(0, math.pi / 2, 65)
_COS, _SIN = np.cos(_ANGLES), np.sin(_ANGLES)

_GRID: Floats = np.cumprod(np.array([1.0, *[0.99] * 40, *[0.98] * 40, *[0.96] * 30]))
"""Areas that are tried, over that of the outline that is known to hold the text."""

Counts = npt.NDArray[np.int8]


@dataclass(frozen=True, slots=True)
class LeastAreas:
    """For every number of words that go, what is left at least.

    Args:
        areas: By words gone, mm2: no outline of the family that holds what is left is smaller,
            whichever words went; infinite where none enters the room. Never rising.
        likely: By words gone, the tokens whose going the bound thinks best; empty for none.
    """

    areas: tuple[float, ...]
    likely: tuple[tuple[int, ...], ...]

    def at(self, gone: int) -> float:
        """The least area with so many words gone; 0 past what is known."""
        return self.areas[gone] if gone < len(self.areas) else 0.0


def least_areas(  # noqa: PLR0913 - keyword-only
    tokens: Sequence[Token],
    name: str,
    *,
    measure: Measure,
    air_mm: float,
    inside: tuple[float, float],
    now_mm2: float,
    most: int,
) -> LeastAreas | None:
    """The least areas of a text from which up to `most` words go, at least one staying.

    Args:
        tokens: The text.
        name: The family of outlines, each in its own range of aspects.
        measure: Measures a text.
        air_mm: The least distance from ink to outline.
        inside: Width and height in mm that an outline may have.
        now_mm2: The area of an outline that holds the whole text.
        most: Words.

    Returns:
        None where nothing is proved: texts whose words do not add up (columns, lines from right to
        left or flush, faces whose shaping looks over spaces), and very long ones.
    """
    total = sum(token.words for token in tokens)
    gone = min(most, total - 1)
    if gone < 0 or gone > MOST_GONE:
        return None
    text = TextPieces.of(tokens, measure, forms=forms)
    if text is None or len(text.pieces) > MOST_PIECES:
        return None
    edge = _Edge.of(text)
    if edge is None:
        return None
    ranges = _Ranges.of(tokens, text, gone)
    cells = _Cells.of(family(name), inside=inside, now_mm2=now_mm2, air=air_mm)
    return _Table(cells, edge, text.whole, ranges).least(tokens)


@dataclass(frozen=True, slots=True)
class _Edge:
    """What the ends of any line ask for: corners, each outdone by one of every word's.

    Args:
        insets: How far each corner may stand from the line's end, mm.
        boxes: Per corner and word, top and bottom of its ink from the baseline, shape (n, 2).
    """

    insets: tuple[float, ...]
    boxes: tuple[Floats, ...]

    @classmethod
    def of(cls, text: TextPieces) -> "_Edge | None":
        """The corners of a text's words in all their forms; None where a word has no ink.

        At either end of a word its outermost and its tallest ink.
        """
        found: list[list[list[float]]] = [[], [], [], []]
        for piece in (piece for word in text.forms for form in word for piece in form):
            count = len(piece.corners) // 2
            if not count:
                return None
            top, bottom = piece.corners[:count, 2], piece.corners[count:, 2]
            for side in (0, 1):
                inset = piece.corners[:count, side]
                tall = np.lexsort((inset, top - bottom))[0]
                for corner, at in ((2 * side, inset.argmin()), (2 * side + 1, tall)):
                    found[corner].append([float(own[at]) for own in (inset, top, bottom)])
        corners = [np.array(own) for own in found]
        return cls(
            tuple(float(own[:, 0].max()) for own in corners), tuple(own[:, 1:] for own in corners)
        )

    def asks(self, base: float) -> Floats:
        """Per direction, what a line of no advance asks for with its baseline at `base`, mm."""
        asked = [
            np.abs(base + box).max(axis=1).min() * _SIN - inset * _COS
            for inset, box in zip(self.insets, self.boxes, strict=True)
        ]
        result: Floats = np.max(asked, axis=0)
        return result


@dataclass(frozen=True, slots=True, eq=False)
class _Ranges:
    """The least advance of a line made of a run of pieces from which words go.

    Args:
        advances: By first piece, one past the last, and words gone; infinite where nothing stays.
        wins: Per word, what its going wins, mm.
        words: Per word, the pieces it has.
    """

    advances: Floats
    wins: tuple[float, ...]
    words: tuple[range, ...]

    @classmethod
    def of(cls, tokens: Sequence[Token], text: TextPieces, gone: int) -> "_Ranges":
        """The runs of a text.

        A word is as wide as it is or with a capital. That it may lose its mark when the word after
        it goes is won by that word.
        """
        pieces = text.pieces
        begins = [k for k, piece in enumerate(pieces) if piece.begins]
        words = tuple(map(range, begins, [*begins[1:], len(pieces)]))
        widths = [[_advance(form) for form in own] for own in text.forms]
        base = [min(own[0], own[2]) for own in widths]
        lost = [0.0, *(low - min(own) for low, own in zip(base, widths, strict=True))]
        wins = [
            low + pieces[k].gap + loss for low, k, loss in zip(base, begins, lost[:-1], strict=True)
        ]
        each = [piece.width + piece.gap for piece in pieces]
        for k, own, low in zip(begins, widths, base, strict=True):
            each[k] -= own[0] - low
        spare = max(0.0, *(piece.gap for piece in pieces))
        advances = np.full((len(pieces) + 1, len(pieces) + 1, gone + 1), math.inf)
        for first in range(len(pieces)):
            for stop, left in _shortened(first, each, wins=wins, words=words, tokens=tokens):
                count = min(len(left), gone + 1)
                advances[first, stop, :count] = np.maximum(np.array(left[:count]) - spare, 0.0)
        return cls(advances, tuple(wins), words)

    def widest(self, first: int, stop: int, gone: int, tokens: Sequence[Token]) -> list[int]:
        """The words of a run whose going wins most, with at least so many words."""
        inside = [k for k, own in enumerate(self.words) if first <= own.start and own.stop <= stop]
        found, left = list[int](), gone
        for k in sorted(inside, key=lambda k: (-self.wins[k] / tokens[k].words, k)):
            if left > 0:
                found.append(k)
                left -= tokens[k].words
        return found


def _advance(pieces: Sequence[Piece]) -> float:
    return sum(piece.width + (0.0 if piece.begins else piece.gap) for piece in pieces)


def _shortened(
    first: int,
    each: Sequence[float],
    *,
    wins: Sequence[float],
    words: Sequence[range],
    tokens: Sequence[Token],
) -> Iterator[tuple[int, list[float]]]:
    """For every run that begins with a piece: its advance with 0, 1, 2... words gone."""
    ends = {own.stop: k for k, own in enumerate(words) if own.start >= first}
    shares, total, torn = list[float](), 0.0, all(own.start != first for own in words)
    for stop in range(first + 1, len(each) + 1):
        total += each[stop - 1]
        if stop in ends:
            count = tokens[ends[stop]].words
            for _ in range(count):
                insort(shares, -wins[ends[stop]] / count)
        open_end = torn or stop not in ends
        yield stop, [*accumulate(shares if open_end else shares[:-1], initial=total)]


@dataclass(frozen=True, slots=True, eq=False)
class _Cells:
    """Outlines of a family that are tried: every area of a grid in every cell of aspect.

    Args:
        reach: Per outline and direction, what no outline in the cell and of that area exceeds, mm.
        areas: Per outline, its area, mm2.
        air: mm.
        longest: An advance in mm that no line of the largest has.
    """

    reach: Floats
    areas: Floats
    air: float
    longest: float

    @classmethod
    def of(
        cls, kind: Family, *, inside: tuple[float, float], now_mm2: float, air: float
    ) -> "_Cells":
        """The outlines of a family that enter a room of so much width and height."""
        low, high = kind.aspect
        count = math.ceil(math.log(high / low) / STEP)
        sides = np.exp(np.linspace(math.log(low), math.log(high), count + 1) / 2)
        units = [kind.make(side, 1 / side) for side in sides.tolist()]
        supports = np.array([unit.support(_ANGLES) for unit in units])
        unit_areas = np.array([unit.area_mm2 for unit in units])
        least = np.minimum(unit_areas[:-1], unit_areas[1:])
        grid = now_mm2 * _GRID
        scales = np.sqrt(grid[:, None] / least)
        most = np.minimum(inside[0] / (2 * sides[:-1]), inside[1] * sides[1:] / 2)
        at, cell = np.nonzero(scales <= most)
        reach = np.maximum(supports[:-1], supports[1:])[cell] * scales[at, cell][:, None]
        return cls(
            reach=reach,
            areas=grid[at],
            air=air,
            longest=2 * float(sides[-1] * scales.max()),
        )

    def rooms(self, asked: Floats) -> Floats:
        """Per outline, the longest line whose ends ask for so much, mm; under 0 for none."""
        result: Floats = (2 * (self.reach - self.air - asked)[:, :-1] / _COS[:-1]).min(axis=1)
        return np.where((self.reach - self.air - asked)[:, -1] < 0, -1.0, result)


@dataclass(frozen=True, slots=True, eq=False)
class _Table:
    """How few words must go so that the rest goes into outlines, by outline.

    Args:
        cells: The outlines.
        edge: What the ends of lines ask for.
        whole: The text.
        ranges: Its runs.
    """

    cells: _Cells
    edge: _Edge
    whole: Words
    ranges: _Ranges

    def least(self, tokens: Sequence[Token]) -> LeastAreas:
        """The least areas and the removals that they take."""
        gone = self.ranges.advances.shape[2]
        best = np.full(gone, math.inf)
        likely: list[tuple[int, ...]] = [()] * gone
        if not len(self.cells.areas):
            return LeastAreas(tuple(best.tolist()), tuple(likely))
        levels = _Levels(self)
        for count in range(1, min(MOST_LINES, len(self.ranges.advances) - 1) + 1):
            asked = [levels.needs(level) for level in half_leadings(count).tolist()]
            if asked[0].min() >= NONE:
                break
            lines = _lines(asked)
            needs = lines[-1][-1]
            for w in range(gone):
                does = np.flatnonzero(needs <= w)
                if len(does) and self.cells.areas[does].min() < best[w]:
                    at = int(does[self.cells.areas[does].argmin()])
                    best[w] = self.cells.areas[at]
                    likely[w] = self._removed(lines, asked, at, tokens)
        return LeastAreas(self._under(best), tuple(likely))

    def _under(self, best: Floats) -> tuple[float, ...]:
        """The next smaller areas of the grid, which do not do; none of the smallest is known."""
        grid = np.unique(self.cells.areas)
        before = dict(zip(grid[1:].tolist(), grid[:-1].tolist(), strict=True))
        lower = [before.get(area, 0.0 if math.isfinite(area) else area) for area in best.tolist()]
        return tuple(area * SAFE for area in accumulate(lower, min))

    def _removed(
        self, lines: Sequence[Counts], asked: Sequence[Counts], at: int, tokens: Sequence[Token]
    ) -> tuple[int, ...]:
        """The words that go from one outline."""
        stop = len(self.ranges.advances) - 1
        found: list[int] = []
        for k in range(len(asked), 0, -1):
            ways = lines[k - 1][:, at] + asked[k - 1][:, stop, at]
            first = int(ways.argmin())
            found += self.ranges.widest(first, stop, int(asked[k - 1][first, stop, at]), tokens)
            stop = first
        return tuple(sorted(found))


class _Levels:
    """By place of a line, how many words must go from every run to stand there in each outline."""

    def __init__(self, table: _Table) -> None:
        cells, advances = table.cells, table.ranges.advances
        self._table, self._known = table, dict[int, Counts]()
        self._step = cells.longest / STEPS
        widths = np.arange(STEPS + 1) * self._step
        widths[-1] = math.inf
        over = np.full((*advances.shape[:2], STEPS + 1), NONE, dtype=np.int8)
        for gone in reversed(range(advances.shape[2])):
            own = advances[:, :, gone, None]
            over[np.isfinite(own) & (own <= widths)] = gone
        self._over = over

    def needs(self, level: int) -> Counts:
        """For lines so many half leadings down: by first piece, one past the last, and outline."""
        if level not in self._known:
            words = self._table.whole
            base = level * words.leading_mm / 2 + words.cap_height_mm / 2
            rooms = self._table.cells.rooms(self._table.edge.asks(base))
            steps = np.clip(np.ceil(rooms / self._step), 0, STEPS).astype(np.int64)
            needs = np.take(self._over, steps, axis=2)
            needs[:, :, rooms < 0] = NONE
            self._known[level] = needs
        return self._known[level]


def _lines(asked: Sequence[Counts]) -> list[Counts]:
    """By lines set: how few words go when all pieces up to one are set, by piece and outline."""
    row = np.full(asked[0].shape[1:], NONE, dtype=np.int8)
    row[0] = 0
    rows = [row]
    for own in asked:
        row = np.minimum((rows[-1][:, None] + own).min(axis=0), NONE)
        rows.append(row)
    return rows
