"""A column as set: advances, ink and glyphs where a letterer of Japanese wants them."""

import functools
import json
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw, ImageFont, features

from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.shaping.cutting import TextSetter
from letterfit.lettering.shaping.runs import itemise
from letterfit.lettering.shaping.shaping import Source, shape
from letterfit.lettering.style.emphasis import Span
from letterfit.lettering.vertical.shaping import standing_runs
from tests.lettering.columns import BRUSH, EM, GRID, column, ink, lettering

HB_SHAPE = shutil.which("hb-shape")

UPRIGHT = ("潮が変わる。", "「水門、開けろ！」", "ゲートーっ、ぁァ")
MIXED = "「LOCK 9」は12分で、開く……!?"

VERTICAL_METRICS = ("vmtx", "vhea")


@pytest.mark.skipif(HB_SHAPE is None, reason="hb-shape (Debian: libharfbuzz-bin) is not on PATH")
@pytest.mark.parametrize("text", UPRIGHT)
@pytest.mark.parametrize("path", [GRID, BRUSH], ids=["grid", "brush"])
def test_advances_are_those_of_harfbuzz_from_top_to_bottom(text: str, path: Path) -> None:
    """The program hb-shape with direction ttb gives the same sum of advances."""
    command = [HB_SHAPE or "", "--direction=ttb", "--script=hira", "--language=ja"]
    command += ["--output-format=json", f"--text={text}", str(path)]
    told = subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603 - ours
    total = -sum(glyph["ay"] for glyph in json.loads(told.stdout)) / 1000
    assert column(text, path)[1].width_mm == pytest.approx(total * EM)


@pytest.mark.skipif(not features.check("raqm"), reason="this Pillow has no raqm")
@pytest.mark.parametrize("text", UPRIGHT)
@pytest.mark.parametrize("path", [GRID, BRUSH], ids=["grid", "brush"])
def test_ink_is_where_raqm_draws_it(text: str, path: Path) -> None:
    """Pillow draws the column through libraqm and FreeType; the box of its ink is ours."""
    em = 100
    font = ImageFont.truetype(str(path), em, layout_engine=ImageFont.Layout.RAQM)
    image = Image.new("L", (3 * em, (len(text) + 2) * em))
    draw = ImageDraw.Draw(image)
    place = (1.5 * em, em)
    draw.text(place, text, fill=255, font=font, direction="ttb", language="ja", anchor="mt")
    drawn = image.getbbox() or (0, 0, 0, 0)
    boxes = np.array(ink(text, path))
    width = boxes[:, 2].max() - boxes[:, 0].min()
    height = boxes[:, 3].max() - boxes[:, 1].min()
    assert (drawn[2] - drawn[0]) / em == pytest.approx(width, abs=0.03)
    assert (drawn[3] - drawn[1]) / em == pytest.approx(height, abs=0.03)


@pytest.mark.parametrize("path", [GRID, BRUSH], ids=["grid", "brush"])
def test_what_stands_upright_is_centred_in_its_column(path: Path) -> None:
    """Kanji and kana fill the em about the centre line; none leaves it."""
    for box in ink("潮門番船長今日明朝あいうえおアイウエオ", path):
        assert abs(box.middle[0]) < 0.08
        assert -0.52 < box.left < box.right < 0.52


def test_small_kana_and_stops_stand_in_the_upper_right_of_their_cells() -> None:
    """Vertical forms (`vert`): 、 。 in the upper right quarter, small kana to the right."""
    for number, box in enumerate(ink("、。")):
        assert box.left > 0
        assert box.bottom < number + 0.5
    small, large = ink("っつ")
    assert small.middle[0] > large.middle[0] + 0.05
    assert small.size[0] < large.size[0]


def test_brackets_the_long_vowel_mark_and_dashes_are_turned() -> None:
    """They run along the column: brackets wider than high, marks and dashes higher than wide."""
    for opening, closing in (ink("「」"), ink("『』"), ink("（）")):
        assert opening.size[0] > opening.size[1]
        assert opening.middle[1] > 0.5
        assert closing.middle[1] < 1.5
    for box in ink("ー―—〜…‥"):
        assert box.size[1] > box.size[0]
        assert abs(box.middle[0]) < 0.08


def test_a_font_without_vertical_metrics_is_set_on_the_em_grid() -> None:
    """With `vmtx` taken away, M PLUS, which is on the grid anyway, is set as before."""
    text = "「潮が、ゲートーっ」と!? LOCK"
    whole, bare = (column(text, GRID, *tables)[1] for tables in ((), VERTICAL_METRICS))
    assert bare.width_mm == pytest.approx(whole.width_mm)
    assert np.allclose(bare.ink, whole.ink, atol=0.01 * EM)


def test_a_font_without_vertical_forms_has_brackets_and_long_vowels_rotated() -> None:
    """UAX #50: Tr without `vert` is rotated; Tu stays upright, with its horizontal glyph."""
    line = column("「ー、", GRID, "GSUB")[1]
    bracket, mark, comma = ink("「ー、", GRID, "GSUB")
    assert [glyph.turned for glyph in line.glyphs] == [True, True, False]
    assert bracket.size[0] > bracket.size[1]
    assert mark.size[1] > mark.size[0]
    assert comma.middle[0] < 0
    assert all(not glyph.turned for glyph in column("「ー、", GRID)[1].glyphs)


