"""Proposals: which of the units go so that a text does what is asked, each fitted anew."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations, count, islice, pairwise

from letterfit.cuts.faults import faults
from letterfit.cuts.least import LeastCut
from letterfit.cuts.mend import mended
from letterfit.cuts.model import Cut
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, tokens_of, word_count
from letterfit.cuts.units import LATE, Unit, units_of
from letterfit.fit.model import FittedBalloon

MOST_UNITS, MOST_LOOKED_AT, MOST_FITTED = 24, 3000, 40
"""Units that are combined, combinations that are looked at, and texts that are fitted."""

EXTRA_WORD = 0.7
"""What each word over the least number costs."""

Choice = tuple[Unit, ...]


def cuts_for(  # noqa: PLR0913 - keyword-only
    text: str,
    *,
    fit: Callable[[str], FittedBalloon],
    enough: Callable[[FittedBalloon], bool],
    least_words: int = 1,
    least: LeastCut | None = None,
    language: str = "en",
    names: Sequence[str] = (),
    most: int = 5,
    where: str = "",
    single: bool = False,
) -> tuple[Cut, ...]:
    """Proposals that are enough, those that an editor minds least first.

    Args:
        text: As typed.
        fit: Measures and fits a text.
        enough: Whether a fitted text does what is asked for.
        least_words: No proposal takes out fewer.
        least: What is known of the least number, for the proposals to carry.
        language: BCP 47 tag.
        names: The speakers of the script.
        most: How many to return.
        where: "page.panel.balloon".
        single: Whether each proposal is one word or phrase.

    Returns:
        At most `most`. Where no unit will do, the removal of `least` alone, if it fits: it is
        chosen by measure, its kind is "by measure alone".
    """
    tokens, before = tokens_of(text), fit(text)
    table = cut_table(language)
    units = units_of(tokens, language=language, names=names)
    found: list[Cut] = []
    seen: set[str] = set()
    for choice in islice(_choices(units, least_words, single=single), MOST_FITTED):
        gone = {k for unit in choice for k in unit.tokens}
        after = mended(tokens, gone, table=table)
        if after in seen or faults(text, after, names=names):
            continue
        seen.add(after)
        fitted = fit(after)
        if enough(fitted):
            cost = choice_cost(choice, least_words)
            cut = _cut(tokens, choice, cost=cost, text=after, before=before, after=fitted)
            found.append(replace(cut, least=least, where=where))
        if len(found) >= most:
            break
    if not found and least is not None and least.text and least.at_most:
        found.append(_by_measure(text, before, fit(least.text), least, where=where))
    return tuple(found)


def _cut(  # noqa: PLR0913 - keyword-only
    tokens: Sequence[Token],
    choice: Choice,
    *,
    cost: float,
    text: str,
    before: FittedBalloon,
    after: FittedBalloon,
) -> Cut:
    ordered = sorted(choice, key=lambda unit: unit.first)
    return Cut(
        removed=tuple(" ".join(tokens[k].text for k in unit.tokens) for unit in ordered),
        kinds=tuple(unit.kind for unit in ordered),
        words=before.words - after.words,
        text=text,
        before=before,
        after=after,
        cost=cost,
        enough=True,
    )


def _by_measure(
    text: str, before: FittedBalloon, after: FittedBalloon, least: LeastCut, *, where: str
) -> Cut:
    left = iter([token.text for token in tokens_of(least.text)])
    wanted = next(left, None)
    removed = []
    for token in tokens_of(text):
        if token.text == wanted:
            wanted = next(left, None)
        else:
            removed.append(token.text)
    return Cut(
        removed=tuple(removed),
        kinds=("by measure alone",) * len(removed),
        words=before.words - after.words,
        text=least.text,
        before=before,
        after=after,
        cost=2 * LATE + word_count(" ".join(removed)),
        enough=True,
        least=least,
        where=where,
    )


def _choices(units: Sequence[Unit], least_words: int, *, single: bool) -> Iterator[Choice]:
    """Sets of units that do not overlap and have words enough, the cheapest first."""
    by_words = sorted(units, key=_per_word)[: MOST_UNITS // 2]
    few = [*dict.fromkeys([*units[: MOST_UNITS // 2], *by_words])]
    found: dict[tuple[tuple[int, int], ...], Choice] = {}
    looked = count()
    for size in (1,) if single else (1, 2, 3):
        pool = units if size == 1 else few
        for choice in combinations(pool, size):
            if next(looked) > MOST_LOOKED_AT:
                break
            if sum(unit.words for unit in choice) >= least_words and _apart(choice):
                found[tuple((unit.first, unit.stop) for unit in choice)] = choice
    for pool in ([unit for unit in units if unit.is_filler], units) if not single else ():
        greedy = _greedy(pool, least_words)
        if sum(unit.words for unit in greedy) >= least_words:
            found[tuple((unit.first, unit.stop) for unit in greedy)] = greedy
    yield from sorted(found.values(), key=lambda choice: choice_cost(choice, least_words))


def _greedy(units: Sequence[Unit], least_words: int) -> Choice:
    """The cheapest units for their words, one after the other, until there are words enough."""
    taken: list[Unit] = []
    for unit in sorted(units, key=_per_word):
        if sum(one.words for one in taken) >= least_words:
            break
        if _apart((*taken, unit)):
            taken.append(unit)
    return tuple(taken)


def _per_word(unit: Unit) -> float:
    return unit.cost / unit.words


def _apart(choice: Choice) -> bool:
    ordered = sorted(choice, key=lambda unit: unit.first)
    return all(a.stop <= b.first for a, b in pairwise(ordered))


def choice_cost(choice: Sequence[Unit], least_words: int) -> float:
    """What units cost an editor, words over the least number counted."""
    extra = sum(unit.words for unit in choice) - least_words
    return sum(unit.cost for unit in choice) + EXTRA_WORD * max(extra, 0)
