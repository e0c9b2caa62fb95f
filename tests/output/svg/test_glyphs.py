"""Glyphs as path data: fontTools, another reader of fonts, draws the same shapes."""

import io
import itertools
import re

import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.geometry import Point
from letterfit.lettering.fonts.bundled import read_bundled
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Glyph
from letterfit.output.svg.faces import glyph_source
from letterfit.output.svg.glyphs import Glyphs, group, relative_contours
from tests.box_font import box_font

FACE, FILE = "Grandstander Regular", "Grandstander/Grandstander-Regular.ttf"


def font() -> TTFont:
    """The bundled regular face as fontTools reads it."""
    return TTFont(io.BytesIO(read_bundled(FILE)))


@pytest.mark.parametrize("letter", "AQÑgÇ&")
def test_a_drawn_glyph_has_the_box_and_area_fonttools_finds(letter: str) -> None:
    """Drawn at an em of 1000 mm, box and area agree with fontTools' own pens to half a unit."""
    opened = font()
    name = opened.getBestCmap()[ord(letter)]
    glyphs, units = opened.getGlyphSet(), opened["head"].unitsPerEm
    box, area = BoundsPen(glyphs), AreaPen(glyphs)
    glyphs[name].draw(box)
    glyphs[name].draw(area)
    em_mm = 1000.0
    drawn = Glyph(FACE, opened.getGlyphID(name), 0.0, 0.0, em_mm)
    data = Glyphs(glyph_source(None)).path([drawn], Point(0, 0))
    ours_box, ours_area = BoundsPen(None), AreaPen()
    parse_path(data, ours_box)
    parse_path(data, ours_area)
    scale = 1000 * em_mm / units
    left, bottom, right, top = (v * scale for v in box.bounds)
    assert ours_box.bounds == pytest.approx((left, -top, right, -bottom), abs=scale / 2)
    assert abs(ours_area.value) == pytest.approx(abs(area.value) * scale**2, rel=1e-3)


moves = st.lists(
    st.tuples(st.integers(-2000, 2000), st.integers(-2000, 2000)), min_size=2, max_size=9
)


@given(points=moves, scale=st.floats(0.1, 5))
def test_no_rounding_error_adds_up(points: list[tuple[int, int]], scale: float) -> None:
    """Followed from move to move, every corner is within half a micrometre of where it belongs."""
    path = "M" + "L".join(f"{x} {y}" for x, y in points) + "Z"
    ((x, y, rest),) = relative_contours(path, scale)
    steps = [int(n) for n in re.findall(r"-?\d+", rest)]
    xs = itertools.accumulate(steps[::2], initial=x)
    ys = itertools.accumulate(steps[1::2], initial=y)
    for (px, py), gx, gy in zip(points, xs, ys, strict=True):
        assert abs(gx - px * scale) <= 0.5 + 1e-6
        assert abs(gy - py * scale) <= 0.5 + 1e-6


def test_a_glyph_is_drawn_where_it_stands() -> None:
    """Moving a line moves every absolute start by as much, in micrometres, and nothing else."""
    line = measure("HOLD", Lettering()).line(0, 0)
    glyphs = Glyphs(glyph_source(None))
    here = glyphs.path(line.glyphs, Point(10, 20))
    there = glyphs.path(line.glyphs, Point(11, 18))
    shifted = re.sub(r"M(-?\d+) (-?\d+)", lambda m: f"M{int(m[1]) + 1000} {int(m[2]) - 2000}", here)
    assert there == shifted


def test_a_face_of_the_users_is_found_in_the_lettering() -> None:
    """A font from a file needs the lettering it was set with; without it the complaint says so."""
    own = Lettering(typeface=open_typeface(box_font()))
    line = measure("HOLD", own).line(0, 0)
    assert Glyphs(glyph_source(own)).path(line.glyphs, Point(0, 0))
    with pytest.raises(FontError, match="pass the lettering"):
        Glyphs(glyph_source(None)).path(line.glyphs, Point(0, 0))


def test_a_line_without_ink_is_not_drawn() -> None:
    """No empty path, no empty group."""
    assert group(["", ""], colour="#000", name="lettering") == ""
