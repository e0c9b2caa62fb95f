"""The commands `letterfit measure` and `letterfit compare`: existing pages, beside planned ones."""

from pathlib import Path

import click

import letterfit as lf
from letterfit.cli_files import show, write_given
from letterfit.cli_fonts import font_choice
from letterfit.cli_lettering import chosen_lettering
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_script import chosen_reading, chosen_script, chosen_settings, report_options
from letterfit.cli_status import FITS, MISFIT
from letterfit.cli_watch import Watching, watch_option
from letterfit.report.preflighting import report_script

DRAWINGS = (".svg", ".svgz")

_TRIM = click.option(
    "--trim",
    metavar="SIZE",
    help="The size a drawing prints at, a name or 170x260mm, where it states none or is in px.",
)


@click.command(cls=Watching)
@click.argument("page", metavar="PAGE.svg")
@_TRIM
@click.option(
    "--reading",
    type=click.Choice(["ltr", "rtl"]),
    default="ltr",
    show_default=True,
    help="From left to right, or from right to left.",
)
@click.option(
    "--typeface", metavar="NAME|FILE", multiple=True, help="What live text is measured in."
)
@click.option("--face", metavar="N", help="The face of a font collection, counted from 0.")
@click.option("--instance", metavar="NAME", help="A named instance of a variable font.")
@click.option("--axis", metavar="TAG=VALUE", multiple=True, help="A value on one of its axes.")
@click.option("--air", default=1.2, show_default=True, help="Least ink to outline, mm.")
@json_option
@watch_option
def measure(  # noqa: PLR0913 - click passes every option by its name
    *,
    page: str,
    trim: str | None,
    reading: lf.Reading,
    typeface: tuple[str, ...],
    face: str | None,
    instance: str | None,
    axis: tuple[str, ...],
    air: float,
    json_file: str | None,
) -> int:
    """Measure a page that exists as SVG, drawn by any vector program.

    Panels, balloons, captions, tails and lettering are told by the names of elements or layers;
    where nothing is so named, by size and nesting. Live text is measured in --typeface.
    """
    family = font_choice(typeface, face=face, instance=instance, axes=axis)
    lettering = lf.Lettering(typeface=family, air_mm=air)
    measured = _drawing(page, _side_lengths(trim), reading, lettering=lettering)
    if json_file is not None:
        write_given(json_file, lf.measures_to_json(measured))
    if json_file != "-":
        text = lf.measures_to_text(measured, width=screen_width(), colour=screen_colour())
        show(text)
    return FITS if measured.fits else MISFIT


@click.command(cls=Watching, short_help="Measure two pages side by side, each a script or an SVG.")
@click.argument("first", metavar="A")
@click.argument("second", metavar="B")
@click.option(
    "--page", metavar="N", help="Which page of a script, by its label.  [default: the first]"
)
@_TRIM
@report_options
@json_option
@watch_option
def compare(
    *, first: str, second: str, page: str | None, trim: str | None, json_file: str | None
) -> int:
    """Measure two pages, A and B, side by side: each a script, or an SVG of a page."""
    sides, lettering = _side_lengths(trim), chosen_lettering()
    measured = [
        _drawing(name, sides, chosen_reading() or "ltr", lettering=lettering)
        if Path(name).suffix.lower() in DRAWINGS
        else _planned(name, page, air_mm=lettering.air_mm)
        for name in (first, second)
    ]
    compared = lf.compare_pages(*measured)
    if json_file is not None:
        write_given(json_file, lf.comparison_to_json(compared))
    if json_file != "-":
        text = lf.comparison_to_text(compared, width=screen_width(), colour=screen_colour())
        show(text)
    return FITS if compared.fits else MISFIT


def _side_lengths(trim: str | None) -> tuple[float, float] | None:
    return None if trim is None else lf.Paper.named(trim).trim


def _drawing(
    name: str, trim: tuple[float, float] | None, reading: lf.Reading, *, lettering: lf.Lettering
) -> lf.PageMeasures:
    """The measures of a drawn page."""
    page = lf.read_drawn_page(name, trim=trim, lettering=lettering)
    return lf.measure_page(page, reading=reading, air_mm=lettering.air_mm)


def _planned(name: str, label: str | None, *, air_mm: float) -> lf.PageMeasures:
    """The measures of one page of a script."""
    script = chosen_script(name)
    with progress_bar(len(script.pages)) as progress:
        report = report_script(script, chosen_settings(), executor=None, progress=progress)
    chosen = [one for one in report.pages if label in (None, one.label)]
    if not chosen:
        labels = ", ".join(one.label for one in report.pages[:20]) or "none"
        what = f"no page is called {label!r}" if label else "the script has no pages"
        raise lf.ScriptError(what, advice=f"choose one of: {labels}", source=name)
    return lf.measure_page(chosen[0], source=name, reading=report.reading, air_mm=air_mm)
