"""Sources: a path or bytes become a Script, whatever the file is."""

import os
from dataclasses import replace

from letterfit.errors import ScriptError
from letterfit.files import NoOrdinaryFileError, read_ordinary
from letterfit.script.docx import docx_blocks
from letterfit.script.docx_package import MOST_FILE_BYTES, is_locked, is_zip, locked
from letterfit.script.model import Script
from letterfit.script.parse import parse_blocks, parse_script
from letterfit.script.reading import decode


def read_script(path: str | os.PathLike[str]) -> Script:
    """Read a script from a file: plain text, Markdown or .docx.

    Args:
        path: The file; what it is, is told from its content and never from its name.

    Returns:
        As `parse_script`.

    Raises:
        ScriptError: The file is missing, cannot be read, or is no script.

    >>> read_script("no such file.txt")
    Traceback (most recent call last):
    letterfit.errors.ScriptError: no such file.txt: there is no such file; check the name
    """
    source = os.fspath(path)
    try:
        data = read_ordinary(source, most_bytes=MOST_FILE_BYTES + 1)
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        raise _unreadable(error, source) from error
    return parse_script_bytes(data, source=source)


def parse_script_bytes(data: bytes, *, source: str = "") -> Script:
    r"""Read a script from the bytes of a file, such as standard input.

    Args:
        data: All bytes of a plain-text, Markdown or .docx file; which it is, they say themselves.
        source: Its name, for messages and reports.

    Returns:
        As `parse_script`.

    Raises:
        ScriptError: The bytes are no script.

    >>> parse_script_bytes(b"PAGE 1\nPanel 1. The lock.").pages[0].label
    '1'
    """
    if is_zip(data):
        blocks, findings = docx_blocks(data, source=source)
        script, _ = parse_blocks(blocks, source=source, findings=findings)
        return script
    if is_locked(data):
        raise locked(source)
    decoded = decode(data, source=source)
    script = parse_script(decoded.text, source=source)
    return replace(script, findings=decoded.findings + script.findings)


def _unreadable(error: OSError | ValueError, source: str) -> ScriptError:
    shown = source.replace("\0", "\\0")
    if isinstance(error, NoOrdinaryFileError):
        return ScriptError(
            "this is a pipe or a device, no file",
            advice="give a file, or - to read standard input",
            source=shown,
        )
    if isinstance(error, FileNotFoundError):
        return ScriptError("there is no such file", advice="check the name", source=shown)
    if isinstance(error, IsADirectoryError):
        return ScriptError("this is a folder", advice="give one script file", source=shown)
    if isinstance(error, PermissionError):
        return ScriptError("the file may not be read", advice="check its rights", source=shown)
    return ScriptError("the file cannot be read", advice="check the name and disk", source=shown)
