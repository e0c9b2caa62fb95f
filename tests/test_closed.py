"""Nothing reaches out: no network, no code from data, no files but those asked for; same bytes."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
CODE = sorted((TOP / "letterfit").rglob("*.py"))
CLOSED = {
    *("asyncio", "ctypes", "ftplib", "http", "marshal", "pickle", "shelve", "smtplib", "socket"),
    *("socketserver", "ssl", "subprocess", "telnetlib", "urllib", "webbrowser", "xmlrpc"),
    *("requests", "httpx", "aiohttp", "lxml", "xml.dom", "xml.etree", "xml.sax"),
}
"""Modules that reach the network or other programs, run what they read, or expand entities; XML is
read by expat alone, which is guarded where it is used."""

OWN = {
    "lettering/fonts/sending.py": ["pickle"],
    "output/pdf/content.py": ["xml.etree.ElementTree"],
    "output/pdf/tagging.py": ["xml.etree.ElementTree"],
}
"""Where what is read was made by this very run: pages for its own processes, its own drawings."""

CALLS = {"eval", "exec", "compile", "__import__"}

SCRIPT = "PAGE 1\nPanel 1. Gate.\nWENNA (OFF): Hold *on* a little!\nCAPTION: Dawn.\nSFX: KRRK\n"
OUTPUTS = ("out.json", "out.csv", "out.html", "out.svg", "out.pdf")
AUDITED = """
import os, sys
import letterfit.cli
def watch(event, given):
    if event.startswith(("socket.", "subprocess.", "os.system", "os.exec", "urllib.", "http.")):
        print(event, file=sys.stderr)
    elif event == "open" and not isinstance(given[0], int) and given[2] & (os.O_WRONLY | os.O_RDWR):
        print("writes", given[0], file=sys.stderr)
sys.addaudithook(watch)
letterfit.cli.main(sys.argv[1:])
"""


def open_doors(source: str) -> list[str]:
    """What a module imports or calls that no module here may."""
    found = []
    for node in ast.walk(ast.parse(source)):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [name.name for name in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [f"{node.module}.{name.name}" for name in node.names]
        found += [name for name in names if any(f"{name}.".startswith(f"{m}.") for m in CLOSED)]
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
            found.append(node.func.id)
    return found


def test_no_module_reaches_out() -> None:
    """No network, no other program, no code or objects made from data, no XML but by expat."""
    found = {
        path.relative_to(TOP / "letterfit").as_posix(): open_doors(path.read_text("utf-8"))
        for path in CODE
    }
    assert {place: doors for place, doors in found.items() if doors} == OWN


@pytest.mark.parametrize(
    "planted",
    [
        "import socket",
        "from urllib.request import urlopen",
        "from xml import etree",
        "def late():\n    import pickle",
        "eval('1')",
    ],
)
def test_a_door_that_is_opened_is_found(planted: str) -> None:
    """At the top or late, whole or in part."""
    assert open_doors(planted)
    assert not open_doors("import re\nfrom xml.parsers import expat\nre.compile('a')")


def written(folder: Path, *arguments: str, **environment: str) -> tuple[dict[str, bytes], str]:
    """All outputs of one script in a process of its own, and what that process was seen to do."""
    folder.mkdir()
    (folder / "gate.txt").write_text(SCRIPT, encoding="utf-8")
    files = [f"--{kind}" for kind in ("json", "csv", "html", "figures", "pdf")]
    asked = [part for pair in zip(files, OUTPUTS, strict=True) for part in pair]
    ended = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-c", AUDITED, "preflight", "gate.txt", *asked, *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(TOP), "PYTHONDONTWRITEBYTECODE": "1", **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    return {name: (folder / name).read_bytes() for name in OUTPUTS}, ended.stderr


def test_every_output_is_the_same_everywhere_and_nothing_else_is_touched(tmp_path: Path) -> None:
    """Whatever the hash seed, locale and time zone; only the files asked for are written.

    What other machines may differ by, see tests/golden.
    """
    one, seen = written(tmp_path / "one", PYTHONHASHSEED="0", LC_ALL="C", TZ="UTC")
    other, _ = written(tmp_path / "other", PYTHONHASHSEED="7", LC_ALL="C.UTF-8", TZ="Asia/Tokyo")
    assert one == other
    *lines, told = seen.splitlines()
    assert told == "Wrote out.json, out.html, out.svg, out.pdf, out.csv"
    opened = {line.removeprefix("writes ") for line in lines}
    ours = {name for name in opened if Path(name).name.startswith(".letterfit-")}
    assert len(ours) == len(OUTPUTS)
    assert opened - ours <= {os.devnull}
