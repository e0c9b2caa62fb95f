"""The command `letterfit preflight`: the report of a script, shown and written."""

from collections.abc import Callable
from pathlib import Path

import click

import letterfit as lf
from letterfit.cli_files import show, write_csv, write_given, write_text
from letterfit.cli_jobs import jobs_option, workers
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_script import chosen_report, chosen_script, report_options
from letterfit.cli_status import FITS, MISFIT
from letterfit.cli_watch import Watching, watch_option
from letterfit.output.pdf.extra import check_extra
from letterfit.output.svg.texts import TEXTS, Text

FIGURES_HELP = "Write a sheet of small pages with the figure every panel holds, SVG; - for stdout."
Maker = Callable[[lf.ScriptReport], str | bytes]

JSONL_HELP = "Write JSON Lines, one line a page, as catalogue does; - for stdout."
CSV_HELP = "Write the figures as CSV for a spreadsheet, a row a panel; - for stdout."


@click.command(cls=Watching, short_help="Check whether a script's lettering fits its pages.")
@click.argument("script")
@report_options
@json_option
@click.option("--jsonl", "jsonl_file", metavar="F", help=JSONL_HELP)
@click.option("--csv", "csv_file", metavar="F", help=CSV_HELP)
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
@jobs_option
@watch_option
def preflight(  # noqa: PLR0913 - click passes every option by its name
    *,
    script: str,
    json_file: str | None,
    jsonl_file: str | None,
    csv_file: str | None,
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
    files = (json_file, jsonl_file, csv_file, html_file, figures_file, pdf_file)
    if files.count("-") > 1:
        raise click.UsageError(
            "Only one of --json, --jsonl, --csv, --html, --figures and --pdf can go to standard "
            "output."
        )
    if cuts and json_file is None and jsonl_file is None and html_file is None:
        raise click.UsageError(
            "--cuts goes with --html, --json or --jsonl; letterfit cuts shows them here."
        )
    if svg_text is not None and svg_folder is None:
        raise click.UsageError("--svg-text goes with --svg.")
    if pdf_file is not None:
        check_extra()  # before the work, not after it
    parsed = chosen_script(script)
    with workers(jobs) as executor, progress_bar(len(parsed.pages)) as progress:
        report = chosen_report(parsed, check=check, cuts=cuts, executor=executor, progress=progress)
    if svg_folder is not None:
        write_pages(report, Path(svg_folder), text=svg_text or "outlines")
    if csv_file is not None:
        write_csv(csv_file, lf.to_csv(report))
    makers = (
        (json_file, "to_json"),
        (jsonl_file, "to_json_lines"),
        (html_file, "to_html"),
        (figures_file, "figures_to_svg"),
        (pdf_file, "to_pdf"),
    )
    for name, maker in makers:
        if name is not None:
            make: Maker = getattr(lf, maker)  # imported when it is asked for
            write_given(name, make(report))
    if "-" not in files:
        show_report(report)
    return FITS if report.fits else MISFIT


def show_report(report: lf.ScriptReport) -> None:
    """Print a report as text, as wide as the screen."""
    show(lf.to_text(report, width=screen_width(), colour=screen_colour()))


def write_pages(report: lf.ScriptReport, folder: Path, *, text: Text = "outlines") -> None:
    """Write one SVG per page into a folder, which is made if need be.

    Raises:
        OSError: When it cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for page in report.pages:
        name = f"page-{page.label}.svg"
        write_text(folder / name, lf.to_svg(page, lettering=report.lettering, text=text))
    columns = any(b.fitted.vertical for page in report.pages for b in _balloons(page))
    if text == "live" and columns:
        click.echo("letterfit: columns are drawn as outlines; all else is live text", err=True)


def _balloons(page: lf.PageReport) -> list[lf.BalloonReport]:
    return [balloon for panel in page.panels for balloon in panel.balloons]
