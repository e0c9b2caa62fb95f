"""The floors that times are ratios to: HarfBuzz's own shaping, and a bare start of Python.

Nothing of the library is imported here, so that a process which loads this file is not charged with
the library's start.
"""

import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import uharfbuzz as hb

TOP = Path(__file__).parents[2]

FONT = TOP / "fonts_open" / "Grandstander" / "Grandstander-Regular.ttf"
"""The default typeface."""

SHAPING, STARTING = "HarfBuzz's shape", "python, numpy and uharfbuzz"
"""The floors' names."""

START = (sys.executable, "-c", "import numpy, uharfbuzz")
"""What no run of the library can do without."""


def shaping(text: str) -> Callable[[], object]:
    """HarfBuzz's `shape` alone, on a buffer that is ready."""
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.direction, buffer.script, buffer.language = "ltr", "Latn", "en"
    return lambda: hb.shape(_FONT, buffer)


def capitals_shaped(texts: Sequence[str]) -> Callable[[], object]:
    """HarfBuzz's `shape` of texts in capitals, one after the other, on buffers that are ready."""
    ready = [shaping(text.upper()) for text in texts]
    return lambda: [shape() for shape in ready]


def run(command: Sequence[str]) -> None:
    """One process from its start to its end; what it prints is dropped.

    Raises:
        CalledProcessError: When it ends with a status over 1, which says that lettering does not
            fit.
    """
    done = subprocess.run(  # noqa: S603 - commands made here
        command, cwd=TOP, capture_output=True, check=False, timeout=300
    )
    if done.returncode > 1:
        done.check_returncode()


_FONT = hb.Font(hb.Face(FONT.read_bytes()))
