"""Vertical text: fitted in its own frame, turned by 90 degrees, and brought back to the page's."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.families import FAMILIES, family, is_plain
from letterfit.fit.dressing import fit_words, fit_words_into, set_shapes, words_front, words_shapes
from letterfit.fit.model import FittedBalloon
from letterfit.fit.turned import exchanged, on_page, turned_aspect
from letterfit.lettering.words import Glyph, SetLine, Words
from letterfit.outline import Ellipse, Floats, Outline
from tests.words import box_words

EM = 2.0
AIR = 0.8

TEXTS = st.lists(st.integers(1, 9).map(float), min_size=1, max_size=14)
FAMILY = st.sampled_from(sorted(filter(is_plain, FAMILIES)))


def column_words(widths: list[float], *, overhang: float = 0.0) -> Words:
    """Vertical words of boxes, each a column's em wide."""
    return box_words(
        widths, joiners=[""] * len(widths), cap_height=EM, overhang=overhang, vertical=True
    )


def twin(words: Words) -> Words:
    """The same numbers as horizontal text."""
    return replace(words, vertical=False)


def polygon(outline: Outline) -> shapely.Polygon:
    """The outline as a polygon of 4,000 sides on its boundary, a little inside it."""
    return shapely.Polygon(outline.boundary(np.linspace(0, 2 * np.pi, 4000, endpoint=False)))


def page_ink(words: Words, balloon: FittedBalloon) -> Floats:
    """The corners of all ink boxes in page coordinates, from where the columns are said to stand.

    A column's text is its pieces' texts: they are looked up in order, and each piece's box is put
    along the column by its place in the text.
    """
    corners, first = [], 0
    for line in balloon.lines:
        last, text = first, words.pieces[first].text
        while text != line.text:
            last += 1
            text += words.pieces[last].text
        for piece, start in zip(
            words.pieces[first : last + 1], words.starts[first : last + 1], strict=True
        ):
            left, top, right, bottom = piece.ink[0]
            for along in (left, right):
                for across in (top, bottom):
                    down = line.baseline_mm + start - words.starts[first] + along
                    corners.append((line.x_mm - (across + EM / 2), down))
        first = last + 1
    assert first == len(words.pieces)
    return np.array(corners)


@given(half=st.tuples(st.floats(0.5, 50), st.floats(0.5, 50)), name=FAMILY)
def test_exchanging_axes_twice_gives_the_same_outline(half: tuple[float, float], name: str) -> None:
    """Two exchanges are the identity; one keeps area and kind and swaps the supports."""
    outline = family(name).make(*half)
    other = exchanged(outline)
    angles = np.linspace(0, np.pi / 2, 7)
    assert exchanged(other) == outline
    assert other.kind == outline.kind
    assert other.area_mm2 == pytest.approx(outline.area_mm2)
    assert other.support(np.pi / 2 - angles) == pytest.approx(outline.support(angles))


@settings(max_examples=25)
@given(widths=TEXTS, name=FAMILY)
def test_ink_keeps_its_air_on_the_page(widths: list[float], name: str) -> None:
    """No corner of ink, in page coordinates, is nearer to the outline than the air (by shapely)."""
    words = column_words(widths, overhang=0.2)
    balloon = fit_words(words, outline=name, air_mm=AIR)
    points = page_ink(words, balloon)
    around = polygon(balloon.outline)
    nearest = min(around.exterior.distance(shapely.Point(point)) for point in points)
    assert all(around.contains(shapely.Point(point)) for point in points)
    assert nearest >= AIR - 1e-3
    assert nearest == pytest.approx(balloon.clearance_mm, abs=1e-3)


@settings(max_examples=25)
@given(widths=TEXTS, name=FAMILY)
def test_a_vertical_balloon_is_the_horizontal_one_turned(widths: list[float], name: str) -> None:
    """Same breaks, same looks, half-sides exchanged; columns run from right to left."""
    words = column_words(widths)
    balloon, flat = (fit_words(w, outline=name, air_mm=AIR) for w in (words, twin(words)))
    assert balloon.vertical
    assert not flat.vertical
    assert [line.text for line in balloon.lines] == [line.text for line in flat.lines]
    assert "".join(line.text for line in balloon.lines) == words.text
    assert balloon.outline == exchanged(flat.outline)
    assert (balloon.looks, balloon.clearance_mm) == (flat.looks, flat.clearance_mm)
    columns = [line.x_mm for line in balloon.lines]
    assert columns == sorted(columns, reverse=True)
    assert sum(columns) == pytest.approx(0, abs=1e-9)
    middles = [line.baseline_mm + line.width_mm / 2 for line in balloon.lines]
    assert middles == pytest.approx([0] * len(middles))


