"""Files that are written: whole or not at all, where they may be, and as what they were."""

import errno
import os
import signal
import stat
import sys
from pathlib import Path

import pytest

from letterfit import cli_files
from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner

SCRIPT = "PAGE 1\n\nPanel 1. The gate.\nWENNA: The tide turned.\n"

full = pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")


@pytest.fixture(name="run")
def _run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Run:
    """Run the command line in a folder with one script: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    return runner(capsys)


def test_files_are_written_whole_or_not_at_all(tmp_path: Path) -> None:
    """A text that cannot be encoded leaves the old file as it was, and no litter beside it."""
    target = tmp_path / "page.svg"
    cli_files.write_text(target, "first\n")
    with pytest.raises(UnicodeEncodeError):
        cli_files.write_text(target, "\ud800")
    assert target.read_bytes() == b"first\n"
    assert [p.name for p in tmp_path.iterdir()] == ["page.svg"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """What a link points to is written; the link itself is kept."""
    target, link = tmp_path / "page.svg", tmp_path / "link.svg"
    link.symlink_to(target)
    cli_files.write_text(link, "first\n")
    assert link.is_symlink()
    assert target.read_bytes() == b"first\n"


def test_what_is_no_ordinary_file_is_written_to_and_not_replaced(tmp_path: Path) -> None:
    """A pipe with a name gets the text and is a pipe afterwards; so is a device kept."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    cli_files.write_text(pipe, "first\n")
    assert os.read(reader, 100) == b"first\n"
    os.close(reader)
    assert pipe.is_fifo()


def test_an_error_names_the_file_as_given(tmp_path: Path) -> None:
    """Nobody is told of a temporary file."""
    with pytest.raises(OSError, match="No such file") as caught:
        cli_files.write_text(tmp_path / "none" / "page.svg", "")
    assert caught.value.filename == str(tmp_path / "none" / "page.svg")


def test_a_run_that_is_killed_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Killed before the new one is whole; what is left beside it is named for what it is."""
    target = tmp_path / "page.svg"
    target.write_text("first\n")
    child = os.fork()
    if not child:
        monkeypatch.setattr(os, "fsync", lambda _: os.kill(os.getpid(), signal.SIGKILL))
        cli_files.write_text(target, "second" * 100_000)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    assert target.read_text() == "first\n"
    (left,) = (path.name for path in tmp_path.iterdir() if path != target)
    assert left.startswith(".letterfit-")
    assert left.endswith(".part")
    cli_files.write_text(target, "third\n")
    assert target.read_text() == "third\n"


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (errno.ENOSPC, "no space left on device; make room there"),
        (errno.EDQUOT, "make room there"),
        (errno.EIO, "out.json"),
    ],
)
def test_a_disk_that_is_full_is_one_line(
    run: Run, monkeypatch: pytest.MonkeyPatch, number: int, said: str
) -> None:
    """Even if it only says so at the very end; the old file is kept, and nothing beside it."""
    Path("out.json").write_text("first\n")

    def fail(_: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", fail)
    status, out, err = run("parse", "gate.txt", "--json", "out.json")
    assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)
    assert err.startswith("letterfit: out.json: ")
    assert said in err
    assert Path("out.json").read_text() == "first\n"
    assert sorted(path.name for path in Path().iterdir()) == ["gate.txt", "out.json"]


@full
def test_a_device_that_is_full_is_one_line(run: Run) -> None:
    """Other files of the run are written before it, whole."""
    files = ("--json", "out.json", "--html", "/dev/full")
    status, out, err = run("preflight", "gate.txt", *files)
    assert (status, out) == (UNUSABLE, "")
    assert err == (
        "letterfit: /dev/full: no space left on device; make room there, or name another folder\n"
    )
    assert Path("out.json").read_text().endswith("}\n")


@full
def test_standard_output_that_is_full_is_one_line(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The command says so once, and nothing is left for Python to fail on as it ends."""
    with Path("/dev/full").open("w", encoding="utf-8") as device:
        monkeypatch.setattr(sys, "stdout", device)
        status, _, err = run("parse", "gate.txt")
    assert status == UNUSABLE
    assert err.startswith("letterfit: standard output: no space left on device; ")
    assert err.count("\n") == 1


def test_a_reader_that_leaves_is_no_complaint(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """It has seen enough; the status is that of the script."""
    reader, writer = os.pipe()
    os.close(reader)
    with os.fdopen(writer, "w", encoding="utf-8") as pipe:
        monkeypatch.setattr(sys, "stdout", pipe)
        status, _, err = run("parse", "gate.txt")
    assert (status, err) == (FITS, "")


@pytest.mark.parametrize("mode", [0o600, 0o664])
def test_a_file_keeps_its_mode(tmp_path: Path, mode: int) -> None:
    """What others may not read stays so."""
    target = tmp_path / "page.svg"
    target.touch()
    target.chmod(mode)
    cli_files.write_text(target, "second\n")
    assert stat.S_IMODE(target.stat().st_mode) == mode


def test_a_new_file_has_the_mode_of_any(tmp_path: Path) -> None:
    """As a program that just opens one would make it."""
    plain, ours = tmp_path / "plain", tmp_path / "page.svg"
    plain.touch()
    cli_files.write_text(ours, "first\n")
    assert ours.stat().st_mode == plain.stat().st_mode


def test_a_file_with_two_names_is_parted(tmp_path: Path) -> None:
    """The name asked for has the new content; the other one keeps the old."""
    target, other = tmp_path / "page.svg", tmp_path / "kept.svg"
    other.write_text("first\n")
    target.hardlink_to(other)
    cli_files.write_text(target, "second\n")
    assert (target.read_text(), other.read_text()) == ("second\n", "first\n")


def test_a_link_to_nothing_makes_what_it_names(tmp_path: Path) -> None:
    """The link is kept."""
    link = tmp_path / "link.svg"
    link.symlink_to("page.svg")
    cli_files.write_text(link, "first\n")
    assert link.is_symlink()
    assert (tmp_path / "page.svg").read_text() == "first\n"


def test_a_ring_of_links_is_told(tmp_path: Path) -> None:
    """It leads to no file, and none is made in its place."""
    one, other = tmp_path / "one", tmp_path / "other"
    one.symlink_to(other)
    other.symlink_to(one)
    with pytest.raises(OSError, match="Too many levels") as caught:
        cli_files.write_text(one, "")
    assert caught.value.filename == str(one)
    assert one.is_symlink()


@pytest.mark.parametrize("there", [True, False])
def test_what_may_not_be_written_is_not_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, there: bool
) -> None:
    """A file that is read-only, though its folder is not; and a folder that is."""
    target = tmp_path / "page.svg"
    if there:
        target.write_text("first\n")
    monkeypatch.setattr(os, "access", lambda *_: False)  # whoever runs the tests may be root
    with pytest.raises(PermissionError) as caught:
        cli_files.write_text(target, "second\n")
    assert caught.value.filename == str(target)
    assert [path.read_text() for path in tmp_path.iterdir()] == ["first\n"] * there


def test_an_open_pipe_is_written_to_by_its_number(tmp_path: Path) -> None:
    """As shells hand them over for a command in the place of a file; a reader may leave."""
    reader, writer = os.pipe()
    name = Path(f"/dev/fd/{writer}")
    cli_files.write_text(name, "first\n")
    assert os.read(reader, 100) == b"first\n"
    os.close(reader)
    cli_files.write_text(name, "second\n")
    os.close(writer)
    assert list(tmp_path.iterdir()) == []
