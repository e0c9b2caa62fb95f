"""README.md is true: every example in it runs and prints what it says."""

import doctest
import re
from functools import reduce
from pathlib import Path

import click
import pytest

import letterfit
from letterfit.cli import MODULES, commands
from tests import readme

TEXT = readme.README.read_text(encoding="utf-8")
CONTEXT = click.Context(commands)
COMMANDS = {name: commands.get_command(CONTEXT, name) for name in MODULES}
OTHERS = {"--nthreads", "--nworkers"}
"""Options of other programs."""

HABIT = re.compile(r"^\| `(--[a-z-]+)[^`]*`( \*)? \| ([^|]+) \|", re.MULTILINE)
""""| `--size PT` | `7.5` |": an option, whether `fit` does without it, its default."""


def options(command: str) -> dict[str, click.Parameter]:
    """A command's options by their names."""
    found = COMMANDS[command]
    assert found is not None
    return {name: option for option in found.params for name in option.opts}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with nothing but the small files that the examples speak of."""
    readme.lay_out(tmp_path)
    return tmp_path


@pytest.mark.parametrize("session", readme.sessions(), ids=lambda s: s[0])
def test_console_examples_print_what_they_show(session: tuple[str, str], folder: Path) -> None:
    """Each command of a console block prints the lines that stand under it."""
    command, expected = session
    assert readme.printed(command, folder) == expected


@pytest.mark.parametrize("block", readme.blocks("python"), ids=range(len(readme.blocks("python"))))
def test_python_examples_run(block: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each Python block, run as a doctest, gives the values it shows."""
    monkeypatch.chdir(folder)
    parser = doctest.DocTestParser()
    example = parser.get_doctest(block, {}, "README.md", "README.md", 0)
    assert example.examples
    failures, _ = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS).run(example)
    assert failures == 0


def test_the_readme_opens_with_two_commands_on_one_line_each() -> None:
    """A newcomer copies one line to see the job done and one line to run the tests."""
    for command in readme.commands().values():
        assert "\n" not in command
        assert command.startswith("python3 -m venv ")


def test_there_are_examples_to_run() -> None:
    """The checks above have something to check."""
    assert len(readme.sessions()) >= 3
    assert len(readme.blocks("python")) >= 2


@pytest.mark.parametrize("block", readme.blocks("toml"))
def test_toml_shown_is_read(block: str) -> None:
    """Each is house rules, word for word those of the example, or plans."""
    if block == (readme.EXAMPLES / "house.toml").read_text(encoding="utf-8"):
        assert letterfit.parse_limits(block).house
    else:
        assert letterfit.parse_plans(block) != letterfit.parse_plans("")


def test_the_plan_shown_is_that_of_the_example() -> None:
    """README shows the very file that its examples and pictures are made with."""
    assert readme.blocks("json") == ((readme.EXAMPLES / "plan.json").read_text(encoding="utf-8"),)


def test_every_example_is_spoken_of() -> None:
    """The README names each file, and the examples' own README links to it."""
    files = {file.name for file in readme.EXAMPLES.iterdir()} - {"README.md"}
    listed = (readme.EXAMPLES / "README.md").read_text(encoding="utf-8")
    text = readme.README.read_text(encoding="utf-8")
    assert [name for name in sorted(files) if name not in text or f"]({name})" not in listed] == []


def test_every_picture_shown_is_there() -> None:
    """And none lies beside them that nobody sees."""
    shown = re.findall(r'src="notebooks/pictures/([^"]+)"', readme.README.read_text("utf-8"))
    kept = {file.name for file in (readme.README.parent / "notebooks" / "pictures").iterdir()}
    assert kept == set(shown)


def test_every_option_spoken_of_is_one() -> None:
    """Of some command, whose help tells more of it."""
    every = {name for command in MODULES for name in options(command)} | {"--help"} | OTHERS
    assert set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", TEXT)) - every == set()


@pytest.mark.parametrize("name", sorted(set(re.findall(r"\blf\.([A-Za-z_.]*[A-Za-z])", TEXT))))
def test_every_public_name_spoken_of_is_one(name: str) -> None:
    """And has the attributes that it is said to have."""
    assert reduce(getattr, name.split("."), letterfit) is not None


@pytest.mark.parametrize("row", HABIT.findall(TEXT), ids=lambda row: row[0])
def test_the_table_of_habits_is_that_of_the_options(row: tuple[str, str, str]) -> None:
    """All commands that report on a script have them, `fit` those without a star; defaults hold."""
    name, starred, default = row
    takers = {"preflight", "catalogue", "cuts", "tiers", "compare", *(() if starred else ("fit",))}
    assert {command for command in MODULES if name in options(command)} >= takers
    assert starred == "" or name not in options("fit")
    stated = options("preflight")[name].default
    first = stated[0] if isinstance(stated, tuple) and stated else stated
    told = re.match(r"`([^`]+)`", default)
    if isinstance(first, str | float):
        assert told is not None
        assert told[1] == (f"{first:g}" if isinstance(first, float) else first)


def test_every_link_leads_somewhere() -> None:
    """To a file that is there, or to a heading."""
    links = re.findall(r"\]\(([^)]+)\)", TEXT)
    heads = {
        f"#{re.sub(r'[^a-z0-9 -]', '', head.lower()).replace(' ', '-')}"
        for head in re.findall(r"^#+ (.+)$", TEXT, re.MULTILINE)
    }
    files = [link for link in links if not link.startswith("#")]
    assert [link for link in links if link.startswith("#") and link not in heads] == []
    assert [link for link in files if not (readme.README.parent / link).is_file()] == []
    assert heads
    assert files
