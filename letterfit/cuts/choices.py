"""Sets of units to take out of a text: for every number of words those that an editor minds least.

Inside a sentence, and then over the sentences, the cheapest sets without an overlap are found by
dynamic programming over the words they take out (a knapsack: Bellman, Dynamic Programming, 1957).
What is left of a sentence has a price of its own, and so has what is left of the whole text: the
costs of the units do not see each other. Prices are ratios (common practice, no source).
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from letterfit.cuts.sentences import sentence_ranges
from letterfit.cuts.tables import CutTable, cut_table
from letterfit.cuts.tokens import Token
from letterfit.cuts.units import JOINT, LATE, Unit

KEPT, KEPT_INSIDE = 4, 12
"""Sets that are kept for every number of words; and inside a sentence, whose rest is priced yet."""

MOST_UNITS = 100
"""Units of a text that are looked at."""

FRAGMENT = 5 * JOINT
"""What it costs to leave a sentence that is none, or ends with a joint."""

FILLERS = 0.5
"""Fillers go before clauses: the share of their cost that counts."""

STUMP, STUMP_SHARE = 1.2, 2 / 3
"""What each word costs that goes beyond this share of a text."""

SHORT = 3
"""A sentence that was cut to fewer words is hardly one."""


class Choice(NamedTuple):
    """Units that go together.

    Attributes:
        cost: How much an editor would mind, what is left priced too; a ratio.
        words: How many words go.
        units: The units, in the order of the text.
    """

    cost: float
    words: int
    units: tuple[Unit, ...]


Choices = dict[int, list[Choice]]
"""By the words that go, the cheapest first."""

NOTHING = Choice(0.0, 0, ())


def choices_of(
    tokens: Sequence[Token], units: Iterable[Unit], *, language: str = "en"
) -> Mapping[int, Sequence[Choice]]:
    """The sets of units that an editor minds least, for every number of words that can go.

    Args:
        tokens: The text.
        units: Its units; one that reaches into a sentence it does not take out is left aside.
        language: BCP 47 tag: which table holds.

    Returns:
        At most `KEPT` for each number, 0 included; the cheapest first. A word always stays.

    >>> from letterfit.cuts.tokens import tokens_of
    >>> from letterfit.cuts.units import units_of
    >>> tokens = tokens_of("Well, hold the gate. It is late, old thing.")
    >>> best = choices_of(tokens, units_of(tokens))
    >>> [unit.kind for unit in best[3][0].units]
    ['discourse marker', 'vocative']
    """
    table = cut_table(language)
    ranges = list(sentence_ranges(tokens))
    few = few_units(units)
    best: list[Choices] = [{} for _ in range(len(ranges) + 1)]
    best[0] = {0: [NOTHING]}
    for at, (first, stop) in enumerate(ranges):
        own = [unit for unit in few if first <= unit.first and unit.stop <= stop]
        inside = _of_sentence(tokens, own, first=first, stop=stop, table=table)
        best[at + 1] = _fewest([best[at + 1], summed(best[at], inside)])
        for end in range(at + 1, len(ranges)):
            whole = (first, ranges[end][1])
            runs = [unit for unit in few if (unit.first, unit.stop) == whole]
            for unit in runs[:1]:
                more = {unit.words: [Choice(price(unit), unit.words, (unit,))]}
                best[end + 1] = _fewest([best[end + 1], summed(best[at], more)])
    return _priced_whole(best[-1], sum(token.words for token in tokens))


def few_units(units: Iterable[Unit]) -> tuple[Unit, ...]:
    """The units that are looked at: the cheapest, and the cheapest for their words; few."""
    cheap = sorted(units, key=lambda unit: (price(unit), unit.first, unit.stop))
    cheap = [unit for unit in cheap if price(unit) / unit.words <= LATE / 2]
    longer = [unit for unit in cheap if not unit.is_filler]
    by_words = sorted(longer, key=lambda unit: price(unit) / unit.words)
    both = dict.fromkeys([*cheap[: MOST_UNITS // 2], *by_words[: MOST_UNITS // 2]])
    return tuple(sorted(both, key=lambda unit: (unit.first, unit.stop)))


def price(unit: Unit) -> float:
    """What a unit costs among others: a filler less than its cost."""
    return unit.cost * (FILLERS if unit.is_filler else 1.0)


def summed(first: Choices, second: Choices, *, keep: int = KEPT) -> Choices:
    """One of each, all words counted: the cheapest that there are."""
    made: Choices = {}
    for ours in first.values():
        for others in second.values():
            pairs = [
                Choice(a.cost + b.cost, a.words + b.words, a.units + b.units)
                for i, a in enumerate(ours)
                for b in others[: keep // (i + 1)]
            ]
            made.setdefault(pairs[0].words, []).extend(pairs)
    return {words: sorted(found, key=_cost)[:keep] for words, found in made.items()}


def _cost(choice: Choice) -> float:
    return choice.cost


def _fewest(many: Sequence[Choices], *, keep: int = KEPT) -> Choices:
    """The cheapest of several."""
    made: Choices = {}
    for one in many:
        for words, found in one.items():
            made.setdefault(words, []).extend(found)
    return {words: sorted(found, key=_cost)[:keep] for words, found in made.items()}


def _of_sentence(
    tokens: Sequence[Token], units: Sequence[Unit], *, first: int, stop: int, table: CutTable
) -> Choices:
    """The cheapest sets inside one sentence, what is left of it priced."""
    best: list[Choices] = [{} for _ in range(stop - first + 1)]
    best[0] = {0: [NOTHING]}
    for at in range(stop - first):
        best[at + 1] = _fewest([best[at + 1], best[at]], keep=KEPT_INSIDE)
        for unit in units:
            if unit.first == first + at:
                end = unit.stop - first
                more = {unit.words: [Choice(price(unit), unit.words, (unit,))]}
                longer = summed(best[at], more, keep=KEPT_INSIDE)
                best[end] = _fewest([best[end], longer], keep=KEPT_INSIDE)
    sentence = range(first, stop)
    found: Choices = {}
    for words, choices in best[-1].items():
        priced = [
            one._replace(cost=one.cost + left_price(tokens, one.units, sentence, table=table))
            for one in choices
        ]
        found[words] = sorted(priced, key=_cost)[:KEPT]
    return found


def left_price(
    tokens: Sequence[Token], units: Sequence[Unit], sentence: range, *, table: CutTable
) -> float:
    """What it costs that so much is left of a sentence: a scrap of it is dear.

    Args:
        tokens: The text.
        units: What goes from the sentence.
        sentence: Its tokens.
        table: The words of its language.

    >>> from letterfit.cuts.tables import cut_table
    >>> from letterfit.cuts.tokens import tokens_of
    >>> tokens = tokens_of("You say so, and every spring.")
    >>> gone = Unit(0, 3, "clause", 3.0, 3)
    >>> left_price(tokens, (gone,), range(6), table=cut_table("en")) > FRAGMENT
    True
    """
    gone = {k for unit in units for k in unit.tokens}
    kept = [k for k in sentence if k not in gone]
    if not kept or all(unit.is_filler for unit in units):
        return 0.0
    left, bare = [tokens[k] for k in kept], [tokens[k].bare for k in sentence]
    cost = 0.0
    if sum(token.words for token in left) < SHORT:
        cost += FRAGMENT
    if clauses_in(bare, table) and not clauses_in([token.bare for token in left], table):
        cost += FRAGMENT
    head, tail = left[0].bare, left[-1].bare
    if kept[0] != sentence[0]:
        cost += JOINT if head in table.conjunctions else 0.0
    if kept[-1] != sentence[-1] and tail in table.joints:
        cost += FRAGMENT
    if _has_scrap(left, table) and not _has_scrap([tokens[k] for k in sentence], table):
        cost += FRAGMENT
    if head in table.subordinators and clauses_in([token.bare for token in left], table) < 2:
        cost += FRAGMENT
    return cost


def _has_scrap(left: Sequence[Token], table: CutTable) -> bool:
    """Whether between two marks nothing stands but words that join, or mean little: "but, O!"."""
    begin = 0
    for stop, token in enumerate(left, start=1):
        if token.ending or stop == len(left):
            part = [one.bare for one in left[begin:stop]]
            if part[0] in table.conjunctions and all(word in table.joints for word in part):
                return True
            begin = stop
    return False


def clauses_in(bare: Sequence[str], table: CutTable) -> int:
    """How many words tell of a clause: a subject that is a pronoun, an auxiliary.

    >>> from letterfit.cuts.tables import cut_table
    >>> clauses_in("when i say heave you heave".split(), cut_table("en"))
    2
    """
    return sum(
        word in table.verbs
        or word.split("'", maxsplit=1)[0] in table.subjects
        or word.endswith(table.clitics)
        for word in bare
    )


def _priced_whole(found: Choices, words: int) -> Choices:
    """The same without those that leave nothing, a stump being dear."""
    return {
        gone: [one._replace(cost=one.cost + stump_price(gone, words)) for one in found[gone]]
        for gone in sorted(found)
        if gone < words
    }


def stump_price(gone: int, words: int) -> float:
    """What it costs that so many words of a text go: dear where little is left.

    >>> stump_price(20, 36), stump_price(30, 36) > 0
    (0.0, True)
    """
    return STUMP * max(gone - STUMP_SHARE * words, 0.0)
