"""Lettering and figures by reference look as they do drawn out, in another program: resvg."""

import io
import re
from pathlib import Path

import numpy as np
import resvg_py
from PIL import Image

from letterfit.balloons import fit_balloon
from letterfit.geometry import Point, Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Floats
from letterfit.output.html.shared_figure import SharedFigure
from letterfit.output.html.shared_glyphs import SharedGlyphs, use
from letterfit.output.svg.elements import Names, document
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import Glyphs
from letterfit.output.svg.page import page_parts, to_svg
from letterfit.report.model import PageReport
from tests.output.html.made import lettered

DPI = 150
FAINT, AT_ALL = 0.26, 1e-4
"""How much lighter or darker, of 1, one pixel at an edge may be, and all of them on average: places
differ by a micrometre, and the renderer counts quarters of a pixel, row by row."""


def pixels(svg: str) -> Floats:
    """A drawing as grey values, 0 to 1."""
    image = resvg_py.svg_to_bytes(
        svg_string=svg, dpi=DPI, background="white", skip_system_fonts=True
    )
    return np.asarray(Image.open(io.BytesIO(bytes(image))).convert("L"), dtype=float) / 255


def by_reference(page: PageReport) -> str:
    """A page whose lettering and figures are references, as a file."""
    names = Names()
    glyphs, figures = SharedGlyphs(glyph_source(None), names), SharedFigure(names)
    parts = page_parts(page, glyphs=glyphs, names=names, standing=figures.standing)
    width, height = page.plan.paper.trim
    shapes = [figures.shape(), glyphs.shapes()]
    return document(width=width, height=height, heading="", children=[*shapes, *parts])


def test_a_page_by_reference_looks_the_same() -> None:
    """No pixel of a page differs by more than a shade, whole lettering and figures included."""
    page = lettered().pages[0]
    drawn, shared = pixels(to_svg(page)), pixels(by_reference(page))
    assert (drawn < 0.5).mean() > 0.005
    assert np.abs(drawn - shared).max() < FAINT
    assert np.abs(drawn - shared).mean() < AT_ALL


def test_a_letter_moved_by_a_tenth_of_a_mm_would_be_seen() -> None:
    """The comparison can fail."""
    page = lettered().pages[0]
    shared = by_reference(page)
    moved = re.sub(r'(<use href="#w\d+") x="(\d+)"', r'\1 x="1\2"', shared, count=1)
    assert moved != shared
    assert np.abs(pixels(shared) - pixels(moved)).max() > 2 * FAINT


def test_a_word_set_twice_stands_once() -> None:
    """Its shape is written at its first use; a later one is a reference, at any size."""
    glyphs = SharedGlyphs(glyph_source(None), Names())
    drawn = []
    for size in (7.5, 14.0):
        words = measure("HOLD THE HOLD", Lettering(size_pt=size))
        drawn.append(glyphs.line(words.line(0, len(words) - 1).glyphs, Point(10, 20)))
    assert re.findall("#w[0-9]+", drawn[0]) == ["#w0", "#w1", "#w0"]
    assert re.findall("#w[0-9]+", drawn[1]) == ["#w0", "#w1", "#w0"]
    assert len(re.findall('<path id="g', glyphs.shapes())) == len(set("HOLDTE"))


def test_columns_emphasis_and_effects_by_reference_look_the_same() -> None:
    """Another size, another face, a line of one letter, glyphs that are turned: as drawn out."""
    face = Path(__file__).parents[2] / "data/fonts/MPLUSRounded1c/MPLUSRounded1c-500Medium.ttf"
    columns = Lettering(typeface=open_typeface(face), size_pt=8, writing="vertical")
    balloons = [
        (fit_balloon("*I* am _here_... “No”", Lettering(size_pt=9)), Lettering()),
        (fit_balloon("A"), Lettering()),
        (fit_balloon("水門 LOCK 9、もうすぐ!!", columns, language="ja"), columns),
    ]
    for fitted, lettering in balloons:
        source = glyph_source(lettering)
        centre = Point(fitted.outline.half_width, fitted.outline.half_height)
        shared = SharedGlyphs(source, Names())
        referring = shared.stack(fitted.lines, centre, colour="#000000")
        whole = Glyphs(source).stack(fitted.lines, centre, colour="#000000")
        one, other = (
            pixels(document(width=2 * centre.x, height=2 * centre.y, heading="", children=drawn))
            for drawn in ([shared.shapes(), referring], [whole])
        )
        assert (one < 0.5).mean() > 0.01
        assert np.abs(one - other).max() < FAINT


def test_a_line_without_ink_draws_nothing() -> None:
    """No group is written for no glyphs."""
    assert SharedGlyphs(glyph_source(None), Names()).line((), Point(0, 0)) == ""
    assert use("g1", x=0, y=-5) == '<use href="#g1" y="-5"/>'


def test_a_figure_of_other_proportions_is_stretched() -> None:
    """A box that is not three times as high as wide scales each way by itself."""
    (drawn,) = SharedFigure(Names()).standing(Rect(1, 2, 10, 20))
    assert 'transform="translate(1 2)scale(0.10000 0.06667)"' in drawn
