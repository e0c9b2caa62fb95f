"""README.md is true: every example in it runs and prints what it says."""

import doctest
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from tests import readme

WRITTEN_FOR_THE_README = {
    "gate.txt": """\
PAGE ONE

Panel 1. Wenna on the gate at first light.
WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut.

Panel 2. The barge's bow, huge.
BARGE PILOT (OFF): Ahoy, the lock!
""",
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An empty folder with the small script that the examples speak of."""
    for name, text in WRITTEN_FOR_THE_README.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("session", readme.sessions(), ids=lambda s: s[0])
def test_console_examples_print_what_they_show(session: tuple[str, str], folder: Path) -> None:
    """Each command of a console block, run in an empty folder, prints the lines under it."""
    command, expected = session
    words = shlex.split(command)
    assert words[0] == "letterfit"
    done = subprocess.run(  # noqa: S603 - the command comes from our own README
        [sys.executable, "-m", "letterfit", *words[1:]],
        cwd=folder,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    printed = [line.rstrip() for line in (done.stdout + done.stderr).splitlines()]
    assert printed == [line.rstrip() for line in expected.splitlines()]


@pytest.mark.parametrize("block", readme.blocks("python"), ids=range(len(readme.blocks("python"))))
def test_python_examples_run(block: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each Python block, run as a doctest in an empty folder, gives the values it shows."""
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
