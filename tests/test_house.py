"""The house holds: data flows one way, a file is one idea, and every test says what it shows."""

import ast
import re
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import pytest

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


@pytest.mark.parametrize("path", CODE, ids=str)
def test_imports_only_go_up_the_house(path: Path) -> None:
    """A stage imports its own folder and the stages before it, never one after it."""
    assert strays(path, path.read_text(encoding="utf-8")) == []


def test_an_import_against_the_flow_is_caught() -> None:
    """The check above can fail: placing that reached for the text is named."""
    planted = "from letterfit.lettering.words import Words\n"
    assert strays(TOP / "letterfit" / "place" / "beam.py", planted) == ["letterfit.lettering.words"]


@pytest.mark.parametrize("path", sorted((TOP / "letterfit" / "fit").glob("*.py")), ids=str)
def test_the_fit_knows_nothing_of_fonts(path: Path) -> None:
    """The fit takes measured words from the lettering stage and nothing else."""
    taken = [m for m in imported_modules(path.read_text(encoding="utf-8")) if ".lettering" in m]
    assert set(taken) <= {"letterfit.lettering.words"}


def code_lines(function: ast.FunctionDef) -> int:
    """How long a function is; its docstring, which says what its callers ask, is not counted."""
    first = function.body[0]
    told = ast.get_docstring(function) is not None
    docstring = (first.end_lineno or 0) - first.lineno + 1 if told else 0
    return (function.end_lineno or 0) - function.lineno + 1 - docstring


@pytest.mark.parametrize("path", CODE, ids=str)
def test_a_file_is_one_idea_and_a_function_fits_a_screen(path: Path) -> None:
    """No module grows past a few hundred lines, no function past a screen; each says its idea."""
    source = path.read_text(encoding="utf-8")
    tree = ast.parse(source)
    functions = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)]
    long = [f.name for f in functions if code_lines(f) > MOST_FUNCTION_LINES]
    assert source.count("\n") <= MOST_LINES
    assert long == []
    assert ast.get_docstring(tree)


@pytest.mark.parametrize("path", TESTS, ids=str)
def test_every_test_states_the_behaviour_it_shows(path: Path) -> None:
    """A test without a docstring does not say what breaks when it fails."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    tests = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)]
    mute = [t.name for t in tests if t.name.startswith("test_") and not ast.get_docstring(t)]
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


@pytest.mark.parametrize("path", CODE, ids=lambda path: str(path.relative_to(TOP)))
def test_no_pattern_has_a_possessive_group(path: Path) -> None:
    """Python before 3.11.5 matches them wrongly (CPython, gh-106052)."""
    assert not POSSESSIVE_GROUP.findall(path.read_text(encoding="utf-8"))


def test_a_possessive_group_is_found() -> None:
    """With each quantifier, in plain and in formatted strings."""
    for pattern in ("(?:ab)++", "(?:ab)*+", "(?:ab)?+", "(?:ab){1,8}+", "(?:ab){{3,}}+"):
        assert POSSESSIVE_GROUP.search(pattern)
    assert not POSSESSIVE_GROUP.search(r"[ab]++(?:ab)+\.{2,}+")
