"""The front of shapes a text can take."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.families import FAMILIES, is_plain
from letterfit.fit.dressing import fit_words, set_shapes, texts_shapes, words_front, words_shapes
from letterfit.fit.front import MOST_SHAPES
from letterfit.fit.judge import looks_cost
from letterfit.fit.looks import LONE_SLACK, LOST
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.box_font import box_font
from tests.fit.texts import (
    airs,
    all_stacks,
    corners,
    ink_polygons,
    names,
    polygon,
    sampled_area,
    stack_of,
    texts,
)
from tests.words import box_words


@settings(max_examples=25)
@given(texts(most=14), names, airs)
def test_shapes_go_from_wide_to_narrow_none_dominated(words: Words, name: str, air: float) -> None:
    """Each next one is narrower and higher; all hold the whole text with its air."""
    front = words_front(words, outline=name, air_mm=air)
    assert 1 <= len(front) <= MOST_SHAPES
    widths = [balloon.outline.half_width for balloon in front]
    heights = [balloon.outline.half_height for balloon in front]
    assert np.all(np.diff(widths) < 0)
    assert np.all(np.diff(heights) > 0)
    for balloon in front:
        assert stack_of(words, balloon)[-1] == len(words)
        assert balloon.clearance_mm >= air - 1e-9
        assert polygon(balloon.outline).buffer(1e-2).contains(ink_polygons(words, balloon))


@settings(max_examples=8)
@given(texts(most=9), names, st.sampled_from([0.0, 0.06, 0.2]))
def test_each_is_within_the_slack_of_the_best_for_its_aspect(
    words: Words, name: str, slack: float
) -> None:
    """The smallest balloon of the same aspect is at most the slack smaller."""
    for balloon in words_front(words, outline=name, slack=slack):
        aspect = balloon.outline.aspect
        least = fit_words(words, outline=name, aspect=(aspect, aspect), slack=0)
        assert balloon.area_mm2 <= least.area_mm2 * (1 + slack) * (1 + 1e-7)


@pytest.mark.parametrize("name", [n for n in FAMILIES if is_plain(n)])
def test_aspects_spread_over_the_range(name: str) -> None:
    """A text of many words has shapes from near the widest to near the narrowest aspect."""
    draw = np.random.default_rng(2)
    words = box_words(draw.uniform(1, 9, 40).tolist(), space=0.7)
    front = words_front(words, outline=name)
    low, high = FAMILIES[name].aspect
    logs = [math.log(balloon.outline.aspect / low) / math.log(high / low) for balloon in front]
    assert len(front) >= 5
    assert logs[0] > 0.75
    assert logs[-1] < 0.25


def test_bad_numbers_are_refused() -> None:
    """Air and slack are checked as for one balloon."""
    with pytest.raises(OutlineError, match="air of"):
        words_front(box_words([3.0]), air_mm=math.nan)
    with pytest.raises(OutlineError, match="slack of"):
        words_front(box_words([3.0]), slack=-1.0)
    with pytest.raises(OutlineError, match="no outline is called"):
        words_front(box_words([3.0]), outline="star")


def test_a_narrow_room_gets_shapes_of_its_own() -> None:
    """Where few aspects go in, the shapes are spread over these: the widest is nearly as wide."""
    words = box_words([3.0, 5.0, 4.0, 2.0, 6.0, 3.0, 5.0, 2.0, 4.0, 4.0])
    everywhere = words_front(words)
    narrowest = 2 * everywhere[-1].outline.half_width
    room = (narrowest * 1.02, 100.0)
    within = [b for b in words_front(words, room=room) if 2 * b.outline.half_width <= room[0]]
    before = [b for b in everywhere if 2 * b.outline.half_width <= room[0]]
    assert len(within) > len(before)
    assert min(b.outline.half_height for b in within) <= min(b.outline.half_height for b in before)


def test_a_wide_room_changes_nothing() -> None:
    """A room that takes every shape gets the front that no room at all gets."""
    words = box_words([3.0, 5.0, 4.0, 2.0, 6.0])
    shapes = [balloon.outline for balloon in words_front(words)]
    assert [balloon.outline for balloon in words_front(words, room=(500.0, 500.0))] == shapes


@given(texts(most=9), names, airs)
@settings(max_examples=20)
def test_a_shape_set_is_the_balloon_of_the_front(words: Words, name: str, air: float) -> None:
    """Choosing first and setting later gives what setting all of them gives."""
    shapes = words_shapes(words, outline=name, air_mm=air)
    later = list(set_shapes([words] * len(shapes), shapes, air_mm=air))
    front = words_front(words, outline=name, air_mm=air)
    assert [b.outline for b in later] == [b.outline for b in front]
    assert [b.lines for b in later] == [b.lines for b in front]
    assert [s.looks for s in shapes] == pytest.approx([b.looks for b in front], abs=0.3)
    for shape, balloon in zip(shapes, front, strict=True):
        assert balloon.outline.area_mm2 == pytest.approx(shape.area_mm2, rel=1e-9)


@given(texts(most=7), names, airs)
@settings(max_examples=10)
def test_no_breaking_beats_the_slack_at_a_shapes_own_aspect(
    words: Words, name: str, air: float
) -> None:
    """Every breaking asks for no less than its area but for the slack, by sampled directions.

    The slack is three times as much where the tightest leaves a short word alone.
    """
    stacks = list(all_stacks(words))
    inks = [np.abs(corners(words, stack)) for stack in stacks]
    for balloon in words_front(words, outline=name, air_mm=air):
        aspect = np.array([balloon.outline.aspect])
        areas = [sampled_area(ink, name, air=air, aspects=aspect) for ink in inks]
        tightest = stacks[int(np.argmin(areas))]
        lost = looks_cost(words, tightest, balloon.outline, air=air) >= LOST
        slack = 0.06 * (LONE_SLACK if lost else 1)
        assert balloon.area_mm2 <= min(areas) * (1 + slack) * (1 + 1e-5)


def test_a_short_word_is_kept_from_standing_alone_in_a_narrow_shape() -> None:
    """The tightest narrow shape puts "A" on a line of its own: a wider slack avoids it."""
    words = box_words([1.0, 6.0])
    narrow = words_front(words, air_mm=0.0)[-1]
    assert [line.text for line in narrow.lines] == ["A BBBBBB"]
    aspect = np.array([narrow.outline.aspect])
    alone = sampled_area(np.abs(corners(words, (0, 1, 2))), "ellipse", air=0.0, aspects=aspect)
    assert 1.06 < narrow.area_mm2 / alone < 1 + 0.06 * LONE_SLACK


def test_a_text_without_ink_has_shapes_too() -> None:
    """A blank that is no space, alone and beside another text, which is set as it is alone."""
    lettering = Lettering(typeface=open_typeface(box_font(blanks="\u2800")))
    blank, told = (measure(text, lettering) for text in ("\u2800", "The tide turned early."))
    ((alone,), usual) = (texts_shapes([words])[0] for words in (blank, told))
    assert 2 * alone.outline.half_height <= 2 * told.leading_mm
    assert texts_shapes([blank, told]) == ((alone,), usual)
    assert texts_shapes([told, blank]) == (usual, (alone,))
