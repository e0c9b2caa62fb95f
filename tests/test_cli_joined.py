"""The command line's joined balloons: options, files, advice."""

import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner

SPEECH = "The tide turned an hour ago, and nobody came. I counted nine barges in the fog."
LONG = "Now the gate is shut and the tide is out, old thing. " * 5


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line in an empty folder: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    return runner(capsys)


def test_a_speech_is_shown_in_two(run: Run) -> None:
    """Both stacks are drawn, the measures after them."""
    status, out, err = run("fit", "--joined", SPEECH)
    assert (status, err) == (FITS, "")
    assert "16 words in" in out
    assert "two joined balloons" in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_second_part_is_joined_to_the_first(run: Run) -> None:
    """The parts are the writer's own."""
    status, out, _ = run("fit", "Shut. Now.", "--then", "Go.", "--json", "-")
    value = json.loads(out)
    assert status == FITS
    assert [part["text"] for part in value["parts"]] == ["SHUT. NOW.", "GO."]
    assert value["outline"]["path"].count("M") == 1


def test_the_file_draws_one_outline(run: Run) -> None:
    """One path round both, and both stacks in it."""
    assert run("fit", "--joined", SPEECH, "--svg", "pair.svg")[0] == FITS
    root = ET.fromstring(Path("pair.svg").read_bytes())  # noqa: S314 - our own output
    outlines = [e for e in root.iter() if e.get("class") == "outline"]
    assert len(outlines) == 1


@pytest.mark.parametrize(
    "options",
    [
        ("--joined", SPEECH, "--width", "30", "--height", "20"),
        ("--joined", "Wenna!"),
        ("--joined", SPEECH, "--outline", "caption"),
        ("--joined", SPEECH, "--air", "0"),
        ("Go.", "--then", ""),
    ],
)
def test_what_cannot_be_joined_is_said_in_one_line(run: Run, options: tuple[str, ...]) -> None:
    """A given size, a single word, a caption, no air, an empty part."""
    status, out, err = run("fit", *options)
    assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)


def test_a_long_text_is_advised_to_part(run: Run) -> None:
    """With what the joined balloons would take; the advice is called advice."""
    _, out, _ = run("fit", LONG)
    assert "wants two balloons (advice)" in out
    assert "--joined sets it in two that take" in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_short_text_is_not_advised(run: Run) -> None:
    """One balloon will do."""
    assert "two balloons" not in run("fit", SPEECH)[1]
