"""The cheapest sets of units for every number of words, against all sets of them."""

from collections.abc import Iterator
from itertools import combinations, pairwise

import pytest

from letterfit.cuts.choices import (
    KEPT,
    MOST_UNITS,
    choices_of,
    few_units,
    left_price,
    price,
    stump_price,
)
from letterfit.cuts.sentences import sentence_ranges
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, tokens_of
from letterfit.cuts.units import LATE, Unit, units_of

SMALL = (
    "Well, I really think that it holds, old thing.",
    "Shut it. The tide is late, and the gate is old.",
    "I can pull, I can lift. Then learn it now.",
    "Look, look, the tide. And the gate is very, very old.",
    "No. I counted nine lamps, sir, on the water.",
    "You said it, and every spring, and the weir.",
)


def every_set(tokens: tuple[Token, ...]) -> Iterator[tuple[Unit, ...]]:
    """All sets of units that do not overlap, sentences not torn open by a unit that spans two."""
    ranges = list(sentence_ranges(tokens))
    edges = {first for first, _ in ranges} | {len(tokens)}
    units = [
        unit
        for unit in units_of(tokens)
        if price(unit) / unit.words <= LATE / 2
        and (
            any(first <= unit.first and unit.stop <= stop for first, stop in ranges)
            or {unit.first, unit.stop} <= edges
        )
    ]
    for size in range(6):
        for some in combinations(sorted(units, key=lambda unit: unit.first), size):
            if all(a.stop <= b.first for a, b in pairwise(some)):
                yield some


@pytest.mark.parametrize("text", SMALL)
def test_no_set_of_so_many_words_is_cheaper(text: str) -> None:
    """For every number of words the first set costs what the cheapest of all sets costs."""
    tokens, table = tokens_of(text), cut_table("en")
    words = sum(token.words for token in tokens)
    cheapest: dict[int, float] = {}
    for some in every_set(tokens):
        gone = sum(unit.words for unit in some)
        if gone == words:
            continue
        cost = sum(price(unit) for unit in some) + stump_price(gone, words)
        for first, stop in sentence_ranges(tokens):
            inside = [unit for unit in some if unit.first < stop and first < unit.stop]
            cost += left_price(tokens, inside, range(first, stop), table=table)
        cheapest[gone] = min(cost, cheapest.get(gone, cost))
    found = choices_of(tokens, units_of(tokens))
    assert cheapest.keys() <= found.keys()
    for gone, cost in cheapest.items():
        assert found[gone][0].cost == pytest.approx(cost), gone


@pytest.mark.parametrize("text", SMALL)
def test_sets_are_what_they_say(text: str) -> None:
    """Their units do not overlap, their words add up, the cheapest stands first, a word stays."""
    tokens = tokens_of(text)
    for gone, own in choices_of(tokens, units_of(tokens)).items():
        assert len(own) <= KEPT
        assert [one.cost for one in own] == sorted(one.cost for one in own)
        for one in own:
            assert all(a.stop <= b.first for a, b in pairwise(one.units))
            assert gone == one.words == sum(unit.words for unit in one.units) < len(tokens)


@pytest.mark.parametrize(
    ("text", "gone"),
    [
        ("You've said that, and every spring.", (0, 3)),
        ("When the gate goes, we go.", (4, 6)),
        ("We hold it, and, if we can, the gate.", (4, 9)),
        ("The tide is in, but, O! it is late!", (0, 4)),
    ],
)
def test_scraps_are_dear(text: str, gone: tuple[int, int]) -> None:
    """A lone "and every spring", a clause that waits for its main clause, an end torn off."""
    tokens = tokens_of(text)
    unit = Unit(*gone, "clause", 3.0, gone[1] - gone[0])
    sentence = next(
        range(first, stop) for first, stop in sentence_ranges(tokens) if first <= gone[0] < stop
    )
    assert left_price(tokens, (unit,), sentence, table=cut_table("en")) > LATE / 2


def test_what_stays_whole_costs_nothing_more() -> None:
    """Words that nobody misses, and whole sentences, leave no scrap."""
    tokens = tokens_of("Well, the gate is old. It is late.")
    table = cut_table("en")
    well, late = Unit(0, 1, "discourse marker", 1.0, 1), Unit(5, 8, "sentence", 3.0, 3)
    assert left_price(tokens, (well,), range(5), table=table) == 0
    assert left_price(tokens, (late,), range(5, 8), table=table) == 0


def test_of_a_text_of_many_marks_a_few_units_are_looked_at() -> None:
    """So that no text is slow: fillers are among them, and so are long clauses."""
    text = " ".join(f"really, the gate{k} is old," for k in range(60)) + "."
    few = few_units(units_of(tokens_of(text)))
    assert len(few) <= MOST_UNITS
    assert {"intensifier", "clause"} <= {unit.kind for unit in few}
    assert few_units(few) == few
