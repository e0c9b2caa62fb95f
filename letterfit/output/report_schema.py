"""The JSON Schemas of the report and of its lines, read from the package."""

from letterfit.output.schema_file import schema_text


def report_schema() -> str:
    """The JSON Schema (draft 2020-12) that every `to_json` report is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(report_schema())["properties"]["schema"]
    {'const': 1}
    """
    return schema_text("report-1")


def lines_schema() -> str:
    """The JSON Schema (draft 2020-12) of each line that `to_json_line` writes, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft. It refers
        to `report_schema` by its `$id` for what both have.

    >>> import json
    >>> [line["title"] for line in json.loads(lines_schema())["oneOf"]]
    ['script', 'page', 'end', 'error']
    """
    return schema_text("lines-1")
