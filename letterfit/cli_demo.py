"""The command `letterfit demo`: the script that ships with the library, checked and written."""

from importlib import resources
from pathlib import Path

import click

import letterfit as lf
from letterfit.cli_files import write_text
from letterfit.cli_preflight import show_report, write_pages
from letterfit.cli_screen import progress_bar
from letterfit.cli_status import FITS

DEMO = "slack_tide.txt"


@click.command(short_help="Check the script that ships with letterfit.")
@click.argument("folder", metavar="[DIR]", required=False)
def demo(*, folder: str | None) -> int:
    """Check the script that ships with letterfit; with DIR, write it all there."""
    target = None if folder is None else Path(folder)
    if target is not None:
        target.mkdir(parents=True, exist_ok=True)
    text = resources.files(lf).joinpath("demo", DEMO).read_text(encoding="utf-8")
    script = lf.parse_script(text, source=DEMO)
    with progress_bar(len(script.pages)) as progress:
        report = lf.preflight(script, progress=progress)
    if target is not None:
        write_text(target / DEMO, text)
        write_text(target / "report.json", lf.to_json(report))
        write_text(target / "report.html", lf.to_html(report))
        write_pages(report, target)
        kept = f"{DEMO}, report.html, report.json and {len(report.pages)} pages"
        click.echo(f"Wrote {kept} to {folder}", err=True)
    show_report(report)
    return FITS
