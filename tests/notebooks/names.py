"""What a notebook imports and what it asks of letterfit, read from its code."""

import ast
import sys
from collections.abc import Iterator

import letterfit

SHOWS = "IPython.display"
"""What every notebook has, besides Python's own library."""


def strays(source: str) -> Iterator[str]:
    """Imports and names that a notebook should not use: none where it keeps to public ones."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (one.name for one in node.names if not _may(one.name, one.asname))
        elif isinstance(node, ast.ImportFrom):
            if not _may(node.module or ".", None) or node.module == "letterfit":
                yield f"from {node.module}"
        elif isinstance(node, ast.Attribute):
            yield from _attribute(node)


def _may(module: str, called: str | None) -> bool:
    top = module.partition(".")[0]
    if module == "letterfit":
        return called == "lf"
    return module == SHOWS or top in sys.stdlib_module_names


def _attribute(node: ast.Attribute) -> Iterator[str]:
    of = node.value.id if isinstance(node.value, ast.Name) else ""
    if node.attr.startswith("_") or (of == "lf" and node.attr not in letterfit.__all__):
        yield f"{of}.{node.attr}"
