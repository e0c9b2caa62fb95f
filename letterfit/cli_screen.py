"""The command line's screen: whether a person is watching, how wide it is, and what moves on it."""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

import click

PLAIN_WIDTH = 80
LEAST_WIDTH, MOST_WIDTH = 60, 200
"""Tables are not set narrower, nor sentences wider."""


def is_terminal(stream: TextIO | None) -> bool:
    """Whether a person is watching; a stream that was closed for us is None."""
    return stream is not None and stream.isatty()


def screen_width(*, err: bool = False) -> int:
    """Columns to print in: what COLUMNS asks for, else the terminal's own, else 80.

    COLUMNS is the width that the user prefers (POSIX.1-2017, XBD 8.3), also for what is piped.

    Args:
        err: Whether it is standard error that is written to.
    """
    asked = os.environ.get("COLUMNS", "")
    wide = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 6 else 0
    columns = wide or _own_width(sys.stderr if err else sys.stdout) or PLAIN_WIDTH
    return max(LEAST_WIDTH, min(columns, MOST_WIDTH))


def _own_width(stream: TextIO | None) -> int:
    if stream is None or not stream.isatty():
        return 0
    try:
        return os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError):  # a terminal that is none of the system's
        return 0


def screen_colour(*, err: bool = False) -> bool:
    """Colour on a terminal that has it, unless NO_COLOR is set (no-color.org).

    Args:
        err: Whether it is standard error that is written to.
    """
    return _moves(sys.stderr if err else sys.stdout) and not os.environ.get("NO_COLOR")


def _moves(stream: TextIO | None) -> bool:
    """Whether escape codes mean anything there: TERM=dumb says that they do not."""
    return is_terminal(stream) and os.environ.get("TERM") != "dumb"


@contextmanager
def progress_bar(
    total: int, *, what: str = "Checking pages"
) -> Iterator[Callable[[int, int], None] | None]:
    """A bar on standard error while pages are worked on; none unless a person is watching.

    Args:
        total: How many pages there are.
        what: What is done with them.
    """
    if total < 2 or not _moves(sys.stderr):
        yield None
        return
    with click.progressbar(length=total, label=what, file=sys.stderr) as bar:
        yield lambda done, _total: bar.update(done - bar.pos)
