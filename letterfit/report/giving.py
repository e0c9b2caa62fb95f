"""Which balloon of a panel gives most: what words that go from it alone would do."""

from collections.abc import Sequence

from letterfit.cuts.model import Giving
from letterfit.cuts.tokens import Token
from letterfit.report.bisection import least_that
from letterfit.report.least_panel import Gone, left_as_typed, widest
from letterfit.report.panel_bound import PanelBound
from letterfit.report.shortened import Shortened

MOST_ALONE = 8
"""Balloons of a panel up to which each is tried alone: of more none is likely to do."""


def givings(
    panel: Shortened,
    texts: Sequence[Sequence[Token]],
    bound: PanelBound,
    *,
    words: int,
    known: Sequence[Gone] = (),
) -> tuple[Giving, ...]:
    """What each balloon of a panel gives, the one that gives most first.

    Args:
        panel: The panel, which is not right as it is.
        texts: The tokens of its balloons.
        bound: What is known from below.
        words: How many words are to go in all: so many are measured where none alone do.
        known: Removals that are known to mend the panel.
    """
    alone = [_alone(panel, texts, bound, index=k, known=known) for k in range(len(texts))]
    each = [
        _per_word(panel, texts, bound, index=k, words=own or words) for k, own in enumerate(alone)
    ]
    total = sum(each)
    found = [
        Giving(
            where=menu.id,
            words=menu.words.count,
            alone=own,
            area_per_word_mm2=area,
            share=area / total if total > 0 else 0.0,
        )
        for menu, own, area in zip(panel.case.menus, alone, each, strict=True)
    ]
    return tuple(sorted(found, key=_gives_less))


def _gives_less(one: Giving) -> tuple[bool, int, float]:
    return one.alone is None, one.alone or 0, -one.area_per_word_mm2


def _alone(
    panel: Shortened,
    texts: Sequence[Sequence[Token]],
    bound: PanelBound,
    *,
    index: int,
    known: Sequence[Gone],
) -> int | None:
    """The least number of words found that mend the panel when they go from one balloon alone."""
    told = [
        sum(texts[index][at].words for at in gone[index]) for gone in known if set(gone) == {index}
    ]
    least, most = bound.least_alone(index), len(bound.covers[index]) - 1
    if least is None or len(texts) > MOST_ALONE:
        return min(told, default=None)

    def does(words: int) -> bool:
        gone = {index: widest(bound, texts, index, words)}
        return bool(gone[index]) and panel.is_right(left_as_typed(texts, gone))

    low = max(least, 1)
    found = low if low <= most and does(low) else least_that(does, least=low + 1, most=most)
    if found is not None:
        told.append(sum(texts[index][at].words for at in widest(bound, texts, index, found)))
    return min(told, default=None)


def _per_word(
    panel: Shortened,
    texts: Sequence[Sequence[Token]],
    bound: PanelBound,
    *,
    index: int,
    words: int,
) -> float:
    """How much smaller the balloon becomes for each of so many words, mm2, or of all it has."""
    count = min(words, len(bound.covers[index]) - 1)
    gone = widest(bound, texts, index, count)
    if not gone:
        return 0.0
    left = left_as_typed(texts, {index: gone})[index]
    saved = panel.case.menus[index].smallest.area_mm2 - panel.area(index, left)
    return max(saved, 0.0) / sum(texts[index][at].words for at in gone)