def test_vertical_balloons_are_higher_than_wide() -> None:
    """Without an aspect asked for, the family's range is that of height over width."""
    words = column_words([2.0] * 30)
    for name in filter(is_plain, FAMILIES):
        assert fit_words(words, outline=name).outline.aspect <= 1


def test_an_aspect_is_width_over_height_as_the_page_sees_it() -> None:
    """A range of aspects asked for is kept, upright or lying."""
    words = column_words([2.0] * 30)
    for low, high in ((0.4, 0.5), (1.5, 1.6)):
        assert low <= fit_words(words, aspect=(low, high)).outline.aspect <= high
    assert turned_aspect(words, (0.5, 2.0)) == (0.5, 2.0)
    with pytest.raises(OutlineError, match=r"from 2\.0 to 1\.0"):
        fit_words(words, aspect=(2.0, 1.0))


def test_a_given_outline_is_kept_and_its_overflow_stands_upright() -> None:
    """The outline comes back as given; what would hold all words has its aspect."""
    words = column_words([2.0] * 40)
    tall = Ellipse(half_width=12, half_height=22)
    assert fit_words_into(words, tall, air_mm=AIR).outline == tall
    small = Ellipse(half_width=5, half_height=11)
    over = fit_words_into(words, small, air_mm=AIR)
    assert over.outline == small
    assert over.overflow is not None
    assert over.overflow.outline.aspect == pytest.approx(5 / 11)
    flat = fit_words_into(twin(words), exchanged(small), air_mm=AIR)
    assert flat.overflow is not None
    assert (over.overflow.words, over.overflow.size_pt) == (
        flat.overflow.words,
        flat.overflow.size_pt,
    )


def test_a_front_is_the_widest_first_on_the_page() -> None:
    """Fronts of vertical text are sorted as all fronts, and each shape sets to its own outline."""
    words = column_words([2.0] * 24)
    shapes = words_shapes(words, room=(14.0, 40.0))
    widths = [shape.outline.half_width for shape in shapes]
    assert len(shapes) > 1
    assert widths == sorted(widths, reverse=True)
    front = words_front(words, room=(14.0, 40.0))
    assert [balloon.outline for balloon in front] == [shape.outline for shape in shapes]
    assert set_shapes([words], shapes[:1], air_mm=1.2) == front[:1]


def test_room_is_asked_for_as_the_page_sees_it() -> None:
    """A narrow room gets shapes that a wide one does not need."""
    words = column_words([2.0] * 24)
    narrow = words_shapes(words, room=(9.0, 200.0))
    turned = words_shapes(twin(words), room=(200.0, 9.0))
    assert [s.outline for s in narrow] == [exchanged(s.outline) for s in reversed(turned)]
    assert len(narrow) > len(words_shapes(words))


def test_glyphs_stand_from_the_top_of_the_centre_line() -> None:
    """A glyph half an em over the text's baseline stands on the column's centre line."""
    glyph = Glyph("Face", 7, 1.5, -EM / 2, EM)
    words = column_words([4.0])
    line = SetLine("AAAA", 4.0, words.pieces[0].ink, (glyph,))
    balloon = fit_words(replace(words, reshaped={(0, 0): line}))
    assert balloon.lines[0].glyphs == (glyph._replace(x_mm=0.0, y_mm=1.5),)
    assert balloon.lines[0].vertical
    assert (balloon.lines[0].x_mm, balloon.lines[0].baseline_mm) == (0.0, -2.0)


def test_horizontal_text_comes_back_untouched() -> None:
    """For horizontal words the way to the page is no way at all: the very same value."""
    words = twin(column_words([3.0, 4.0]))
    balloon = fit_words(words)
    assert on_page(words, balloon) is balloon
    assert turned_aspect(words, (1.0, 2.0)) == (1.0, 2.0)
