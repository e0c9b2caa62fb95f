"""What every published JSON Schema keeps to."""

from collections.abc import Iterator
from typing import Any

import jsonschema

Schema = dict[str, Any]


def objects(schema: object) -> Iterator[Schema]:
    """Every object of a schema that has properties."""
    if isinstance(schema, dict):
        if isinstance(schema.get("properties"), dict) and "type" in schema:
            yield schema
        for inner in schema.values():
            yield from objects(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from objects(inner)


def faults(schema: Schema) -> list[str]:
    """What is wrong with a schema: an open object, a property nobody describes."""
    jsonschema.Draft202012Validator.check_schema(schema)
    found = []
    for one in objects(schema):
        if one.get("additionalProperties") is not False:
            found.append(f"open: {one.get('description')}")
        found += [name for name, said in one["properties"].items() if not said.get("description")]
    return found


def errors(document: object, schema: Schema) -> list[str]:
    """What a document breaks of a schema."""
    validator = jsonschema.Draft202012Validator(schema)
    return [error.message for error in validator.iter_errors(document)]
