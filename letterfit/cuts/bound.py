"""What no removal of so few words can get round: a bound from below on words to take out.

Line k of L lies where `letterfit.fit.stack` puts it; its advance W is centred, so a corner of the
ink of its first word, x from the left end and y from the baseline, is inside only if
W/2 <= c(y) + x, where c(y) is half the chord of the room that the air leaves; likewise for the last
word from the right. Words in between are let off, chords are taken over sampled directions only (so
never too short), and a line is as wide as its words and the least gaps before them. Words that
cannot be stacked so do not fit. A table over (lines, pieces decided, lines begun) with the
undominated states tells for how few removed words there is a stack; states that would need more,
because what is left is wider than all room left and the widest words together, are let go.
"""

import math
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple

import numpy as np

from letterfit.cuts.pieces import Measure, Piece, TextPieces
from letterfit.cuts.tokens import Token
from letterfit.fit.stack import half_leadings
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

MOST_STATES = 150_000
"""States of the table before the proof is given up."""

_SPARE = 1e-9
_ANGLES: Floats = np.linspace(0, math.pi / 2, 721)[:-1]


class _State(NamedTuple):
    """Words removed, and the last line begun: its advance, the most it may have, an end here."""

    removed: int
    width: float
    most: float
    may_end: bool
    gone: tuple[int, ...]


_START = _State(0, 0.0, math.inf, may_end=True, gone=())


@dataclass(slots=True)
class Bound:
    """The bound for one text and one outline.

    Args:
        tokens: The text.
        pieces: Its pieces.
        rooms: Per number of lines, shape (lines, pieces, 2): the longest advances of a line that
            the piece begins, and that it ends.
        states: How many states were made so far.
    """

    tokens: Sequence[Token]
    pieces: Sequence[Piece]
    rooms: dict[int, list[list[list[float]]]]
    states: int = 0
    _asked: "_Asked | None" = None

    @classmethod
    def of(
        cls, tokens: Sequence[Token], outline: Outline, *, measure: Measure, air: float
    ) -> "Bound | None":
        """The bound; None where a text is not as wide as its words and the gaps between them."""
        text = TextPieces.of(tokens, measure)
        if text is None:
            return None
        return cls(tokens, text.pieces, _rooms(text.pieces, outline, text.whole, air=air))

    @property
    def spent(self) -> bool:
        """Whether the budget of states has ended: the bound says nothing more."""
        return self.states > MOST_STATES

    def removals(self, most: int) -> list[tuple[int, ...]]:
        """Some removals of at most so many words that the bound allows; none when it allows none.

        Those listed are the ones that no other is as good as at every step.
        """
        found: list[tuple[int, ...]] = []
        for lines in self.rooms:
            ends = self._ends(lines, most)
            found += [state.gone for state in ends if state.may_end]
        return [*dict.fromkeys(gone for gone in found if len(gone) < len(self.tokens))]

    def allows(self, gone: Sequence[int]) -> bool:
        """Whether the bound allows to remove just these tokens."""
        kept = [k for k, piece in enumerate(self.pieces) if piece.token not in gone]
        for lines in self.rooms:
            row: list[list[_State]] = [[_START], *([] for _ in range(lines))]
            for piece in kept:
                self.states += 1
                row = [self._stepped(row, line, piece=piece, lines=lines) for line in _upto(lines)]
            if any(state.may_end for state in row[lines]):
                return True
        return False

    def _ends(self, lines: int, most: int) -> list[_State]:
        """The states of all pieces decided, on so many lines, at most so many words removed."""
        if self._asked is None:
            self._asked = _Asked.of(self)
        asked = self._asked
        if self.spent or asked.least(0, lines, 0, _START) > most:
            return []
        rows: list[list[list[_State]]] = [[[_START], *([] for _ in range(lines))]]
        begun = 0
        for number, piece in enumerate(self.pieces):
            begun = number if piece.begins else begun
            last = number + 1 == len(self.pieces) or self.pieces[number + 1].begins
            row: list[list[_State]] = []
            for line in _upto(lines):
                found = self._stepped(rows[number], line, piece=number, lines=lines)
                if last:
                    found += self._taken(piece.token, rows[begun][line])
                alive = [one for one in found if asked.least(number + 1, lines, line, one) <= most]
                row.append(_undominated(alive))
                self.states += len(row[-1])
            rows.append(row)
            if self.spent:
                return []
        return rows[-1][lines]

    def _taken(self, token: int, states: Sequence[_State]) -> list[_State]:
        """The states in which a word is taken out."""
        words = self.tokens[token].words
        return [
            state._replace(removed=state.removed + words, gone=(*state.gone, token))
            for state in states
        ]

    def _stepped(
        self, row: Sequence[Sequence[_State]], line: int, *, piece: int, lines: int
    ) -> list[_State]:
        """The states with one piece more, which stands on line `line`, counted from 1."""
        if not line:
            return []
        one = self.pieces[piece]
        first, last = self.rooms[lines][line - 1][piece]
        found = []
        for removed, before, most, _, gone in row[line]:
            width = before + one.gap + one.width
            if width <= most:
                found.append(_State(removed, width, most, width <= last, gone))
        if one.width <= first:
            found += [
                _State(state.removed, one.width, first, one.width <= last, state.gone)
                for state in row[line - 1]
                if state.may_end
            ]
        return found


