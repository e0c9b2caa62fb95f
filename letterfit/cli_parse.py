"""The command `letterfit parse`: how a script is understood, line by line."""

import click

import letterfit as lf
from letterfit.cli_files import show, write_given
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import screen_width
from letterfit.cli_script import chosen_script
from letterfit.cli_status import FITS
from letterfit.cli_watch import Watching, watch_option


@click.command(cls=Watching, short_help="Show how a script is understood, line by line.")
@click.argument("script")
@json_option
@watch_option
def parse(*, script: str, json_file: str | None) -> int:
    """Show how a SCRIPT is understood: pages, panels, balloons, and lines nobody could place."""
    parsed = chosen_script(script)
    if json_file is not None:
        write_given(json_file, lf.script_to_json(parsed))
    if json_file != "-":
        show(lf.script_to_text(parsed, width=screen_width()))
    return FITS
