"""The commands `letterfit measure` and `letterfit compare`: existing pages, beside planned ones."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import click

import letterfit as lf
from letterfit.cli_fonts import font_choice
from letterfit.cli_lettering import (
    chosen_aside,
    chosen_caption_align,
    chosen_effects,
    chosen_lettering,
    script_options,
)
from letterfit.cli_outlines import chosen_outlines, outline_options
from letterfit.cli_placing import chosen_butted, chosen_same_speaker, placing_options
from letterfit.cli_screen import screen_colour, screen_width

DRAWINGS = (".svg", ".svgz")

_READING = click.option(
    "--reading",
    type=click.Choice(["ltr", "rtl"]),
    help="From left to right, or from right to left.  [default: ltr, or as a script's balloons do]",
)
_JSON = click.option("--json", "json_file", metavar="F", help="Write JSON to a file; - for stdout.")
_TRIM = click.option(
    "--trim",
    metavar="SIZE",
    help="The size a drawing prints at, a name or 170x260mm, where it states none or is in px.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """What the commands take from the command line's main module.

    Args:
        read: Reads a script by its name.
        write: Writes a text under a file's name.
        show: Prints a text.
    """

    read: Callable[[str], lf.Script]
    write: Callable[[str, str], None]
    show: Callable[[str], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is asked of scripts: which page, on what paper, by what plan, in what outlines."""

    page: str | None
    paper: str | None
    plan: str | None
    reading: lf.Reading | None
    outline: str


def add_measures(commands: click.Group, doors: Doors) -> None:
    """Add the two commands to the command line."""
    commands.add_command(_measure_command(doors))
    commands.add_command(_compare_command(doors))


def _measure_command(doors: Doors) -> click.Command:
    @click.command(name="measure")
    @click.argument("page", metavar="PAGE.svg")
    @_TRIM
    @_READING
    @click.option("--typeface", metavar="NAME|FILE", help="What live text is measured in.")
    @click.option("--face", metavar="N", help="The face of a font collection, counted from 0.")
    @click.option("--instance", metavar="NAME", help="A named instance of a variable font.")
    @click.option("--axis", metavar="TAG=VALUE", multiple=True, help="A value on one of its axes.")
    @click.option("--air", default=1.2, show_default=True, help="Least ink to outline, mm.")
    @_JSON
    def measure(  # noqa: PLR0913 - click passes every option by its name
        *,
        page: str,
        trim: str | None,
        reading: lf.Reading | None,
        typeface: str | None,
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
            doors.write(json_file, lf.measures_to_json(measured))
        if json_file != "-":
            text = lf.measures_to_text(measured, width=screen_width(), colour=screen_colour())
            doors.show(text)
        return 0 if measured.fits else 1

    return measure


def _compare_command(doors: Doors) -> click.Command:
    @click.command(name="compare")
    @click.argument("first", metavar="A")
    @click.argument("second", metavar="B")
    @click.option(
        "--page", metavar="N", help="Which page of a script, by its label.  [default: the first]"
    )
    @click.option(
        "--paper", help="A script's paper: a name or a size.  [default: the plan's, or us-comic]"
    )
    @click.option("--plan", metavar="PLAN", help="A script's plan, a TOML file.")
    @_TRIM
    @_READING
    @script_options
    @click.option(
        "--outline",
        type=click.Choice(sorted(lf.FAMILIES)),
        default="ellipse",
        show_default=True,
        help="The family of balloon outlines in scripts.",
    )
    @outline_options
    @placing_options
    @_JSON
    def compare(  # noqa: PLR0913 - click passes every option by its name
        *,
        first: str,
        second: str,
        page: str | None,
        paper: str | None,
        plan: str | None,
        trim: str | None,
        reading: lf.Reading | None,
        outline: str,
        json_file: str | None,
    ) -> int:
        """Measure two pages, A and B, side by side: each a script, or an SVG of a page."""
        sides = _side_lengths(trim)
        asked = _Asked(page=page, paper=paper, plan=plan, reading=reading, outline=outline)
        lettering = chosen_lettering()
        measured = [
            _drawing(name, sides, reading, lettering=lettering)
            if Path(name).suffix.lower() in DRAWINGS
            else _planned(name, asked, doors)
            for name in (first, second)
        ]
        compared = lf.compare_pages(*measured)
        if json_file is not None:
            doors.write(json_file, lf.comparison_to_json(compared))
        if json_file != "-":
            text = lf.comparison_to_text(compared, width=screen_width(), colour=screen_colour())
            doors.show(text)
        return 0 if compared.fits else 1

    return compare


def _side_lengths(trim: str | None) -> tuple[float, float] | None:
    return None if trim is None else lf.Paper.named(trim).trim


def _drawing(
    name: str,
    trim: tuple[float, float] | None,
    reading: lf.Reading | None,
    *,
    lettering: lf.Lettering,
) -> lf.PageMeasures:
    """The measures of a drawn page."""
    page = lf.read_drawn_page(name, trim=trim, lettering=lettering)
    return lf.measure_page(page, reading=reading or "ltr", air_mm=lettering.air_mm)


def _planned(name: str, asked: _Asked, doors: Doors) -> lf.PageMeasures:
    """The measures of one page of a script."""
    script = doors.read(name)
    plans = None
    if asked.plan is not None:
        text = Path(asked.plan).read_bytes().decode("utf-8-sig", "replace")
        plans = lf.parse_plans(text, source=asked.plan)
    lettering = chosen_lettering()
    report = lf.preflight(
        script,
        lettering=lettering,
        paper=lf.Paper.named(asked.paper) if asked.paper is not None else None,
        plans=plans,
        reading=asked.reading,
        outline=chosen_outlines(asked.outline),
        effects=chosen_effects(),
        aside_pt=chosen_aside(),
        caption_align=chosen_caption_align(),
        same_speaker=chosen_same_speaker(),
        butted=chosen_butted(),
    )
    chosen = [one for one in report.pages if asked.page in (None, one.label)]
    if not chosen:
        labels = ", ".join(one.label for one in report.pages[:20]) or "none"
        what = f"no page is called {asked.page!r}" if asked.page else "the script has no pages"
        raise lf.ScriptError(what, advice=f"choose one of: {labels}", source=name)
    return lf.measure_page(chosen[0], source=name, reading=report.reading, air_mm=lettering.air_mm)
