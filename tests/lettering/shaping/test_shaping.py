"""Shaping and cutting: advances, flags, context, and right-to-left runs."""

import pickle

import numpy as np
import pytest

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.runs import itemise
from letterfit.lettering.shaping.shaping import Shaped, Source, shape
from letterfit.lettering.style.emphasis import Span
from tests.box_font import WIDE, box_font, width_em


def shaped(text: str, content: bytes, *, tracking: float = 0.0) -> Shaped:
    """A text in one font, shaped."""
    found = itemise([Span(text, "regular")], open_typeface(content))
    return shape(Source(found.text, found.runs, tracking=tracking))


def test_pens_are_the_sums_of_advances() -> None:
    """Before each glyph, what stands left of it."""
    found = shaped("AI b", box_font())
    assert found.pens(range(5)).tolist() == pytest.approx([0, 0.6, 0.9, 1.2, 1.7])
    assert found.table.pens.tolist() == pytest.approx([0, 0.6, 0.9, 1.2, 1.7])
    assert found.table.clusters.tolist() == [0, 1, 2, 3]


def test_only_cuts_asked_about_are_looked_up_and_only_unsafe_ones_flagged() -> None:
    """A kerned pair may not be cut, others may."""
    found = shaped("ABAB", box_font(kerning=(("A", "B", -50),)))
    assert found.unsafe_gaps((1, 2), (1, 2)) == {1}


def test_a_stretch_is_shaped_as_if_it_were_alone() -> None:
    """What stands before the stretch has no part in it."""
    whole = shaped("AB CD", box_font(contextual=True))
    alone = shape(whole.source, start=3, end=5)
    assert whole.width == pytest.approx(width_em("AB CD") + WIDE / 1000)
    assert alone.width == pytest.approx(width_em("CD"))
    assert alone.table.clusters.tolist() == [3, 4]
    assert alone.pens([4]).tolist() == pytest.approx([width_em("C")])


def test_tracking_stands_between_letters_and_not_after_the_last() -> None:
    """Four letters and a space have four gaps; two letters cut out of them have one."""
    found = shaped("AB CD", box_font(), tracking=0.1)
    (start, second), (end, last) = found.spans((0, 3), (5, 5))
    assert end - start == pytest.approx(width_em("AB CD") + 4 * 0.1)
    assert last - second == pytest.approx(width_em("CD") + 0.1)


def test_tracking_leaves_a_mark_on_its_letter() -> None:
    """A letter and the marks over it are one: no space comes between them."""
    content = box_font(characters="אב \u05b8")
    plain, wide = (shaped("א\u05b8ב", content, tracking=t) for t in (0.0, 0.1))
    assert wide.spans((0,), (3,))[1][0] == pytest.approx(plain.width + 0.1)


def test_a_shaped_text_can_be_sent_to_another_process() -> None:
    """It is shaped again there, to the same glyphs."""
    found = shaped("AB CD", box_font(kerning=(("A", "B", -50),)), tracking=0.1)
    again = pickle.loads(pickle.dumps(found))  # noqa: S301 - our own bytes
    assert again.values == found.values
    assert again.pens(range(6)).tolist() == found.pens(range(6)).tolist()


def test_pieces_are_cut_with_their_own_origins() -> None:
    """Each piece starts at 0, with its own ink and glyphs."""
    setter = TextSetter(shaped("AB CD", box_font()), em_mm=10)
    first, second = setter.set_lines([(0, 2), (3, 5)])
    boxes, sizes = setter.ink([(0, 2), (3, 5)])
    assert boxes == pytest.approx(np.concatenate([first.ink, second.ink]))
    assert sizes.tolist() == [2, 2]
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
    assert not words.findings


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
