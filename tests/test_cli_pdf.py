"""--pdf: a proof into a file or to standard output, or one line on what is missing."""

import importlib.util
import os
import subprocess
import sys
from importlib.machinery import ModuleSpec
from pathlib import Path

import pytest

import letterfit as lf
from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner

TOP = Path(__file__).parents[1]
SCRIPT = "PAGE 1\n\nPanel 1. Dawn.\n\nWENNA: Hold the gate!\n"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line in an empty folder that holds a script."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    return runner(capsys)


def expected() -> bytes:
    """What the library gives."""
    return lf.to_pdf(lf.preflight(lf.parse_script(SCRIPT, source="gate.txt")))


def test_a_proof_is_written_beside_the_report(run: Run) -> None:
    """The file holds the library's bytes, and the report is printed as ever."""
    status, out, _ = run("preflight", "gate.txt", "--pdf", "gate.pdf")
    assert status == FITS
    assert "All 1 panels fit" in out or "1.1" in out
    assert Path("gate.pdf").read_bytes() == expected()


def test_a_proof_to_standard_output_is_all_that_is_printed(tmp_path: Path) -> None:
    """Byte for byte: no line end more, no report."""
    script = tmp_path / "gate.txt"
    script.write_text(SCRIPT, encoding="utf-8")
    command = [sys.executable, "-m", "letterfit", "preflight", "gate.txt", "--pdf", "-"]
    result = subprocess.run(  # noqa: S603 - our own program
        command,
        capture_output=True,
        check=True,
        cwd=tmp_path,
        env=os.environ | {"PYTHONPATH": str(TOP)},
    )
    assert result.stdout == expected()


def test_two_outputs_do_not_share_standard_output(run: Run) -> None:
    """Neither JSON nor a proof would be of use."""
    status, out, err = run("preflight", "gate.txt", "--pdf", "-", "--json", "-")
    assert (status, out) == (UNUSABLE, "")
    assert "--json, --jsonl, --csv, --html, --figures and --pdf" in err


def test_without_the_extra_one_line_says_how_to_install_it(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On the command line before any work, and from the library."""
    report = lf.preflight(lf.parse_script(SCRIPT))

    def find(name: str) -> ModuleSpec | None:
        return None if name == "pikepdf" else importlib.util.find_spec(name)

    monkeypatch.setattr("letterfit.output.pdf.extra.find_spec", find)
    status, out, err = run("preflight", "gate.txt", "--pdf", "gate.pdf")
    assert (status, out) == (UNUSABLE, "")
    assert "; pip install pikepdf" in err
    assert err.count("\n") == 1
    assert not Path("gate.pdf").exists()
    with pytest.raises(lf.LetterfitError, match="pikepdf"):
        lf.to_pdf(report)
