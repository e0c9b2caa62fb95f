"""JSON Lines: every line stands for itself, keeps to its schema, and says what the report says."""

import json

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from letterfit.output.lines_json import to_json_line, to_json_lines
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import lines_schema, report_schema
from letterfit.report.catalogue import preflight_stream
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight

TEXT = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: {}\n\nPAGE 2\n\nPanel 1.\n\nTOBY (OFF): Ahoy!\n"


@pytest.fixture(scope="module")
def report() -> ScriptReport:
    """A script of which one page does not fit, with a character that ends lines elsewhere."""
    return preflight(parse_script(TEXT.format("Hold the gate. " * 200), source="a\u2028b.txt"))


@pytest.fixture(scope="module")
def checker() -> Draft202012Validator:
    """Checks a line against the published schema, which refers to the report's."""
    schemas = [json.loads(lines_schema()), json.loads(report_schema())]
    for schema in schemas:
        Draft202012Validator.check_schema(schema)
    known = [(schema["$id"], Resource.from_contents(schema)) for schema in schemas]
    return Draft202012Validator(schemas[0], registry=Registry().with_resources(known))


def test_every_line_keeps_to_the_schema(
    report: ScriptReport, checker: Draft202012Validator
) -> None:
    """Scripts, pages, ends and errors; a line without its end, or with more, does not."""
    lines = [json.loads(line) for line in to_json_lines(report).splitlines()]
    lines += [json.loads(to_json_line(told)) for told in preflight_stream(["nowhere.txt"])]
    assert [line["record"] for line in lines] == ["script", "page", "page", "end", "error"]
    for line in lines:
        checker.validate(line)
        assert not checker.is_valid({**line, "more": 1})
        assert not checker.is_valid({key: line[key] for key in line if key != "source"})


def test_lines_are_parted_by_line_feeds_alone(report: ScriptReport) -> None:
    """JSON Lines: one value a line, UTF-8, each line with its line feed (jsonlines.org)."""
    text = to_json_lines(report)
    assert text.endswith("}\n")
    assert len(text.splitlines()) == text.count("\n") == 4
    assert json.loads(text.split("\n", maxsplit=1)[0])["source"] == "a\u2028b.txt"


def test_lines_say_what_the_report_says(report: ScriptReport) -> None:
    """Put together again they are the report, but for the whole script's pace."""
    whole = json.loads(to_json(report))
    script, *pages, end = map(json.loads, to_json_lines(report).splitlines())
    shared = [key for key in whole if key not in ("fits", "pace", "pages", "findings")]
    assert {key: script[key] for key in shared} == {key: whole[key] for key in shared}
    assert [page["page"] for page in pages] == whole["pages"]
    assert [one for line in (script, *pages) for one in line["findings"]] == whole["findings"]
    assert (script["pages"], end["pages"], end["fits"]) == (2, 2, whole["fits"])
    assert end["words"] == whole["pace"]["words"]
    assert {line["source"] for line in (script, *pages, end)} == {whole["source"]}
