"""The command `letterfit cuts`: statuses and streams."""

import json
from pathlib import Path

import jsonschema
import pytest

import letterfit as lf
from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from letterfit.output.cuts_json import cuts_to_json
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


def test_json_keeps_to_its_schema(run: Run) -> None:
    """The one that the package publishes."""
    _, out, _ = run("cuts", "long.txt", "--json", "-")
    jsonschema.validate(json.loads(out), json.loads(lf.cuts_schema()))


def test_balloons_may_be_joined_and_butted(run: Run) -> None:
    """The options of preflight are those of cuts, and each makes a difference."""
    typed = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Nobody will come for us tonight.\n\n"
    typed += "WENNA: The tide turned an hour ago, and the barge is late.\n"
    Path("two.txt").write_text(typed, encoding="utf-8")
    script, paper = lf.read_script("two.txt"), lf.Paper.named("46x40mm")
    plain = cuts_to_json(lf.preflight(script, paper=paper, cuts=True))
    joined = cuts_to_json(lf.preflight(script, paper=paper, cuts=True, same_speaker="joined"))
    butted = cuts_to_json(lf.preflight(script, paper=paper, cuts=True, butted=True))
    told = [
        run("cuts", "two.txt", "--paper", "46x40mm", "--json", "-", *options)[1]
        for options in ((), ("--same-speaker", "joined"), ("--butted",))
    ]
    assert told == [plain, joined, butted]
    assert len(set(told)) == 3
