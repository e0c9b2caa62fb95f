"""The balloon for a text: nothing lost, nothing touching, little larger than the smallest."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.fit.dressing import fit_texts, fit_words
from letterfit.fit.looks import LONE_SLACK
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.texts import (
    airs,
    all_stacks,
    ink_polygons,
    least_area,
    names,
    polygon,
    stack_of,
    texts,
)
from tests.words import box_words


@settings(max_examples=25)
@given(texts(most=14), names, airs)
def test_no_word_is_lost(words: Words, name: str, air: float) -> None:
    """The lines one after the other are the text, in order, forced ends kept."""
    found = fit_words(words, outline=name, air_mm=air)
    stack = stack_of(words, found)
    assert stack[-1] == len(words)
    assert set((np.flatnonzero(words.forced) + 1).tolist()) <= set(stack)
    assert found.text == words.text
    assert found.words == words.count
    assert found.fits


@settings(max_examples=25)
@given(texts(most=14), names, airs, st.sampled_from([0.0, 0.06]))
def test_ink_keeps_its_air(words: Words, name: str, air: float, slack: float) -> None:
    """The ink boxes are as far from a 2,000-gon of the outline as the air, by shapely."""
    found = fit_words(words, outline=name, air_mm=air, slack=slack)
    shape, ink = polygon(found.outline), ink_polygons(words, found)
    assert shape.buffer(1e-2).contains(ink)
    # The polygon lies inside the outline by less than its sagitta.
    sagitta = 2e-5 * found.outline.half_width
    assert shape.exterior.distance(ink) >= air - sagitta
    assert found.clearance_mm >= air - 1e-9
    assert found.clearance_mm == pytest.approx(air, abs=1e-6 * found.outline.half_width)


@settings(max_examples=25)
@given(texts(most=14), names, airs, st.sampled_from([0.01, 0.06, 0.2]))
def test_area_stays_within_the_slack(words: Words, name: str, air: float, slack: float) -> None:
    """At most the slack larger than the smallest; thrice as much to be rid of a lone short word."""
    least = fit_words(words, outline=name, air_mm=air, slack=0)
    found = fit_words(words, outline=name, air_mm=air, slack=slack)
    assert least.area_mm2 <= found.area_mm2 * (1 + 1e-7)
    if found.area_mm2 > least.area_mm2 * (1 + slack) * (1 + 2e-4):
        assert not _lone(words, stack_of(words, found))
        assert _lone(words, stack_of(words, least))
        assert found.area_mm2 <= least.area_mm2 * (1 + LONE_SLACK * slack) * (1 + 2e-4)


@pytest.mark.parametrize(
    ("name", "widths"),
    [
        ("rounded", (4, 6, 4, 9, 2, 3, 3, 4, 3, 9, 3, 2)),
        ("superellipse", (9, 3, 4, 9, 6, 4, 9, 6, 9, 4, 2)),
        ("superellipse", (3, 2, 4, 6, 6, 9, 3, 6, 9)),
    ],
)
def test_the_slack_is_reckoned_from_the_least_area_at_any_aspect(
    name: str, widths: tuple[float, ...]
) -> None:
    """Texts whose smallest outline has an aspect between those that are looked at first."""
    words = box_words(widths)
    least = fit_words(words, outline=name, slack=0)
    found = fit_words(words, outline=name, slack=0.03)
    assert found.area_mm2 <= least.area_mm2 * 1.03 * (1 + 2e-4)


def test_a_lone_short_word_is_worth_some_area() -> None:
    """Four short words: two and two, though one, two and one would be smaller."""
    words = measure("Do you think so?", Lettering())
    assert [line.text for line in fit_words(words, slack=0).lines] == ["DO", "YOU THINK", "SO?"]
    assert [line.text for line in fit_words(words).lines] == ["DO YOU", "THINK SO?"]


@settings(max_examples=25)
@given(texts(most=6, least=2), st.sampled_from(["ellipse", "caption"]))
def test_a_lone_short_word_stays_only_if_nothing_avoids_it(words: Words, name: str) -> None:
    """Whenever the first or last line is a lone short word, enumeration finds none without."""
    found = fit_words(words, outline=name)
    if not _lone(words, stack_of(words, found)):
        return
    aspect = {"ellipse": (1.0, 2.6), "caption": (1.0, 14.0)}[name]
    most = fit_words(words, outline=name, slack=0).area_mm2 * (1 + LONE_SLACK * 0.06)
    for stack in all_stacks(words):
        if not _lone(words, stack):
            assert least_area(words, stack, name, air=1.2, aspect=aspect) > most * (1 - 2e-3)


def _lone(words: Words, stack: tuple[int, ...]) -> bool:
    """Whether the first or the last of several lines is one word of at most three letters."""
    if len(stack) == 2:
        return False
    ends = ((stack[0], stack[1]), (stack[-2], stack[-1]))
    return any(j - i == 1 and len(words.pieces[i].text) <= 3 for i, j in ends)


@settings(max_examples=20)
@given(texts(most=9), names)
def test_the_same_text_gives_the_same_balloon(words: Words, name: str) -> None:
    """Determinism: asked twice, the answer is equal to the last bit."""
    assert fit_words(words, outline=name) == fit_words(words, outline=name)


@pytest.mark.parametrize("name", ["ellipse", "superellipse", "rounded", "caption"])
@pytest.mark.parametrize("count", [1, 2, 60, 320])
def test_short_and_long_texts_fit(name: str, count: int) -> None:
    """One word, two, sixty and three hundred and twenty."""
    draw = np.random.default_rng(count)
    words = box_words(draw.uniform(1, 9, count).tolist(), space=0.7)
    found = fit_words(words, outline=name)
    assert sum(line.text.count(" ") + 1 for line in found.lines) == count
    assert found.clearance_mm >= 1.2 - 1e-9


def test_a_word_of_500_letters_fits() -> None:
    """A single endless word makes a wide balloon, alone or among others."""
    for widths in ([600.0], [3.0, 600.0, 3.0]):
        found = fit_words(box_words(widths))
        assert found.outline.half_width > 300
        assert found.fits


def test_a_range_of_aspects_is_kept() -> None:
    """The outline's aspect lies in the range asked for, narrow or wide."""
    words = box_words([5.0] * 12)
    for low, high in ((0.5, 0.7), (1.5, 1.5), (3.0, 4.0)):
        aspect = fit_words(words, aspect=(low, high)).outline.aspect
        assert low * (1 - 1e-9) <= aspect <= high * (1 + 1e-9)


