"""The command line's complaints: whatever went wrong with what was given, in one line."""

import errno
from concurrent.futures import BrokenExecutor

import click

from letterfit.errors import LetterfitError
from letterfit.files import NoOrdinaryFileError

COMPLAINTS = (LetterfitError, click.ClickException, OSError, BrokenExecutor)
"""What is the user's to mend."""

_ADVICE = {
    errno.EDQUOT: "make room there, or name another folder",
    errno.EISDIR: "name a file, not a folder",
    errno.ELOOP: "name the file itself: these links lead to each other",
    errno.ENAMETOOLONG: "give a shorter name",
    errno.ENOSPC: "make room there, or name another folder",
    errno.ENOTDIR: "name a folder that is one",
    errno.EROFS: "name a folder that can be written",
}
"""What to do about the system's own complaints."""


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
        advice = _ADVICE.get(error.errno or 0, "check the name, and your rights there")
        text = f"{name}{error.strerror.lower()}; {advice}"
    elif isinstance(error, BrokenExecutor):
        text = (
            "a worker process ended before its pages were done; give fewer --jobs, or more memory"
        )
    else:
        text = str(error)
    return f"letterfit: {' '.join(text.split())}"
