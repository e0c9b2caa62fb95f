"""Measuring against other ways to the same widths, and against layouts worked out by hand."""

import itertools
import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure, measure_ink
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.crossbar import pronouns
from letterfit.lettering.words import Words
from tests.box_font import CAP, DEPTH, MARGIN, UPEM, WIDE, box_font, width_em
from tests.lettering.oracle import (
    DIALOGUE,
    HB_SHAPE,
    LATIN_FONTS,
    candidate_lines,
    font_bytes,
    fresh_width_em,
    plain_font,
    program_widths_em,
)
from tests.lettering.pair_arithmetic import PairArithmetic

MEASURE_EM = 72 / 25.4
"""Points that make an em of one millimetre: widths in mm are then widths in em."""

EXACT = 1e-9
"""Sums of a few hundred advances in double precision are right to about 1e-13 em."""


def in_em(content: bytes, text: str, *, case: str = "upper", keep_lines: bool = False) -> Words:
    """A text measured in a font at 1 mm to the em."""
    face = open_typeface(content)
    lettering = Lettering(
        typeface=face, size_pt=MEASURE_EM, case="upper" if case == "upper" else "as-typed"
    )
    return measure(text, lettering, keep_lines=keep_lines)


# --- against HarfBuzz's own program, and against arithmetic on the font's tables


@pytest.mark.skipif(HB_SHAPE is None, reason="hb-shape (Debian: libharfbuzz-bin) is not on PATH")
@pytest.mark.parametrize("path", LATIN_FONTS)
def test_line_widths_equal_those_of_hb_shape(path: str) -> None:
    """Whole lines of dialogue are as wide as HarfBuzz's own program makes them."""
    content = font_bytes(path)
    lines = [in_em(content, line, case="as-typed") for line in DIALOGUE]
    # The program is not told of the pronoun's crossbar I: compare where there is none.
    plain = [words for words in lines if not pronouns(words.text, "en")]
    ours = [words.line(0, len(words) - 1).width_mm for words in plain]
    assert ours == pytest.approx(
        program_widths_em(content, [words.text for words in plain]), abs=EXACT
    )


@pytest.mark.parametrize("path", [p for p in LATIN_FONTS if "Bangers" not in p])
def test_widths_of_capitals_are_advances_plus_pair_kerning(path: str) -> None:
    """Plain capitals are as wide as hmtx and GPOS say, added up without a shaping engine."""
    content = font_bytes(path)
    font = PairArithmetic(content)
    for word in ("AVATAR", "WATERY", "LYTTON", "TOWPATH", "VALVE", "KRRRK", "QUAY"):
        words = in_em(content, word)
        assert words.pieces[0].width_mm == pytest.approx(font.width_em(word), abs=EXACT)


@pytest.mark.parametrize("path", LATIN_FONTS)
def test_every_candidate_line_is_as_wide_as_shaped_afresh(path: str) -> None:
    """Every run of pieces has the width of its own characters shaped alone."""
    content = font_bytes(path)
    font = plain_font(content)
    barred = "Grandstander" in path
    for text in DIALOGUE[4:]:
        words = in_em(content, text)
        for first, last in candidate_lines(words):
            line = words.line(first, last)
            marks = pronouns(line.text, "en") if barred else ()
            fresh = fresh_width_em(font, line.text, crossbars=marks)
            assert line.width_mm == pytest.approx(fresh, abs=EXACT), line.text


LETTERS = st.text(alphabet="ABIT '-,.—…", min_size=1, max_size=24)


@given(text=LETTERS)
@settings(max_examples=150)
def test_contextual_fonts_are_cut_exactly(text: str) -> None:
    """Where the font changes a letter by its neighbours, lines are set anew and stay exact."""
    content = box_font(contextual=True, kerning=(("-", "T", -90), ("T", "-", -40), (" ", "A", -30)))
    font = plain_font(content)
    words = in_em(content, text)
    for first, last in candidate_lines(words):
        line = words.line(first, last)
        assert line.width_mm == pytest.approx(fresh_width_em(font, line.text), abs=EXACT)


KERNED = ("TIDE", "VOLTA", "WE-LL", "Y.", "A--V", "T,O", "LY—T", "NO...YES")


@given(words=st.lists(st.sampled_from(KERNED), min_size=1, max_size=7))
@settings(max_examples=60)
def test_bundled_fonts_are_cut_exactly(words: list[str]) -> None:
    """Fonts that kern hyphens, dashes and spaces are cut exactly too."""
    for path in ("BalsamiqSans/BalsamiqSans-Regular.ttf", "ComicNeue/ComicNeue-Regular.ttf"):
        content = font_bytes(path)
        font = plain_font(content)
        measured = in_em(content, " ".join(words))
        for first, last in candidate_lines(measured):
            line = measured.line(first, last)
            assert line.width_mm == pytest.approx(fresh_width_em(font, line.text), abs=EXACT)


