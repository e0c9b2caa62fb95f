"""The least area of a balloon from which words went: never over what any removal really leaves."""

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import letterfit as lf
from letterfit.cuts.least_area import LeastAreas, least_areas
from letterfit.cuts.mend import forms, mended
from letterfit.cuts.tables import cut_table
from letterfit.cuts.tokens import Token, joined, tokens_of
from letterfit.fit.dressing import fit_words, words_shapes
from letterfit.lettering.measuring import measure
from letterfit.lettering.words import Words
from tests.box_font import box_font
from tests.plays import speeches

PLAIN = lf.Lettering()
BOX = lf.Lettering(typeface=lf.open_typeface(box_font()), case="as-typed")
TEXTS = [s.text for s in speeches("hamlet", max_words=14) if len(s.text.split()) >= 3][:300]
FAMILIES = ("ellipse", "superellipse", "rounded", "caption", "cloud", "burst", "squared")
EVERYWHERE = (500.0, 500.0)


def measured(text: str, lettering: lf.Lettering = PLAIN) -> Words:
    """A text measured."""
    return measure(text, lettering)


def smallest(text: str, family: str, lettering: lf.Lettering = PLAIN) -> float:
    """The area of the core of its smallest balloon, mm2."""
    words = measured(text, lettering)
    fitted = fit_words(words, outline=family, air_mm=lettering.air_mm, slack=0)
    return fitted.outline.core.area_mm2


def bound(
    text: str,
    family: str = "ellipse",
    *,
    lettering: lf.Lettering = PLAIN,
    inside: tuple[float, float] = EVERYWHERE,
) -> LeastAreas | None:
    """Its bound for any number of words."""
    return least_areas(
        tokens_of(text),
        family,
        measure=lambda left: measured(left, lettering),
        air_mm=lettering.air_mm,
        inside=inside,
        now_mm2=smallest(text, family, lettering),
        most=40,
    )


def left(tokens: tuple[Token, ...], gone: set[int]) -> tuple[str, str]:
    """What is left as typed, and with its marks mended."""
    kept = joined(token for k, token in enumerate(tokens) if k not in gone)
    return kept, mended(tokens, gone, table=cut_table("en"))


@settings(max_examples=25, deadline=None)
@given(
    text=st.sampled_from(TEXTS),
    family=st.sampled_from(FAMILIES),
    box=st.booleans(),
    data=st.data(),
)
def test_no_removal_leaves_less(text: str, family: str, *, box: bool, data: st.DataObject) -> None:
    """Whatever goes, as typed or mended, the smallest balloon is as large as the bound, or more."""
    lettering = BOX if box else PLAIN
    tokens = tokens_of(text)
    gone = data.draw(st.sets(st.sampled_from(range(len(tokens))), max_size=len(tokens) - 1))
    least = bound(text, family, lettering=lettering)
    assert least is not None
    words = sum(tokens[k].words for k in gone)
    for after in left(tokens, gone):
        assert least.at(words) <= smallest(after, family, lettering)


def test_every_removal_of_a_short_text() -> None:
    """All of them, each number of words: the bound is under the least, and not far under."""
    text = "Hold the gate, Wenna; the tide turns."
    tokens, least = tokens_of(text), bound(text)
    assert least is not None
    for size in range(len(tokens)):
        real = min(
            smallest(after, "ellipse")
            for gone in combinations(range(len(tokens)), size)
            for after in left(tokens, set(gone))
        )
        assert least.areas[size] <= real
        assert size > 3 or least.areas[size] >= 0.85 * real


@pytest.mark.parametrize("text", TEXTS[:60:12])
def test_no_shape_that_is_placed_is_smaller(text: str) -> None:
    """The bound holds for every shape of the front, of which the placing chooses."""
    least = bound(text)
    assert least is not None
    shapes = words_shapes(measured(text), outline="ellipse", air_mm=PLAIN.air_mm)
    assert all(shape.area_mm2 >= least.areas[0] for shape in shapes)


def test_more_words_gone_never_ask_for_more() -> None:
    """The bound falls, and what it thinks best has no more words than asked for."""
    text = "Well, I really think that we ought to wait here a little longer, old thing."
    least, tokens = bound(text), tokens_of(text)
    assert least is not None
    assert list(least.areas) == sorted(least.areas, reverse=True)
    assert len(least.areas) == len(tokens)
    for words, gone in enumerate(least.likely):
        assert sum(tokens[k].words for k in gone) <= words


def test_what_enters_no_room_is_infinite() -> None:
    """A room too narrow for the longest word: no removal that keeps it does."""
    narrow = bound("Notwithstanding everything, go.", inside=(12.0, 40.0))
    assert narrow is not None
    assert math.isinf(narrow.areas[0])
    assert narrow.areas[-1] < math.inf


def test_words_that_do_not_add_up_prove_nothing() -> None:
    """Columns, flush lines and faces that look over spaces."""
    text = "Hold the gate a little longer."
    for lettering in (
        lf.Lettering(align="start"),
        lf.Lettering(typeface=lf.open_typeface(box_font(contextual=True))),
    ):
        assert bound(text, lettering=lettering) is None


def test_a_word_may_lose_its_mark_and_take_a_capital() -> None:
    """What mending can make of a word is among its forms."""
    tokens = tokens_of("Wait, old thing. the gate is shut, Wenna!")
    every = {form.text for token in tokens for form in forms(token)}
    for size in (1, 2):
        for gone in combinations(range(len(tokens)), size):
            for token in tokens_of(mended(tokens, set(gone), table=cut_table("en"))):
                bare = token.text.rstrip(".,!")
                assert bare in every
