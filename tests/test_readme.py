"""README.md is true: every example in it runs and prints what it says."""

import doctest
from pathlib import Path

import pytest

import letterfit
from tests import readme


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


HOUSE_RULES = readme.FILES["house.toml"]


@pytest.mark.parametrize("block", [b for b in readme.blocks("toml") if b != HOUSE_RULES])
def test_plans_shown_are_plans(block: str) -> None:
    """Each plan in TOML is one that preflight reads."""
    assert letterfit.parse_plans(block) != letterfit.parse_plans("")


def test_house_rules_shown_are_those_of_the_example() -> None:
    """README shows the very file that its example is run with, and it states limits."""
    assert HOUSE_RULES in readme.blocks("toml")
    assert letterfit.parse_limits(HOUSE_RULES).house
