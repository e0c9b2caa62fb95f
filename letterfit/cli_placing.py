"""The command line's options for placing: what letterers do with neighbours and borders.

Like the lettering's, their values wait with click's context: `chosen_same_speaker()`,
`chosen_butted()`.
"""

from collections.abc import Callable
from typing import TypeVar

import click

from letterfit.cli_kept import keep, kept
from letterfit.report.setting import SAME_SPEAKER, SameSpeaker

Command = TypeVar("Command", bound=Callable[..., object])


def placing_options(command: Command) -> Command:
    """Add the options to a command."""
    same = click.option(
        "--same-speaker",
        type=click.Choice(SAME_SPEAKER),
        default="linked",
        show_default=True,
        help="Speeches of one speaker that follow each other: each a balloon, or one outline.",
        expose_value=False,
        callback=keep,
    )
    butted = click.option(
        "--butted",
        is_flag=True,
        help="Balloons may be cut flat by their panel's top border.",
        expose_value=False,
        callback=keep,
    )
    return same(butted(command))


def chosen_same_speaker() -> SameSpeaker:
    """What the running command was asked to do with one speaker's neighbouring balloons."""
    way: SameSpeaker = kept()["same_speaker"]
    return way


def chosen_butted() -> bool:
    """Whether it was asked to let balloons be cut by the border."""
    butted: bool = kept()["butted"]
    return butted
