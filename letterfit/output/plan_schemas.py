"""The JSON Schemas of plans, laid pages and tier advice, read from the package."""

from letterfit.output.schema_file import schema_text


def plans_schema() -> str:
    """The JSON Schema (draft 2020-12) of plans: of what `plans_to_json` writes and what is read.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(plans_schema())["properties"]["schema"]["const"]
    1
    """
    return schema_text("plans-1")


def page_plans_schema() -> str:
    """The JSON Schema (draft 2020-12) of laid pages: of `page_plans_to_json` and `plan --json`.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(page_plans_schema())["properties"]["schema"]["const"]
    1
    """
    return schema_text("page-plans-1")


def tiers_schema() -> str:
    """The JSON Schema (draft 2020-12) of tier advice: of `tiers_to_json` and `tiers --json`.

    Returns:
        JSON text; the same text every time, valid against the meta-schema of its draft.

    >>> import json
    >>> json.loads(tiers_schema())["properties"]["schema"]["const"]
    1
    """
    return schema_text("tiers-1")
