"""Files: settings read within bounds; what is written is written whole or not at all."""

import contextlib
import errno
import os
import stat
import sys
import tempfile
from pathlib import Path

import click

from letterfit.files import read_ordinary
from letterfit.json_paths import LONGEST_JSON
from letterfit.output.plans_json import plans_to_json
from letterfit.paper.model import Plans
from letterfit.paper.write_plans import plans_to_toml
from letterfit.toml_lines import LONGEST_FILE

BYTE_ORDER_MARK = "\ufeff"

MOST_BYTES = 4 * max(LONGEST_FILE, LONGEST_JSON) + 4
"""Enough of any file to see that it is too long: no letter of UTF-8 takes more than 4 bytes."""

OPEN = ("/dev/fd", "/dev/stdout", "/dev/stderr", "/proc/self/fd")
"""Names of what the running process has open: a file that replaced it would not be it."""


def read_settings(name: str) -> str:
    """The text of a small file in UTF-8 that a person typed; of a long one only the beginning.

    Args:
        name: The file, such as a plan; what is no UTF-8 is replaced.

    Returns:
        More characters than any reader takes of a file that has more, so that it is refused.

    Raises:
        OSError: When it cannot be read, or is a pipe or a device.
    """
    return read_ordinary(name, most_bytes=MOST_BYTES).decode("utf-8-sig", "replace")


def write_text(path: Path, text: str) -> None:
    """Write a text file in UTF-8 with line feeds, as `write_bytes` does."""
    write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file, replacing what stood there in one step.

    A run that is killed leaves the old file, and at most a hidden ".letterfit-*.part" beside it. A
    link stays a link, and a file keeps its mode; one that has a second name (a hard link) is parted
    from it, and the other name keeps the old content. A pipe or a device such as /dev/null is
    written to, never replaced; a reader of it that has seen enough may go.

    Args:
        path: The file; its folder must exist.
        data: Its whole content.

    Raises:
        OSError: When the folder is missing, full or closed to us, or the file may not be written;
            the old file is kept. It names the file as given.
    """
    try:
        check_place(path)
        if is_stream(path):
            with contextlib.suppress(BrokenPipeError), path.open("wb") as device:
                device.write(data)
        else:
            _replace(Path(os.path.realpath(path)), data)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def check_place(path: Path) -> None:
    """Refuse a place where no file can be written, before there is one.

    Args:
        path: The file to be; links are followed.

    Raises:
        OSError: When its folder is missing or closed to us, or it is a folder, or a file that may
            not be written: it would not be safe for being in a folder that may.
    """
    try:
        there = path.stat()
    except FileNotFoundError:
        folder = Path(os.path.realpath(path)).parent
        if not folder.exists():
            raise
        if not folder.is_dir():
            raise _refused(errno.ENOTDIR, path) from None
        if not os.access(folder, os.W_OK | os.X_OK):
            raise _refused(errno.EACCES, path) from None
        return
    if stat.S_ISDIR(there.st_mode):
        raise _refused(errno.EISDIR, path)
    if not os.access(path, os.W_OK):
        raise _refused(errno.EACCES, path)


def is_stream(path: Path) -> bool:
    """Whether a path is written to as it goes: a pipe, a device, or what a run has open already."""
    if not path.exists() or path.is_dir():
        return False
    return not path.is_file() or any(map(path.is_relative_to, OPEN))


def _refused(number: int, path: Path) -> OSError:
    return OSError(number, os.strerror(number), str(path))


def write_given(name: str, content: str | bytes) -> None:
    """Write a file as `write_bytes` does, texts in UTF-8; - is standard output, byte for byte.

    Raises:
        OSError: When the file cannot be written.
    """
    data = content if isinstance(content, bytes) else content.encode("utf-8")
    if name == "-":
        show(data)
    else:
        write_bytes(Path(name), data)


def write_csv(name: str, text: str) -> None:
    """Write CSV as `write_given` does: a file for a spreadsheet, standard output for a program.

    A file begins with a byte order mark, by which spreadsheets know UTF-8 when it is opened by a
    double click; without, they take it for an old code page and spoil every accent.

    Raises:
        OSError: When the file cannot be written.
    """
    write_given(name, text if name == "-" else f"{BYTE_ORDER_MARK}{text}")


def write_plans(name: str, plans: Plans) -> None:
    """Write plans that preflight reads: as JSON where the name ends so, else as TOML.

    Raises:
        OSError: When the file cannot be written.
    """
    as_json = name.lower().endswith(".json")
    write_given(name, plans_to_json(plans) if as_json else plans_to_toml(plans))


def show(content: str | bytes) -> None:
    """Print a text, or bytes as they are; a reader, such as `head`, that has seen enough may go.

    A letter that the terminal's own encoding does not have is shown as a question mark.

    Raises:
        OSError: When what standard output goes to is full, or cannot be written for another reason.
    """
    if isinstance(content, str) and sys.stdout is not None:
        encoding = sys.stdout.encoding or "utf-8"
        content = content.encode(encoding, "replace").decode(encoding)
    try:
        click.echo(content, nl=isinstance(content, str) and not content.endswith("\n"))
    except BrokenPipeError:  # the verdict still holds
        _close_output()
    except OSError as error:
        _close_output()
        raise OSError(error.errno, error.strerror, "standard output") from error


def _close_output() -> None:
    """Let what is left in standard output's buffer go nowhere, or Python fails on it as it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)


def _replace(path: Path, data: bytes) -> None:
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask()
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".letterfit-", suffix=".part")
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())  # a network drive tells only now that it is full
        temporary.chmod(mode)
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def _umask() -> int:
    """The process's file mode mask: mkstemp ignores it, an ordinary file should not."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
