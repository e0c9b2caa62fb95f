"""What a command writes: a slip is told before the work, and what is there is named after it."""

import os
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

import click

from letterfit.cli_files import check_place, is_stream
from letterfit.cli_help import Grouped
from letterfit.output.plain import one_line

FILES = (
    "json_file",
    "jsonl_file",
    "html_file",
    "figures_file",
    "pdf_file",
    "csv_file",
    "svg_file",
    "write_plan",
)
"""Parameters that name files to be written."""

FOLDERS = ("svg_folder",)
"""Parameters that name folders for a file each page; a folder is made if need be."""

json_option = click.option(
    "--json", "json_file", metavar="F", help="Write JSON to a file; - for stdout."
)
"""The option of a command whose result is to be had as JSON."""


class Output(NamedTuple):
    """What is to be written.

    Args:
        option: The option that names it.
        name: The file or folder as named; - is standard output.
        is_folder: Whether it is a folder.
    """

    option: str
    name: str
    is_folder: bool


class Writing(Grouped):
    """A command that writes what its options name."""

    def invoke(self, ctx: click.Context) -> object:
        """Look at what is to be written, do the work, and name what was written."""
        outputs = self.written(ctx)
        check_outputs(outputs, read=self.read(ctx))
        status = super().invoke(ctx)
        told = told_outputs(outputs)
        if told:
            click.echo(told, err=True)
        return status

    def read(self, ctx: click.Context) -> tuple[str, ...]:
        """What the command reads: its arguments, such as the script."""
        names = [str(one.name) for one in self.params if isinstance(one, click.Argument)]
        return tuple(_flat(ctx.params[name] for name in names))

    def written(self, ctx: click.Context) -> tuple[Output, ...]:
        """What the command is to write."""
        return chosen_outputs(ctx.params)


def _flat(values: Iterator[object]) -> Iterator[str]:
    for value in values:
        yield from map(str, value) if isinstance(value, tuple) else [str(value)]


def chosen_outputs(parameters: Mapping[str, object]) -> tuple[Output, ...]:
    """What a command is to write.

    >>> chosen_outputs({"json_file": "a.json", "svg_folder": None, "write_plan": "-"})[0]
    Output(option='--json', name='a.json', is_folder=False)
    """
    return tuple(
        Output(_option(key), str(name), key in FOLDERS)
        for key in (*FILES, *FOLDERS)
        if (name := parameters.get(key)) is not None
    )


def _option(key: str) -> str:
    return f"--{key.removesuffix('_file').removesuffix('_folder').replace('_', '-')}"


def check_outputs(outputs: Sequence[Output], *, read: Sequence[str]) -> None:
    """Refuse to write what cannot be written, one file twice, or what is read.

    Args:
        outputs: Files and folders.
        read: The script or page. A plan may be written over: that is a way to change it.

    Raises:
        UsageError: When two options name one file, or one names what is read.
        OSError: When a file cannot be written where it is to be, or a folder is none.
    """
    taken = {_place(name): "" for name in read if name != "-"}
    for option, name, is_folder in filter(_is_kept, outputs):
        path = Path(name)
        if not is_folder:
            check_place(path)
        elif path.exists() and not path.is_dir():
            raise _slip(f"{option} names a folder, and {name} is none.")
        other = taken.setdefault(_place(name), option)
        if not other:
            raise _slip(f"{option} must not write what is read: {name}.")
        if other != option:
            raise _slip(f"{other} and {option} would write the same file: {name}.")


def told_outputs(outputs: Sequence[Output]) -> str:
    """What was written, in a line for standard error; empty where nothing was that is kept.

    >>> told_outputs(chosen_outputs({"json_file": "-", "html_file": "a.html", "svg_folder": "out"}))
    'Wrote a.html, and pages to out'
    """
    kept = list(filter(_is_kept, outputs))
    parts = [", ".join(one.name for one in kept if not one.is_folder)]
    parts += [f"pages to {one.name}" for one in kept if one.is_folder]
    told = ", and ".join(filter(None, parts))
    return one_line(f"Wrote {told}") if told else ""


def _is_kept(output: Output) -> bool:
    """Whether it is there afterwards: neither standard output nor a pipe or a device."""
    return output.name != "-" and not is_stream(Path(output.name))


def _place(name: str) -> str:
    """Where a name leads, links followed; a ring of links leads nowhere and is no error yet."""
    return os.path.realpath(name)


def _slip(what: str) -> click.UsageError:
    return click.UsageError(what, ctx=click.get_current_context(silent=True))
