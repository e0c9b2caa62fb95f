"""A public name taken apart: its docstring by sections, what it takes, what it has."""

import ast
import dataclasses
import functools
import inspect
import re
import sys
from collections.abc import Iterator, Mapping
from types import FunctionType

import letterfit

SECTION = re.compile(r"^(Args|Returns|Raises|Source):[ ]*(.*)$")
ENTRY = re.compile(r"^ {4}(\w+(?:, \w+)*):(?: |$)(.*)$")


@dataclasses.dataclass(frozen=True)
class Parts:
    """A docstring in the parts that readers look for."""

    summary: str
    args: Mapping[str, str]
    returns: str
    raises: Mapping[str, str]
    source: str


def parts(text: str) -> Parts:
    """Take a docstring apart, Google's sections (its style guide, section 3.8.3)."""
    lines = inspect.cleandoc(text).splitlines()
    sections: dict[str, list[str]] = {"": []}
    open_section = ""
    for line in lines:
        if found := SECTION.match(line):
            open_section = found[1]
            sections[open_section] = [f"    {found[2]}"] if found[2] else []
        elif line.startswith(">>>"):
            open_section = "example"
            sections.setdefault(open_section, [])
        else:
            sections[open_section].append(line)
    return Parts(
        summary=" ".join("\n".join(sections[""]).strip().partition("\n\n")[0].split()),
        args=entries(sections.get("Args", [])),
        returns=" ".join(sections.get("Returns", [])).strip(),
        raises=entries(sections.get("Raises", [])),
        source=" ".join(sections.get("Source", [])).strip(),
    )


def entries(lines: list[str]) -> dict[str, str]:
    """The entries of a section by name; one line may name several."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if entry := ENTRY.match(line):
            names = entry[1].split(", ")
            found |= dict.fromkeys(names, entry[2])
        else:
            found |= {name: f"{found[name]} {line.strip()}".strip() for name in names}
    return found


def own_docstring(value: object) -> str:
    """The docstring that somebody wrote: not inherited, not made by `dataclass`."""
    text = value.__dict__.get("__doc__") if isinstance(value, type) else value.__doc__
    made = isinstance(value, type) and (text or "").startswith(f"{value.__name__}(")
    return "" if made or text is None else inspect.cleandoc(text)


def constant_docstring(name: str, module: str | None = None) -> str:
    """The string below a constant's definition, wherever it was imported from."""
    if module is None:
        homes = [home for home, names in letterfit.HOMES.items() if name in names]
        module = homes[0] if homes else "letterfit"
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    for here, after in zip(tree.body, [*tree.body[1:], None], strict=True):
        if isinstance(here, ast.ImportFrom) and any(a.name == name for a in here.names):
            return constant_docstring(name, here.module or "")
        targets = here.targets if isinstance(here, ast.Assign) else [getattr(here, "target", None)]
        if any(isinstance(t, ast.Name) and t.id == name for t in targets):
            value = after.value if isinstance(after, ast.Expr) else None
            text = value.value if isinstance(value, ast.Constant) else ""
            return inspect.cleandoc(text) if isinstance(text, str) else ""
    return ""


def parameters(value: object) -> dict[str, inspect.Parameter]:
    """What a caller gives; nothing for a class that takes what its base takes."""
    named_tuple = isinstance(value, type) and issubclass(value, tuple)
    if isinstance(value, type) and not named_tuple and "__init__" not in vars(value):
        return {}
    if not callable(value):
        return {}
    given = inspect.signature(value).parameters
    return {name: given[name] for name in given if name not in ("self", "cls")}


def members(value: type) -> Iterator[tuple[str, FunctionType]]:
    """The public methods and properties that a class defines itself."""
    for name, member in vars(value).items():
        inner = member.func if isinstance(member, functools.cached_property) else member
        inner = inner.fget if isinstance(inner, property) else getattr(inner, "__func__", inner)
        if not name.startswith("_") and isinstance(inner, FunctionType):
            yield name, inner