# --- by hand, in the font of boxes


def test_a_text_in_boxes_has_the_advances_and_ink_of_its_letters() -> None:
    """Pieces, starts, widths and ink boxes are those of the font's table."""
    words = in_em(box_font(), "a bit, Q")
    assert [piece.text for piece in words.pieces] == ["A", "BIT,", "Q"]
    assert words.starts.tolist() == pytest.approx([0, 0.9, 3.0])
    assert [p.width_mm for p in words.pieces] == pytest.approx([0.6, 1.8, 0.6])
    assert words.pieces[2].ink.tolist() == [
        pytest.approx([MARGIN / UPEM, -CAP / UPEM, (600 - MARGIN) / UPEM, -DEPTH / UPEM])
    ]
    assert words.cap_height_mm == pytest.approx(0.7)


def test_a_letter_that_starts_a_line_of_the_contextual_font_is_not_wide() -> None:
    """A line begins with the narrow form, though the unbroken text has the wide one there."""
    words = in_em(box_font(contextual=True), "AB CD EF")
    wide = WIDE / UPEM
    assert words.pieces[1].width_mm == pytest.approx(width_em("CD") + wide)
    assert words.line(1, 1).width_mm == pytest.approx(width_em("CD"))
    assert words.line(1, 2).width_mm == pytest.approx(width_em("CD EF") + wide)
    assert words.line(0, 2).width_mm == pytest.approx(width_em("AB CD EF") + 2 * wide)
    assert (0, 2) not in words.reshaped


def test_kerning_with_a_space_needs_no_reshaping() -> None:
    """A space that moves hangs outside the line: the slices are right as they are."""
    words = in_em(box_font(kerning=((" ", "T", -60),)), "AT TEN TO TWO")
    assert not words.reshaped
    assert words.starts[1] == pytest.approx(width_em("AT ") - 0.06)


def test_emphasis_is_set_in_bold_italic_and_its_marks_are_gone() -> None:
    """Each style is shaped in its own face, and the widths add up."""
    face = open_typeface([box_font(), box_font(style="Bold Italic", kerning=(("N", "O", 100),))])
    words = measure("A *no*.", Lettering(typeface=face, size_pt=MEASURE_EM))
    assert words.text == "A NO."
    assert words.line(0, 1).width_mm == pytest.approx(width_em("A NO.") + 0.1)
    assert [glyph.face for glyph in words.pieces[1].glyphs] == [
        "Box Bold Italic",
        "Box Bold Italic",
        "Box Regular",
    ]
    assert not words.findings


def test_a_soft_hyphen_gets_its_hyphen_at_the_end_of_a_line_only() -> None:
    """The word is whole in the middle of a line, and hyphenated where the line ends in it."""
    words = in_em(box_font(), "A LOCK\u00adKEEPER")
    assert words.line(0, 2).width_mm == pytest.approx(width_em("A LOCKKEEPER"))
    assert words.line(0, 1).width_mm == pytest.approx(width_em("A LOCK-"))
    assert words.line(0, 1).text == "A LOCK-"
    assert words.line(1, 1).width_mm == pytest.approx(width_em("LOCK-"))
    assert len(words.line(1, 1).ink) == 5


def test_line_ends_are_spaces_unless_they_are_to_be_kept() -> None:
    """A script's folded lines make one paragraph; kept, they force the breaks."""
    folded = in_em(box_font(), "ONE\nTWO  THREE\r\n\r\nFOUR")
    kept = in_em(box_font(), "ONE\nTWO  THREE\r\n\r\nFOUR", keep_lines=True)
    assert folded.text == kept.text == "ONE TWO THREE FOUR"
    assert folded.forced.tolist() == [False, False, False, True]
    assert kept.forced.tolist() == [True, False, True, True]
    assert not kept.findings


def test_words_are_counted_as_readers_count_them() -> None:
    """Dashes and dots part words, hyphens and apostrophes do not, and a dash is no word."""
    words = in_em(box_font(), "Well-known--I'd say... no... yes -- 5:30, 'tis so.")
    assert words.count == 8
    assert words.word_counts.sum() == 8


