"""The command line's option for a house's own limits.

Like the lettering's options, its value waits with click's context: `chosen_limits()`.
"""

from collections.abc import Callable
from typing import TypeVar

import click

import letterfit as lf
from letterfit.cli_files import read_settings
from letterfit.cli_kept import keep, kept

Command = TypeVar("Command", bound=Callable[..., object])


def house_rules_option(command: Command) -> Command:
    """Add the option to a command."""
    return click.option(
        "--house-rules",
        metavar="FILE",
        help="A TOML file: the limits of your house, in the place of common practice.",
        expose_value=False,
        callback=keep,
    )(command)


def house_rules_file() -> str | None:
    """The file of limits that the running command was given, if it was."""
    name: str | None = kept().get("house_rules")
    return name


def chosen_limits() -> lf.Limits:
    """The limits that the running command was asked to hold a script against.

    Raises:
        PageError: When the file states no limits that can be used.
        OSError: When it cannot be read.
    """
    name = house_rules_file()
    return lf.Limits() if name is None else lf.parse_limits(read_settings(name), source=name)
