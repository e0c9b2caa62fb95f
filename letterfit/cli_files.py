"""Files: settings read within bounds; what is written is written whole or not at all."""

import os
import sys
import tempfile
from pathlib import Path

import click

from letterfit.files import read_ordinary
from letterfit.json_paths import LONGEST_JSON
from letterfit.output.plans_json import plans_to_json
from letterfit.paper import Plans, plans_to_toml
from letterfit.toml_lines import LONGEST_FILE

BYTE_ORDER_MARK = "\ufeff"

MOST_BYTES = 4 * max(LONGEST_FILE, LONGEST_JSON) + 4
"""Enough of any file to see that it is too long: no letter of UTF-8 takes more than 4 bytes."""


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

    A link stays a link, and a device such as /dev/null is written to, never replaced.

    Args:
        path: The file; its folder must exist.
        data: Its whole content.

    Raises:
        OSError: When the folder is missing, full or closed to us; the old file is kept. It names
            the file as given.
    """
    try:
        target = path.resolve()
        if target.exists() and not target.is_file():
            with target.open("wb") as device:
                device.write(data)
        else:
            _replace(target, data)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


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
    """
    if isinstance(content, str) and sys.stdout is not None:
        encoding = sys.stdout.encoding or "utf-8"
        content = content.encode(encoding, "replace").decode(encoding)
    try:
        click.echo(content, nl=isinstance(content, str) and not content.endswith("\n"))
    except BrokenPipeError:  # the verdict still holds
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _replace(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".letterfit-")
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        temporary.chmod(0o666 & ~_umask())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def _umask() -> int:
    """The process's file mode mask: mkstemp ignores it, an ordinary file should not."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
