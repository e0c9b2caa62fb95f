"""Sheets of small pages as a reader of the file sees them: what is written, and where ink is."""

from functools import cache
from importlib import resources
from xml.etree import ElementTree as ET

from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path

import letterfit as lf
from letterfit.geometry import Rect
from letterfit.output.svg.glyphs import PER_MM
from letterfit.report.model import ScriptReport

SAID = (
    "WENNA: Well, I really think that nobody will come for us tonight, old thing.",
    "BARGE PILOT: Ahoy, the lock!",
    "WENNA: No.",
    "BARGE PILOT (OFF): Are you asleep in there? I told you twice that we have eels aboard.",
    "CAPTION: Slack tide.",
)


@cache
def demo() -> ScriptReport:
    """The script that ships with letterfit: roomy, tight, and one panel that does not fit."""
    text = resources.files(lf).joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
    return lf.preflight(lf.parse_script(text))


@cache
def special() -> ScriptReport:
    """A bleed with an inset, stacked panels, then a spread."""
    tiers = "TIERS: 1~[bottom-right 0.3x0.4] @1.4 / 2:1(1/1) / 3\n"
    return lf.preflight(lf.parse_script(f"PAGE 1\n{tiers}{_panels(8)}\nPAGES 2-3\n{_panels(5)}"))


@cache
def right_to_left() -> ScriptReport:
    """Two small pages of twelve narrow panels, read from the right."""
    tiers = "TIERS: 4 / 4 / 4\n"
    text = f"PAGE 1\n{tiers}{_panels(12)}\nPAGE 2\n{tiers}{_panels(12)}"
    return lf.preflight(lf.parse_script(text), paper=lf.Paper.named("a6"), reading="rtl")


def _panels(count: int) -> str:
    """Panels with no speech, then one, two, three and again none."""
    return "".join(
        f"\nPanel {n + 1}. The gate.\n" + "".join(f"{SAID[(n + k) % 5]}\n" for k in range(n % 4))
        for n in range(count)
    )


def said(group: ET.Element) -> str:
    """A group's title."""
    return next((child.text or "" for child in group if child.tag.endswith("title")), "")


def ink(group: ET.Element) -> Rect | None:
    """The box round a group's letters, by fontTools' reading of the path data."""
    pen = BoundsPen(None)
    for words in (e for e in group.iter() if e.get("class") == "words"):
        for path in words:
            parse_path(path.attrib["d"], pen)
    if pen.bounds is None:
        return None
    left, top, right, bottom = (value / PER_MM for value in pen.bounds)
    return Rect(left, top, right - left, bottom - top)


def outline(path: str) -> Rect:
    """The box round path data in mm, by the same."""
    pen = BoundsPen(None)
    parse_path(path, pen)
    left, top, right, bottom = pen.bounds
    return Rect(left, top, max(right - left, 1e-9), max(bottom - top, 1e-9))


def rect(element: ET.Element) -> Rect:
    """A rectangle element."""
    return Rect(*(float(element.attrib[name]) for name in ("x", "y", "width", "height")))
