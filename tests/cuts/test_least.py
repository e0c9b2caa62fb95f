"""The least number of words to take out, against every subset there is."""

from collections.abc import Callable
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.cuts.bound import Bound
from letterfit.cuts.least import least_removal
from letterfit.cuts.tokens import Token, joined, tokens_of
from letterfit.fit.dressing import fit_words_into
from letterfit.lettering.measuring import measure
from tests.plays import speeches

LETTERING = lf.Lettering()
SHORT = [s.text for s in speeches("hamlet", max_words=8) if 2 <= len(s.text.split()) <= 8][:200]


def fitting(outline: lf.Outline) -> Callable[[str], bool]:
    """Whether a text fits an outline, the real way."""

    def fits(text: str) -> bool:
        words = measure(text, LETTERING)
        return fit_words_into(words, outline, air_mm=LETTERING.air_mm).fits

    return fits


def every_subset(tokens: tuple[Token, ...], fits: Callable[[str], bool]) -> int | None:
    """The least number of words by trying all removals."""
    best = None
    for size in range(len(tokens)):
        for gone in combinations(range(len(tokens)), size):
            words = sum(tokens[k].words for k in gone)
            if best is not None and words >= best:
                continue
            if fits(joined(t for k, t in enumerate(tokens) if k not in gone)):
                best = words
    return best


@settings(max_examples=8, deadline=None)
@given(
    text=st.sampled_from(SHORT),
    family=st.sampled_from(("ellipse", "superellipse", "rounded", "caption")),
    share=st.floats(0.5, 1.0),
    squash=st.floats(0.75, 1.25),
)
def test_the_least_number_is_that_of_all_subsets(
    text: str, family: str, share: float, squash: float
) -> None:
    """Bound and fit together find what trying every removal finds, and call it proved."""
    whole = lf.fit_balloon(text, LETTERING).outline
    outline = lf.FAMILIES[family].make(
        whole.half_width * share, max(whole.half_height * share * squash, 3.0)
    )
    tokens, fits = tokens_of(text), fitting(outline)
    found = least_removal(
        tokens,
        outline,
        measure=lambda left: measure(left, LETTERING),
        fits=fits,
        air_mm=LETTERING.air_mm,
    )
    assert found.at_most == every_subset(tokens, fits)
    if found.at_most is None:
        assert found.at_least == sum(token.words for token in tokens)
    else:
        assert found.proved
        assert fits(found.text)


@pytest.mark.parametrize("text", SHORT[:40:8])
def test_the_bound_allows_whatever_fits(text: str) -> None:
    """It is a bound from below: no removal that fits is ruled out."""
    outline = lf.fit_balloon(text, LETTERING).outline.scaled(0.8)
    tokens, fits = tokens_of(text), fitting(outline)
    bound = Bound.of(tokens, outline, measure=lambda t: measure(t, LETTERING), air=LETTERING.air_mm)
    assert bound is not None
    for size in range(1, min(len(tokens), 4)):
        for gone in combinations(range(len(tokens)), size):
            left = joined(t for k, t in enumerate(tokens) if k not in gone)
            assert bound.allows(gone) or not fits(left)


def test_a_bound_that_forbids_too_much_is_caught() -> None:
    """The check above can fail: a bound with half the rooms rules out what fits."""
    text = "Hold the gate a little longer, old thing."
    outline = lf.fit_balloon(text, LETTERING).outline.scaled(0.8)
    tokens, fits = tokens_of(text), fitting(outline)
    bound = Bound.of(tokens, outline, measure=lambda t: measure(t, LETTERING), air=LETTERING.air_mm)
    assert bound is not None
    narrow = {
        lines: [[[room / 2 for room in pair] for pair in row] for row in rows]
        for lines, rows in bound.rooms.items()
    }
    planted = Bound(tokens, bound.pieces, narrow)
    found = least_removal(
        tokens,
        outline,
        measure=lambda t: measure(t, LETTERING),
        fits=fits,
        air_mm=LETTERING.air_mm,
    )
    assert found.at_most is not None
    assert bound.removals(found.at_most)
    assert not planted.removals(found.at_most)


def test_a_long_speech_is_proved_too() -> None:
    """Twenty-five words in an outline of half the area: equal bounds."""
    text = next(s.text for s in speeches("hamlet") if len(s.text.split()) == 25)
    outline = lf.fit_balloon(text, LETTERING).outline.scaled(0.7)
    least = lf.least_cut(text, LETTERING, outline=outline)
    assert least.proved
    assert least.at_least > 5


def test_a_text_that_fits_loses_nothing() -> None:
    """Nought is the least number then."""
    outline = lf.Ellipse(half_width=40, half_height=30)
    assert lf.least_cut("Shut it.", outline=outline).at_most == 0


def test_where_no_word_fits_nothing_is_promised() -> None:
    """Then no number of removed words is enough."""
    outline = lf.Ellipse(half_width=2, half_height=2)
    least = lf.least_cut("The lock-keeper slept.", outline=outline)
    assert least.at_most is None
    assert not least.proved


def test_lines_from_right_to_left_are_not_proved() -> None:
    """The bound is for lines that start at the left: elsewhere only what fits is told."""
    text = "השער סגור מאז הלילה הארוך"
    outline = lf.fit_balloon(text, language="he").outline.scaled(0.7)
    least = lf.least_cut(text, outline=outline, language="he")
    assert least.at_least == 1
    assert least.at_most is not None


def test_where_the_budget_ends_both_bounds_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Then words go from the end: what is left fits, and is not called the least."""
    monkeypatch.setattr("letterfit.cuts.bound.MOST_STATES", 50)
    text = next(s.text for s in speeches("hamlet") if len(s.text.split()) == 25)
    outline = lf.fit_balloon(text, LETTERING).outline.scaled(0.7)
    least = lf.least_cut(text, LETTERING, outline=outline)
    assert not least.proved
    assert least.at_most is not None
    assert least.at_least < least.at_most
    assert fitting(outline)(least.text)
    assert text.startswith(least.text)
