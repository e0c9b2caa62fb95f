"""What a command is to write, looked at before it works: a slip is told at once, not at the end."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from letterfit.cli_files import check_place, is_stream

OUTPUTS = (
    "json_file",
    "jsonl_file",
    "html_file",
    "figures_file",
    "pdf_file",
    "csv_file",
    "svg_folder",
    "write_plan",
)
"""Parameters that name what is written."""

FOLDER = "--svg"
"""The option that names a folder, which is made if need be."""


def chosen_outputs(parameters: Mapping[str, object]) -> dict[str, str]:
    """What a command is to write: files and folders by the option that names them.

    >>> chosen_outputs({"json_file": "a.json", "svg_folder": None, "write_plan": "-"})
    {'--json': 'a.json', '--write-plan': '-'}
    """
    return {
        f"--{key.removesuffix('_file').removesuffix('_folder').replace('_', '-')}": str(name)
        for key in OUTPUTS
        if (name := parameters.get(key)) is not None
    }


def check_outputs(outputs: Mapping[str, str], *, read: Sequence[str]) -> None:
    """Refuse to write what cannot be written, one file twice, or what is read.

    Args:
        outputs: Files and folders by the option that names them; - is standard output.
        read: The script or page. A plan may be written over: that is a way to change it.

    Raises:
        UsageError: When two options name one file, or one names what is read.
        OSError: When a file cannot be written where it is to be, or a folder is none.
    """
    taken = {_place(name): "" for name in read if name != "-"}
    for option, name in outputs.items():
        path = Path(name)
        if name == "-" or is_stream(path):
            continue
        if option != FOLDER:
            check_place(path)
        elif path.exists() and not path.is_dir():
            raise _slip(f"{option} names a folder, and {name} is none.")
        other = taken.setdefault(_place(name), option)
        if not other:
            raise _slip(f"{option} must not write what is read: {name}.")
        if other != option:
            raise _slip(f"{other} and {option} would write the same file: {name}.")


def _place(name: str) -> str:
    """Where a name leads, links followed; a ring of links leads nowhere and is no error yet."""
    return os.path.realpath(name)


def _slip(what: str) -> click.UsageError:
    return click.UsageError(what, ctx=click.get_current_context(silent=True))