def test_latin_is_turned_about_its_capitals() -> None:
    """A turned capital is as far from the centre line to the left as to the right."""
    line = column("LOCK")[1]
    assert all(glyph.turned for glyph in line.glyphs)
    for box in ink("HHH"):
        assert abs(box.middle[0]) < 0.02
        assert box.size[0] == pytest.approx(0.73)
    flat = measure("LOCK", Lettering(typeface=open_typeface(GRID), size_pt=10))
    assert line.width_mm == pytest.approx(flat.width(0, len(flat) - 1))


@pytest.mark.parametrize("text", ["12", "１２", "!?", "！？", "!!!", "9", "A"])
@pytest.mark.parametrize("path", [GRID, BRUSH], ids=["grid", "brush"])
def test_what_shares_a_cell_takes_one_em_with_its_ink_in_the_middle(text: str, path: Path) -> None:
    """Tate-chu-yoko is one em high and no wider, side by side, not turned."""
    line = column(text, path)[1]
    boxes = ink(text, path)
    left, right = min(box.left for box in boxes), max(box.right for box in boxes)
    assert len(boxes) == len(text)
    assert line.width_mm == pytest.approx(EM)
    assert right - left <= 1 + 1e-9
    assert left + right == pytest.approx(0, abs=1e-9)
    assert all(0 <= box.top < box.bottom <= 1 for box in boxes)
    assert all(a.right < b.left for a, b in pairwise(boxes))
    assert not any(glyph.turned for glyph in line.glyphs)


def test_a_cell_too_wide_is_made_smaller() -> None:
    """Two digits of 0.63 em do not go into an em: both are set smaller by the same share."""
    sizes = {glyph.em_mm / EM for glyph in column("80")[1].glyphs}
    assert len(sizes) == 1
    assert 0.85 < sizes.pop() < 1
    assert {glyph.em_mm for glyph in column("!!")[1].glyphs} == {EM}


def test_a_column_is_an_em_wide_and_a_quarter_em_from_the_next() -> None:
    """The fit sees the em where a line has its cap height; columns stand 1.25 em apart."""
    words, _ = column("潮が変わる。")
    assert words.vertical
    assert words.cap_height_mm == pytest.approx(EM)
    assert words.leading_mm == pytest.approx(1.25 * EM)


def test_tracking_opens_columns_between_cells_only() -> None:
    """Space goes after each character and after each cell, not inside a cell or at the end."""
    loose = Lettering(
        typeface=open_typeface(GRID), size_pt=10, case="as-typed", writing="vertical", tracking=0.1
    )
    words = measure("潮12門", loose, language="ja")
    assert words.width(0, len(words) - 1) == pytest.approx(3.2 * EM)


@functools.cache
def mixed() -> tuple[Source, str]:
    """A mixed text ready to be shaped."""
    cut = itemise([Span(MIXED, "regular")], lettering().typeface)
    runs = standing_runs(cut.text, cut.runs)
    return Source(text=cut.text, runs=runs, language="ja", vertical=True), cut.text


@settings(max_examples=40)
@given(st.data())
def test_a_slice_between_safe_cuts_is_the_column_set_alone(data: st.DataObject) -> None:
    """Cut anywhere HarfBuzz does not forbid, a column is as it would be set by itself."""
    source, text = mixed()
    whole = shape(source)
    cells = [run.start for run in source.runs if run.stance == "together"]
    cuts = [k for k in range(len(text) + 1) if k - 1 not in cells]
    start = data.draw(st.sampled_from(cuts[:-1]))
    end = data.draw(st.sampled_from([cut for cut in cuts if cut > start]))
    if any(whole.is_unsafe(cut) for cut in (start, end) if 0 < cut < len(text)):
        return
    (sliced,) = TextSetter(whole, EM).set_lines([(start, end)])
    (alone,) = TextSetter(shape(source, start=start, end=end), EM).set_lines([(start, end)])
    assert sliced.width_mm == pytest.approx(alone.width_mm)
    assert np.allclose(sliced.ink, alone.ink)
    assert [g.glyph_id for g in sliced.glyphs] == [g.glyph_id for g in alone.glyphs]


@settings(max_examples=40)
@given(st.text(st.sampled_from("潮、。「」ーっ…— A1290１!?！LOCKé゛"), min_size=1, max_size=30))
def test_no_character_is_lost_in_a_column(text: str) -> None:
    """All glyphs with ink are there, and stand inside the em or what it takes for turned ones."""
    words = measure(text, lettering(), language="ja")
    shown = "".join(words.slice_text(p, p) for p in range(len(words)))
    assert shown.replace(" ", "") == "".join(words.text.split())
    assert "".join(words.text.split()) == "".join(text.split())
    if len(words):
        whole = words.line(0, len(words) - 1)
        assert whole.width_mm >= 0
        assert np.isfinite(whole.ink).all()
