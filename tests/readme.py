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
import sys
import tempfile
from pathlib import Path
from unittest import mock

README = Path(__file__).parents[1] / "README.md"
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
FILES = {
    "gate.txt": """\
PAGE ONE

Panel 1. Wenna on the gate at first light.
WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut.

Panel 2. The barge's bow, huge.
BARGE PILOT (OFF): Ahoy, the lock!
""",
    "watch.txt": """\
PAGE ONE

Panel 1. Wenna at the rail, the barge's lamp below.
WENNA: Well, I really think that nobody will come for us tonight, old thing.
The tide turned an hour ago, and the lamps are out.
BARGE PILOT (OFF): Ahoy, the lock! Are you asleep in there?
I told you twice that we have eels aboard.
""",
    "house.toml": """\
[balloon]
words_per_balloon = 22

[panel]
words_per_panel = 30
balloons_per_panel = 3
coverage = 0.3

[page]
words_per_page = 180
""",
    "tiers.txt": """\
PAGE ONE

Panel 1. Wenna at the wheel.
WENNA: The tide turned an hour ago, and nobody has come to ask why the gate is shut.
So I shall keep it shut until somebody does, and then we shall see.

Panel 2. The barge comes in.
BARGE PILOT: Ahoy, the lock!

Panel 3. She looks down.
WENNA: You are early.

Panel 4. He looks up.
BARGE PILOT: You are late.

Panel 5. The wheel.

Panel 6. The water.
WENNA: Hold on, then.
""",
    "portuguese.csv": """\
id,text,outline,width,height,language
1.1,Ninguém veio perguntar por que fechei a comporta antes da maré.,ellipse,30,16,pt
1.2,Ó da eclusa!,burst,30,16,pt
2.1,"Se você não abrir, eu abro. A barcaça pesa mais do que a sua comporta!",rounded,22,9,pt
2.2,Amanhece na eclusa nove.,caption,30,9,pt
""",
    "gate.svg": """\
<svg xmlns="http://www.w3.org/2000/svg" width="168.275mm" height="260.35mm"
     viewBox="0 0 168.275 260.35">
<g id="panels" fill="none" stroke="#000">
<rect x="8" y="16" width="152" height="80"/><rect x="8" y="99" width="152" height="145"/>
</g>
<g id="balloons" fill="#fff" stroke="#000">
<path d="M20 34C20 24 62 24 62 34C62 40 50 43 44 43L38 60L39 43.5C28 43.5 20 40 20 34Z"/>
<ellipse cx="120" cy="120" rx="17" ry="9"/>
</g>
<g id="lettering" text-anchor="middle" font-size="2.6">
<text x="41"><tspan x="41" y="32">THE TIDE TURNED AN HOUR</tspan>
<tspan x="41" y="35">AGO, AND NOBODY CAME TO</tspan>
<tspan x="41" y="38">ASK WHY IT IS SHUT.</tspan></text>
<text x="120" y="121">AHOY, THE LOCK!</text>
</g>
</svg>
""",
}
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
    """Write the examples' files into a folder."""
    for name, text in FILES.items():
        (folder / name).write_text(text, encoding="utf-8")


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
