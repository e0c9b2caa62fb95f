"""The command line's complaints: whatever went wrong with what was given, in one line."""

from concurrent.futures import BrokenExecutor

import click

from letterfit.errors import LetterfitError
from letterfit.files import NoOrdinaryFileError

COMPLAINTS = (LetterfitError, click.ClickException, OSError, BrokenExecutor)
"""What is the user's to mend."""


def one_line(error: Exception) -> str:
    """What is wrong and what to do, for standard error.

    >>> one_line(NoOrdinaryFileError(22, "no ordinary file, but a pipe or a device", "gate"))
    'letterfit: gate: no ordinary file, but a pipe or a device; give a file'
    """
    if isinstance(error, click.UsageError):
        command = error.ctx.command_path if error.ctx else "letterfit"
        text = f"{error.format_message()} (see {command} --help)"
    elif isinstance(error, click.ClickException):
        text = error.format_message()
    elif isinstance(error, NoOrdinaryFileError):
        text = f"{error.filename}: {error.strerror}; give a file"
    elif isinstance(error, OSError) and error.strerror:
        name = f"{error.filename}: " if error.filename else ""
        text = f"{name}{error.strerror.lower()}; check the name, and your rights there"
    elif isinstance(error, BrokenExecutor):
        text = (
            "a worker process ended before its pages were done; give fewer --jobs, or more memory"
        )
    else:
        text = str(error)
    return f"letterfit: {' '.join(text.split())}"
