"""Help with many options: under headings, none lost, none twice."""

import re

import click
import pytest
from click.testing import CliRunner

from letterfit.cli import MODULES, commands
from letterfit.cli_help import HEADINGS, REST

MANY = ("preflight", "fit", "cuts", "tiers", "compare", "measure", "plan", "catalogue")


def told(command: str) -> str:
    """The help of a command."""
    return CliRunner().invoke(commands, [command, "--help"]).output


def command_of(name: str) -> click.Command:
    """A command by its name."""
    command = commands.get_command(click.Context(commands), name)
    assert command is not None
    return command


@pytest.mark.parametrize("command", MANY)
def test_every_option_stands_in_the_help_once(command: str) -> None:
    """All that the command takes, hidden ones apart, is told, and at the start of one line."""
    names = [
        parameter.opts[0]
        for parameter in command_of(command).params
        if parameter.opts[0].startswith("--")
    ]
    shown = re.findall(r"^  (?:-h, )?(--[a-z-]+)", told(command), flags=re.MULTILINE)
    assert sorted(shown) == sorted([*names, "--help"])


def test_what_comes_out_stands_first() -> None:
    """Headings in their order, output before page, lettering and the rest."""
    headings = re.findall(r"^([A-Z][a-z ]+):$", told("preflight"), flags=re.MULTILINE)
    assert headings == [*(heading for heading, _ in HEADINGS), REST]


def test_a_command_of_few_options_has_one_list() -> None:
    """No headings where there is little to find."""
    headings = re.findall(r"^([A-Z][a-z ]+):$", told("parse"), flags=re.MULTILINE)
    assert headings == [REST]


def test_no_option_stands_under_two_headings() -> None:
    """Each is named once."""
    names = [name for _, names in HEADINGS for name in names]
    assert len(names) == len(set(names))


def test_every_name_under_a_heading_is_an_option() -> None:
    """Of some command: none is left that no command has any more."""
    known = {
        option.removeprefix("--")
        for command in MODULES
        for parameter in command_of(command).params
        for option in parameter.opts
    }
    assert {name for _, names in HEADINGS for name in names} <= known
