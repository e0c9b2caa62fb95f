"""Faces: their proportions against measured tables, their ink against another reader's."""

import io

import numpy as np
import pytest
import uharfbuzz as hb
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.coverage import _ALWAYS_COVERED, is_always_covered
from letterfit.lettering.fonts.face import (
    engine,
    glyph_path,
    units_per_em,
)
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font
from tests.lettering.oracle import LATIN_FONTS, font_bytes

# Measured once with another program: capital height by the ink of H, top of Ñ, bottom of Ç, in em.
MEASURED = {
    "Grandstander": (0.653, 0.851, -0.243),
    "Comic Neue": (0.675, 0.876, -0.215),
    "Balsamiq Sans": (0.716, 0.886, -0.230),
    "Comic Relief": (0.739, 1.000, -0.199),
    "Bangers": (0.740, 0.992, -0.165),
}
THREE_DIGITS = 0.00051
"""The table is rounded to three digits."""


@pytest.mark.parametrize("family", MEASURED)
def test_proportions_are_those_of_the_measured_table(family: str) -> None:
    """Cap height, highest accent and lowest cedilla."""
    face = open_typeface(family).styled("regular")
    known = engine(face)
    glyphs = [known.font.get_nominal_glyph(ord(char)) for char in "ÑÇ"]
    tilde, cedilla = known.inks(np.array(glyphs))
    found = (face.cap_height_em, -tilde[1], -cedilla[3])
    assert found == pytest.approx(MEASURED[family], abs=THREE_DIGITS)


@pytest.mark.parametrize("path", LATIN_FONTS)
def test_ink_boxes_equal_those_of_another_reader(path: str) -> None:
    """Exact boxes of all letters are those that fontTools computes from the outlines."""
    content = font_bytes(path)
    font = TTFont(io.BytesIO(content))
    glyphs, names = font.getGlyphSet(), font.getGlyphOrder()
    face = open_typeface(content).faces[0]
    known = engine(face)
    for char in "ABCDEFGHIJKLMNOPQRSTVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,;:!?-—…'\"&ÑÇÉ":
        glyph = known.font.get_nominal_glyph(ord(char))
        pen = BoundsPen(glyphs)
        glyphs[names[glyph]].draw(pen)
        left, bottom, right, top = pen.bounds
        box = known.inks(np.array([glyph]))[0] * known.upem
        assert box == pytest.approx([left, -top, right, -bottom], abs=1e-6), char


def test_a_stray_point_is_no_ink() -> None:
    """The U of Comic Relief Regular has a contour that encloses nothing: it is not counted."""
    known = engine(open_typeface("Comic Relief").styled("regular"))
    glyph = known.font.get_nominal_glyph(ord("U"))
    _, top, _, bottom = known.inks(np.array([glyph]))[0]
    stated = known.font.get_glyph_extents(glyph)
    assert stated.y_bearing / known.upem > 0.97
    assert -top == pytest.approx(0.731, abs=0.001)
    assert bottom == pytest.approx(0.0195, abs=0.001)


def test_a_glyphs_path_is_its_outline_upside_down() -> None:
    """Read back from SVG by fontTools, the path is the font's outline with y downwards."""
    font = TTFont(io.BytesIO(font_bytes("Bangers/Bangers-Regular.ttf")))
    glyphs, names = font.getGlyphSet(), font.getGlyphOrder()
    face = open_typeface("Bangers").styled("regular")
    for char in "KRAQ&8":
        glyph = engine(face).font.get_nominal_glyph(ord(char))
        ours, theirs = BoundsPen(None), BoundsPen(glyphs)
        parse_path(glyph_path(face, glyph), ours)
        glyphs[names[glyph]].draw(theirs)
        left, bottom, right, top = theirs.bounds
        assert ours.bounds == pytest.approx((left, -top, right, -bottom), abs=0.01)


def test_the_path_of_a_box_is_known() -> None:
    """A rectangle, in font units, y downwards; nothing for a space or an unknown glyph."""
    face = open_typeface(box_font()).faces[0]
    known = engine(face)
    pen = RecordingPen()
    parse_path(glyph_path(face, known.font.get_nominal_glyph(ord("A"))), pen)
    corners = [points[0] for step, points in pen.value if points and step != "closePath"]
    assert set(corners) == {(50, 0), (50, -700), (550, -700), (550, 0)}
    assert glyph_path(face, known.font.get_nominal_glyph(ord(" "))) == ""
    assert glyph_path(face, 60_000) == ""
    assert units_per_em(face) == 1000


def test_a_font_without_latin_letters_still_has_a_cap_height() -> None:
    """What the font states of itself stands in."""
    face = open_typeface(box_font(characters="&!")).faces[0]
    assert face.cap_height_em == pytest.approx(0.7)


def test_an_advance_is_that_of_the_character() -> None:
    """The advance of one character is the box font's own."""
    assert open_typeface(box_font()).faces[0].advance_em("I") == 0.3


def test_what_is_always_covered_comes_out_without_a_missing_glyph() -> None:
    """HarfBuzz itself: none of these characters becomes glyph 0 in a font that lacks them."""
    font = engine(open_typeface("Comic Neue").styled("regular")).font
    always = [chr(code) for first, last in _ALWAYS_COVERED for code in range(first, last + 1)]
    assert all(map(is_always_covered, always))
    for char in always:
        buffer = hb.Buffer()
        buffer.add_str(f"A{char}B")
        buffer.direction, buffer.script, buffer.language = "ltr", "Latn", "en"
        hb.shape(font, buffer)
        assert all(info.codepoint for info in buffer.glyph_infos), hex(ord(char))


def test_unicode_hyphens_are_set_as_the_hyphen() -> None:
    """A font that has only "-" draws the no-break hyphen with it, and nothing is substituted."""
    lettering = Lettering(typeface=open_typeface(box_font()), size_pt=10)
    plain, firm = (measure(f"A{char}B", lettering) for char in "-\u2011")
    assert firm.text == "A\u2011B"
    assert not firm.findings
    width = firm.line(0, len(firm) - 1).width_mm
    assert width == pytest.approx(plain.line(0, len(plain) - 1).width_mm)
    assert [g.glyph_id for p in firm.pieces for g in p.glyphs].count(0) == 0
