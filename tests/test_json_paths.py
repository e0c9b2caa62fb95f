"""JSON that programs write: read within bounds, every slip told by its path."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import PageError
from letterfit.json_paths import LONGEST_JSON, JsonNode, load_json, value_told

HOSTILE = {
    "no JSON": ('{"pages": [', "not JSON"),
    "nested too deeply": ("[" * 200_000, "nested too deeply"),
    "too long": (" " * (LONGEST_JSON + 1), "more than 4,000,000 characters"),
    "a name twice": ('{"pages": 1, "pages": 2}', "'pages' is given twice"),
    "not a number": ('{"gutter_mm": NaN}', "NaN is no number"),
    "an endless number": ('{"gutter_mm": 1' + "0" * 5000 + "}", "too many digits"),
}
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=60),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=60), inner),
    max_leaves=6,
)


def load(text: str) -> JsonNode:
    """A text read."""
    return load_json(text, source="plan.json", what="plans", example="give plans")


@pytest.mark.parametrize(("text", "told"), HOSTILE.values(), ids=HOSTILE)
def test_hostile_texts_are_refused_in_one_line(text: str, told: str) -> None:
    """Each says the file, what and what to do; none hangs or ends in another exception."""
    with pytest.raises(PageError, match=told) as error:
        load(text)
    assert str(error.value).startswith("plan.json")
    assert "\n" not in str(error.value)
    assert error.value.advice


def test_the_line_of_a_slip_is_told() -> None:
    """A comma too many stands in line 3."""
    with pytest.raises(PageError) as error:
        load('{\n"pages": [],\n}')
    assert error.value.line == 3


def test_a_byte_order_mark_is_forgiven() -> None:
    """Some editors put one there."""
    assert load("\ufeff[1]").items(most=1)[0].number(advice="") == 1


def test_paths_are_those_of_jsonpath() -> None:
    """RFC 9535, section 2.7: names after a dot where they are plain, else in quotes."""
    root = load('{"a": [{"b c": 1, "d": 2}]}')
    inner = root.members(known=("a",))["a"].items(most=9)[0].members(known=("b c", "d"))
    assert inner["d"].path == "$.a[0].d"
    assert inner["b c"].path == "$.a[0]['b c']"


@given(value=VALUES)
def test_no_value_surprises_a_reader(value: object) -> None:
    """Every accessor returns its type or raises the one error, in one short line."""
    node = load(json.dumps(value))
    told = []
    for ask in (
        lambda: node.members(known=("pages",)),
        lambda: node.items(most=2),
        lambda: node.number(advice="give a number"),
        lambda: node.whole(least=0, most=9),
        lambda: node.text(advice="give a text"),
        node.flag,
    ):
        try:
            ask()
        except PageError as error:
            told.append(str(error))
    assert all(len(line.splitlines()) == 1 and len(line) < 200 for line in told)


def test_what_is_no_number_is_told() -> None:
    """True, infinity by its digits and a whole number beyond all floats are no lengths."""
    for text in ("true", "1e999", "1" + "0" * 400, '"3"', "null"):
        with pytest.raises(PageError, match="no number"):
            load(text).number(advice="give a length")


def test_whole_numbers_are_shown_short() -> None:
    """A message never holds hundreds of digits."""
    assert value_told(10**400) == "a number of many digits"
    assert value_told(-7) == "-7"
