"""The command `letterfit plan`: the laid pages of a script, before anything is lettered."""

from pathlib import Path

import click

import letterfit as lf
from letterfit.cli_files import show, write_given, write_plans, write_text
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import screen_colour, screen_width
from letterfit.cli_script import (
    chosen_laid,
    chosen_paper,
    chosen_plans,
    chosen_script,
    plan_options,
)
from letterfit.cli_status import FITS
from letterfit.cli_watch import Watching, watch_option


@click.command(cls=Watching)
@click.argument("script")
@plan_options
@json_option
@click.option("--svg", "svg_folder", metavar="DIR", help="Write each page's panels as SVG.")
@click.option(
    "--write-plan",
    metavar="F",
    help="Write every page's plan, to be changed and read again: JSON if F ends so, else TOML.",
)
@watch_option
def plan(
    *, script: str, json_file: str | None, svg_folder: str | None, write_plan: str | None
) -> int:
    """Lay the panels of a SCRIPT's pages, and letter nothing."""
    if write_plan == json_file == "-":
        raise click.UsageError("Only one of --write-plan and --json can go to standard output.")
    pages = chosen_laid(chosen_script(script))
    if svg_folder is not None:
        folder = Path(svg_folder)
        folder.mkdir(parents=True, exist_ok=True)
        for page in pages:
            write_text(folder / f"page-{page.label}.svg", lf.page_plan_to_svg(page))
    if write_plan is not None:
        write_plans(write_plan, _stated(pages))
    if json_file is not None:
        write_given(json_file, lf.page_plans_to_json(pages))
    if "-" not in (write_plan, json_file):
        text = lf.page_plans_to_text(pages, width=screen_width(), colour=screen_colour())
        show(text)
    return FITS


def _stated(pages: tuple[lf.LaidPage, ...]) -> lf.Plans:
    """The plans that lay these pages so, each page by itself; a plan in the script stays there.

    Two pages of one number that are laid otherwise have no plan that goes for both.
    """
    shapes: dict[int, set[lf.PageShape]] = {}
    for page in pages:
        if page.page.numbers and page.plan.shape is not None and page.plan.source != "script":
            shapes.setdefault(page.page.numbers[0], set()).add(page.plan.shape)
    single = [(number, own.pop()) for number, own in sorted(shapes.items()) if len(own) == 1]
    asked = chosen_plans() or lf.Plans()
    return lf.Plans(paper=chosen_paper(), pages=tuple(single), gutter_mm=asked.gutter_mm)
