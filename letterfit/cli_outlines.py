"""The command line's options for outlines: one for each manner of speaking.

Like the lettering's, their values wait with click's context for `chosen_outlines()`.
"""

import functools
from collections.abc import Callable
from typing import TypeVar

import click

import letterfit as lf

Command = TypeVar("Command", bound=Callable[..., object])

_KEPT = "letterfit.outlines"

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
            callback=_keep,
        )(done)

    return functools.reduce(with_option, reversed(_OPTIONS), command)


def _keep(context: click.Context, option: click.Parameter, value: str | None) -> None:
    kept = context.meta.setdefault(_KEPT, {})
    kept[str(option.name).removesuffix("_outline")] = value


def chosen_outlines(speech: str) -> lf.Outlines:
    """The outlines that the running command was asked for, `speech` among them."""
    return lf.Outlines(speech=speech, **click.get_current_context().meta[_KEPT])
