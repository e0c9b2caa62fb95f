"""Break rules: named, documented, switchable, and refused where they make no sense."""

import pickle
import re
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.lettering.breaks import places as break_places
from letterfit.lettering.breaks.prices import PRICED, BreakPrices
from letterfit.lettering.breaks.rules import RULES, BreakRules

MARKS = "".join(mark for marks in break_places.MARKS.values() for mark in marks)


def test_every_rule_is_named_and_says_what_it_says() -> None:
    """The table holds each rule once, under its own name, with one line of explanation."""
    assert len(RULES) > 20
    assert all(name == rule.name and name.isidentifier() for name, rule in RULES.items())
    assert all(re.fullmatch(r"[A-Z].*\.", rule.says) for rule in RULES.values())
    assert {rule.kind for rule in RULES.values()} == {"allowed", "forbidden", "price"}
    assert all((rule.places is None) == (rule.kind == "price") for rule in RULES.values())


def test_rules_that_are_off_are_off_and_stand_in_the_order_of_the_table() -> None:
    """However they are given, the same rules off are equal, and hash and pickle alike."""
    rules = BreakRules(without=("notes", "stutters", "notes"))
    assert rules == BreakRules(without=("stutters", "notes"))
    assert hash(rules) == hash(pickle.loads(pickle.dumps(rules)))  # noqa: S301 - made just here
    assert "notes" not in rules
    assert "curses" in rules
    assert [rule.name for rule in rules.forbidden if rule.name in {"notes", "stutters"}] == []
    assert rules.all_placed is False
    assert BreakRules(without=("weak_ends",)).all_placed is True
    assert BreakRules(without="notes").without == ("notes",)  # type: ignore[arg-type]


def test_an_unknown_rule_is_refused_with_the_list_of_rules() -> None:
    """A slip in a name says what the names are."""
    with pytest.raises(FontError, match=r"'stuters'.*stutters") as caught:
        BreakRules(without=("stuters",))
    assert all(name in str(caught.value) for name in RULES)


def test_an_unknown_way_to_break_japanese_is_refused() -> None:
    """Only strict, normal and loose are known."""
    with pytest.raises(FontError, match=r"'tight'.*strict, normal, loose"):
        BreakRules(japanese="tight")  # type: ignore[arg-type]


@pytest.mark.parametrize("value", [-0.1, float("nan"), float("inf"), True, "1"])
def test_a_price_that_is_no_ratio_is_refused(value: float) -> None:
    """Prices are numbers from 0 up."""
    with pytest.raises(FontError, match="compound"):
        BreakRules(prices=BreakPrices(compound=value))


def test_the_first_price_rule_that_holds_sets_the_price() -> None:
    """For every set of price rules that may hold at once, with and without each rule."""
    prices = BreakPrices()
    for off in [(), *((rule.name,) for rule in PRICED)]:
        table = BreakRules(without=off).priced
        assert len(table) == 1 << len(PRICED)
        for held in range(0, len(table), 37):
            holding = [r for k, r in enumerate(PRICED) if held >> k & 1 and r.name not in off]
            expected = getattr(prices, holding[0].price) if holding else prices.ordinary
            assert table[held] == expected


def test_every_price_is_used() -> None:
    """No price stands there that nothing costs."""
    used = {rule.price for rule in PRICED} | {"ordinary", "phrase"}
    assert used == {price.name for price in fields(BreakPrices)}


@given(
    st.text(alphabet=st.sampled_from("AB1 x\n" + MARKS), max_size=24),
    st.sampled_from([rule for rule in RULES.values() if rule.places]),
)
def test_a_rule_finds_nothing_in_a_text_without_its_marks(text: str, rule: object) -> None:
    """What lets most texts skip most rules never skips a rule that has something to say."""
    found = getattr(break_places, rule.name)(text, "es")  # type: ignore[attr-defined]
    if not any(mark in text for mark in rule.marks):  # type: ignore[attr-defined]
        assert list(found) == []
    else:
        assert all(0 <= at <= len(text) for at in found)
