"""The JSON Schema of the report, read from the package: what a reader of the JSON may rely on."""

from importlib import resources


def report_schema() -> str:
    """The JSON Schema (draft 2020-12) that every `to_json` report is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(report_schema())["properties"]["schema"]
    {'const': 1}
    """
    folder = resources.files("letterfit.output")
    return folder.joinpath("schema", "report-1.schema.json").read_text(encoding="utf-8")
