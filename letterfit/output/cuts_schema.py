"""The JSON Schema of `letterfit cuts --json`, read from the package."""

from importlib import resources


def cuts_schema() -> str:
    """The JSON Schema (draft 2020-12) that the cuts' JSON is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(cuts_schema())["properties"]["schema"]
    {'const': 1}
    """
    folder = resources.files("letterfit.output")
    return folder.joinpath("schema", "cuts-1.schema.json").read_text(encoding="utf-8")
