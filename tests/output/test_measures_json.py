"""Measures as JSON: whole, finite, and differences that add up."""

import json
from dataclasses import replace

from jsonschema import Draft202012Validator

import letterfit as lf
from tests.existing import pages

PAGE = lf.measure_page(lf.parse_drawn_page(pages.in_mm().encode(), source="lock.svg"))


def test_a_page_is_written_whole() -> None:
    """Every panel with its balloons, what told them, and the findings."""
    value = json.loads(lf.measures_to_json(PAGE))
    page = value["page"]
    assert (value["schema"], page["source"], page["origin"]) == (1, "lock.svg", "existing")
    assert page["trim"] == [170.0, 260.0]
    assert [panel["told_by"] for panel in page["panels"]] == ["name"] * 3
    assert page["panels"][0]["rect"] == [10.0, 12.0, 72.0, 110.0]
    assert page["panels"][0]["balloons"][0]["words"] == 6
    assert page["findings"][0]["code"] == "other-typeface"
    assert [tier["panels"] for tier in page["tiers"]] == [2, 1]


def test_differences_are_the_seconds_less_the_firsts() -> None:
    """As they are shown: rounded figures add up."""
    other = replace(PAGE, panels=PAGE.panels[:2])
    value = json.loads(lf.comparison_to_json(lf.compare_pages(PAGE, other)))
    first, second = value["pages"]
    told = value["differences"]
    assert told["words"] == second["words"] - first["words"] == -4
    assert told["panels"][0]["coverage_points"] == 0
    assert told["panels"][2] is None
    points = round(second["coverage_percent"] - first["coverage_percent"], 1)
    assert told["coverage_points"] == points
    room = second["figure_height_mm"] - first["figure_height_mm"]
    assert told["figure_height_mm"] == round(room, 3)


def test_no_clearance_is_written_where_there_is_no_ink() -> None:
    """An empty balloon: infinity is no JSON."""
    root = pages.rect(pages.MM, (10, 10, 90, 90), 'class="panel"')
    root += pages.rect(pages.MM, (20, 20, 30, 10), 'class="balloon"')
    page = lf.parse_drawn_page(f"<svg {pages.sheet(pages.MM, 'mm')}>{root}</svg>".encode())
    text = lf.measures_to_json(lf.measure_page(page))
    assert json.loads(text)["page"]["panels"][0]["balloons"][0]["clearance_mm"] is None


def test_the_same_measures_give_the_same_characters() -> None:
    """Nothing else decides."""
    assert lf.measures_to_json(PAGE) == lf.measures_to_json(PAGE)


VALID = Draft202012Validator(json.loads(lf.measures_schema()))
COMPARED = Draft202012Validator(json.loads(lf.comparison_schema()))
SCRIPT = "PAGE 1\nTIERS: 1~[top-left 0.3x0.3] / 2\n\n" + "".join(
    f"Panel {n}.\nWENNA: The tide turned an hour ago.\n" for n in range(1, 5)
)


def described(schema: object) -> bool:
    """Whether every property of a schema says what it is, itself or by what it refers to."""
    if isinstance(schema, list):
        return all(map(described, schema))
    if not isinstance(schema, dict):
        return True
    own = all(
        {"description", "const", "$ref", "anyOf"} & set(one)
        for one in schema.get("properties", {}).values()
    )
    return own and all(map(described, schema.values()))


def test_measures_keep_to_their_schemas() -> None:
    """Planned pages, drawn ones, both beside each other; a field more or less is a fault."""
    planned = lf.measure_page(lf.preflight(lf.parse_script(SCRIPT)).pages[0])
    for page in (PAGE, planned, replace(PAGE, panels=PAGE.panels[:1], tiers=PAGE.tiers[:1])):
        told = json.loads(lf.measures_to_json(page))
        assert list(VALID.iter_errors(told)) == []
        both = json.loads(lf.comparison_to_json(lf.compare_pages(planned, page)))
        assert list(COMPARED.iter_errors(both)) == []
    told["page"]["panels"][0]["order"] = "perhaps"
    assert len(list(VALID.iter_errors(told))) == 1
    del told["page"]["panels"][0]["rect"], both["differences"]["words"]
    assert len(list(VALID.iter_errors(told))) == 2
    assert len(list(COMPARED.iter_errors(both))) == 1


def test_the_schemas_describe_what_they_hold() -> None:
    """They are schemas of the draft they name, and no property goes without a word."""
    for text in (lf.measures_schema(), lf.comparison_schema()):
        schema = json.loads(text)
        Draft202012Validator.check_schema(schema)
        del schema["$defs"]["finding"]  # the report's own
        assert described(schema)