@pytest.mark.parametrize("air", [-0.1, math.nan, math.inf])
def test_air_that_is_no_distance_is_refused(air: float) -> None:
    """Negative, NaN and infinite air raise OutlineError."""
    with pytest.raises(OutlineError, match="air of"):
        fit_words(box_words([3.0]), air_mm=air)


@pytest.mark.parametrize("slack", [-0.1, math.nan, math.inf])
def test_slack_that_is_no_share_is_refused(slack: float) -> None:
    """Negative, NaN and infinite slack raise OutlineError."""
    with pytest.raises(OutlineError, match="slack of"):
        fit_words(box_words([3.0]), slack=slack)


@pytest.mark.parametrize("size", [0.0, -1.0, math.nan])
def test_type_that_has_no_size_is_refused(size: float) -> None:
    """Sizes of 0, under 0 and NaN raise OutlineError."""
    with pytest.raises(OutlineError, match="cannot be set"):
        fit_words(box_words([3.0], size_pt=size))


def test_no_text_is_refused() -> None:
    """A text without visible characters makes no balloon."""
    with pytest.raises(OutlineError, match="no text"):
        fit_words(box_words([3.0]).first(0))


def test_more_than_1000_words_are_refused() -> None:
    """A text that is no balloon is refused before anything is computed."""
    with pytest.raises(OutlineError, match="too many for one balloon"):
        fit_words(box_words([3.0] * 1001))


@settings(max_examples=15)
@given(st.lists(texts(most=12), min_size=1, max_size=4), names, airs)
def test_texts_together_are_set_as_each_alone(several: list[Words], name: str, air: float) -> None:
    """Short and long, with forced line ends and without, to the last bit."""
    alone = [fit_words(words, outline=name, air_mm=air) for words in several]
    assert list(fit_texts(several, outline=name, air_mm=air)) == alone
