"""The command `letterfit cuts`: statuses and streams."""

import json
from pathlib import Path

import pytest

from letterfit.cli import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

SHORT = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Shut it.\n"
LONG = (
    "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Well, I really think that nobody will come for us "
    "tonight. The tide turned an hour ago, and the barge is late, and the lamps are out.\n"
)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a short script and one with a long speech."""
    monkeypatch.chdir(tmp_path)
    Path("short.txt").write_text(SHORT, encoding="utf-8")
    Path("long.txt").write_text(LONG, encoding="utf-8")
    return runner(capsys)


def test_nothing_to_cut_ends_with_0(run: Run) -> None:
    """A short script needs none."""
    status, out, err = run("cuts", "short.txt")
    assert (status, err) == (FITS, "")
    assert "no cuts to propose" in out


def test_something_to_cut_ends_with_1(run: Run) -> None:
    """The place, what goes, what is left."""
    status, out, err = run("cuts", "long.txt")
    assert (status, err) == (MISFIT, "")
    assert "1.1.1" in out
    assert max(map(len, out.splitlines())) <= 80


def test_json_goes_to_standard_output(run: Run) -> None:
    """Then no text does."""
    status, out, _ = run("cuts", "long.txt", "--json", "-")
    assert status == MISFIT
    told = json.loads(out)["proposals"]
    assert told[0]["where"] == "1.1.1"
    assert told[0]["words_after"] <= 25


def test_a_missing_script_is_one_line(run: Run) -> None:
    """As everywhere: status 2, one line on standard error."""
    status, out, err = run("cuts", "none.txt")
    assert (status, out) == (UNUSABLE, "")
    assert err.count("\n") == 1
