"""The command line: options in, one call of the library, text and files out.

Exit status: 0 everything fits; 1 something does not; 2 unusable input (one line on standard error
that says where, what and what to do). Only this module and the two readers touch files.
"""

import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from importlib import resources
from multiprocessing import get_context
from pathlib import Path
from typing import NoReturn

import click

import letterfit as lf
from letterfit.cli_cuts import cuts
from letterfit.cli_files import show, write_given, write_text
from letterfit.cli_fonts import tell_fonts
from letterfit.cli_joined import joined_advice, tell_joined
from letterfit.cli_lettering import (
    chosen_lettering,
    lettering_options,
)
from letterfit.cli_measures import compare, measure
from letterfit.cli_plan import plan
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_script import (
    LANGUAGE_HELP,
    OUTLINE_HELP,
    chosen_report,
    chosen_script,
    language_tag,
    report_options,
)
from letterfit.cli_table import chosen_least_size, one_text, table_options, tell_table
from letterfit.cli_tiers import tiers
from letterfit.files import NoOrdinaryFileError
from letterfit.output.pdf.extra import check_extra
from letterfit.output.svg.page import TEXTS, Text

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
    elif isinstance(error, NoOrdinaryFileError):
        text = f"{error.filename}: {error.strerror}; give a file"
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


SIDE = click.FloatRange(0.1, 10_000)
"""A balloon's width or height in mm: from what no letter fits into to what no press prints."""

OUTLINE = click.option(
    "--outline",
    type=click.Choice(sorted(lf.FAMILIES)),
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
FIGURES_HELP = "Write a sheet of small pages with the figure every panel holds, SVG; - for stdout."
JSON = click.option("--json", "json_file", metavar="F", help="Write JSON to a file; - for stdout.")


@commands.command()
@click.argument("script")
@report_options
@JSON
@click.option(
    "--html", "html_file", metavar="F", help="Write the report as one HTML file; - for stdout."
)
@click.option("--svg", "svg_folder", metavar="DIR", help="Write one SVG per page into a folder.")
@click.option(
    "--svg-text",
    type=click.Choice(TEXTS),
    help="Lettering in it: outlines, or live text that needs the font.  [default: outlines]",
)
@click.option("--figures", "figures_file", metavar="F", help=FIGURES_HELP)
@click.option("--pdf", "pdf_file", metavar="F", help="Write a print proof; - for stdout.")
@click.option("--cuts", is_flag=True, help="Propose cuts in --html and --json; takes longer.")
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
    json_file: str | None,
    html_file: str | None,
    svg_folder: str | None,
    svg_text: Text | None,
    figures_file: str | None,
    pdf_file: str | None,
    cuts: bool,
    check: bool,
    jobs: int,
) -> int:
    """Check whether a SCRIPT's lettering fits its pages (- reads standard input)."""
    if [json_file, html_file, figures_file, pdf_file].count("-") > 1:
        raise click.UsageError(
            "Only one of --json, --html, --figures and --pdf can go to standard output."
        )
    if cuts and json_file is None and html_file is None:
        raise click.UsageError("--cuts goes with --html or --json; letterfit cuts shows them here.")
    if svg_text is not None and svg_folder is None:
        raise click.UsageError("--svg-text goes with --svg.")
    if pdf_file is not None:
        check_extra()  # before the work, not after it
    parsed = chosen_script(script)
    with _workers(jobs) as executor, progress_bar(len(parsed.pages)) as progress:
        report = chosen_report(parsed, check=check, cuts=cuts, executor=executor, progress=progress)
    if svg_folder is not None:
        _write_pages(report, Path(svg_folder), text=svg_text or "outlines")
    if html_file is not None:
        write_given(html_file, lf.to_html(report))
    if figures_file is not None:
        write_given(figures_file, lf.figures_to_svg(report))
    if pdf_file is not None:
        write_given(pdf_file, lf.to_pdf(report))
    _show(report, json_file, quiet="-" in (html_file, figures_file, pdf_file))
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


@commands.command()
@click.argument("script")
@JSON
def parse(*, script: str, json_file: str | None) -> int:
    """Show how a SCRIPT is understood: pages, panels, balloons, and lines nobody could place."""
    parsed = chosen_script(script)
    if json_file is not None:
        write_given(json_file, lf.script_to_json(parsed))
    if json_file != "-":
        show(lf.script_to_text(parsed, width=screen_width()))
    return FITS


@commands.command()
@click.argument("files", metavar="[NAME|FILE]...", nargs=-1)
@JSON
def fonts(*, files: tuple[str, ...], json_file: str | None) -> int:
    """Tell of the bundled typefaces, or of given FILES: styles, measures, languages, licence."""
    tell_fonts(files, json_file=json_file, width=screen_width(), write=write_given, show=show)
    return FITS


@commands.command()
@click.argument("folder", metavar="[DIR]", required=False)
def demo(*, folder: str | None) -> int:
    """Check the script that ships with letterfit; with DIR, write it all there."""
    text = resources.files(lf).joinpath("demo", DEMO).read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text, source=DEMO))
    if folder is not None:
        target = Path(folder)
        target.mkdir(parents=True, exist_ok=True)
        write_text(target / DEMO, text)
        write_text(target / "report.json", lf.to_json(report))
        write_text(target / "report.html", lf.to_html(report))
        _write_pages(report, target)
        kept = f"{DEMO}, report.html, report.json and {len(report.pages)} pages"
        click.echo(f"Wrote {kept} to {folder}", err=True)
    _show(report, None)
    return FITS


for command in (compare, cuts, measure, plan, tiers):
    commands.add_command(command)


def _show(report: lf.ScriptReport, json_file: str | None, *, quiet: bool = False) -> None:
    if json_file is not None:
        write_given(json_file, lf.to_json(report))
    if json_file != "-" and not quiet:
        show(lf.to_text(report, width=screen_width(), colour=screen_colour()))


def _write_pages(report: lf.ScriptReport, folder: Path, *, text: Text = "outlines") -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for page in report.pages:
        name = f"page-{page.label}.svg"
        write_text(folder / name, lf.to_svg(page, lettering=report.lettering, text=text))
    columns = any(b.fitted.vertical for page in report.pages for b in _balloons(page))
    if text == "live" and columns:
        click.echo("letterfit: columns are drawn as outlines; all else is live text", err=True)


def _balloons(page: lf.PageReport) -> list[lf.BalloonReport]:
    return [balloon for panel in page.panels for balloon in panel.balloons]


@contextmanager
def _workers(jobs: int) -> Iterator[ProcessPoolExecutor | None]:
    """Worker processes for more than one job; HarfBuzz holds the interpreter's lock in threads."""
    if jobs == 1:
        yield None
        return
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as executor:
        yield executor
