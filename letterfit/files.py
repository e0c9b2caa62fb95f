"""Ordinary files in: read within a bound, and nothing that a reader could wait for for ever.

A pipe with a name waits for a writer, and a device may never end; a script or a plan is a file.
"""

import errno
import os
import stat


class NoOrdinaryFileError(OSError):
    """What the name stands for is a pipe, a socket or a device."""


def read_ordinary(path: str | os.PathLike[str], *, most_bytes: int) -> bytes:
    """The bytes of an ordinary file, or as many of them as are asked for.

    Args:
        path: The file; a link to one is followed.
        most_bytes: How many bytes are read at most.

    Raises:
        NoOrdinaryFileError: It is a pipe, a socket or a device; it is not waited for.
        OSError: It cannot be read.

    >>> read_ordinary(__file__, most_bytes=12)
    b'\"\"\"Ordinary '
    """
    with open(path, "rb", opener=_opened) as file:
        return file.read(most_bytes)


def _opened(path: str, flags: int) -> int:
    """Open without waiting, then look at what was opened."""
    handle = os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
    kind = os.fstat(handle).st_mode
    if stat.S_ISREG(kind):
        return handle
    os.close(handle)
    if stat.S_ISDIR(kind):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), path)
    raise NoOrdinaryFileError(errno.EINVAL, "no ordinary file, but a pipe or a device", path)
