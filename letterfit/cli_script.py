"""A script as commands report on it: the options that all of them share, and the one call.

Their values wait with click's context, as the lettering's do.
"""

import functools
import sys
from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

import click

import letterfit as lf
from letterfit.cli_files import read_settings
from letterfit.cli_house_rules import chosen_limits, house_rules_file, house_rules_option
from letterfit.cli_kept import keep, kept
from letterfit.cli_lettering import (
    chosen_aside,
    chosen_caption_align,
    chosen_effects,
    chosen_lettering,
    font_files,
    script_options,
)
from letterfit.cli_outlines import chosen_outlines, outline_options
from letterfit.cli_placing import chosen_butted, chosen_same_speaker, placing_options
from letterfit.cli_words import LANGUAGE_HELP, language_tag, outline_option
from letterfit.report.laid import script_paper
from letterfit.report.preflighting import report_script
from letterfit.script.docx_package import MOST_FILE_BYTES

Command = TypeVar("Command", bound=Callable[..., object])

_REPORTED = "letterfit.reported"


def _keep_language(context: click.Context, option: click.Parameter, tag: str | None) -> None:
    keep(context, option, language_tag(context, option, tag))


_PAPER = click.option(
    "--paper",
    expose_value=False,
    callback=keep,
    help="A name or a size such as 170x260mm.  [default: the plan's, or us-comic]",
)
_PLAN = click.option(
    "--plan",
    metavar="PLAN",
    expose_value=False,
    callback=keep,
    help="A TOML or JSON file: tiers and widths, per page or for all.",
)
_READING = click.option(
    "--reading",
    type=click.Choice(["ltr", "rtl"]),
    expose_value=False,
    callback=keep,
    help="From left to right, or from right to left.  [default: as most balloons read]",
)

_OPTIONS: tuple[Callable[[Command], Command], ...] = (
    _PAPER,
    _PLAN,
    house_rules_option,
    script_options,
    outline_option(expose_value=False, callback=keep),
    outline_options,
    click.option(
        "--language", metavar="TAG", expose_value=False, callback=_keep_language, help=LANGUAGE_HELP
    ),
    _READING,
    placing_options,
)


def report_options(command: Command) -> Command:
    """Add the options of a script's report; the command calls `chosen_report()`."""
    return functools.reduce(lambda done, option: option(done), reversed(_OPTIONS), command)


def plan_options(command: Command) -> Command:
    """Add the options that lay a script's pages; the command calls `chosen_laid()`."""
    return functools.reduce(lambda done, option: option(done), (_READING, _PLAN, _PAPER), command)


def chosen_script(script: str) -> lf.Script:
    """The script of that name, or on standard input, in the language asked for.

    Raises:
        ScriptError: When it cannot be read as one.
        OSError: When there is no such file.
    """
    if script == "-":
        if sys.stdin is None:
            raise click.UsageError("Standard input is closed.")
        data = sys.stdin.buffer.read(MOST_FILE_BYTES + 1)
        parsed = lf.parse_script_bytes(data, source="standard input")
    else:
        parsed = lf.read_script(script)
    language = kept().get("language")
    return parsed if language is None else replace(parsed, language=language)


def chosen_files() -> tuple[str, ...]:
    """The files that the running command reads besides the script: plan, house rules and fonts."""
    settings = (kept().get("plan"), house_rules_file())
    fonts = (name for name in font_files() if Path(name).is_file())
    return (*(name for name in settings if name is not None), *fonts)


def last_report() -> lf.ScriptReport | None:
    """The report that the running command made last, if it made one."""
    report: lf.ScriptReport | None = click.get_current_context().meta.get(_REPORTED)
    return report


def chosen_reading() -> lf.Reading | None:
    """From which side pages are to be read; None is as most balloons do."""
    reading: lf.Reading | None = kept()["reading"]
    return reading


def chosen_plans() -> lf.Plans | None:
    """The plans asked for.

    Raises:
        PageError: When the file states none that can be used.
        OSError: When it cannot be read.
    """
    name: str | None = kept()["plan"]
    return None if name is None else lf.parse_plans(read_settings(name), source=name)


def chosen_paper() -> lf.Paper:
    """The paper that the running command lays pages on.

    Raises:
        PageError: When there is no such paper.
        OSError: When the plans that name it cannot be read.
    """
    name: str | None = kept()["paper"]
    return script_paper(None if name is None else lf.Paper.named(name), chosen_plans())


def chosen_laid(script: lf.Script) -> tuple[lf.LaidPage, ...]:
    """The laid pages of a script as the running command was asked for them.

    Raises:
        LetterfitError: When the plans cannot be used.
        OSError: When they cannot be read.
    """
    paper, plans = chosen_paper(), chosen_plans()
    return lf.plan_script(script, paper=paper, plans=plans, reading=chosen_reading())


def chosen_settings(*, check: bool = False, cuts: bool = False) -> lf.PreflightSettings:
    """How the running command was asked to check scripts.

    Args:
        check: Whether the checker goes over every layout.
        cuts: Whether cuts are proposed.

    Raises:
        LetterfitError: When the plans or the lettering cannot be used.
    """
    paper: str | None = kept()["paper"]
    return lf.PreflightSettings(
        lettering=chosen_lettering(),
        paper=lf.Paper.named(paper) if paper is not None else None,
        plans=chosen_plans(),
        limits=chosen_limits(),
        reading=chosen_reading(),
        outline=chosen_outlines(kept()["outline"]),
        effects=chosen_effects(),
        aside_pt=chosen_aside(),
        caption_align=chosen_caption_align(),
        same_speaker=chosen_same_speaker(),
        butted=chosen_butted(),
        check=check,
        cuts=cuts,
    )


def chosen_report(
    script: lf.Script,
    *,
    check: bool = False,
    cuts: bool = False,
    executor: Executor | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> lf.ScriptReport:
    """The report of a script as the running command was asked for it.

    Args:
        script: The script.
        check: Whether the checker goes over every layout.
        cuts: Whether cuts are proposed.
        executor: Letters pages side by side.
        progress: Called with the pages done and all pages.

    Raises:
        LetterfitError: When the script, the plans or the lettering cannot be used.
    """
    settings = chosen_settings(check=check, cuts=cuts)
    report = report_script(script, settings, executor=executor, progress=progress)
    click.get_current_context().meta[_REPORTED] = report
    return report
