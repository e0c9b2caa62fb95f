"""README.md is true: every example in it runs and prints what it says."""

import doctest
import re
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
