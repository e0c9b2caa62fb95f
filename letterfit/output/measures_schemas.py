"""The JSON Schemas of what `letterfit measure` and `letterfit compare` write, from the package."""

from letterfit.output.schema_file import schema_text


def measures_schema() -> str:
    """The JSON Schema (draft 2020-12) that a page's measures are valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(measures_schema())["properties"]["schema"]
    {'const': 1}
    """
    return schema_text("measures-1")


def comparison_schema() -> str:
    """The JSON Schema (draft 2020-12) that a comparison is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(comparison_schema())["properties"]["pages"]["minItems"]
    2
    """
    return schema_text("comparison-1")
