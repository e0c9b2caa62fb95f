"""The command line's options for outlines: one for each manner of speaking.

Like the lettering's, their values wait with click's context for `chosen_outlines()`.
"""

import functools
from collections.abc import Callable
from typing import TypeVar

import click

import letterfit as lf
from letterfit.cli_kept import keep, kept

Command = TypeVar("Command", bound=Callable[..., object])

_OPTIONS = (
    ("thought", "cloud", "The outline of thoughts.  [default: cloud]"),
    ("shout", "burst", "That of what is shouted.  [default: burst]"),
    ("whisper", None, "That of what is whispered.  [default: the speech outline, dashed]"),
    ("machine", "squared", "That of a voice from a machine.  [default: squared]"),
)


def outline_options(command: Command) -> Command:
    """Add the options; the command calls `chosen_outlines()`."""

    def with_option(done: Command, row: tuple[str, str | None, str]) -> Command:
        name, default, says = row
        return click.option(
            f"--{name}-outline",
            type=click.Choice(list(lf.FAMILIES)),
            metavar="NAME",
            default=default,
            help=says,
            expose_value=False,
            callback=keep,
        )(done)

    return functools.reduce(with_option, reversed(_OPTIONS), command)


def chosen_outlines(speech: str) -> lf.Outlines:
    """The outlines that the running command was asked for, `speech` among them."""
    own = {name: kept()[f"{name}_outline"] for name, _, _ in _OPTIONS}
    return lf.Outlines(speech=speech, **own)
