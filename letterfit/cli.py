"""The command line: options in, one call of the library, text and files out.

Exit status: 0 everything fits; 1 something does not; 2 unusable input (one line on standard error
that says where, what and what to do). Only this module and the two readers touch files.
"""

import os
import re
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import replace
from importlib import resources
from multiprocessing import get_context
from pathlib import Path
from typing import NoReturn

import click

import letterfit as lf
from letterfit.cli_cuts import tell_cuts
from letterfit.cli_files import read_settings, write_text
from letterfit.cli_fonts import tell_fonts
from letterfit.cli_house_rules import chosen_limits, house_rules_option
from letterfit.cli_joined import joined_advice, tell_joined
from letterfit.cli_lettering import (
    chosen_aside,
    chosen_caption_align,
    chosen_effects,
    chosen_lettering,
    lettering_options,
    script_options,
)
from letterfit.cli_measures import Doors, add_measures
from letterfit.cli_outlines import chosen_outlines, outline_options
from letterfit.cli_placing import chosen_butted, chosen_same_speaker, placing_options
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_table import chosen_least_size, one_text, table_options, tell_table

FITS, MISFIT, UNUSABLE = 0, 1, 2
INTERRUPTED = 130
"""128 + SIGINT, as shells report it (POSIX.1-2017, Shell and Utilities, 2.8.2)."""

DEMO = "slack_tide.txt"


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command line and exit with its status.

    Args:
        arguments: What was typed after the program's name; None takes it from the process.
    """
    try:
        status = commands.main(args=arguments, prog_name="letterfit", standalone_mode=False)
    except (lf.LetterfitError, click.ClickException, OSError) as error:
        click.echo(f"letterfit: {_one_line(error)}", err=True)
        status = UNUSABLE
    except (click.Abort, KeyboardInterrupt):
        status = INTERRUPTED
    sys.exit(status)


def _one_line(error: Exception) -> str:
    if isinstance(error, click.UsageError):
        command = error.ctx.command_path if error.ctx else "letterfit"
        text = f"{error.format_message()} (see {command} --help)"
    elif isinstance(error, click.ClickException):
        text = error.format_message()
    elif isinstance(error, OSError) and error.strerror:
        name = f"{error.filename}: " if error.filename else ""
        text = f"{name}{error.strerror.lower()}; check the name, and your rights there"
    else:
        text = str(error)
    return " ".join(text.split())


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(lf.__version__, prog_name="letterfit")
def commands() -> None:
    """Tell whether a comics script's lettering fits its pages before anyone draws.

    Lengths are millimetres, type sizes points. Exit status: 0 everything fits, 1 something does
    not, 2 unusable input.
    """


def _language(_context: click.Context, _option: click.Parameter, tag: str | None) -> str | None:
    """A language tag that looks like one (BCP 47, section 2.1)."""
    if tag is not None and not re.fullmatch(r"[A-Za-z]{2,8}([-_][A-Za-z0-9]{1,8})*", tag):
        raise click.BadParameter(f"{tag!r} is no language tag such as fr or pt-BR.")
    return tag


SIDE = click.FloatRange(0.1, 10_000)
"""A balloon's width or height in mm: from what no letter fits into to what no press prints."""

OUTLINE = click.option(
    "--outline",
    type=click.Choice(sorted(lf.FAMILIES)),
    default="ellipse",
    show_default=True,
    help="The family of balloon outlines.",
)
LANGUAGE = click.option(
    "--language",
    metavar="TAG",
    callback=_language,
    help="The words' language, a BCP 47 tag such as fr or pt-BR.  [default: en, or the script's]",
)
JSON = click.option("--json", "json_file", metavar="F", help="Write JSON to a file; - for stdout.")


