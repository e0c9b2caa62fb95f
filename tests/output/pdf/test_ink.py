"""The ink of the PDF: seen at 600 dpi by pdfium, beside the SVG proof as resvg draws it."""

import functools
import io
from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pikepdf
import resvg_py
from PIL import Image
from scipy.ndimage import binary_dilation

from letterfit.balloons import fit_balloon
from letterfit.geometry import MM_PER_INCH, Point, Rect
from letterfit.lettering.settings import Lettering
from letterfit.output.pdf.proof import to_pdf
from letterfit.output.svg.page import to_svg
from letterfit.paper.model import PagePlan, Tier
from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport, PanelOverflow, ScriptReport
from tests.output import reports
from tests.output.pdf import seen
from tests.output.svg import raster

WIDTH, HEIGHT, BLEED = 4.5 * MM_PER_INCH, 2.5 * MM_PER_INCH, 0.25 * MM_PER_INCH
"""Whole points and pixels, so that both renderers put the same grid over the page."""
SHEET = Paper(name="proof", trim=(WIDTH, HEIGHT), live=Rect(4, 4, 102, 55), bleed=BLEED)
INSIDE = Rect(BLEED, BLEED, WIDTH, HEIGHT)
TEXTS = (
    ("The tide turned an hour ago, and *still* nobody has come.", "ellipse"),
    ("¡ÑANDÚ! Ça, c'est *l'écluse*, jusqu'à la mer...", "superellipse"),
    ("HOLD.", "burst"),
    ("Ahoy, the lock! Are you *asleep* in there?", "cloud"),
    ("Lock Nine. The last gate before the sea.", "caption"),
)
SPOTS = (Point(28, 16), Point(80, 16), Point(17, 42), Point(66, 42), Point(41, 55))


@functools.cache
def report() -> ScriptReport:
    """A page of five balloons, four with tails, and a panel that does not fit."""
    balloons = []
    for number, ((text, outline), spot) in enumerate(zip(TEXTS, SPOTS, strict=True), 1):
        fit = fit_balloon(text, Lettering(), outline=outline)
        tail = None if outline == "caption" else reports.tail_down(spot, outline=fit.outline)
        one = reports.balloon(f"1.1.{number}", "-", at=spot, tail=tail)
        balloons.append(replace(one, fitted=fit))
    whole = reports.panel("1.1", SHEET.live, *balloons)
    nowhere = PanelOverflow(area_mm2=9.0, words=2, size_pt=None)
    over = reports.failing("1.2", Rect(86, 38, 18, 18), balloons[2], overflow=nowhere)
    plan = PagePlan(paper=SHEET, tiers=(Tier((whole.rect,)), Tier((over.rect,))))
    page = PageReport(label="1", numbers=(1,), line=1, plan=plan, panels=(whole, over))
    return replace(reports.report(page), paper=SHEET)


@functools.cache
def letters() -> raster.Ink:
    """The lettering alone; of the panel that does not fit nothing is looked at."""
    found = seen.ink(seen.lettering_alone(to_pdf(report())), area=INSIDE)
    found[round(38 / seen.PIXEL_MM) :, round(86 / seen.PIXEL_MM) :] = 0
    return found


@functools.cache
def outlines(scale: float) -> raster.Ink:
    """The balloons' outlines as the SVG proof has them, grown by a factor."""
    return raster.bodies(to_svg(report().pages[0]), scale=scale)


def spilled(scale: float) -> int:
    """Pixels of lettering further than a pixel outside the outlines grown by a factor."""
    inside = outlines(scale) > 0.5
    near = binary_dilation(inside, np.ones((3, 3), dtype=bool))
    found = letters()
    rows, columns = (min(a, b) for a, b in zip(found.shape, near.shape, strict=True))
    return int(((found > 0.02)[:rows, :columns] & ~near[:rows, :columns]).sum())


def test_every_pixel_of_the_lettering_lies_in_its_balloon() -> None:
    """No ink is further than one pixel (0.042 mm) outside the outline; there is ink at all."""
    assert (letters() > 0.5).sum() > 10_000
    assert spilled(1.0) == 0


def test_a_balloon_shrunk_to_60_percent_loses_its_lettering() -> None:
    """Negative control: the same check fails when every outline is too small."""
    assert spilled(0.6) > 1_000


def test_pdf_and_svg_show_the_same_page() -> None:
    """Two renderers, two formats: of 5000 pixels less than one differs by a third of black.

    Without labels: letters as small as theirs pdfium puts on whole pixels.
    """
    assert differing(to_svg(report().pages[0])) < 1 / 5000


def test_a_page_that_is_not_the_same_is_told_apart() -> None:
    """Negative control: with one balloon of five 0.1 mm further right many more pixels differ."""
    page = report().pages[0]
    first, *others = page.panels[0].balloons
    moved = replace(first, x_mm=SPOTS[0].x + 0.1)
    panels = (replace(page.panels[0], balloons=(moved, *others)), page.panels[1])
    assert differing(to_svg(replace(page, panels=panels))) > 1 / 500


@functools.cache
def proof_ink() -> raster.Ink:
    """The whole page without its labels, bleed left out."""
    pdf = pikepdf.open(io.BytesIO(to_pdf(report())))
    seen.hide(pdf, "Labels")
    return seen.ink(seen.saved(pdf), area=INSIDE)


def differing(svg: str) -> float:
    """The share of pixels of which PDF and SVG differ by more than a third of black."""
    one = proof_ink()
    other = _grey(svg, dpi=seen.DPI)
    rows, columns = (min(a, b) for a, b in zip(one.shape, other.shape, strict=True))
    return float((np.abs(one[:rows, :columns] - other[:rows, :columns]) > 1 / 3).mean())


def _grey(svg: str, *, dpi: int) -> raster.Ink:
    """How dark each pixel of an SVG is on white paper, labels left out."""
    root = raster.parse(svg)
    for parent in list(root.iter()):
        for child in [one for one in parent if "label" in raster.classes(one)]:
            parent.remove(child)
    bare = ET.tostring(root, encoding="unicode")
    png = bytes(resvg_py.svg_to_bytes(svg_string=bare, dpi=dpi, skip_system_fonts=True))
    image = Image.open(io.BytesIO(png)).convert("RGBA")
    white = Image.new("RGBA", image.size, "white")
    grey = np.asarray(Image.alpha_composite(white, image).convert("L"))
    return 1 - grey.astype(np.float64) / 255
