"""README.md as something to run: its commands and its examples.

`python tests/readme.py test-command` prints README's test command, so that a build server runs the
very line a newcomer copies.
"""

import re
import sys
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


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


if __name__ == "__main__":
    sys.stdout.write(commands()[sys.argv[1]] + "\n")
