"""The command `letterfit tiers`: the least change of a grid that gives every panel its figure."""

from dataclasses import replace

import click

import letterfit as lf
from letterfit.cli_files import show, write_given, write_plans
from letterfit.cli_outputs import json_option
from letterfit.cli_screen import progress_bar, screen_colour, screen_width
from letterfit.cli_script import chosen_plans, chosen_report, chosen_script, report_options
from letterfit.cli_status import FITS, MISFIT
from letterfit.cli_watch import Watching, watch_option


@click.command(cls=Watching, short_help="Advise which tiers and panels to make larger.")
@click.argument("script")
@report_options
@click.option("--figure", type=float, help="The figure for every panel, mm.  [default: the page's]")
@click.option(
    "--tier-change",
    type=float,
    default=0.4,
    show_default=True,
    help="Most a tier may grow or shrink, a share of its height.",
)
@click.option(
    "--panel-change",
    type=float,
    default=0.25,
    show_default=True,
    help="Most a panel may, a share of its width; 0 keeps all widths.",
)
@click.option(
    "--write-plan",
    metavar="F",
    help="Write a plan that preflight reads, JSON if F ends so; - for stdout.",
)
@json_option
@watch_option
def tiers(  # noqa: PLR0913 - click passes every option by its name
    *,
    script: str,
    figure: float | None,
    tier_change: float,
    panel_change: float,
    write_plan: str | None,
    json_file: str | None,
) -> int:
    """Advise how to shift tiers and panels of a SCRIPT so that a figure stands in every panel.

    Exit status: 0 no page asks for it, 1 some page does, advised or not found, 2 unusable input.
    """
    if write_plan == json_file == "-":
        raise click.UsageError("Only one of --write-plan and --json can go to standard output.")
    limits = lf.TierLimits(tier_change=tier_change, panel_change=panel_change, figure_mm=figure)
    parsed = chosen_script(script)
    with progress_bar(len(parsed.pages)) as progress:
        report = chosen_report(parsed, progress=progress)
    pages = [page for page in report.pages if page.panels]
    advice = []
    with progress_bar(len(pages), what="Trying grids") as progress:
        for done, page in enumerate(pages, start=1):
            advice.append(lf.tier_advice(page, limits=limits))
            if progress is not None:
                progress(done, len(pages))
    if write_plan is not None:
        write_plans(write_plan, advised_plans(report, advice))
    if json_file is not None:
        write_given(json_file, lf.tiers_to_json(advice))
    if "-" not in (write_plan, json_file):
        show(lf.tiers_to_text(advice, width=screen_width(), colour=screen_colour()))
    return FITS if all(one.outcome == "kept" for one in advice) else MISFIT


def advised_plans(report: lf.ScriptReport, advice: list[lf.TierAdvice]) -> lf.Plans:
    """The plans asked for, with the tiers that are advised in the place of their own."""
    plans = chosen_plans() or lf.Plans()
    pages = dict(plans.pages)
    for one in advice:
        shape = one.plan.shape
        if one.outcome == "advised" and shape is not None:
            pages[one.before.numbers[0]] = shape
    return replace(plans, paper=report.paper, pages=tuple(sorted(pages.items())))
