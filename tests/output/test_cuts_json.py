"""The cuts' JSON keeps to its published schema, and the schema is no rubber stamp."""

import copy
import json
from collections.abc import Iterator

import jsonschema
import pytest

import letterfit as lf
from letterfit.output.cuts_json import cuts_to_json

SCHEMA = json.loads(lf.cuts_schema())
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
SCRIPT = """PAGE 1

Panel 1. The lock at night.

WENNA: Well, I really think that we ought to wait here a little longer. Nobody has come.

PILOT (SHOUTING): Ahoy, the lock! Are you asleep in there?

CAPTION: The tide turned an hour ago, and the barge is late, and all the lamps are out tonight.

Panel 2. The gate.

WENNA: Shut it, and shut it well, and come away from there before the water takes the lot of us.
"""
LIMITS = lf.Limits(words_per_page=40, words_per_balloon=14)
REPORT = lf.preflight(
    lf.parse_script(SCRIPT), paper=lf.Paper.named("90x100mm"), limits=LIMITS, cuts=True
)
DOCUMENT = json.loads(cuts_to_json(REPORT))


def objects(schema: object) -> Iterator[dict[str, object]]:
    """Every object of the schema that has properties."""
    if isinstance(schema, dict):
        if "properties" in schema:
            yield schema
        for inner in schema.values():
            yield from objects(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from objects(inner)


def test_the_schema_is_one() -> None:
    """By JSON Schema's own meta-schema (draft 2020-12), every object closed and complete."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    for one in objects(SCHEMA):
        assert one["additionalProperties"] is False
        assert set(one["required"]) == set(one["properties"])  # type: ignore[call-overload]


def test_cuts_of_panels_balloons_and_pages_are_valid() -> None:
    """All three kinds of places at once, and a script with nothing to cut."""
    assert not list(VALIDATOR.iter_errors(DOCUMENT))
    where = [one["where"] for one in DOCUMENT["proposals"]]
    assert {"1", "1.1", "1.1.1"} <= set(where)
    short = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1.\n\nWENNA: Shut it.\n"), cuts=True)
    assert not list(VALIDATOR.iter_errors(json.loads(cuts_to_json(short))))


@pytest.mark.parametrize(
    "path",
    [
        ("source",),
        ("proposals", 0, "why"),
        ("proposals", 0, "least", "proved"),
        ("proposals", 0, "least", "texts", 0, "text"),
        ("proposals", 0, "cuts", 0, "removed", 0, "kind"),
        ("proposals", 0, "cuts", 0, "after", "outline", "kind"),
    ],
)
def test_a_missing_or_strange_value_is_refused(path: tuple[str | int, ...]) -> None:
    """The validation above can fail: a field left out, or one of another kind."""
    *inner, last = path
    for planted in (None, [1]):
        broken = copy.deepcopy(DOCUMENT)
        place = broken
        for key in inner:
            place = place[key]
        assert isinstance(place, dict)
        if planted is None:
            del place[str(last)]
        else:
            place[str(last)] = planted
        assert list(VALIDATOR.iter_errors(broken))


def test_outlines_are_those_of_the_report() -> None:
    """One description of outlines: the report's."""
    report = json.loads(lf.report_schema())
    assert SCHEMA["$defs"]["outline"] == report["$defs"]["outline"]


def test_the_least_number_stands_beside_what_is_proposed() -> None:
    """Bounds in order; who gives most first; shares of a whole."""
    for one in DOCUMENT["proposals"]:
        least, gives = one["least"], one["gives"]
        assert (least is None) == (one["where"].count(".") == 2)
        if least is None:
            continue
        assert one["least_words"] == least["at_least"]
        assert least["proved"] == (least["at_least"] == least["at_most"])
        if gives:
            assert sum(give["share_percent"] for give in gives) == pytest.approx(100, abs=0.3)
            alone = [give["alone"] for give in gives if give["alone"] is not None]
            assert alone == sorted(alone)
