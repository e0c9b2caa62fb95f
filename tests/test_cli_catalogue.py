"""The command line's catalogue: many scripts, a line for each, and lines for programs."""

import json
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from letterfit import cli_catalogue
from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

GATE = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: The tide turned an hour ago.\n"
FLOOD = GATE.replace("hour", "hour " * 1_100)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with three scripts."""
    monkeypatch.chdir(tmp_path)
    for name, text in (("gate", GATE), ("flood", FLOOD), ("broken", "no script\n")):
        Path(f"{name}.txt").write_text(text, encoding="utf-8")
    return runner(capsys)


def test_every_script_has_a_line_and_a_broken_one_ends_none(run: Run) -> None:
    """What does not fit is said; what cannot be read is told on standard error, with status 2."""
    status, out, err = run("catalogue", "gate.txt", "broken.txt", "flood.txt", "nowhere.txt")
    assert status == UNUSABLE
    gate, flood, total = out.splitlines()
    assert gate == "✓ gate.txt: all fits; 1 page, 1 panel, 6 words"
    assert flood.startswith("✗ flood.txt: not all of the lettering can be set; 1 page, 1 panel, ")
    assert total == "4 scripts: 1 fits, 1 does not, 2 cannot be used."
    assert [line.split(": ")[:2] for line in err.splitlines()] == [
        ["letterfit", "broken.txt"],
        ["letterfit", "nowhere.txt"],
    ]


def test_the_status_is_the_worst_of_all(run: Run) -> None:
    """0 where every script fits, 1 where one does not."""
    assert run("catalogue", "gate.txt", "gate.txt")[0] == FITS
    assert run("catalogue", "gate.txt", "flood.txt")[0] == MISFIT


def test_lines_are_the_same_for_any_number_of_workers(run: Run) -> None:
    """In a file as on standard output, by two processes as by one."""
    names = ("gate.txt", "broken.txt", "flood.txt", "gate.txt")
    status, out, _ = run("catalogue", *names, "--jsonl", "-", "--paper", "a5", "--language", "fr")
    assert status == UNUSABLE
    lines = [json.loads(line) for line in out.splitlines()]
    one = ["script", "page", "end"]
    assert [line["record"] for line in lines] == [*one, "error", *one, *one]
    assert lines[0]["paper"]["name"] == "a5"
    again = ("catalogue", *names, "--paper", "a5", "--language", "fr", "--jobs", "2")
    shown = run(*again, "--jsonl", "two.jsonl")[1]
    assert Path("two.jsonl").read_text(encoding="utf-8") == out
    assert "cannot be used" in shown


def test_preflight_writes_the_lines_of_its_script(run: Run) -> None:
    """The same as a catalogue of one."""
    assert (
        run("preflight", "gate.txt", "--jsonl", "-")[1]
        == (run("catalogue", "gate.txt", "--jsonl", "-")[1])
    )


def test_nothing_more_is_lettered_when_the_reader_has_gone(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As when lines go to `head`: the work ends, quietly."""
    told: list[object] = []

    def gone(_lines: object, one: object) -> bool:
        told.append(one)
        return False

    monkeypatch.setattr(cli_catalogue, "_written", gone)
    status, _, err = run("catalogue", "gate.txt", "flood.txt", "--jsonl", "-")
    assert (status, err, len(told)) == (FITS, "", 1)


def test_a_lost_worker_is_one_line(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """A process that the system ended, for want of memory say, is no traceback."""

    def lost(*_: object, **__: object) -> None:
        raise BrokenProcessPool

    monkeypatch.setattr("letterfit.preflight_stream", lost)
    status, _, err = run("catalogue", "gate.txt")
    assert status == UNUSABLE
    assert err.startswith("letterfit: a worker process ended before its pages were done")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "SCRIPT"),
        (("-",), "preflight reads standard input"),
        (("gate.txt", "--cuts"), "--cuts goes with --jsonl"),
        (("gate.txt", "--jsonl", "no/folder.jsonl"), "no/folder.jsonl"),
        (("gate.txt", "--outline", "blob"), "blob"),
        (("gate.txt", "--size", "0"), "size"),
    ],
)
def test_slips_are_told_before_any_work(run: Run, arguments: tuple[str, ...], said: str) -> None:
    """One line that names what is wrong."""
    status, out, err = run("catalogue", *arguments)
    assert (status, out) == (UNUSABLE, "")
    assert said in err
    assert err.count("\n") == 1
