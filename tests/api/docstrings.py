"""What the docstring of a public name must say, as far as a machine can tell.

`faults(name, value)` reads the name as its user sees it: by introspection, with nothing but what
`letterfit` exports. What it cannot judge is whether a sentence is true; the examples are run by
pytest, like every doctest of the package.
"""

import ast
import builtins
import dataclasses
import doctest
import inspect
import re
import textwrap
from collections.abc import Callable, Iterator, Mapping
from types import FunctionType, ModuleType

import letterfit
from tests.api.reading import constant_docstring, members, own_docstring, parameters, parts

CODE = re.compile(r"`([^`]+)`")
DOTTED = re.compile(r"[A-Za-z_]\w*(?:\.[A-Za-z_]\w*)*(?:\(\))?")
UNIT = re.compile(
    r"\b(?:mm2?|cm|points?|pt|em|ratios?|shares?|factor|radians|degrees|0 to 1|numbers?|words)\b"
    r"|\bas (?:in )?`",
    re.IGNORECASE,
)
UNIT_IN_NAME = re.compile(r"_(?:mm2?|pt|em|share)$")
FORMULA = re.compile(r"\^[\d(]|\bsqrt\b|\bintegral\b|\bpi\b", re.IGNORECASE)
PUBLIC = {name: getattr(letterfit, name) for name in letterfit.__all__}


def raised(function: Callable[..., object], seen: frozenset[str] = frozenset()) -> set[str]:
    """The errors that a function, or one of its own module that it calls, raises."""
    names: set[str] = set()
    plain = inspect.unwrap(function)
    if not isinstance(plain, FunctionType) or plain.__code__.co_filename.startswith("<"):
        return names
    for node in ast.walk(ast.parse(textwrap.dedent(inspect.getsource(plain)))):
        made = node.exc if isinstance(node, ast.Raise) else None
        if isinstance(made, ast.Call) and isinstance(made.func, ast.Name):
            names.add(error_name(made.func.id, plain))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            called = plain.__globals__.get(node.func.id)
            mine = isinstance(called, FunctionType) and called.__module__ == plain.__module__
            if isinstance(called, FunctionType) and mine and node.func.id not in seen:
                names |= raised(called, seen | {node.func.id})
    return names


def error_name(name: str, function: FunctionType) -> str:
    """The class that a `raise` calls, or what the helper that it calls returns."""
    made = function.__globals__.get(name)
    returned = inspect.get_annotations(made).get("return") if inspect.isfunction(made) else made
    return returned.__name__ if isinstance(returned, type) else name


def faults(name: str, value: object, public: Mapping[str, object] | None = None) -> list[str]:
    """What a public name's documentation lacks, in one line each."""
    public = PUBLIC if public is None else public
    if not (inspect.isfunction(value) or inspect.isclass(value)):
        text = constant_docstring(name)
        return [f"{name}: {fault}" for fault in (*opening(text), *references(text, name, public))]
    text = own_docstring(value)
    found = [*opening(text), *arguments(text, value), *example(text, public)]
    found += [*formulas(text), *errors(text, value), *references(text, value, public)]
    if inspect.isfunction(value) and not parts(text).returns:
        found.append("does not say what it returns")
    lines = [f"{name}: {fault}" for fault in found]
    if isinstance(value, type):
        for inner, function in members(value):
            told = member_faults(function, value, public)
            lines += [f"{name}.{inner}: {fault}" for fault in told]
    return lines


def member_faults(
    function: FunctionType, owner: type, public: Mapping[str, object]
) -> Iterator[str]:
    """What the docstring of a method or property lacks: its arguments may stand in its sentence."""
    text = inspect.cleandoc(function.__doc__ or "")
    yield from opening(text)
    bases = [vars(base).get(function.__name__) for base in owner.__mro__[1:]]
    told = "\n".join([text, *(base.__doc__ or "" for base in bases if base)])
    for name in parameters(function):
        if not re.search(rf"\b{name}\b", told):
            yield f"says nothing of {name}"
    result = inspect.get_annotations(function).get("return")
    if result is float and not measured(function.__name__, told):
        yield "gives no unit for what it returns"
    yield from formulas(f"{text}\n{'Source:' * ('Source:' in own_docstring(owner))}")
    yield from errors(text, function)
    if ">>>" in text:
        yield from example(text, public)
    yield from references(text, function, {**public, **members_by_name(owner)})


def members_by_name(owner: type) -> dict[str, object]:
    """What may be spoken of by its bare name inside a class: methods, properties and fields."""
    known = {name: getattr(owner, name) for name in dir(owner)}
    fields = getattr(owner, "__dataclass_fields__", {})
    return known | dict(fields) | dict.fromkeys(inspect.get_annotations(owner))