@commands.command()
@click.argument("script")
@click.option(
    "--paper", help="A name or a size such as 170x260mm.  [default: the plan's, or us-comic]"
)
@click.option("--plan", metavar="PLAN", help="A TOML file: tiers and widths, per page or for all.")
@house_rules_option
@script_options
@OUTLINE
@outline_options
@LANGUAGE
@click.option(
    "--reading",
    type=click.Choice(["ltr", "rtl"]),
    help="From left to right, or from right to left.  [default: as most balloons read]",
)
@JSON
@click.option("--svg", "svg_folder", metavar="DIR", help="Write one SVG per page into a folder.")
@placing_options
@click.option("--check", is_flag=True, help="Have a checker go over every layout; takes longer.")
@click.option(
    "--jobs",
    type=click.IntRange(1, 256),
    default=1,
    show_default=True,
    help="Processes that share out the pages.",
)
def preflight(  # noqa: PLR0913 - click passes every option by its name
    *,
    script: str,
    paper: str | None,
    plan: str | None,
    outline: str,
    language: str | None,
    reading: lf.Reading | None,
    json_file: str | None,
    svg_folder: str | None,
    check: bool,
    jobs: int,
) -> int:
    """Check whether a SCRIPT's lettering fits its pages (- reads standard input)."""
    lettering = chosen_lettering()
    parsed = _read(script)
    if language is not None:
        parsed = replace(parsed, language=language)
    plans = lf.parse_plans(read_settings(plan), source=plan) if plan is not None else None
    with _workers(jobs) as executor, progress_bar(len(parsed.pages)) as progress:
        report = lf.preflight(
            parsed,
            lettering=lettering,
            paper=lf.Paper.named(paper) if paper is not None else None,
            plans=plans,
            limits=chosen_limits(),
            reading=reading,
            outline=chosen_outlines(outline),
            effects=chosen_effects(),
            aside_pt=chosen_aside(),
            caption_align=chosen_caption_align(),
            same_speaker=chosen_same_speaker(),
            butted=chosen_butted(),
            check=check,
            executor=executor,
            progress=progress,
        )
    if svg_folder is not None:
        _write_pages(report, Path(svg_folder))
    _show(report, json_file)
    return FITS if report.fits else MISFIT


@commands.command()
@click.argument("text", required=False)
@table_options
@OUTLINE
@click.option("--width", type=SIDE, help="Width of a given outline, mm; goes with --height.")
@click.option("--height", type=SIDE, help="Height of a given outline, mm; goes with --width.")
@click.option(
    "--breaks",
    type=click.Choice(["total-fit", "first-fit"]),
    help="In a given outline: lines weighed together, or one by one.  [default: total-fit]",
)
@click.option("--joined", is_flag=True, help="In two joined balloons, parted where it reads best.")
@click.option("--then", metavar="TEXT", help="A second part, in a balloon joined to the first.")
@LANGUAGE
@lettering_options
@JSON
@click.option("--svg", "svg_file", metavar="F", help="Write the balloon as SVG; - for stdout.")
def fit(  # noqa: PLR0913 - click passes every option by its name
    *,
    text: str | None,
    outline: str,
    width: float | None,
    height: float | None,
    breaks: lf.Breaks | None,
    joined: bool,
    then: str | None,
    language: str | None,
    json_file: str | None,
    svg_file: str | None,
) -> int:
    """Fit TEXT into the smallest good balloon, or into one of a given width and height.

    With --table, fit many texts, each into its own given outline.
    """
    text = one_text(text)
    lettering = chosen_lettering()
    tag = language or "en"
    if text is None:
        fits = tell_table(lettering, language=tag, json_file=json_file, write=_write, show=_print)
        return FITS if fits else MISFIT
    if (width is None) != (height is None):
        raise click.UsageError("--width and --height go together.")
    if breaks is not None and width is None:
        raise click.UsageError("--breaks goes with --width and --height.")
    if json_file == svg_file == "-":
        raise click.UsageError("Only one of --json and --svg can go to standard output.")
    if joined or then is not None:
        if width is not None:
            raise click.UsageError("--joined and --then do not go with --width and --height.")
        pair = lf.fit_joined(
            text if then is None else (text, then), lettering, outline=outline, language=tag
        )
        return tell_joined(pair, lettering, files=(json_file, svg_file), write=_write, show=_print)
    if width is None or height is None:
        fitted = lf.fit_balloon(text, lettering, outline=outline, language=tag)
    else:
        given = lf.FAMILIES[outline].within(width / 2, height / 2)
        way = breaks or "total-fit"
        fitted = lf.fit_into(text, lettering, outline=given, breaks=way, language=tag)
    status = _written(fitted, lettering, json_file=json_file, svg_file=svg_file)
    if "-" not in (json_file, svg_file):
        advice = joined_advice(text, fitted, lettering, language=tag)
        _print(lf.balloon_to_text(fitted, least_size_pt=chosen_least_size()) + advice)
    return status


def _written(
    fitted: lf.FittedBalloon,
    lettering: lf.Lettering,
    *,
    json_file: str | None,
    svg_file: str | None,
) -> int:
    """Write a balloon to the files asked for; the status."""
    if svg_file is not None:
        _write(svg_file, lf.balloon_to_svg(fitted, lettering=lettering))
    if json_file is not None:
        _write(json_file, lf.balloon_to_json(fitted, least_size_pt=chosen_least_size()))
    lost = any(finding.severity == "error" for finding in fitted.findings)
    return FITS if fitted.fits and not lost else MISFIT


