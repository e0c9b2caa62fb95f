"""DEVELOPERS.md is true: its map is the tree, its names are in the code, its commands run."""

import ast
import re
import shlex
from collections.abc import Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
PACKAGE = TOP / "letterfit"
TEXT = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
SHELL = re.findall(r"^```sh\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)
PROSE = re.sub(r"^```.*?^```$", "", TEXT, flags=re.MULTILINE | re.DOTALL)
SPANS = tuple(dict.fromkeys(span.replace("\n", " ") for span in re.findall(r"`([^`]+)`", PROSE)))
PATH = re.compile(r"[\w.*/-]+\.(?:py|md|json|toml|ipynb)|[\w./-]+/")
PYTHON = re.compile(r"(?:\S*/)?python (?:-m (?P<module>[\w.]+)|(?P<script>[\w./]+\.py))")
NAME = re.compile(r"@?(?P<names>[A-Za-z_]\w*(?:\.[A-Za-z_]\w*)*)(?:\(.*\))?")
NAMES = tuple(span for span in SPANS if NAME.fullmatch(span) and not PATH.fullmatch(span))
ROOMS = ("", "letterfit/", "letterfit/lettering/", "letterfit/output/", "tests/")
"""Where a path of more than one part may begin."""


def rows(section: str) -> list[tuple[str, ...]]:
    """What the first cells of a section's tables name, row by row."""
    body = TEXT.partition(f"## {section}\n")[2].partition("\n## ")[0]
    cells = (line.split("|")[1] for line in body.splitlines() if line.startswith("| `"))
    return [tuple(re.findall(r"`([^`]+)`", cell)) for cell in cells]


HOUSE = rows("The house")


def room(file: Path) -> str:
    """The map's name for the room of a file: its folder with a stroke, or its own name."""
    first, *inside = file.relative_to(PACKAGE).parts
    if inside:
        return f"{first}/"
    return "cli_*.py" if first.startswith("cli_") else first


def rank(name: str) -> int:
    """How far down the map a room stands."""
    return next(k for k, row in enumerate(HOUSE) if name in row)


@cache
def code() -> str:
    """All code and tests, and the schemas."""
    files = [
        *PACKAGE.rglob("*.py"),
        *(TOP / "tests").rglob("*.py"),
        *PACKAGE.rglob("*.schema.json"),
    ]
    return "\n".join(file.read_text(encoding="utf-8") for file in files)


def is_there(path: str) -> bool:
    """Whether a path leads to a file or folder; a lone name, to one anywhere in the tree."""
    if "/" in path.rstrip("/"):
        return any(any(TOP.glob(f"{start}{path}".rstrip("/"))) for start in ROOMS)
    return any(
        any((TOP / folder).rglob(path.rstrip("/")))
        for folder in ("letterfit", "tests", "fonts_open")
    ) or any(TOP.glob(path.rstrip("/")))


def commands() -> Iterator[str]:
    """Every command of the text, those of one line one by one."""
    for line in "\n".join([*SHELL, *SPANS]).splitlines():
        yield from re.split(r" && | \|\| ", line.partition("   #")[0])


def test_the_map_names_every_room_and_nothing_else() -> None:
    """A new folder or module of the package has its line in the map; one that went has none."""
    files = {room(file) for file in PACKAGE.rglob("*.py")} | {"demo/"}
    named = [name for row in HOUSE for name in row]
    assert len(named) == len(set(named))
    assert set(named) == {name for name in files if not name.startswith("__")}


def test_the_map_of_the_lettering_names_every_room() -> None:
    """Each folder of the lettering stage has its line in the text on it."""
    folders = {f"{file.parent.name}/" for file in (PACKAGE / "lettering").glob("*/__init__.py")}
    assert {name for row in rows("From text to words") for name in row} == folders


@pytest.mark.parametrize(
    "file", sorted(PACKAGE.rglob("*.py")), ids=lambda file: str(file.relative_to(TOP))
)
def test_imports_only_go_up_the_map(file: Path) -> None:
    """What a module imports stands in its own line of the map, or in one above it."""
    if file.parent == PACKAGE and file.name.startswith("__"):
        return  # they gather what is below them
    tree = ast.walk(ast.parse(file.read_text(encoding="utf-8")))
    modules = [n.module for n in tree if isinstance(n, ast.ImportFrom) and n.module]
    own = [m.split(".")[1] for m in modules if m.startswith("letterfit.")]
    imported = {f"{name}/" if (PACKAGE / name).is_dir() else f"{name}.py" for name in own}
    imported = {"cli_*.py" if name.startswith("cli_") else name for name in imported}
    assert [name for name in sorted(imported) if rank(name) > rank(room(file))] == []


@pytest.mark.parametrize("path", [span for span in SPANS if PATH.fullmatch(span)])
def test_every_path_is_there(path: str) -> None:
    """Files and folders are called as they are; `letterfit.html` is what a command makes."""
    assert is_there(path) or path == "letterfit.html"


def test_a_path_that_is_not_there_is_found() -> None:
    """The check above can fail, for a lone name and for a path."""
    assert is_there("fit/batch.py")
    assert is_there("batch.py")
    assert not is_there("fit/walk.py")
    assert not is_there("bunch.py")


@pytest.mark.parametrize("span", NAMES)
def test_every_name_is_in_the_code(span: str) -> None:
    """A name in backticks is one that the code, its tests or its schemas have."""
    match = NAME.fullmatch(span)
    assert match is not None
    names = match["names"].removeprefix("to_x").split(".")
    assert [name for name in names if not re.search(rf"\b{name}\b", code())] == []


@pytest.mark.parametrize("command", [command for command in commands() if "python " in command])
def test_commands_name_modules_and_scripts_that_are_there(command: str) -> None:
    """What Python is to run is in the tree, or a tool that can be imported."""
    match = PYTHON.match(command)
    assert match is not None
    assert shlex.split(command)
    if match["script"]:
        assert (TOP / match["script"]).is_file()
    else:
        module = match["module"]
        files = (TOP / module.replace(".", "/")).with_suffix(".py"), TOP / module.replace(".", "/")
        assert any(file.exists() for file in files) or find_spec(module)


def test_there_is_something_to_check() -> None:
    """The spans above are those of a long text."""
    assert len(SPANS) > 150
    assert len(list(commands())) > 10
