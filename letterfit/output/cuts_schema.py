"""The JSON Schema of `letterfit cuts --json`, read from the package."""

from letterfit.output.schema_file import schema_text


def cuts_schema() -> str:
    """The JSON Schema (draft 2020-12) that the cuts' JSON is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(cuts_schema())["properties"]["schema"]
    {'const': 1}
    """
    return schema_text("cuts-1")
