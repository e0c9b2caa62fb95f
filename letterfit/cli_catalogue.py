"""The command `letterfit catalogue`: many scripts in one go, each told as soon as it is done."""

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import BinaryIO

import click

import letterfit as lf
from letterfit.cli_errors import one_line
from letterfit.cli_files import show
from letterfit.cli_jobs import jobs_option, workers
from letterfit.cli_outputs import Writing
from letterfit.cli_script import chosen_script, chosen_settings, report_options
from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from letterfit.output.terminal.catalogue import catalogue_line, catalogue_sum
from letterfit.report.catalogue import ScriptSource, Told

JSONL_HELP = (
    "Write JSON Lines to a file as pages are done, a line for each script, page and end; - for "
    "stdout."
)


@click.command(cls=Writing, short_help="Check many scripts, a line for each.")
@click.argument("scripts", metavar="SCRIPT...", nargs=-1, required=True)
@report_options
@click.option("--jsonl", "jsonl_file", metavar="F", help=JSONL_HELP)
@click.option("--cuts", is_flag=True, help="Propose cuts in --jsonl; takes longer.")
@click.option("--check", is_flag=True, help="Have a checker go over every layout; takes longer.")
@jobs_option
def catalogue(
    *, scripts: Sequence[str], jsonl_file: str | None, cuts: bool, check: bool, jobs: int
) -> int:
    """Check many SCRIPTs, a line for each; one that cannot be read ends none of the others.

    Memory does not grow with their number. Status 2 if a script cannot be used, else 1 if
    something does not fit.
    """
    if "-" in scripts:
        raise click.UsageError("catalogue reads files; preflight reads standard input.")
    if cuts and jsonl_file is None:
        raise click.UsageError("--cuts goes with --jsonl.")
    settings = chosen_settings(check=check, cuts=cuts)
    ended: list[lf.ScriptEnded] = []
    refused = 0
    with _lines(jsonl_file) as lines, workers(jobs) as executor:
        stream = lf.preflight_stream(_sources(scripts), settings, executor=executor)
        with closing(stream):
            for told in stream:
                if lines is not None and not _written(lines, told):
                    break  # whoever read the lines has gone
                if isinstance(told, lf.ScriptRefused):
                    refused += 1
                    click.echo(one_line(told.error), err=True)
                elif isinstance(told, lf.ScriptEnded):
                    ended.append(told)
                    if jsonl_file != "-":
                        show(catalogue_line(told))
    if jsonl_file != "-":
        show(catalogue_sum(ended, refused=refused))
    if refused:
        return UNUSABLE
    return FITS if all(one.fits for one in ended) else MISFIT


def _sources(names: Sequence[str]) -> Iterator[ScriptSource]:
    """The scripts as asked for; one that cannot be read by its name, to be told in its turn."""
    for name in names:
        try:
            yield chosen_script(name)
        except lf.LetterfitError:
            yield name


@contextmanager
def _lines(name: str | None) -> Iterator[BinaryIO | None]:
    """Where lines are written; they are there as soon as they are known, not only at the end.

    Raises:
        OSError: When the file cannot be written.
    """
    if name is None:
        yield None
    elif name == "-":
        if sys.stdout is None:
            raise click.UsageError("Standard output is closed.")
        yield sys.stdout.buffer
    else:
        with Path(name).open("wb") as file:
            yield file


def _written(lines: BinaryIO, told: Told) -> bool:
    """Write one line; whether anyone still reads."""
    try:
        lines.write(lf.to_json_line(told).encode("utf-8"))
        lines.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return False
    return True
