"""README.md as something to run: its commands and its examples.

`python tests/readme.py test-command` prints README's test command, so that a build server runs the
very line a newcomer copies. `python tests/readme.py refresh` runs every console example again and
writes what it prints into README.md: read the difference before you keep it.
"""

import contextlib
import io
import os
import re
import shlex
import shutil
import sys
import tempfile
from pathlib import Path
from unittest import mock

README = Path(__file__).parents[1] / "README.md"
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
EXAMPLES = README.parent / "examples"
"""The small files that the examples speak of."""


def blocks(language: str) -> tuple[str, ...]:
    """The fenced blocks in one language, in the order they stand."""
    text = README.read_text(encoding="utf-8")
    return tuple(body for name, body in FENCE.findall(text) if name == language)


def commands() -> dict[str, str]:
    """README's two set-up commands: the first shell block runs the demo, the second the tests."""
    demo, tests = blocks("sh")[:2]
    return {"demo-command": demo.strip(), "test-command": tests.strip()}


def sessions() -> tuple[tuple[str, str], ...]:
    """Every command of the console blocks with the output printed under it."""
    found = []
    for block in blocks("console"):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, output = part.partition("\n")
            found.append((command, output))
    return tuple(found)


def lay_out(folder: Path) -> None:
    """Copy the examples' files into a folder."""
    for file in EXAMPLES.iterdir():
        shutil.copy(file, folder)


def printed(command: str, folder: Path) -> str:
    """What a console example prints when it is run in a folder, line ends trimmed."""
    from letterfit import cli  # noqa: PLC0415 - a build server asks for commands before it installs

    words = shlex.split(command)
    if words[0] != "letterfit":
        raise ValueError(command)
    streams = [io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2)]
    with (
        contextlib.chdir(folder),
        mock.patch.dict(os.environ, COLUMNS=""),
        contextlib.redirect_stdout(streams[0]),
        contextlib.redirect_stderr(streams[1]),
        contextlib.suppress(SystemExit),
    ):
        cli.main(words[1:])
    lines = []
    for stream in streams:
        stream.seek(0)
        lines += stream.read().splitlines()
    return "".join(f"{line.rstrip()}\n" for line in lines)


def refresh() -> None:
    """Write into README.md what its console examples print now."""
    text = README.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as name:
        lay_out(Path(name))
        for command, output in sessions():
            old = f"$ {command}\n{output}"
            text = text.replace(old, f"$ {command}\n{printed(command, Path(name))}")
    README.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    if sys.argv[1] == "refresh":
        refresh()
    else:
        sys.stdout.write(commands()[sys.argv[1]] + "\n")
