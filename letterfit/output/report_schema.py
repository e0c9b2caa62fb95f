"""The JSON Schemas of the report and of its lines, read from the package."""

from importlib import resources


def report_schema() -> str:
    """The JSON Schema (draft 2020-12) that every `to_json` report is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(report_schema())["properties"]["schema"]
    {'const': 1}
    """
    return _schema("report")


def lines_schema() -> str:
    """The JSON Schema (draft 2020-12) of each line that `to_json_line` writes, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft. It refers
        to `report_schema` by its `$id` for what both have.

    >>> import json
    >>> [line["title"] for line in json.loads(lines_schema())["oneOf"]]
    ['script', 'page', 'end', 'error']
    """
    return _schema("lines")


def _schema(name: str) -> str:
    folder = resources.files("letterfit.output")
    return folder.joinpath("schema", f"{name}-1.schema.json").read_text(encoding="utf-8")