def _upto(lines: int) -> range:
    return range(lines + 1)


@dataclass(frozen=True, slots=True)
class _Asked:
    """How many words must still go from a state, at the least: what is wider than all room left.

    Args:
        left: Per number of lines and line begun, the room of all lines after it.
        widths: Per piece, the width of it and all after it.
        wins: Per piece, what the widest of the later words win: after 0, 1, 2... of them.
    """

    left: dict[int, list[float]]
    widths: list[float]
    wins: list[list[float]]

    @classmethod
    def of(cls, bound: Bound) -> "_Asked":
        """What states of a bounded text ask for."""
        pieces, tokens = bound.pieces, bound.tokens
        spare = max((piece.gap for piece in pieces), default=0.0)
        left = {}
        for lines, rows in bound.rooms.items():
            rooms = [max(max(first for first, _ in row) + spare, 0.0) for row in rows]
            left[lines] = [sum(rooms[line:]) for line in _upto(lines)]
        widths, wins, shares, word = [0.0], [[0.0]], list[float](), 0.0
        for piece in reversed(pieces):
            word += piece.width + max(piece.gap, 0.0)
            widths.append(widths[-1] + piece.width + min(piece.gap, 0.0))
            if piece.begins:
                count = tokens[piece.token].words
                for _ in range(count):
                    insort(shares, -word / count)
                word = 0.0
            wins.append([0.0, *accumulate(-share for share in shares)])
        return cls(left, widths[::-1], wins[::-1])

    def least(self, piece: int, lines: int, line: int, state: _State) -> int:
        """The words removed in a state and those that must still go; see the class."""
        room = self.left[lines][line] + (state.most - state.width if line else 0.0)
        over = self.widths[piece] - room - _SPARE
        return state.removed + (bisect_left(self.wins[piece], over) if over > 0 else 0)


def _undominated(states: list[_State]) -> list[_State]:
    """The states that no other is at least as good as."""
    if len(states) < 2:
        return states
    best: list[_State] = []
    for state in sorted(states, key=lambda one: (one[0], one[1], -one[2], not one[3])):
        if not any(
            other.width <= state.width
            and other.most >= state.most
            and other.may_end >= state.may_end
            for other in best
        ):
            best.append(state)
    return best


def _rooms(
    pieces: Sequence[Piece], outline: Outline, words: Words, *, air: float
) -> dict[int, list[list[list[float]]]]:
    """The longest advances of lines that each piece may begin and end; see the module."""
    high = 2 * (outline.half_height - air)
    if high <= 0:
        return {}
    counts = [len(piece.corners) for piece in pieces]
    corners = np.concatenate([piece.corners for piece in pieces])
    inked = np.flatnonzero(counts)
    begin = np.concatenate([[0], np.cumsum(counts)[:-1]])[inked]
    most = min(math.floor(high / words.leading_mm) + 2, len(pieces))
    rooms = {}
    for lines in range(1, most + 1):
        middles = half_leadings(lines) * (words.leading_mm / 2) + words.cap_height_mm / 2
        chords = _half_chords(outline, middles[:, None] + corners[:, 2], air=air)
        longest = np.full((lines, len(pieces), 2), math.inf)
        for side in (0, 1):
            room = 2 * (chords + corners[:, side]) + _SPARE
            longest[:, inked, side] = np.minimum.reduceat(room, begin, axis=1)
        rooms[lines] = longest.tolist()
    return rooms


def _half_chords(outline: Outline, heights: Floats, *, air: float) -> Floats:
    """Half the chords of the room at some heights, mm; never too short, under 0 for none."""
    unique, where = np.unique(np.abs(heights), return_inverse=True)
    reach = outline.support(_ANGLES) - air
    least = ((reach - unique[:, None] * np.sin(_ANGLES)) / np.cos(_ANGLES)).min(axis=1)
    result: Floats = least[where].reshape(heights.shape)
    return result
