"""JSON to records: a list of objects, and nothing that only looks like one."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import TableError
from letterfit.table.json_records import json_records

SCALARS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text()


@given(
    rows=st.lists(st.dictionaries(st.sampled_from(["id", "text", "width"]), SCALARS), min_size=1)
)
def test_every_object_is_a_record(rows: list[dict[str, object]]) -> None:
    """Values come back as they are, nulls as left out (json, standard library, writes them)."""
    text = json.dumps(rows, allow_nan=True)
    if "Infinity" in text:
        return
    assert [record.cells for record in json_records(text, source="")] == [
        {name: value for name, value in row.items() if value is not None} for row in rows
    ]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[", "t.json:1: this is no JSON"),
        ('[{"id": 1},\n{"id" 2}]', "t.json:2: this is no JSON"),
        ("{}", "no list of rows"),
        ('{"id": "1"}', "no list of rows"),
        ("[]", "no list of rows"),
        ('[{"width": NaN}]', "NaN is no number"),
        ('[{"width": -Infinity}]', "-Infinity is no number"),
        ("[" * 100_000, "nested too deep"),
        ('[{"width": ' + "9" * 5_000 + "}]", "too many digits"),
        ("[" + "0," * 10_000 + "0]", "over 10,000 rows"),
    ],
)
def test_what_is_no_table_is_told_in_one_line(text: str, said: str) -> None:
    """RFC 8259: no NaN (section 6); limits on depth and digits are a reader's own (section 9)."""
    with pytest.raises(TableError) as caught:
        json_records(text, source="t.json")
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


def test_what_is_wrong_with_one_row_is_its_fault_alone() -> None:
    """A name given twice (RFC 8259, section 4), an item that is no object."""
    rows = json_records('[{"id": "a", "Id": "b"}, 7, [["id", 1]], {"id": "c"}]', source="")
    assert [bool(record.faults) for record in rows] == [True, True, True, False]
