"""The JSON Schemas of what `letterfit measure` and `letterfit compare` write, from the package."""

from importlib import resources


def measures_schema() -> str:
    """The JSON Schema (draft 2020-12) that a page's measures are valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(measures_schema())["properties"]["schema"]
    {'const': 1}
    """
    return _read("measures-1.schema.json")


def comparison_schema() -> str:
    """The JSON Schema (draft 2020-12) that a comparison is valid against, as JSON text.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(comparison_schema())["properties"]["pages"]["minItems"]
    2
    """
    return _read("comparison-1.schema.json")


def _read(name: str) -> str:
    folder = resources.files("letterfit.output")
    return folder.joinpath("schema", name).read_text(encoding="utf-8")
