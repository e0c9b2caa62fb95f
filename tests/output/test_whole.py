"""The real stages end to end: what they report goes out valid, drawn inside, and in words."""

import functools
import json
import subprocess
import sys

import jsonschema
import numpy as np
from rich.cells import cell_len
from scipy.ndimage import binary_dilation

from letterfit.geometry import Rect
from letterfit.output.report_json import to_json
from letterfit.output.report_schema import report_schema
from letterfit.output.svg.page import to_svg
from letterfit.output.terminal.report import to_text
from letterfit.paper.sheet import Paper
from letterfit.report.model import ScriptReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output.svg import raster

SCRIPT = """\
LOW WATER

PAGE ONE
TIERS: 2 / 1

Panel 1. Wenna leans on the beam.
CAPTION: Lock Nine. The last gate before the sea.
WENNA (WHISPER): Hold a little longer, *old thing*.

Panel 2. The barge.
BARGE PILOT (OFF): Ahoy, the lock! Are you asleep in there?
TOBY (THOUGHT): She never sleeps.

Panel 3. All of it.
WENNA: {flood}
SFX: KRRRK
"""
FLOOD = "The tide will not wait for any of us, not for grain and not for gold. " * 24
SHEET = Paper(name="small", trim=(120, 120), live=Rect(5, 5, 110, 110))


@functools.cache
def report() -> ScriptReport:
    """Two panels that fit and one that does not, by the real stages."""
    return preflight(parse_script(SCRIPT.format(flood=FLOOD), source="low.txt"), paper=SHEET)


def test_the_real_report_is_valid_json() -> None:
    """What the stages report satisfies the published schema."""
    document = json.loads(to_json(report()))
    validator = jsonschema.Draft202012Validator(json.loads(report_schema()))
    assert [error.message for error in validator.iter_errors(document)] == []
    verdicts = [panel["verdict"] for panel in document["pages"][0]["panels"]]
    assert verdicts[:2] == ["placed", "placed"]
    assert verdicts[2] != "placed"
    assert document["lettering"]["family"] == "Grandstander"


def test_every_placed_letter_of_the_real_page_lies_in_its_balloon() -> None:
    """On the page at 600 dpi no lettering of a placed panel is a pixel outside its balloon."""
    page = report().pages[0]
    svg = to_svg(page)
    placed = [f"balloon-{b.id}" for panel in page.panels[:2] for b in panel.balloons]
    ink = raster.render(only(svg, placed, "lettering")) > 0.02
    bodies = raster.render(filled(only(svg, placed, "outline"))) > 0.5
    assert ink.sum() > 5_000
    assert not (ink & ~binary_dilation(bodies, np.ones((3, 3), dtype=bool))).any()


def only(svg: str, ids: list[str], name: str) -> raster.Element:
    """Of the balloons named, the parts of a class, and nothing else."""
    root = raster.parse(svg)
    mine = {id(part) for g in root.iter() if g.get("id") in ids for part in raster.named(g, name)}
    raster.prune(root, lambda element: id(element) in mine)
    return root


def filled(root: raster.Element) -> raster.Element:
    """The outlines filled to themselves, without their line."""
    for path in raster.named(root, "outline"):
        path.set("stroke", "none")
    return root


def test_the_real_report_reads_in_words() -> None:
    """The panel that does not fit leads, with what to cut, in 80 cells."""
    text = to_text(report())
    lines = text.splitlines()
    assert lines[0].startswith("✗ 1 of 3 panels does not fit")
    assert lines[4].split()[:2] == ["✗", "1.3"]
    assert "Cut " in text
    assert max(map(cell_len, lines)) <= 80


def test_the_terminal_library_is_loaded_only_for_terminal_text() -> None:
    """Importing letterfit and writing JSON does not import rich."""
    code = (
        "import sys, letterfit; from letterfit import Ellipse, balloon_to_json, fit_into;"
        "balloon_to_json(fit_into('Hold.', outline=Ellipse(half_width=20, half_height=9)));"
        "sys.exit('rich' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], check=False)  # noqa: S603 - our own code
    assert done.returncode == 0
