"""Lines that begin together, at the left, at the right or at the top of columns."""

from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.families import FAMILIES, is_plain
from letterfit.fit.dressing import fit_words, fit_words_into, words_front
from letterfit.fit.flush import _stacks
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse, Floats
from tests.words import box_words

AIR = 0.8
TEXTS = st.lists(st.integers(1, 9).map(float), min_size=1, max_size=12)
FAMILY = st.sampled_from(sorted(filter(is_plain, FAMILIES)))


def flush_words(widths: list[float], *, forced: tuple[int, ...] = (), rtl: bool = False) -> Words:
    """Words of boxes whose lines begin together."""
    return replace(box_words(widths, forced=forced, rtl=rtl), flush=True)


def ink_points(balloon: FittedBalloon) -> Floats:
    """The corners of the lines of boxes: each line's ink is as wide as its advance, 2 mm high."""
    corners = [
        (x, y)
        for line in balloon.lines
        for x in (line.x_mm, line.x_mm + line.width_mm)
        for y in (line.baseline_mm, line.baseline_mm - 2.0)
    ]
    return np.array(corners)


@settings(max_examples=25)
@given(widths=TEXTS, name=FAMILY, rtl=st.booleans())
def test_lines_begin_together_and_keep_their_air(
    widths: list[float], name: str, *, rtl: bool
) -> None:
    """One edge for all lines, no word lost, the nearest ink as far as the air (by shapely)."""
    words = flush_words(widths, rtl=rtl)
    balloon = fit_words(words, outline=name, air_mm=AIR)
    edges = [line.x_mm + (line.width_mm if rtl else 0.0) for line in balloon.lines]
    assert edges == pytest.approx([edges[0]] * len(edges))
    assert " ".join(line.text for line in balloon.lines) == words.text
    outline = balloon.outline
    around = shapely.Polygon(outline.boundary(np.linspace(0, 2 * np.pi, 4000, endpoint=False)))
    points = [shapely.Point(point) for point in ink_points(balloon)]
    assert all(around.contains(point) for point in points)
    assert min(map(around.exterior.distance, points)) == pytest.approx(AIR, abs=2e-3)


@settings(max_examples=25)
@given(widths=st.lists(st.integers(1, 9).map(float), min_size=2, max_size=8), data=st.data())
def test_of_so_many_lines_the_longest_is_the_shortest(
    widths: list[float], data: st.DataObject
) -> None:
    """The first stack of each height has the least longest line of all, by enumeration."""
    words = flush_words(widths)
    count = data.draw(st.integers(1, len(widths)))
    stack = _stacks(words, count)[0]
    every = [(0, *cuts, len(widths)) for cuts in combinations(range(1, len(widths)), count - 1)]
    assert longest(words, stack) == pytest.approx(min(longest(words, each) for each in every))


def longest(words: Words, stack: tuple[int, ...]) -> float:
    """The longest line of a stack."""
    return max(words.width(a, b - 1) for a, b in pairwise(stack))


def test_forced_ends_are_kept() -> None:
    """A line ends where it must, however the block looks."""
    balloon = fit_words(flush_words([3.0] * 9, forced=(0,)))
    assert len(balloon.lines[0].text) == 3


def test_a_front_of_flush_lines_is_a_front() -> None:
    """The widest first, each less high than the next, all lines of each beginning together."""
    front = words_front(flush_words([4.0, 6.0, 3.0, 5.0, 7.0, 2.0, 6.0]), room=(30.0, 80.0))
    widths = [balloon.outline.half_width for balloon in front]
    assert len(front) > 1
    assert widths == sorted(widths, reverse=True)
    for balloon in front:
        assert len({round(line.x_mm, 9) for line in balloon.lines}) == 1


def test_lines_that_do_not_go_in_flush_are_centred() -> None:
    """A given outline that holds the text only when it follows the outline is not refused."""
    words = flush_words([4.0, 10.0, 4.0])
    forced = replace(words, cut=replace(words.cut, musts=[True, True, True]))
    tight = fit_words(replace(forced, flush=False), slack=0).outline
    balloon = fit_words_into(forced, tight.scaled(1.001))
    assert balloon.fits
    assert sum(line.x_mm + line.width_mm / 2 for line in balloon.lines) == pytest.approx(0)
    roomy = fit_words_into(forced, tight.scaled(2.0))
    assert len({round(line.x_mm, 9) for line in roomy.lines}) == 1


def test_columns_begin_at_the_top() -> None:
    """In vertical text the common edge is the upper one."""
    words = replace(flush_words([4.0, 6.0, 3.0, 5.0, 7.0, 2.0]), vertical=True)
    balloon = fit_words(words)
    assert len(balloon.lines) > 1
    assert len({round(line.baseline_mm, 9) for line in balloon.lines}) == 1
    assert balloon.outline.aspect <= 1


def test_an_overflow_of_flush_lines_is_that_of_centred_ones() -> None:
    """Where nothing helps, what is over is told as for centred lines."""
    words = flush_words([5.0] * 20)
    small = Ellipse(half_width=10, half_height=6)
    flush, centred = (fit_words_into(w, small) for w in (words, replace(words, flush=False)))
    assert flush == centred
    assert flush.overflow is not None


def test_an_empty_given_outline_keeps_no_line() -> None:
    """A text of which no word goes in has no lines, flush or not."""
    balloon = fit_words_into(flush_words([50.0, 50.0]), Ellipse(half_width=5, half_height=5))
    assert balloon.lines == ()


def test_a_text_too_long_for_a_balloon_is_centred() -> None:
    """Over 300 pieces no block is looked for; shapes and what is set from them still agree."""
    words = flush_words([3.0] * 301)
    front = words_front(words)
    assert front == words_front(replace(words, flush=False))
    assert len(fit_words(words).lines) > 1