def opening(text: str) -> Iterator[str]:
    """A first sentence, whole."""
    if not text.strip():
        yield "has no docstring"
    elif not re.search(r"[.?!:]['\")]?$|[.?!] [A-Z]", parts(text).summary):
        yield "its first sentence does not end"


def arguments(text: str, value: object) -> Iterator[str]:
    """Every argument told, with the unit of every length and ratio, and none that is not there."""
    told = parts(text).args
    given = parameters(value)
    for_all = UNIT.search(parts(text).summary) is not None
    made = {f.name for f in dataclasses.fields(value)} if dataclasses.is_dataclass(value) else set()
    for name in given:
        if name not in told:
            yield f"says nothing of {name}"
    for name, said in told.items():
        if name not in given.keys() | made:
            yield f"tells of {name}, which it does not take"
        elif not said.strip():
            yield f"names {name} and says nothing"
        elif in_floats(given, name) and not (for_all or measured(name, said)):
            yield f"gives no unit for {name}"
        elif in_arrays(given, name) and "shape" not in said.lower():
            yield f"gives no shape for {name}"


def measured(name: str, said: str) -> bool:
    """Whether a unit stands in a name or in what is said of it."""
    return UNIT_IN_NAME.search(name) is not None or UNIT.search(said) is not None


def in_floats(given: Mapping[str, inspect.Parameter], name: str) -> bool:
    """Whether an argument is measured: a float, or several."""
    return name in given and re.search(r"\bfloat\b", str(given[name].annotation)) is not None


def in_arrays(given: Mapping[str, inspect.Parameter], name: str) -> bool:
    """Whether an argument is an array, or several."""
    return name in given and "numpy" in str(given[name].annotation)


def example(text: str, public: Mapping[str, object]) -> Iterator[str]:
    """An example with an answer, made of what a user can import."""
    examples = doctest.DocTestParser().get_examples(text)
    if not any(e.want or e.exc_msg for e in examples):
        yield "has no example that shows an answer"
    trees = [ast.parse(e.source) for e in examples]
    nodes = [node for tree in trees for node in ast.walk(tree)]
    known = {n.id for n in nodes if isinstance(n, ast.Name) and isinstance(n.ctx, ast.Store)}
    known |= {n.arg for n in nodes if isinstance(n, ast.arg)}
    known |= {n.name or "" for n in nodes if isinstance(n, ast.ExceptHandler)}
    for node in nodes:
        if isinstance(node, ast.Import | ast.ImportFrom):
            known |= {(a.asname or a.name).partition(".")[0] for a in node.names}
            modules = [getattr(node, "module", None) or "", *(a.name for a in node.names)]
            if any(module.startswith("letterfit.") for module in modules):
                yield f"its example imports from the inside: {ast.unparse(node)}"
    known |= public.keys() | vars(builtins).keys()
    for node in nodes:
        if isinstance(node, ast.Name) and node.id not in known:
            yield f"its example takes {node.id} from nowhere"


def formulas(text: str) -> Iterator[str]:
    """Every formula with its source."""
    prose = text.partition(">>>")[0]
    if FORMULA.search(prose) and "Source:" not in prose:
        yield "has a formula without a source"


def errors(text: str, value: object) -> Iterator[str]:
    """Every error that is raised on the way, and none that there is not."""
    told = parts(text).raises
    if isinstance(value, type):
        makers = ("__init__", "__post_init__")
        made = [getattr(value, name, None) for name in makers]
        functions = [each for each in made if isinstance(each, FunctionType)]
    else:
        functions = [value] if isinstance(value, FunctionType) else []
    for name in sorted({name for function in functions for name in raised(function)} - set(told)):
        yield f"does not say that it raises {name}"
    for name in told:
        if not inspect.isclass(PUBLIC.get(name, getattr(builtins, name, None))):
            yield f"raises {name}, which is no error"


def references(text: str, value: object, public: Mapping[str, object]) -> Iterator[str]:
    """Every name in backticks is one that there is."""
    known = {**public, **parameters(value), **vars(builtins), "letterfit": letterfit}
    if isinstance(value, type):
        known |= members_by_name(value)
    for span in CODE.findall(text.partition(">>>")[0]):
        path = span.removesuffix("()")
        if DOTTED.fullmatch(span) and not resolves(path.split("."), known):
            yield f"speaks of `{span}`, which there is not"


def resolves(path: list[str], known: Mapping[str, object]) -> bool:
    """Whether a dotted path leads somewhere: through attributes, fields and public modules."""
    if path[0] not in known:
        return False
    here = known[path[0]]
    for name in path[1:]:
        if isinstance(here, ModuleType) and here is letterfit and name not in PUBLIC:
            return False
        fields = members_by_name(here) if isinstance(here, type) else {}
        if not (hasattr(here, name) or name in fields):
            return False
        here = getattr(here, name, fields.get(name))
    return True
