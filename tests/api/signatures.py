"""What the signatures of public names speak of, and whether a user can name every type there."""

import dataclasses
import inspect
import typing
from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from tests.api.reading import members

INNER = {
    "Arc": "half of a drawn union's outline: `Joined.svg_path` is what users take",
    "FontFile": "where the bytes of a `Face` are",
    "Rule": "what follows from the names of rules that a user gives",
    "Setting": "what `tier_advice` runs a page again with",
    "Shown": "what values are that a notebook draws: users have its subclasses",
    "Terms": "what the solver makes of a `PanelTask`",
}
"""Classes that stay inside although a public signature speaks of them, and why."""


def annotations(name: str, value: object) -> Iterator[tuple[str, object]]:
    """Every annotation of a public name, of its fields and of its public methods and properties."""
    if inspect.isfunction(value):
        functions = {name: value}
    elif inspect.isclass(value):
        functions = {f"{name}.{inner}": function for inner, function in members(value)}
        made = vars(value).get("__init__")
        functions |= {name: made} if inspect.isfunction(made) else {}
        if dataclasses.is_dataclass(value):
            hints = typing.get_type_hints(value)
            fields = {field.name for field in dataclasses.fields(value)}
            yield from ((f"{name}.{n}", h) for n, h in hints.items() if n in fields)
    else:
        return
    for place, function in functions.items():
        hints = typing.get_type_hints(function)
        yield from ((f"{place}({n})", h) for n, h in hints.items() if not n.startswith("_"))


def leaves(hint: object) -> Iterator[object]:
    """The types that an annotation is made of; numpy's own aliases, which hold Any, stay whole."""
    if hint == npt.ArrayLike or typing.get_origin(hint) is np.ndarray:
        return
    inside = typing.get_args(hint)
    if not inside or typing.get_origin(hint) is typing.Literal:
        yield hint
    for each in inside:
        for one in each if isinstance(each, list) else [each]:
            yield from leaves(one)


def anys(name: str, value: object) -> list[str]:
    """Where the signature of a public name says Any."""
    return [place for place, hint in annotations(name, value) if typing.Any in leaves(hint)]


def unnamed(name: str, value: object, public: typing.Mapping[str, object]) -> list[str]:
    """The package's own classes that a public name's signature speaks of and nobody can import."""
    known = {id(each) for each in public.values()}
    return [
        f"{place}: {one.__name__}"
        for place, hint in annotations(name, value)
        for one in leaves(hint)
        if isinstance(one, type)
        and one.__module__.startswith("letterfit")
        and id(one) not in known
        and one.__name__ not in INNER
    ]
