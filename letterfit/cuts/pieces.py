"""A text as the pieces its lines are made of: how wide each is, what stands before it, its ink.

A text that adds up is as wide as its words and the gaps between them, wherever its lines end and
whichever words are taken out: then what a removal leaves can be bounded without setting it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from letterfit.cuts.tokens import Token, joined
from letterfit.lettering.words import Words
from letterfit.outline import Floats

ADDS_UP = 1e-6
"""mm: a text is as wide as its words and gaps when it is so to this much."""

Measure = Callable[[str], Words]


class Piece(NamedTuple):
    """A piece of a word: what decides the lines it can stand on.

    Attributes:
        token: The number of its word.
        begins: Whether the word begins with it.
        width: Its advance, mm.
        gap: The least space before it on a line, mm.
        corners: Its ink, shape (2 g, 3): from the left end, from the right end, from the baseline;
            the tops of its g boxes, then their bottoms.
    """

    token: int
    begins: bool
    width: float
    gap: float
    corners: Floats


@dataclass(frozen=True, slots=True, eq=False)
class TextPieces:
    """The pieces of a text that adds up.

    Args:
        whole: The whole text, measured.
        pieces: Its pieces.
        forms: Per word, the pieces of each form that it may take.
    """

    whole: Words
    pieces: tuple[Piece, ...]
    forms: tuple[tuple[tuple[Piece, ...], ...], ...] = ()

    @classmethod
    def of(
        cls,
        tokens: Sequence[Token],
        measure: Measure,
        *,
        forms: Callable[[Token], Sequence[Token]] = lambda token: (token,),
    ) -> "TextPieces | None":
        """The pieces of a text; None where it is not as wide as its words and the gaps between.

        Args:
            tokens: The text.
            measure: Measures a text.
            forms: What a word may become when others go; the word itself first. Gaps are the least
                between any forms.
        """
        whole = measure(joined(tokens))
        ways = [tuple(forms(token)) for token in tokens]
        alone = {form: measure(joined([form])) for own in ways for form in own}
        if not all(map(adds_up, (whole, *alone.values()))):
            return None
        gaps = _Gaps(alone, measure)
        follows = (gaps.between(a, b) for a, b in pairwise(tokens))
        summed = sum(text_width(alone[token]) for token in tokens) + sum(follows)
        if abs(summed - text_width(whole)) > ADDS_UP:
            return None
        least = _least_gaps(ways, gaps)
        found = tuple(
            tuple(tuple(word_pieces(alone[form], k, gap=least[k])) for form in own)
            for k, own in enumerate(ways)
        )
        return cls(whole, tuple(piece for own in found for piece in own[0]), found)


class _Gaps:
    """What stands between two words: measured for each pair of neighbouring letters once."""

    def __init__(self, alone: dict[Token, Words], measure: Measure) -> None:
        self._alone, self._measure = alone, measure
        self._known: dict[tuple[str, str, bool, str, str], float] = {}

    def between(self, a: Token, b: Token) -> float:
        """The gap before a word that stands after another."""
        key = (a.marks, a.text[-1:], bool(a.span) and a.span == b.span, b.marks, b.text[:1])
        if key not in self._known:
            both = text_width(self._measure(joined([a, b])))
            self._known[key] = both - text_width(self._alone[a]) - text_width(self._alone[b])
        return self._known[key]


def _least_gaps(ways: Sequence[Sequence[Token]], gaps: _Gaps) -> list[float]:
    """The least gap before each word, after any earlier one, in any of their forms."""
    least, before = [], list[Token]()
    for own in ways:
        least.append(min((gaps.between(a, b) for a in before for b in own), default=0.0))
        before = [*dict.fromkeys([*before, *own])]
    return least


def adds_up(words: Words) -> bool:
    """Whether lines are slices of the text that stand centred, from left to right."""
    odd = words.rtl or words.vertical or words.flush or len(words.reshaped)
    return len(words) > 0 and not odd


def text_width(words: Words) -> float:
    """How wide a text is on one line, mm."""
    return float(words.ends[-1] - words.starts[0])


def word_pieces(words: Words, token: int, *, gap: float) -> Iterator[Piece]:
    """The pieces of one word.

    Args:
        words: The word alone, measured.
        token: Its number.
        gap: The least gap before it, mm.
    """
    boxes, begin = words.ink_boxes()
    widths = (words.ends - words.starts).tolist()
    for k, width in enumerate(widths):
        left, top, right, bottom = boxes[begin[k] : begin[k + 1]].T
        from_left, from_right = np.concatenate([left, left]), np.concatenate([width - right] * 2)
        corners = np.stack([from_left, from_right, np.concatenate([top, bottom])], axis=-1)
        space = gap if not k else float(words.starts[k] - words.ends[k - 1])
        yield Piece(token, not k, width, space, corners)