@commands.command()
@click.argument("script")
@click.option(
    "--paper", help="A name or a size such as 170x260mm.  [default: the plan's, or us-comic]"
)
@click.option("--plan", metavar="PLAN", help="A TOML file: tiers and widths, per page or for all.")
@house_rules_option
@script_options
@OUTLINE
@LANGUAGE
@click.option(
    "--reading",
    type=click.Choice(["ltr", "rtl"]),
    help="From left to right, or from right to left.  [default: as most balloons read]",
)
@placing_options
@JSON
def cuts(  # noqa: PLR0913 - click passes every option by its name
    *,
    script: str,
    paper: str | None,
    plan: str | None,
    outline: str,
    language: str | None,
    reading: lf.Reading | None,
    json_file: str | None,
) -> int:
    """Propose which words of a SCRIPT to cut where there is too much, most pressing first."""
    parsed = _read(script)
    if language is not None:
        parsed = replace(parsed, language=language)
    plans = lf.parse_plans(read_settings(plan), source=plan) if plan is not None else None
    with progress_bar(len(parsed.pages)) as progress:
        none = tell_cuts(
            parsed,
            paper=paper,
            plans=plans,
            outline=outline,
            reading=reading,
            json_file=json_file,
            width=screen_width(),
            colour=screen_colour(),
            progress=progress,
            write=_write,
            show=_print,
        )
    return FITS if none else MISFIT


@commands.command()
@click.argument("script")
@JSON
def parse(*, script: str, json_file: str | None) -> int:
    """Show how a SCRIPT is understood: pages, panels, balloons, and lines nobody could place."""
    parsed = _read(script)
    if json_file is not None:
        _write(json_file, lf.script_to_json(parsed))
    if json_file != "-":
        _print(lf.script_to_text(parsed, width=screen_width()))
    return FITS


@commands.command()
@click.argument("files", metavar="[NAME|FILE]...", nargs=-1)
@JSON
def fonts(*, files: tuple[str, ...], json_file: str | None) -> int:
    """Tell of the bundled typefaces, or of given FILES: styles, measures, languages, licence."""
    tell_fonts(files, json_file=json_file, width=screen_width(), write=_write, show=_print)
    return FITS


@commands.command()
@click.argument("folder", metavar="[DIR]", required=False)
def demo(*, folder: str | None) -> int:
    """Check the script that ships with letterfit; with DIR, write script, pages and JSON there."""
    text = resources.files(lf).joinpath("demo", DEMO).read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text, source=DEMO))
    if folder is not None:
        target = Path(folder)
        target.mkdir(parents=True, exist_ok=True)
        write_text(target / DEMO, text)
        write_text(target / "report.json", lf.to_json(report))
        _write_pages(report, target)
        click.echo(f"Wrote {DEMO}, report.json and {len(report.pages)} pages to {folder}", err=True)
    _show(report, None)
    return FITS


def _read(script: str) -> lf.Script:
    if script == "-":
        if sys.stdin is None:
            raise click.UsageError("Standard input is closed.")
        return lf.parse_script_bytes(sys.stdin.buffer.read(), source="standard input")
    return lf.read_script(script)


def _show(report: lf.ScriptReport, json_file: str | None) -> None:
    if json_file is not None:
        _write(json_file, lf.to_json(report))
    if json_file != "-":
        _print(lf.to_text(report, width=screen_width(), colour=screen_colour()))


def _write_pages(report: lf.ScriptReport, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for page in report.pages:
        name = f"page-{page.label}.svg"
        write_text(folder / name, lf.to_svg(page, lettering=report.lettering))


def _write(name: str, text: str) -> None:
    if name == "-":
        _print(text)
    else:
        write_text(Path(name), text)


def _print(text: str) -> None:
    try:
        click.echo(text, nl=not text.endswith("\n"))
    except BrokenPipeError:  # the reader, such as `head`, has seen enough; the verdict still holds
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@contextmanager
def _workers(jobs: int) -> Iterator[ProcessPoolExecutor | None]:
    """Worker processes for more than one job; HarfBuzz holds the interpreter's lock in threads."""
    if jobs == 1:
        yield None
        return
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as executor:
        yield executor


add_measures(commands, Doors(read=_read, write=_write, show=_print))
