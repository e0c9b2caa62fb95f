"""Files written whole or not at all: a temporary file beside the target, then a rename."""

import os
import tempfile
from pathlib import Path


def write_text(path: Path, text: str) -> None:
    """Write a text file in UTF-8 with line feeds, replacing what stood there in one step.

    A link stays a link, and a device such as /dev/null is written to, never replaced.

    Args:
        path: The file; its folder must exist.
        text: Its whole content.

    Raises:
        OSError: When the folder is missing, full or closed to us; the old file is kept. It names
            the file as given.
    """
    try:
        target = path.resolve()
        if target.exists() and not target.is_file():
            with target.open("w", encoding="utf-8", newline="\n") as device:
                device.write(text)
        else:
            _replace(target, text)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def _replace(path: Path, text: str) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".letterfit-")
    temporary = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
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
