"""The least number of words whose removal lets a text into an outline, proved by search.

`letterfit.cuts.bound` proves that fewer do not; measuring and fitting what is left shows that so
many do. Where the two disagree all removals of that many words that the bound allows are fitted, as
far as the budget goes; beyond it the answer is "at least" and "at most".
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, combinations, islice

from letterfit.cuts.bound import Bound, Measure
from letterfit.cuts.tokens import Token, joined
from letterfit.outline import Outline

MOST_SEEN, MOST_FITTED = 4_000, 200
"""Removals of one number of words that are held against the bound, and fitted, at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastCut:
    """The least number of words whose removal makes a text fit, marks staying with their words.

    Args:
        at_least: No fewer do: proved.
        at_most: So many do: fitted; None when no removal that was tried does.
        text: A text that fits, chosen by measure alone; empty when there is none.
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
    least, sure, agreed = 1, bound is not None, True
    for removed in range(1, sum(token.words for token in tokens)):
        allowed = bound.removals(removed) if bound is not None and not bound.spent else []
        spent = bound is None or bound.spent
        if allowed or spent or not agreed:
            # Once the bound allowed what does not fit, its removals are not all there are.
            agreed = False
            found, all_seen = _fitting(tokens, removed, allowed, fits=fits, bound=bound)
            if found:
                return LeastCut(at_least=least, at_most=removed, text=found)
            sure = sure and all_seen
        least = removed + 1 if sure else least
    return LeastCut(at_least=least, at_most=None)


def _fitting(
    tokens: Sequence[Token],
    removed: int,
    allowed: Sequence[tuple[int, ...]],
    *,
    fits: Callable[[str], bool],
    bound: Bound | None,
) -> tuple[str, bool]:
    """A text of so many words fewer that fits, or none; and whether all removals were seen."""
    fitted = seen = 0
    counted = [gone for gone in allowed if sum(tokens[k].words for k in gone) == removed]
    for gone in chain(counted, islice(_removals(tokens, removed), MOST_SEEN)):
        seen += 1
        if seen > len(counted) and bound is not None and not bound.allows(gone):
            continue
        fitted += 1
        left = joined(token for index, token in enumerate(tokens) if index not in gone)
        if fits(left):
            return left, True
        if fitted >= MOST_FITTED:
            return "", False
    return "", seen < MOST_SEEN + len(counted)


def _removals(tokens: Sequence[Token], removed: int) -> Iterator[tuple[int, ...]]:
    """All sets of tokens with so many words, runs of neighbours first."""
    count = len(tokens)
    for size in range(1, min(removed, count - 1) + 1):
        runs = (tuple(range(at, at + size)) for at in range(count - size + 1))
        for gone in (*runs, *combinations(range(count), size)):
            if sum(tokens[index].words for index in gone) == removed:
                yield gone
