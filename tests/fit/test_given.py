"""A text in a given outline: fit, or overflow by words, by size and by outline."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.errors import OutlineError
from letterfit.fit.aspects import unit_outline
from letterfit.fit.dressing import fit_words, fit_words_into
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse, RoundedRect, Superellipse
from letterfit.separation import clearance
from tests.fit.texts import airs, all_stacks, corners, names, texts
from tests.words import box_words

sizes = st.floats(0.8, 16)
aspects = st.floats(0.6, 3)


def fits_somehow(words: Words, name: str, *, aspect: float, half_height: float, air: float) -> bool:
    """Whether any breaking keeps its air in the outline, by enumeration."""
    outline = unit_outline(name, aspect).scaled(half_height)
    return any(
        clearance(outline, corners(words, stack)) >= air - 1e-9 for stack in all_stacks(words)
    )


@settings(max_examples=25)
@given(texts(), names, airs, sizes, aspects)
def test_fits_exactly_when_some_breaking_does(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """The verdict is that of enumeration, and a balloon that fits keeps its air."""
    outline = unit_outline(name, aspect).scaled(half_height)
    found = fit_words_into(words, outline, air_mm=air)
    expected = fits_somehow(words, name, aspect=aspect, half_height=half_height, air=air)
    assert found.fits == expected
    assert found.outline == outline
    if found.lines:
        assert found.clearance_mm >= air - 1e-9
    if found.fits:
        assert "".join(line.text for line in found.lines).replace(" ", "") == words.text.replace(
            " ", ""
        )


@settings(max_examples=25)
@given(texts(), names, airs, sizes, aspects)
def test_overflow_tells_what_would_fit(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """The outline and the size promised do fit; one a little smaller or larger does not."""
    outline = unit_outline(name, aspect).scaled(half_height)
    over = fit_words_into(words, outline, air_mm=air).overflow
    if over is None:
        return
    assert over.outline.aspect == pytest.approx(aspect, rel=1e-9)
    assert fit_words_into(words, over.outline, air_mm=air).fits
    assert not fit_words_into(words, over.outline.scaled(0.9999), air_mm=air).fits
    assert (over.size_pt is None) == (min(outline.half_width, outline.half_height) <= air)
    if over.size_pt is not None:
        assert over.size_pt < words.size_pt
        factor = over.size_pt / words.size_pt
        assert fit_words_into(words.scaled(factor), outline, air_mm=air).fits
        assert not fit_words_into(words.scaled(factor * 1.0001), outline, air_mm=air).fits


@settings(max_examples=25)
@given(texts(), names, airs, sizes, aspects)
def test_as_many_words_as_possible_are_set(
    words: Words, name: str, air: float, half_height: float, aspect: float
) -> None:
    """The words left over are the fewest over all beginnings of the text and their breakings."""
    outline = unit_outline(name, aspect).scaled(half_height)
    found = fit_words_into(words, outline, air_mm=air)
    most = 0
    for stack in all_stacks(words):
        for lines in range(1, len(stack)):
            begun = stack[: lines + 1]
            if clearance(outline, corners(words, begun)) >= air - 1e-9:
                most = max(most, begun[-1])
    assert len(words) - (found.overflow.words if found.overflow else 0) == most


@settings(max_examples=25)
@given(texts(most=10), names, sizes, aspects, st.floats(1, 2))
def test_a_larger_outline_never_overflows_more(
    words: Words, name: str, half_height: float, aspect: float, factor: float
) -> None:
    """Grown by any factor, no more words are left over and no smaller type is needed."""
    outline = unit_outline(name, aspect).scaled(half_height)
    small = fit_words_into(words, outline).overflow
    large = fit_words_into(words, outline.scaled(factor)).overflow
    if small is None:
        assert large is None
    if large is not None:
        assert small is not None
        assert large.words <= small.words
        if small.size_pt is not None:
            assert large.size_pt is not None
            assert large.size_pt >= small.size_pt * (1 - 1e-9)


@given(texts(most=9), names)
def test_the_smallest_balloon_holds_its_text(words: Words, name: str) -> None:
    """What `fit_words` makes, `fit_words_into` fills."""
    made = fit_words(words, outline=name, slack=0)
    assert fit_words_into(words, made.outline.scaled(1 + 1e-9)).fits


@pytest.mark.parametrize(
    "outline",
    [
        Superellipse(half_width=30, half_height=14, exponent=4),
        RoundedRect(half_width=30, half_height=14, radius=3),
        Ellipse(half_width=8, half_height=40),
    ],
    ids=lambda outline: outline.kind,
)
def test_outlines_of_no_family_are_taken(
    outline: Ellipse | Superellipse | RoundedRect,
) -> None:
    """Any exponent, radius and aspect; the overflow's outline is the given one grown."""
    draw = np.random.default_rng(4)
    words = box_words(draw.uniform(1, 9, 90).tolist(), space=0.7)
    over = fit_words_into(words, outline).overflow
    assert over is not None
    factor = over.outline.half_width / outline.half_width
    turn = np.linspace(0, 3, 50)
    grown = outline.scaled(factor).support(turn)
    np.testing.assert_allclose(over.outline.support(turn), grown, rtol=1e-12)
    assert fit_words_into(words, over.outline).fits


def test_a_roomy_outline_is_filled_as_evenly_as_a_tight_one() -> None:
    """In an outline twice too large the lines keep the shape that suits it, not one long line."""
    words = box_words([5.0] * 12, space=0.8)
    tight = fit_words(words, aspect=(1.5, 1.5))
    roomy = fit_words_into(words, tight.outline.scaled(2.0))
    assert abs(len(roomy.lines) - len(tight.lines)) <= 1


def test_an_outline_too_small_for_a_letter_is_an_honest_overflow() -> None:
    """All words are left over, no size fits, and the outline that would do is given."""
    found = fit_words_into(box_words([5.0, 5.0]), Ellipse(half_width=1, half_height=1))
    assert found.lines == ()
    assert found.overflow is not None
    assert found.overflow.words == 2
    assert found.overflow.size_pt is None
    assert found.overflow.outline.half_width > 4


def test_long_texts_end() -> None:
    """Eight hundred words into a small outline: an overflow, at once."""
    words = box_words([4.0] * 800, space=0.7)
    found = fit_words_into(words, Ellipse(half_width=20, half_height=12))
    assert found.overflow is not None
    assert 700 < found.overflow.words < 800


def test_bad_air_is_refused() -> None:
    """NaN air raises OutlineError."""
    with pytest.raises(OutlineError, match="air of"):
        fit_words_into(box_words([3.0]), Ellipse(half_width=9, half_height=9), air_mm=math.nan)


@pytest.mark.parametrize("side", [5e-41, 5e-4, 2e5, 5e307])
def test_an_outline_of_no_size_or_too_large_is_refused(side: float) -> None:
    """Sides that no page could show are bad input, told in one line."""
    with pytest.raises(OutlineError, match="half-side"):
        fit_words_into(box_words([3.0]), Ellipse(half_width=side, half_height=10.0))
