"""The command line: options in, one call of the library, text and files out.

Exit status: 0 everything fits; 1 something does not; 2 unusable input (one line on standard error
that says where, what and what to do). Only this module and the two readers touch files.
"""

import sys
from collections.abc import Sequence
from importlib import resources
from pathlib import Path
from typing import NoReturn

import click

import letterfit as lf
from letterfit.cli_catalogue import catalogue
from letterfit.cli_cuts import cuts
from letterfit.cli_errors import COMPLAINTS, one_line
from letterfit.cli_files import show, write_given, write_text
from letterfit.cli_fonts import tell_fonts
from letterfit.cli_help import Grouped
from letterfit.cli_joined import joined_advice, tell_joined
from letterfit.cli_lettering import chosen_lettering, lettering_options
from letterfit.cli_measures import compare, measure
from letterfit.cli_plan import plan
from letterfit.cli_preflight import preflight, show_report, write_pages
from letterfit.cli_screen import progress_bar, screen_width
from letterfit.cli_script import LANGUAGE_HELP, OUTLINE_HELP, chosen_script, language_tag
from letterfit.cli_table import chosen_least_size, one_text, table_options, tell_table
from letterfit.cli_tiers import tiers
from letterfit.cli_watch import Watching, watch_option

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
    except COMPLAINTS as error:
        click.echo(one_line(error), err=True)
        status = UNUSABLE
    except (click.Abort, KeyboardInterrupt):
        status = INTERRUPTED
    sys.exit(status)


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    invoke_without_command=True,
)
@click.version_option(lf.__version__, prog_name="letterfit")
@click.pass_context
def commands(context: click.Context) -> int:
    """Tell whether a comics script's lettering fits its pages before anyone draws.

    Lengths are millimetres, type sizes points. Exit status: 0 everything fits, 1 something does
    not, 2 unusable input.
    """
    if context.invoked_subcommand is None:
        show(context.get_help())
    return FITS


SIDE = click.FloatRange(0.1, 10_000)
"""A balloon's width or height in mm: from what no letter fits into to what no press prints."""

OUTLINE = click.option(
    "--outline",
    type=click.Choice(sorted(lf.FAMILIES)),
    metavar="NAME",
    default="ellipse",
    show_default=True,
    help=OUTLINE_HELP,
)
LANGUAGE = click.option(
    "--language",
    metavar="TAG",
    callback=language_tag,
    help=LANGUAGE_HELP,
)
JSON = click.option("--json", "json_file", metavar="F", help="Write JSON to a file; - for stdout.")


@commands.command(cls=Grouped, short_help="Fit one text into a balloon, or with --table many.")
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
        fits = tell_table(
            lettering, language=tag, json_file=json_file, write=write_given, show=show
        )
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
        return tell_joined(
            pair, lettering, files=(json_file, svg_file), write=write_given, show=show
        )
    if width is None or height is None:
        fitted = lf.fit_balloon(text, lettering, outline=outline, language=tag)
    else:
        given = lf.FAMILIES[outline].within(width / 2, height / 2)
        way = breaks or "total-fit"
        fitted = lf.fit_into(text, lettering, outline=given, breaks=way, language=tag)
    status = _written(fitted, lettering, json_file=json_file, svg_file=svg_file)
    if "-" not in (json_file, svg_file):
        advice = joined_advice(text, fitted, lettering, language=tag)
        show(lf.balloon_to_text(fitted, least_size_pt=chosen_least_size()) + advice)
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
        write_given(svg_file, lf.balloon_to_svg(fitted, lettering=lettering))
    if json_file is not None:
        write_given(json_file, lf.balloon_to_json(fitted, least_size_pt=chosen_least_size()))
    lost = any(finding.severity == "error" for finding in fitted.findings)
    return FITS if fitted.fits and not lost else MISFIT


@commands.command(cls=Watching, short_help="Show how a script is understood, line by line.")
@click.argument("script")
@JSON
@watch_option
def parse(*, script: str, json_file: str | None) -> int:
    """Show how a SCRIPT is understood: pages, panels, balloons, and lines nobody could place."""
    parsed = chosen_script(script)
    if json_file is not None:
        write_given(json_file, lf.script_to_json(parsed))
    if json_file != "-":
        show(lf.script_to_text(parsed, width=screen_width()))
    return FITS


@commands.command(short_help="Tell of typefaces: styles, measures, languages, licence.")
@click.argument("files", metavar="[NAME|FILE]...", nargs=-1)
@JSON
def fonts(*, files: tuple[str, ...], json_file: str | None) -> int:
    """Tell of the bundled typefaces, or of given FILES: styles, measures, languages, licence."""
    tell_fonts(files, json_file=json_file, width=screen_width(), write=write_given, show=show)
    return FITS


@commands.command(short_help="Check the script that ships with letterfit.")
@click.argument("folder", metavar="[DIR]", required=False)
def demo(*, folder: str | None) -> int:
    """Check the script that ships with letterfit; with DIR, write it all there."""
    text = resources.files(lf).joinpath("demo", DEMO).read_text(encoding="utf-8")
    script = lf.parse_script(text, source=DEMO)
    with progress_bar(len(script.pages)) as progress:
        report = lf.preflight(script, progress=progress)
    if folder is not None:
        target = Path(folder)
        target.mkdir(parents=True, exist_ok=True)
        write_text(target / DEMO, text)
        write_text(target / "report.json", lf.to_json(report))
        write_text(target / "report.html", lf.to_html(report))
        write_pages(report, target)
        kept = f"{DEMO}, report.html, report.json and {len(report.pages)} pages"
        click.echo(f"Wrote {kept} to {folder}", err=True)
    show_report(report)
    return FITS


for command in (catalogue, compare, cuts, measure, plan, preflight, tiers):
    commands.add_command(command)
