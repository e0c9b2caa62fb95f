"""The screen: as wide as it is, coloured and moving only where a person is watching."""

import io
import os
import re
import sys
import termios
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from rich.cells import cell_len

from letterfit import cli
from letterfit.cli_files import show
from letterfit.cli_screen import screen_colour, screen_width
from letterfit.cli_status import FITS
from tests.command import Run, runner

SCRIPT = "".join(
    f"PAGE {page}\n\nPanel 1. Wenna on the gate.\n"
    "WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut.\n\n"
    for page in (1, 2)
)
ESCAPE = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]")
COMMANDS = (
    ("preflight", "gate.txt"),
    ("parse", "gate.txt"),
    ("plan", "gate.txt"),
    ("cuts", "gate.txt"),
    ("tiers", "gate.txt", "--figure", "240"),
    ("compare", "gate.txt", "page.svg"),
    ("measure", "page.svg"),
    ("fonts",),
    ("fonts", "Bangers"),
    ("fit", "Hold the gate."),
    ("fit", "Hold the gate. I will not.", "--joined"),
    ("fit", "--table", "table.csv"),
    ("--help",),
    ("preflight", "--help"),
    ("fit", "--help"),
)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a script of two pages, a drawn page and a table."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    Path("table.csv").write_text(
        "id,text,outline,width,height\n1,Ahoy!,ellipse,22,11\n2,Hold on.,burst,9,9\n", "utf-8"
    )
    Path("page.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="150mm" '
        'viewBox="0 0 100 150"><rect class="panel" x="5" y="5" width="90" height="60"/></svg>',
        "utf-8",
    )
    return runner(capsys)


class Terminal:
    """A real terminal of the system's, so many columns wide, in the place of a stream."""

    def __init__(self, columns: int) -> None:
        self._master, slave = os.openpty()
        termios.tcsetwinsize(slave, (50, columns))
        self.stream = os.fdopen(slave, "w", encoding="utf-8")
        self._seen: list[bytes] = []
        self._reader = threading.Thread(target=self._read)
        self._reader.start()

    def _read(self) -> None:
        """What is written must be read meanwhile: a terminal holds a few thousand bytes only."""
        try:
            while data := os.read(self._master, 65536):
                self._seen.append(data)
        except OSError:  # the other end was closed
            return

    def text(self) -> str:
        """All that was written."""
        self.stream.close()
        self._reader.join()
        os.close(self._master)
        return b"".join(self._seen).decode("utf-8").replace("\r\n", "\n")


@contextmanager
def terminal(
    monkeypatch: pytest.MonkeyPatch, *names: str, columns: int = 80
) -> Iterator[list[Terminal]]:
    """Standard streams as terminals."""
    made = [Terminal(columns) for _ in names]
    with monkeypatch.context() as patched:
        for name, one in zip(names, made, strict=True):
            patched.setattr(sys, name, one.stream)
        yield made


def ended(*arguments: str) -> int:
    """The status of a command whose streams are looked at elsewhere."""
    with pytest.raises(SystemExit) as caught:
        cli.main(arguments)
    assert isinstance(caught.value.code, int)
    return caught.value.code


@pytest.mark.parametrize("arguments", COMMANDS, ids=" ".join)
def test_every_screen_keeps_to_80_and_to_200_columns(
    run: Run, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    """No line is wider; in a pipe nothing but words and spaces; wider is never longer."""
    heights = []
    for columns in (80, 200):
        monkeypatch.setenv("COLUMNS", str(columns))
        _, out, err = run(*arguments)
        assert err == ""
        lines = out.splitlines()
        assert max(map(cell_len, lines)) <= columns
        assert not [line for line in lines if line.endswith(" ")]
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u2500-\u257f]", out)  # nor lines of boxes
        heights.append(len(lines))
    assert heights[1] <= heights[0]


@pytest.mark.parametrize("columns", [80, 200])
def test_a_terminal_is_filled_and_coloured(
    run: Run, monkeypatch: pytest.MonkeyPatch, columns: int
) -> None:
    """Without the colours it reads as a pipe of that width does; progress is not in it."""
    with terminal(monkeypatch, "stdout", columns=columns) as (screen,):
        assert ended("preflight", "gate.txt") == FITS
    seen = screen.text()
    assert "\x1b[" in seen
    assert not re.search(r" (\x1b\[[0-9;]*m)*$", seen, re.MULTILINE)
    monkeypatch.setenv("COLUMNS", str(columns))
    assert ESCAPE.sub("", seen) == run("preflight", "gate.txt")[1]


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_colour_is_left_out_where_it_is_not_wanted(
    run: Run, monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    """By NO_COLOR (no-color.org: whatever its value, unless empty), or on a dumb terminal."""
    assert run("parse", "gate.txt")[0] == FITS
    with terminal(monkeypatch, "stdout") as (screen,):
        monkeypatch.setenv("NO_COLOR", "")
        assert screen_colour()
        monkeypatch.setenv(name, value)
        assert not screen_colour()
        assert ended("preflight", "gate.txt") == FITS
    assert "\x1b" not in screen.text()


def test_progress_moves_on_the_terminal_that_errors_go_to(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is in nothing that is piped; on a dumb terminal there is none."""
    with terminal(monkeypatch, "stderr") as (screen,):
        status, out, _ = run("preflight", "gate.txt", "--json", "-")
    assert status == FITS
    assert out.startswith("{")
    assert "Checking pages" in screen.text()
    with terminal(monkeypatch, "stderr") as (screen,):
        run("fit", "--table", "table.csv")
    assert "Fitting texts" in screen.text()
    monkeypatch.setenv("TERM", "dumb")
    with terminal(monkeypatch, "stderr") as (screen,):
        assert run("preflight", "gate.txt")[0] == FITS
    assert screen.text() == ""


@pytest.mark.parametrize(
    ("asked", "width"),
    [("120", 120), ("20", 60), ("5000", 200), ("", 80), ("wide", 80), ("-1", 80), ("0", 80)],
)
def test_the_width_that_is_asked_for_is_kept_within_reason(
    monkeypatch: pytest.MonkeyPatch, asked: str, width: int
) -> None:
    """COLUMNS as POSIX has it (XBD 8.3); what is no number of columns asks for nothing."""
    monkeypatch.setenv("COLUMNS", asked)
    assert screen_width() == width


def test_each_stream_has_its_own_width(monkeypatch: pytest.MonkeyPatch) -> None:
    """Standard error may be a terminal where standard output is a pipe."""
    monkeypatch.delenv("COLUMNS", raising=False)
    with terminal(monkeypatch, "stderr", columns=132) as (screen,):
        widths = screen_width(), screen_width(err=True)
    assert screen.text() == ""
    assert widths == (80, 132)


def test_an_old_encoding_shows_question_marks_and_documents_stay_utf_8(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A code page without the marks of the report is no traceback; JSON is the same bytes."""
    for arguments, said in ((("preflight", "gate.txt"), b"? All 2 panels fit."), (("fonts",), b"")):
        page = io.TextIOWrapper(io.BytesIO(), encoding="cp1252")
        with monkeypatch.context() as patched:
            patched.setattr(sys, "stdout", page)
            assert ended(*arguments) == FITS
        page.flush()
        assert page.buffer.getvalue().startswith(said)
    page = io.TextIOWrapper(io.BytesIO(), encoding="cp1252", newline="\r\n")
    with monkeypatch.context() as patched:
        patched.setattr(sys, "stdout", page)
        show("✓\n".encode())
    assert page.buffer.getvalue() == "✓\n".encode()
    assert run("parse", "gate.txt")[0] == FITS
