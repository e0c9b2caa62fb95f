"""The lettering lies inside its balloon on paper: seen at 600 dpi by an independent renderer.

resvg draws the emitted file; the letters alone are compared with the outlines alone. One pixel is
0.042 mm: a pixel is smudged over its neighbours at most, so that is the tolerance.
"""

import functools

import numpy as np
import pytest
from scipy.ndimage import binary_dilation, distance_transform_edt, label

from letterfit.balloons import fit_balloon
from letterfit.fit.model import FittedBalloon
from letterfit.geometry import Point, Rect
from letterfit.lettering.settings import Lettering
from letterfit.output.svg.balloon_file import balloon_to_svg
from letterfit.output.svg.page import to_svg
from letterfit.paper.model import PagePlan, Tier
from letterfit.paper.sheet import Paper
from letterfit.report.model import PageReport, PanelReport
from tests.output import reports
from tests.output.svg import raster

# Italics overhang their advance, N-tilde is the tallest capital and C-cedilla the deepest.
TEXTS = (
    ("The tide turned an hour ago, and *still* nobody has come.", "ellipse"),
    ("¡ÑANDÚ! Ça, c'est *l'écluse*, jusqu'à la mer...", "superellipse"),
    ("HOLD.", "ellipse"),
    ("Ahoy, the lock! Are you *asleep* in there?", "rounded"),
    ("Lock Nine. The last gate before the sea.", "caption"),
)
AIR_MM = 1.2
SHEET = Paper(name="proof", trim=(110.0, 90.0), live=Rect(4, 4, 102, 82))


@functools.cache
def fitted() -> tuple[FittedBalloon, ...]:
    """Real texts in real outlines."""
    lettering = Lettering(air_mm=AIR_MM)
    return tuple(fit_balloon(text, lettering, outline=outline) for text, outline in TEXTS)


@functools.cache
def page() -> str:
    """A page with all the balloons, each with a tail but the caption."""
    spots = (Point(28, 20), Point(80, 20), Point(20, 50), Point(70, 50), Point(50, 78))
    balloons = tuple(
        reports.balloon(
            f"1.1.{number}",
            "-",
            at=spot,
            tail=None if text[1] == "caption" else reports.tail_down(spot, outline=fit.outline),
        )
        for number, (spot, text, fit) in enumerate(zip(spots, TEXTS, fitted(), strict=True), 1)
    )
    told = tuple(
        type(one)(**{f: getattr(one, f) for f in one.__dataclass_fields__} | {"fitted": fit})
        for one, fit in zip(balloons, fitted(), strict=True)
    )
    whole = reports.panel("1.1", SHEET.live, *told)
    return to_svg(one_page(whole))


def one_page(panel: PanelReport) -> PageReport:
    """A page of one panel."""
    return PageReport(
        label="1",
        numbers=(1,),
        line=1,
        plan=PagePlan(paper=SHEET, tiers=(Tier((panel.rect,)),)),
        panels=(panel,),
    )


@functools.cache
def letters() -> raster.Ink:
    """The page's lettering."""
    return raster.letters(page())


def spilled(scale: float) -> int:
    """Pixels of lettering further than a pixel outside the outlines grown by a factor."""
    inside = raster.bodies(page(), scale=scale) > 0.5
    return int(((letters() > 0.02) & ~binary_dilation(inside, np.ones((3, 3), dtype=bool))).sum())


def test_every_pixel_of_the_lettering_lies_in_its_balloon() -> None:
    """No ink is further than one pixel (0.042 mm) outside the outline; there is ink at all."""
    assert (letters() > 0.5).sum() > 10_000
    assert spilled(1.0) == 0


def test_a_balloon_shrunk_to_60_percent_loses_its_lettering() -> None:
    """Negative control: the same check fails when every outline is too small."""
    assert spilled(0.6) > 1_000


def test_the_air_asked_for_is_there_on_paper() -> None:
    """The nearest ink is as far from the outline as the lettering's air, to two pixels."""
    # A tail is part of the body: it only takes ink further from the outside, so check without.
    bare = [balloon_to_svg(one) for one in fitted()]
    for svg in bare:
        inside = np.pad(raster.bodies(svg) > 0.5, 1)
        depth = distance_transform_edt(inside)[1:-1, 1:-1] * raster.PIXEL_MM
        nearest = depth[raster.letters(svg) > 0.5].min()
        assert nearest >= AIR_MM - 2 * raster.PIXEL_MM


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_the_drawn_area_is_the_reported_area(number: int) -> None:
    """Covered pixels add up to the outline's exact area, but for the edge.

    The renderer knows the cover of an edge pixel to about an eighth: that, along the perimeter.
    """
    one = fitted()[number]
    svg = balloon_to_svg(one)
    body = raster.bodies(svg)
    area = body.mean() * raster.sheet_area(svg)  # the share of the sheet: whole pixels need not fit
    edge = one.outline.perimeter_mm * raster.PIXEL_MM / 8
    assert area == pytest.approx(one.area_mm2, abs=edge)


def test_each_balloon_with_its_tail_is_one_piece() -> None:
    """Outline and tail are one contour: as many pieces on the page as balloons."""
    # A tail's tip is thinner than a pixel: any cover counts, corners touch.
    _, pieces = label(raster.bodies(page()) > 0.02, structure=np.ones((3, 3)))
    assert pieces == len(TEXTS)


def test_a_page_is_rendered_at_print_size() -> None:
    """At 600 dpi a sheet of 110 x 90 mm is 2598 x 2126 pixels."""
    height, width = letters().shape
    assert abs(width - 110 / raster.PIXEL_MM) <= 1
    assert abs(height - 90 / raster.PIXEL_MM) <= 1


def test_the_letters_are_as_high_as_the_type_size_says() -> None:
    """HOLD. at 7.5 pt is one cap height of ink high: 0.653 em of Grandstander, O a little more."""
    ink = raster.letters(balloon_to_svg(fitted()[2])) > 0.5
    rows = np.flatnonzero(ink.any(axis=1))
    height = (rows[-1] - rows[0] + 1) * raster.PIXEL_MM
    cap = 0.653 * 7.5 * 25.4 / 72
    assert cap - raster.PIXEL_MM <= height <= cap * 1.06 + raster.PIXEL_MM
