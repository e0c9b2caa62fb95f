"""A fitted table as JSON: held against a schema, and against what the library says."""

import json

import pytest
from jsonschema import Draft202012Validator, ValidationError

from letterfit.outline import Ellipse
from letterfit.output.table_json import table_to_json
from letterfit.table.fitting import fit_table
from letterfit.table.model import FittedTable, TextRow

ROOMY, TIGHT = Ellipse(half_width=14, half_height=8), Ellipse(half_width=8, half_height=4)
SPEECH = "The tide turned an hour ago, and nobody has come to ask why the gate is shut."
ROWS = (
    TextRow(id="a", text="Ahoy, the \ud800 lock!", outline=ROOMY, place="line 2"),
    TextRow(id="b", text=SPEECH, outline=ROOMY),
    TextRow(id="c\x1b", text=SPEECH, outline=TIGHT),
)
SIZE = {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, {"type": "null"}]}
NAMES = {"type": "array", "items": {"type": "string"}}
OUTLINE = {"type": "object", "required": ["kind", "half_width", "half_height"]}


def closed(**properties: object) -> dict[str, object]:
    """A schema of an object with these names, no more and no fewer."""
    return {
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


OVERFLOW = closed(
    words={"type": "integer", "minimum": 1}, size_pt=SIZE, least_size_pt=SIZE, outline=OUTLINE
)
ROW = closed(
    id={"type": "string"},
    place={"type": "string"},
    largest_size_pt=SIZE,
    text={"type": "string"},
    words={"type": "integer"},
    fits={"type": "boolean"},
    size_pt=SIZE,
    outline=OUTLINE,
    area_mm2={"type": "number"},
    clearance_mm={"type": ["number", "null"]},
    lines={"type": "array", "items": {"type": "object"}},
    overflow={"anyOf": [OVERFLOW, {"type": "null"}]},
    findings={"type": "array", "items": {"type": "object"}},
)
COMMON = closed(size_pt=SIZE, bound_by=NAMES, without_pt=SIZE, left_out=NAMES)
SCHEMA = Draft202012Validator(
    closed(
        fits={"type": "boolean"},
        asked_pt=SIZE,
        size_pt=SIZE,
        least_size_pt=SIZE,
        common_size={"anyOf": [COMMON, {"type": "null"}]},
        rows={"type": "array", "items": ROW},
    )
)


@pytest.fixture(params=[False, True], ids=["each", "common"])
def table(request: pytest.FixtureRequest) -> FittedTable:
    """A row that fits, one that a smaller size helps, one that nothing does."""
    return fit_table(ROWS, common=request.param)


def test_it_is_what_the_schema_says(table: FittedTable) -> None:
    """Checked by jsonschema (JSON Schema 2020-12), which refuses a row without its verdict."""
    told = json.loads(table_to_json(table))
    SCHEMA.validate(told)
    del told["rows"][0]["fits"]
    with pytest.raises(ValidationError):
        SCHEMA.validate(told)


def test_it_says_what_the_table_says(table: FittedTable) -> None:
    """Row by row, text and size; controls and half surrogates do not leave."""
    told = json.loads(table_to_json(table))
    assert [row["id"] for row in told["rows"]] == ["a", "b", "c\ufffd"]
    assert [row["fits"] for row in told["rows"]] == [row.fits for row in table.rows]
    assert [row["largest_size_pt"] for row in told["rows"]] == [
        row.largest_size_pt for row in table.rows
    ]
    assert told["rows"][2]["overflow"]["size_pt"] is None
    assert told["rows"][0]["place"] == "line 2"


def test_the_common_size_names_what_binds_and_what_is_left_out() -> None:
    """Null where none was asked for."""
    told = json.loads(table_to_json(fit_table(ROWS, common=True)))["common_size"]
    assert told["bound_by"] == ["b"]
    assert told["left_out"] == ["c\ufffd"]
    assert 6 <= told["size_pt"] < told["without_pt"] == 7.5
    assert json.loads(table_to_json(fit_table(ROWS)))["common_size"] is None
