"""The option `preflight --svg-text`: live text for programs that go on with the pages."""

from pathlib import Path

import pytest

from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner

YUSEI = Path(__file__).parent / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with two scripts."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text("PAGE 1\n\nPanel 1.\nWENNA: Shut it.\n", encoding="utf-8")
    Path("mizu.txt").write_text("PAGE 1\n\nPanel 1.\nWENNA: 水門の灯。\n", encoding="utf-8")
    return runner(capsys)


def test_pages_have_live_text_where_it_is_asked_for(run: Run) -> None:
    """Outlines otherwise; the report is the same."""
    status, out, err = run("preflight", "gate.txt", "--svg", "live", "--svg-text", "live")
    assert (status, err) == (FITS, "Wrote pages to live\n")
    assert run("preflight", "gate.txt", "--svg", "drawn")[1] == out
    assert ">SHUT IT.</text>" in Path("live/page-1.svg").read_text(encoding="utf-8")
    assert "<text" not in Path("drawn/page-1.svg").read_text(encoding="utf-8")


def test_columns_are_told_to_be_outlines(run: Run) -> None:
    """In a line of its own on standard error; the page is written."""
    asked = ("--writing", "vertical", "--typeface", str(YUSEI), "--svg", "live")
    err = run("preflight", "mizu.txt", *asked, "--svg-text", "live")[2]
    assert "<desc>drawn as outlines" in Path("live/page-1.svg").read_text(encoding="utf-8")
    told, wrote = err.splitlines()
    assert "columns are drawn as outlines" in told
    assert wrote == "Wrote pages to live"
    assert run("preflight", "mizu.txt", *asked)[2].splitlines() == [wrote]


def test_it_goes_with_a_folder_for_pages(run: Run) -> None:
    """Without one nothing would be written: status 2, one line."""
    status, out, err = run("preflight", "gate.txt", "--svg-text", "live")
    assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)
    assert "--svg-text goes with --svg" in err
