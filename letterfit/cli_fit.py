"""The command `letterfit fit`: one text into a balloon, or a table of texts into theirs."""

import click

import letterfit as lf
from letterfit.cli_files import show, write_given
from letterfit.cli_joined import joined_advice, tell_joined
from letterfit.cli_lettering import chosen_lettering, lettering_options
from letterfit.cli_outputs import json_option
from letterfit.cli_status import FITS, MISFIT
from letterfit.cli_table import Fitting, chosen_least_size, one_text, table_options, tell_table
from letterfit.cli_words import LANGUAGE_HELP, language_tag, outline_option

SIDE = click.FloatRange(0.1, 10_000)
"""A balloon's width or height in mm: from what no letter fits into to what no press prints."""

LANGUAGE = click.option(
    "--language",
    metavar="TAG",
    callback=language_tag,
    help=LANGUAGE_HELP,
)


@click.command(cls=Fitting, short_help="Fit one text into a balloon, or with --table many.")
@click.argument("text", required=False)
@table_options
@outline_option()
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
@json_option
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
