"""The least number of words whose removal lets a text into an outline, proved by search.

`letterfit.cuts.bound` proves that fewer do not; measuring and fitting what is left shows that so
many do. Where the two disagree all removals of that many words that the bound allows are fitted, as
far as the budget goes; beyond it words go from the end, and the answer is "at least", "at most".
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, combinations, islice

from letterfit.cuts.bound import Bound
from letterfit.cuts.pieces import Measure
from letterfit.cuts.tokens import Token, joined
from letterfit.outline import Outline

MOST_SEEN, MOST_FITTED = 4_000, 200
"""Removals that are held against the bound, and texts that are fitted, at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastCut:
    """The least number of words whose removal makes a text fit, marks staying with their words.

    Args:
        at_least: No fewer do: proved.
        at_most: So many do: fitted; None when no removal that was tried does.
        text: A text that fits, chosen by measure alone; empty when there is none.

    >>> import letterfit as lf
    >>> gate = lf.Ellipse(half_width=12, half_height=7)
    >>> least = lf.least_cut("Hold the gate a little longer, old thing, will you?", outline=gate)
    >>> least.at_least, least.at_most, least.proved
    (2, 2, True)
    """

    at_least: int
    at_most: int | None
    text: str = ""

    @property
    def proved(self) -> bool:
        """Whether the least number is known.

        >>> LeastCut(at_least=2, at_most=3).proved
        False
        """
        return self.at_least == self.at_most


def least_removal(
    tokens: Sequence[Token],
    outline: Outline,
    *,
    measure: Measure,
    fits: Callable[[str], bool],
    air_mm: float,
) -> LeastCut:
    """The least number of words to take out so that the rest fits a given outline.

    Args:
        tokens: The text, at least one token.
        outline: The outline.
        measure: Measures a text.
        fits: Whether a text fits the outline.
        air_mm: The least distance from ink to outline.

    Returns:
        Equal bounds when it is proved. Where words do not add up (faces whose shaping looks over
        spaces, columns, lines from right to left or flush) nothing is proved but that one must go.
    """
    whole = joined(tokens)
    if fits(whole):
        return LeastCut(at_least=0, at_most=0, text=whole)
    bound = Bound.of(tokens, outline, measure=measure, air=air_mm)
    search = _Search(tokens, fits, bound)
    least, sure, agreed = 1, bound is not None, True
    for removed in range(1, sum(token.words for token in tokens)):
        allowed = bound.removals(removed) if bound is not None else []
        if search.spent:
            break
        if allowed or bound is None or not agreed:
            # Once the bound allowed what does not fit, its removals are not all there are.
            agreed = False
            found = search.fitting(removed, allowed)
            if found:
                return LeastCut(at_least=least, at_most=removed, text=found)
            sure = sure and not search.spent
        least = removed + 1 if sure else least
    return search.from_the_end(least) if search.spent else LeastCut(at_least=least, at_most=None)


@dataclass(slots=True)
class _Search:
    """What was tried so far for a text.

    Args:
        tokens: The text.
        fits: Whether a text fits.
        bound: The bound, if there is one.
        fitted: How many texts were fitted.
        seen: How many removals were looked at.
    """

    tokens: Sequence[Token]
    fits: Callable[[str], bool]
    bound: Bound | None
    fitted: int = 0
    seen: int = 0

    @property
    def spent(self) -> bool:
        """Whether the budget has ended: what is not found is not proved not to be."""
        spent = self.bound is not None and self.bound.spent
        return spent or self.fitted >= MOST_FITTED or self.seen >= MOST_SEEN

    def fitting(self, removed: int, allowed: Sequence[tuple[int, ...]]) -> str:
        """A text of just so many words fewer that fits; empty when none was found."""
        likely = [gone for gone in allowed if self._words(gone) == removed]
        for gone in chain(likely, _removals(self.tokens, removed)):
            if self.spent:
                return ""
            self.seen += 1
            if self.bound is not None and gone not in likely and not self.bound.allows(gone):
                continue
            self.fitted += 1
            left = joined(token for index, token in enumerate(self.tokens) if index not in gone)
            if self.fits(left):
                return left
        return ""

    def from_the_end(self, least: int) -> LeastCut:
        """What fits when words go from the end, as many as halving finds."""
        low, high = 0, len(self.tokens) - 1  # of so many kept, the first do, the others do not
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if self.fits(self._first(middle)) else (low, middle - 1)
        removed = sum(token.words for token in self.tokens[low:])
        return LeastCut(at_least=least, at_most=removed if low else None, text=self._first(low))

    def _first(self, count: int) -> str:
        return joined(self.tokens[:count])

    def _words(self, gone: Sequence[int]) -> int:
        return sum(self.tokens[index].words for index in gone)


def _removals(tokens: Sequence[Token], removed: int) -> Iterator[tuple[int, ...]]:
    """All sets of tokens with so many words, runs of neighbours first."""
    count = len(tokens)
    for size in range(1, min(removed, count - 1) + 1):
        runs = (tuple(range(at, at + size)) for at in range(count - size + 1))
        for gone in chain(runs, islice(combinations(range(count), size), MOST_SEEN)):
            if sum(tokens[index].words for index in gone) == removed:
                yield gone
