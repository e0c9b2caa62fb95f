"""The option --house-rules: the limits of a house, for `preflight` and `cuts`."""

import json
from pathlib import Path

import pytest

from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from letterfit.toml_lines import LONGEST_FILE
from tests.command import Run, runner

SCRIPT = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: The tide turned an hour ago.\n"
STRICT = "[panel]\nwords_per_panel = 5\n"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a script of six words and a house of five."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    Path("house.toml").write_text(STRICT, encoding="utf-8")
    return runner(capsys)


def test_preflight_holds_a_script_against_the_house(run: Run) -> None:
    """Six words are no fault by common practice, and one by the house; they still fit."""
    _, plain, _ = run("preflight", "gate.txt")
    status, told, err = run("preflight", "gate.txt", "--house-rules", "house.toml")
    assert (status, err) == (FITS, "")
    assert "words (" not in plain
    assert "6 words (house rules 5)" in told
    assert "House rules: 5 words a panel. Other limits are common practice" in told


def test_the_json_names_the_limits_of_the_house(run: Run) -> None:
    """The value, and that it is the house's."""
    _, out, _ = run("preflight", "gate.txt", "--house-rules", "house.toml", "--json", "-")
    limits = json.loads(out)["limits"]
    assert (limits["words_per_panel"], limits["house"]) == (5, ["words_per_panel"])


def test_cuts_are_proposed_by_the_house(run: Run) -> None:
    """Nothing to cut by common practice; a word too many by the house."""
    assert run("cuts", "gate.txt")[0] == FITS
    status, told, _ = run("cuts", "gate.txt", "--house-rules", "house.toml")
    assert status == MISFIT
    assert "6 words, over 5" in told
    text = " ".join(told.split())
    assert "House rules: 5 words a panel. Other limits of words and cover are common" in text


@pytest.mark.parametrize("command", ["preflight", "cuts"])
@pytest.mark.parametrize(
    ("rules", "said"),
    [
        (b"[panel]\nwords = 5", "house.toml:2: panel.words: unknown key 'words'; the keys are"),
        (b"\xff\xfe\x00", "house.toml:1: not TOML"),
        (
            b"\xef\xbb\xbf[page]\r\nwords_per_page = 0",
            "house.toml:2: page.words_per_page: 0 is out",
        ),
        (b"#" + b"\n" * (8 * LONGEST_FILE), "house rules of more than 200000 characters"),
        ("é".encode() * LONGEST_FILE * 2, "house rules of more than 200000 characters"),
        (None, "no such file"),
    ],
)
def test_rules_that_cannot_be_used_are_one_line(
    run: Run, command: str, rules: bytes | None, said: str
) -> None:
    """Status 2 and one line on standard error: file, line, key, what to do."""
    if rules is None:
        Path("house.toml").unlink()
    else:
        Path("house.toml").write_bytes(rules)
    status, out, err = run(command, "gate.txt", "--house-rules", "house.toml")
    assert (status, out) == (UNUSABLE, "")
    assert said in err
    assert err.count("\n") == 1
