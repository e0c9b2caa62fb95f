"""The command `letterfit cuts`: which words of a script to cut, most pressing first."""

import click

from letterfit.cli_files import show, write_given
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_script import chosen_report, chosen_script, report_options
from letterfit.cli_status import FITS, MISFIT
from letterfit.cli_watch import Watching, watch_option
from letterfit.output.cuts_json import cuts_to_json, proposals
from letterfit.output.terminal.cuts import cuts_to_text


@click.command(cls=Watching, short_help="Propose which words to cut, most pressing first.")
@click.argument("script")
@report_options
@json_option
@watch_option
def cuts(*, script: str, json_file: str | None) -> int:
    """Propose which words of a SCRIPT to cut where there is too much, most pressing first.

    Exit status: 0 nothing is too much, 1 something is, 2 unusable input.
    """
    parsed = chosen_script(script)
    with progress_bar(len(parsed.pages)) as progress:
        report = chosen_report(parsed, cuts=True, progress=progress)
    if json_file is not None:
        write_given(json_file, cuts_to_json(report))
    if json_file != "-":
        show(cuts_to_text(report, width=screen_width(), colour=screen_colour()))
    return MISFIT if proposals(report) else FITS
