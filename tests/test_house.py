"""The house holds: data flows one way, a file is one idea, and every test says what it shows."""

import ast
import re
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import letterfit

TOP = Path(__file__).parents[1]
CODE = sorted((TOP / "letterfit").rglob("*.py"))
TESTS = sorted((TOP / "tests").rglob("test_*.py"))
FOUNDATION = {
    "counting",
    "drawn",
    "errors",
    "families",
    "files",
    "findings",
    "geometry",
    "joined_outline",
    "json_paths",
    "outline",
    "outline_arc",
    "outline_path",
    "runs",
    "separation",
    "shown",
    "toml_lines",
    "version",
}
ROOMS: dict[str, set[str]] = {
    "script": FOUNDATION,
    "paper": FOUNDATION | {"script"},
    "lettering": FOUNDATION,
    "fit": FOUNDATION | {"lettering"},
    "place": FOUNDATION,
    "cuts": FOUNDATION | {"lettering", "fit"},
    "report": FOUNDATION | {"script", "paper", "lettering", "fit", "cuts", "place"},
}
ROOMS["existing"] = FOUNDATION | {"paper", "lettering"}
ROOMS["report"] |= {"existing"}
ROOMS["table"] = FOUNDATION | {"lettering", "fit"}
ROOMS["balloons"] = FOUNDATION | {"lettering", "fit"}
ROOMS["stages"] = ROOMS["report"] | {"report"}
ROOMS["tiers"] = ROOMS["stages"]
ROOMS["joining"] = FOUNDATION | {"lettering", "fit"}
ROOMS["output"] = ROOMS["report"] | {"report", "table", "tiers"}
MOST_LINES = 400
MOST_FUNCTION_LINES = 55
TOP_LEVEL = {
    ".ci",
    ".git",
    ".gitignore",
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "examples",
    "fonts_open",
    "letterfit",
    "notebooks",
    "pyproject.toml",
    "tests",
}


def room(path: Path) -> str:
    """The stage a file belongs to: its folder in the package, or its own name."""
    parts = path.relative_to(TOP / "letterfit").parts
    return parts[0].removesuffix(".py")


def imported_modules(source: str) -> Iterator[str]:
    """Every module of the package that a file imports, in full, late imports included."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names if name.name.startswith("letterfit"))
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("letterfit"):
            yield node.module or ""


def strays(path: Path, source: str) -> list[str]:
    """Imports that go against the flow of data."""
    here = room(path)
    if here not in ROOMS and here not in FOUNDATION:
        return []
    allowed = ROOMS.get(here, FOUNDATION) | {here}
    return [m for m in imported_modules(source) if (m.split(".")[1:2] or [""])[0] not in allowed]


def test_imports_only_go_up_the_house() -> None:
    """A stage imports its own folder and the stages before it, never one after it."""
    found = {str(path): strays(path, path.read_text(encoding="utf-8")) for path in CODE}
    assert {path: modules for path, modules in found.items() if modules} == {}


def test_an_import_against_the_flow_is_caught() -> None:
    """The check above can fail: placing that reached for the text is named."""
    planted = "from letterfit.lettering.words import Words\n"
    assert strays(TOP / "letterfit" / "place" / "beam.py", planted) == ["letterfit.lettering.words"]


def test_the_fit_knows_nothing_of_fonts() -> None:
    """The fit takes measured words from the lettering stage and nothing else."""
    taken = {
        module
        for path in (TOP / "letterfit" / "fit").glob("*.py")
        for module in imported_modules(path.read_text(encoding="utf-8"))
        if ".lettering" in module
    }
    assert taken == {"letterfit.lettering.words"}


def code_lines(function: ast.FunctionDef) -> int:
    """How long a function is; its docstring, which says what its callers ask, is not counted."""
    first = function.body[0]
    told = ast.get_docstring(function) is not None
    docstring = (first.end_lineno or 0) - first.lineno + 1 if told else 0
    return (function.end_lineno or 0) - function.lineno + 1 - docstring


def test_a_file_is_one_idea_and_a_function_fits_a_screen() -> None:
    """No module grows past a few hundred lines, no function past a screen; each says its idea."""
    long_files, long_functions, mute = [], [], []
    for path in CODE:
        source = path.read_text(encoding="utf-8")
        tree = ast.parse(source)
        functions = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)]
        long_functions += [(path, f.name) for f in functions if code_lines(f) > MOST_FUNCTION_LINES]
        long_files += [path] if source.count("\n") > MOST_LINES else []
        mute += [] if ast.get_docstring(tree) else [path]
    assert (long_files, long_functions, mute) == ([], [], [])


def test_every_test_states_the_behaviour_it_shows() -> None:
    """A test without a docstring does not say what breaks when it fails."""
    mute = [
        (path, node.name)
        for path in TESTS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef)
        and node.name.startswith("test_")
        and not ast.get_docstring(node)
    ]
    assert mute == []


def test_public_names_are_listed_and_shadow_no_submodule() -> None:
    """Every name in __all__ exists, and no function hides a folder of the same name."""
    missing = [name for name in letterfit.__all__ if not hasattr(letterfit, name)]
    folders = {room(path) for path in CODE}
    assert missing == []
    assert [name for name in letterfit.__all__ if name in folders] == []


def test_the_top_level_holds_what_was_agreed() -> None:
    """No folder or file at the top beyond the agreed ones, but for what git is told to ignore."""
    ignored = [line.strip("/") for line in (TOP / ".gitignore").read_text().splitlines()]
    names = {p.name for p in TOP.iterdir() if not any(fnmatch(p.name, i) for i in ignored)}
    assert names <= TOP_LEVEL


POSSESSIVE_GROUP = re.compile(r"\)(?:[*+?]|\{{1,2}\d*,?\d*\}{1,2})\+")


def test_no_pattern_has_a_possessive_group() -> None:
    """Python before 3.11.5 matches them wrongly (CPython, gh-106052)."""
    assert [p for p in CODE if POSSESSIVE_GROUP.search(p.read_text(encoding="utf-8"))] == []


def test_a_possessive_group_is_found() -> None:
    """With each quantifier, in plain and in formatted strings."""
    for pattern in ("(?:ab)++", "(?:ab)*+", "(?:ab)?+", "(?:ab){1,8}+", "(?:ab){{3,}}+"):
        assert POSSESSIVE_GROUP.search(pattern)
    assert not POSSESSIVE_GROUP.search(r"[ab]++(?:ab)+\.{2,}+")