@pytest.mark.parametrize(
    "text", ["", "   ", "\n\t", "\u200b", "\ufeff", "\x00\x07", "\u00a0", "**", "\u00ad"]
)
def test_a_text_without_visible_characters_has_no_pieces(text: str) -> None:
    """Nothing to set is no error, and every table is empty."""
    words = in_em(box_font(), text) if text != "**" else in_em(box_font(), "")
    assert len(words) == 0
    assert words.count == 0
    assert words.text == ""
    assert words.advances(3).shape == (0, 3)


# --- properties


ANY_TEXT = st.text(
    alphabet=st.one_of(
        st.characters(),
        st.sampled_from("ABC abc ...--—…-*_'\"♪«»!?\n\t\u00a0\u00ad\u200b\u2060\u2011😀שلم"),
    ),
    max_size=40,
)


@given(text=ANY_TEXT, keep_lines=st.booleans())
@settings(max_examples=250)
def test_any_text_can_be_measured(text: str, *, keep_lines: bool) -> None:
    """Whatever the characters: no exception, finite widths, lines that give the text back."""
    words = measure(text, Lettering(), keep_lines=keep_lines)
    count = len(words)
    assert len(words.joiners) == len(words.penalties) == len(words.forced) == count
    assert np.isfinite(words.starts).all()
    assert (words.penalties >= 0).all()
    assert (np.diff(words.starts) >= 0).all()
    if count:
        assert words.forced[-1]
        lines = [words.slice_text(p, p) + words.joiners[p] for p in range(count)]
        assert "".join(lines) == words.text
        assert all(piece.width_mm >= 0 for piece in words.pieces)
        assert all(np.isfinite(piece.ink).all() for piece in words.pieces)


@given(text=st.sampled_from(DIALOGUE), factor=st.floats(0.25, 4))
@settings(max_examples=30)
def test_size_scales_everything_and_changes_nothing(text: str, factor: float) -> None:
    """A text at another size is the same text, all lengths multiplied."""
    small = measure(text, Lettering(size_pt=8))
    large = measure(text, Lettering(size_pt=8 * factor))
    scaled = small.scaled(factor)
    assert scaled.starts == pytest.approx(large.starts)
    assert scaled.leading_mm == pytest.approx(large.leading_mm)
    assert scaled.cap_height_mm == pytest.approx(large.cap_height_mm)
    assert list(scaled.reshaped) == list(large.reshaped)
    for a, b in zip(scaled.pieces, large.pieces, strict=True):
        assert a.ink == pytest.approx(b.ink)
        assert [g[:2] for g in a.glyphs] == [g[:2] for g in b.glyphs]
        places = [list(itertools.chain(*(g[2:] for g in p.glyphs))) for p in (a, b)]
        assert places[0] == pytest.approx(places[1])


def test_measuring_twice_gives_the_same_bytes() -> None:
    """Nothing depends on what was measured before."""
    first = measure(DIALOGUE[6], Lettering())
    measure("Ъ ♪ something else", Lettering(typeface="Bangers"))
    again = measure(DIALOGUE[6], Lettering())
    assert pickle.dumps(first) == pickle.dumps(again)


# --- the crossbar I


def test_the_pronoun_has_bars_and_other_is_have_none() -> None:
    """The pronoun is wider than the plain I of the default face by the difference of two glyphs."""
    barred, plain = (
        measure_ink(t, Lettering(size_pt=MEASURE_EM))
        for t in (
            "I",
            "i",
        )
    )
    other = measure_ink("IT", Lettering(size_pt=MEASURE_EM))
    assert barred.glyphs == plain.glyphs
    assert barred.glyphs[0].glyph_id != other.glyphs[0].glyph_id
    german = measure_ink("I", Lettering(size_pt=MEASURE_EM), language="de")
    assert german.glyphs[0].glyph_id == other.glyphs[0].glyph_id


# --- sound effects


def test_a_sound_effect_is_one_line_with_its_ink_box() -> None:
    """The box goes from the first letter's ink to the last one's, not from advance to advance."""
    line = measure_ink(
        "kr-ak no", Lettering(typeface=open_typeface(box_font()), size_pt=MEASURE_EM)
    )
    assert line.text == "KR-AK NO"
    width = width_em("KR-AK NO")
    assert line.bounds() == pytest.approx((0.05, -0.7, width - 0.05, 0.0))
    assert measure_ink("", Lettering()).bounds() == (0, 0, 0, 0)


def test_a_font_whose_kerning_turns_words_back_is_refused() -> None:
    """Letters moved back by more than they are wide make no line; that is one complaint."""
    pairs = tuple((one, other, -9000) for one in "HOLD" for other in "HOLD")
    face = open_typeface(box_font(kerning=pairs))
    with pytest.raises(FontError, match="backwards"):
        measure("HOLD", Lettering(typeface=face))
