"""The command `letterfit tiers`: statuses, streams, and a plan that preflight reads."""

import json
from pathlib import Path

import pytest

from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

LONG = (
    "WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut, so I "
    "shall keep it shut until somebody does, and then we shall see.\n"
)
CALM = "WENNA: Hold on, then.\n"
PANELS = "".join(
    f"Panel {n}.\n{said}\n" for n, said in enumerate((LONG, CALM, CALM, CALM, "", CALM, "", ""), 1)
)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a calm script and a tight one."""
    monkeypatch.chdir(tmp_path)
    Path("calm.txt").write_text(f"PAGE 1\n\nPanel 1.\n{CALM}\n", encoding="utf-8")
    Path("tight.txt").write_text(f"PAGE 1\n\n{PANELS}", encoding="utf-8")
    Path("own.txt").write_text(f"PAGE 1\nTIERS: 2 / 2 / 2 / 2\n\n{PANELS}", encoding="utf-8")
    return runner(capsys)


def test_a_calm_page_ends_with_0(run: Run) -> None:
    """There is nothing to change."""
    status, out, err = run("tiers", "calm.txt")
    assert (status, err) == (FITS, "")
    assert "nothing to change" in out


def test_advice_ends_with_1_and_its_plan_ends_with_0(run: Run) -> None:
    """What is written is read by both commands: the page is then as it should be."""
    asked = ("--paper", "a5", "--figure", "40")
    status, out, err = run("tiers", "tight.txt", *asked, "--write-plan", "plan.toml")
    assert (status, err) == (MISFIT, "Wrote plan.toml\n")
    assert "of the page moves" in out
    assert max(map(len, out.splitlines())) <= 80
    assert run("tiers", "tight.txt", *asked, "--plan", "plan.toml")[0] == FITS
    assert run("preflight", "tight.txt", "--plan", "plan.toml")[0] == FITS


def test_a_plan_in_the_script_is_told_with_its_line(run: Run) -> None:
    """A line of the script is the writer's to change: what to put there is shown."""
    out = run("tiers", "own.txt", "--paper", "a5", "--figure", "40")[1]
    assert "in the script, line 2: TIERS:" in out


def test_json_and_plan_go_to_standard_output_one_at_a_time(run: Run) -> None:
    """Then no text does."""
    status, out, _ = run("tiers", "tight.txt", "--paper", "a5", "--figure", "40", "--json", "-")
    assert status == MISFIT
    (page,) = json.loads(out)["pages"]
    assert page["outcome"] == "advised"
    assert all(panel["after"]["figure_height_mm"] >= 40 for panel in page["panels"])
    out = run("tiers", "calm.txt", "--write-plan", "-")[1]
    assert out == 'paper = "us-comic"\n'
    status, _, err = run("tiers", "calm.txt", "--write-plan", "-", "--json", "-")
    assert (status, err.count("\n")) == (UNUSABLE, 1)


def test_limits_out_of_range_are_one_line(run: Run) -> None:
    """Status 2, what and what to do."""
    status, out, err = run("tiers", "calm.txt", "--tier-change", "2")
    assert (status, out) == (UNUSABLE, "")
    assert "cannot change by 2" in err
