"""The JSON Schemas that come with the package, as they stand in its files."""

from importlib import resources


def schema_text(name: str) -> str:
    """The text of one of the schemas in `output/schema`, such as that of "report-1"."""
    folder = resources.files("letterfit.output")
    return folder.joinpath("schema", f"{name}.schema.json").read_text(encoding="utf-8")
