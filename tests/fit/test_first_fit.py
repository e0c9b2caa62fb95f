"""First fit: one line after the other, each as long as its band of the outline allows."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.fit.aspects import unit_outline
from letterfit.fit.dressing import first_fit_into, fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse, RoundedRect
from tests.fit.texts import airs, ink_polygons, names, polygon, stack_of, texts
from tests.words import box_line, box_words

sizes = st.floats(2, 16)
aspects = st.floats(0.6, 3)
NEAR = 1e-3
"""mm: how far a polygon with its corners on the outline is from it, and more."""


def box_of(half_width: float, half_height: float) -> RoundedRect:
    """A box with sharp corners."""
    return RoundedRect(half_width=half_width, half_height=half_height, radius=0)


def bands(words: Words, balloon: FittedBalloon) -> list[shapely.Polygon]:
    """The height band of every line, as wide as its advance."""
    drop = (words.leading_mm + words.cap_height_mm) / 2
    tops = [line.baseline_mm - drop for line in balloon.lines]
    return [
        shapely.box(line.x_mm, top, line.x_mm + line.width_mm, top + words.leading_mm)
        for line, top in zip(balloon.lines, tops, strict=True)
    ]


@settings(max_examples=40)
@given(texts(most=9), names, airs, sizes, aspects)
def test_lines_and_their_ink_are_in_the_room(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """By shapely: every band and every ink box is inside the outline, by the air at least."""
    outline = unit_outline(name, aspect).scaled(half_height)
    found = first_fit_into(words, outline, air_mm=air)
    assert found.clearance_mm >= air - 1e-9
    shape = polygon(outline)
    for box in (*bands(words, found), *ink_polygons(words, found).geoms):
        assert shape.buffer(NEAR).contains(box)
        assert shape.exterior.distance(box) >= air - NEAR or air == 0


@settings(max_examples=40)
@given(texts(most=9), names, airs, sizes, aspects)
def test_no_line_could_take_more_nor_stand_higher(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """By shapely: with its next piece a line is out of the room, and so it is a little higher."""
    outline = unit_outline(name, aspect).scaled(half_height)
    found = first_fit_into(words, outline, air_mm=air)
    if not found.fits:
        return
    stack = stack_of(words, found)
    assert stack[-1] == len(words)
    drop = (words.leading_mm + words.cap_height_mm) / 2
    above = -outline.half_height + air
    for line, first, end in zip(found.lines, stack, stack[1:], strict=False):
        top = line.baseline_mm - drop
        if not words.forced[end - 1]:
            assert not in_room(words, (first, end + 1), top, outline=polygon(outline), air=air)
        if top > above + NEAR:
            higher = top - NEAR
            assert not in_room(
                words, (first, first + 1), higher, outline=polygon(outline), air=air - 1e-5
            )
        above = top + words.leading_mm


def in_room(
    words: Words, run: tuple[int, int], top: float, *, outline: shapely.Polygon, air: float
) -> bool:
    """Whether a line of pieces, its band's top at a height, keeps the air, by shapely."""
    line = words.line(run[0], run[1] - 1)
    half, drop = line.width_mm / 2, (words.leading_mm + words.cap_height_mm) / 2
    boxes = [shapely.box(-half, top, half, top + words.leading_mm)]
    if len(line.ink):
        left, high, right, low = line.bounds()
        far = max(half - left, right - half)
        boxes.append(shapely.box(-far, top + drop + high, far, top + drop + low))
    return all(outline.contains(b) and outline.exterior.distance(b) >= air for b in boxes)


