"""Shaping and cutting: advances, flags, context, and right-to-left runs."""

import numpy as np
import pytest

from letterfit.lettering import Lettering, measure, open_typeface
from letterfit.lettering.cutting import cut_lines
from letterfit.lettering.emphasis import Span
from letterfit.lettering.runs import itemise
from letterfit.lettering.shaping import Shaped, Source, shape
from tests.box_font import WIDE, box_font, width_em


def shaped(text: str, content: bytes, *, cuts: tuple[int, ...] = ()) -> tuple[Source, Shaped]:
    """A text in one font, and its shaping."""
    found = itemise([Span(text, "regular")], open_typeface(content))
    source = Source(found.text, found.runs)
    return source, shape(source, start=0, end=len(text), cuts=cuts)


def test_pens_are_the_sums_of_advances() -> None:
    """Before each glyph, what stands left of it."""
    _, found = shaped("AI b", box_font())
    assert found.pens.tolist() == pytest.approx([0, 0.6, 0.9, 1.2, 1.7])
    assert found.clusters.tolist() == [0, 1, 2, 3]


def test_only_cuts_asked_about_are_looked_up_and_only_unsafe_ones_flagged() -> None:
    """A kerned pair may not be cut, others may."""
    _, found = shaped("ABAB", box_font(kerning=(("A", "B", -50),)), cuts=(1, 2))
    assert found.unsafe == {1}


def test_a_stretch_is_shaped_as_if_it_were_alone() -> None:
    """What stands before the stretch has no part in it."""
    source, whole = shaped("AB CD", box_font(contextual=True))
    alone = shape(source, start=3, end=5)
    assert whole.pens[-1] == pytest.approx(width_em("AB CD") + WIDE / 1000)
    assert alone.pens[-1] == pytest.approx(width_em("CD"))
    assert alone.clusters.tolist() == [3, 4]


def test_pieces_are_cut_with_their_own_origins() -> None:
    """Each piece starts at 0, with its own ink and glyphs."""
    _, found = shaped("AB CD", box_font())
    first, second = cut_lines(found, [(0, 2), (3, 5)], text="AB CD", em_mm=10)
    assert (first.text, second.text) == ("AB", "CD")
    assert first.ink == pytest.approx(second.ink)
    assert first.ink == pytest.approx(np.array([[0.5, -7, 5.5, 0], [6.5, -7, 11.5, 0]]))
    assert [glyph.x_mm for glyph in second.glyphs] == pytest.approx([0, 6])
    assert {glyph.em_mm for glyph in second.glyphs} == {10}


def test_right_to_left_pieces_run_leftwards() -> None:
    """The first letter stands rightmost in its piece; widths are the same as the other way."""
    hebrew = box_font(characters="אבגד \u05b8")
    words = measure("אב גד", Lettering(typeface=open_typeface(hebrew), size_pt=72 / 25.4))
    assert words.rtl
    assert [glyph.x_mm for glyph in words.pieces[0].glyphs] == pytest.approx([0.3, 0.0])
    line = words.line(0, 1)
    assert [g.x_mm for g in line.glyphs] == pytest.approx([1.2, 0.9, 0.3, 0.0])
    assert line.width_mm == pytest.approx(1.5)
    assert [finding.code for finding in words.findings] == ["right-to-left-text"]


def test_a_number_in_right_to_left_text_keeps_its_own_order() -> None:
    """Typed alef, 12, comma: from the right the alef, then 12 as it reads, then the comma."""
    font = box_font(characters="אב 12,")
    words = measure("א12,", Lettering(typeface=open_typeface(font), size_pt=72 / 25.4))
    (piece,) = words.pieces
    by_place = sorted(piece.glyphs, key=lambda glyph: glyph.x_mm)
    assert [glyph.glyph_id for glyph in by_place] == [6, 4, 5, 1]
    assert [glyph.x_mm for glyph in by_place] == pytest.approx([0, 0.3, 0.6, 1.2])


def test_a_marks_offset_survives_cutting() -> None:
    """A mark placed over its letter by the font stays there in every piece."""
    lettering = Lettering(size_pt=10, case="as-typed")
    whole = measure("Q\u0303 Q\u0303", lettering)
    first, second = whole.pieces
    assert first.ink == pytest.approx(second.ink)
    assert len(first.glyphs) >= 2
