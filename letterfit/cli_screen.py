"""The command line's screen: whether a person is watching, how wide it is, and what moves on it."""

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

import click


def is_terminal(stream: TextIO | None) -> bool:
    """Whether a person is watching; a stream that was closed for us is None."""
    return stream is not None and stream.isatty()


def screen_width() -> int:
    """Columns to print in: the terminal's, or 80 when nobody is looking."""
    return max(60, min(shutil.get_terminal_size().columns, 200)) if is_terminal(sys.stdout) else 80


def screen_colour() -> bool:
    """Colour on a terminal, unless NO_COLOR is set (no-color.org)."""
    return is_terminal(sys.stdout) and not os.environ.get("NO_COLOR")


@contextmanager
def progress_bar(total: int) -> Iterator[Callable[[int, int], None] | None]:
    """A bar on standard error while pages are checked; none unless a person is watching."""
    if total < 2 or not is_terminal(sys.stderr):
        yield None
        return
    with click.progressbar(length=total, label="Checking pages", file=sys.stderr) as bar:
        yield lambda done, _total: bar.update(done - bar.pos)