@settings(max_examples=25)
@given(texts(most=9), names, airs, sizes, aspects)
def test_what_first_fit_sets_total_fit_sets(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """A stack that hangs from the top and goes in goes in when it is centred too."""
    outline = unit_outline(name, aspect).scaled(half_height)
    if first_fit_into(words, outline, air_mm=air).fits:
        assert fit_words_into(words, outline, air_mm=air).fits


@settings(max_examples=25)
@given(texts(most=9), names, airs, sizes, aspects)
def test_overflow_tells_what_would_do(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """The outline and the size promised hold all words; the words left over are those not set."""
    outline = unit_outline(name, aspect).scaled(half_height)
    found = first_fit_into(words, outline, air_mm=air)
    if found.overflow is None:
        return
    over = found.overflow
    left = len(words) - stack_of(words, found)[-1]
    assert over.words == words.word_counts[len(words) - left :].sum() > 0
    assert over.outline.aspect == pytest.approx(aspect, rel=1e-9)
    assert first_fit_into(words, over.outline, air_mm=air).fits
    assert (over.size_pt is None) == (min(outline.half_width, outline.half_height) <= air)
    if over.size_pt is not None:
        smaller = words.scaled(over.size_pt / words.size_pt * (1 - 1e-9))
        assert first_fit_into(smaller, outline, air_mm=air).fits


def test_a_first_word_moves_down_until_it_goes_in() -> None:
    """In a disc of 10 a word of 12 stands where the chord is 12: 8 over the middle (3, 4, 5)."""
    words = box_words([12.0], leading=3.0, cap_height=2.0)
    (line,) = first_fit_into(words, Ellipse(half_width=10, half_height=10), air_mm=0).lines
    assert line.baseline_mm == pytest.approx(-8 + 2.5, abs=1e-9)


def test_air_narrows_the_disc() -> None:
    """With air 2 the disc of 12 has the room of the disc of 10."""
    words = box_words([12.0, 4.0, 7.0], space=1.0, leading=3.0, cap_height=2.0)
    free = first_fit_into(words, Ellipse(half_width=10, half_height=10), air_mm=0)
    airy = first_fit_into(words, Ellipse(half_width=12, half_height=12), air_mm=2)
    for one, other in zip(free.lines, airy.lines, strict=True):
        assert other.baseline_mm == pytest.approx(one.baseline_mm, abs=1e-9)
        assert other.text == one.text


def test_in_a_box_lines_are_filled_in_turn() -> None:
    """A box of 10: 4 + 1 + 5 fills a line to the last, 4 + 1 + 5.01 does not."""
    box = box_of(5, 9)
    full = first_fit_into(box_words([4.0, 5.0, 2.0]), box, air_mm=0)
    over = first_fit_into(box_words([4.0, 5.01, 2.0]), box, air_mm=0)
    assert [line.width_mm for line in full.lines] == [10.0, 2.0]
    assert [line.width_mm for line in over.lines] == [4.0, pytest.approx(8.01)]


def test_ink_that_sticks_out_ends_a_line_earlier() -> None:
    """Two words are as wide as the box, but their ink overhangs: one goes in."""
    box = box_of(5, 9)
    found = first_fit_into(box_words([4.0, 5.0], overhang=0.2), box, air_mm=0)
    assert len(found.lines) == 2


def test_a_line_set_anew_counts_as_it_is_set() -> None:
    """The two words together, set anew, are narrower than their slice, and share a line."""
    box = box_of(5, 9)
    anew = {(0, 1): box_line("AAAA BBBBBB", 9.9)}
    found = first_fit_into(box_words([4.0, 5.5], reshaped=anew), box, air_mm=0)
    assert [line.width_mm for line in found.lines] == [9.9]


def test_half_a_word_is_not_left() -> None:
    """A word in two pieces whose end does not go in is left over whole."""
    words = box_words([3.0, 4.0, 4.0], joiners=[" ", "", ""], leading=3.0)
    found = first_fit_into(words, box_of(4, 1.5), air_mm=0)
    assert found.overflow is not None
    assert (len(found.lines), found.lines[0].width_mm, found.overflow.words) == (1, 3.0, 1)


def test_a_line_of_half_a_word_is_not_left() -> None:
    """Nor a line that holds only the beginning of a word whose end does not go in."""
    words = box_words([3.0, 4.0, 4.0], joiners=[" ", "", ""], leading=3.0)
    found = first_fit_into(words, box_of(2.5, 3), air_mm=0)
    assert found.overflow is not None
    assert (len(found.lines), found.lines[0].width_mm, found.overflow.words) == (1, 3.0, 1)


def test_first_fit_is_not_total_fit() -> None:
    """One line takes all it can, where total fit keeps a stack even."""
    words = box_words([4.0, 4.0, 4.0, 4.0, 4.0], space=1.0)
    outline = box_of(10, 8)
    assert [len(line.text.split()) for line in first_fit_into(words, outline).lines] == [3, 2]
    assert len(fit_words_into(words, outline).lines) != 2


def test_columns_are_filled_from_the_right() -> None:
    """Vertical text: columns begin at the right edge of the page's outline."""
    words = box_words([4.0, 4.0, 4.0], space=1.0, vertical=True)
    found = first_fit_into(words, box_of(12, 6), air_mm=0)
    assert found.vertical
    assert found.lines[0].x_mm == pytest.approx(12 - 1.5)
    assert [round(line.width_mm) for line in found.lines] == [9, 4]


@pytest.mark.parametrize("half", [1e-7, 1e9])
def test_outlines_that_are_no_balloon_are_refused(half: float) -> None:
    """As total fit refuses them: the search for what would do has an end."""
    with pytest.raises(OutlineError, match="is no balloon"):
        first_fit_into(box_words([3.0]), Ellipse(half_width=half, half_height=half))


@pytest.mark.parametrize("room", [math.ulp(1.2), 1e-12, 1e-7])
def test_hardly_any_room_is_none(room: float) -> None:
    """Where the air leaves less than a nanometre no size is promised, and the search ends."""
    outline = Ellipse(half_width=1.2 + room, half_height=20)
    found = first_fit_into(box_words([3.0, 4.0]), outline, air_mm=1.2)
    assert found.overflow is not None
    assert found.overflow.size_pt is None


def test_bad_air_and_no_words_are_refused() -> None:
    """As total fit refuses them."""
    disc = Ellipse(half_width=9, half_height=9)
    with pytest.raises(OutlineError, match="air of"):
        first_fit_into(box_words([3.0]), disc, air_mm=math.nan)
    with pytest.raises(OutlineError, match="no text"):
        first_fit_into(box_words([3.0]).first(0), disc)
