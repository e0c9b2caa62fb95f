"""The command line: options in, one call of the library, text and files out.

Exit status: 0 everything fits; 1 something does not; 2 unusable input (one line on standard error
that says where, what and what to do). A command is imported when it is run.
"""

import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

import click

from letterfit.cli_errors import COMPLAINTS, one_line
from letterfit.cli_files import show
from letterfit.cli_status import FITS, INTERRUPTED, UNUSABLE
from letterfit.version import VERSION

MODULES = {
    "catalogue": "letterfit.cli_catalogue",
    "compare": "letterfit.cli_measures",
    "cuts": "letterfit.cli_cuts",
    "demo": "letterfit.cli_demo",
    "fit": "letterfit.cli_fit",
    "fonts": "letterfit.cli_fonts",
    "measure": "letterfit.cli_measures",
    "parse": "letterfit.cli_parse",
    "plan": "letterfit.cli_plan",
    "preflight": "letterfit.cli_preflight",
    "tiers": "letterfit.cli_tiers",
}
"""The commands, and where each is; there it has the same name."""


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command line and exit with its status.

    Args:
        arguments: What was typed after the program's name; None takes it from the process.
    """
    try:
        status = commands.main(args=arguments, prog_name="letterfit", standalone_mode=False)
    except COMPLAINTS as error:
        click.echo(one_line(error), err=True)
        status = UNUSABLE
    except (click.Abort, KeyboardInterrupt):
        status = INTERRUPTED
    sys.exit(status)


class Commands(click.Group):
    """The commands, each imported when it is run or told of."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's call
        """Their names, as help lists them."""
        return sorted(MODULES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The command of a name; None where there is none."""
        if cmd_name not in MODULES:
            return None
        command: click.Command = getattr(import_module(MODULES[cmd_name]), cmd_name)
        return command


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    invoke_without_command=True,
)
@click.version_option(VERSION, prog_name="letterfit")
@click.pass_context
def commands(context: click.Context) -> int:
    """Tell whether a comics script's lettering fits its pages before anyone draws.

    Lengths are millimetres, type sizes points. Exit status: 0 everything fits, 1 something does
    not, 2 unusable input.
    """
    if context.invoked_subcommand is None:
        show(context.get_help())
    return FITS
