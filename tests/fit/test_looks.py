"""Each cost of looks alone decides between two stacks that are equal in all else.

What is preferred is common practice among letterers, no source.
"""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.families import FAMILIES
from letterfit.fit import looks
from letterfit.fit.dressing import fit_words
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.words import box_words

OPEN = 10.0
"""A slack so large that only looks decide."""


def lines_of(words: Words, **changes: float) -> list[int]:
    """How many pieces each line of the best-looking stack holds, aspect held at 1.6."""
    found = fit_words(words, aspect=(1.6, 1.6), slack=changes.get("slack", 0.3))
    return [line.text.count(" ") + 1 for line in found.lines]


def without(monkeypatch: pytest.MonkeyPatch, *terms: str) -> None:
    """Switch cost terms off."""
    for term in terms:
        monkeypatch.setattr(looks, term, 0.0)


ALL = (
    "LONE_WORD",
    "SHORT_LINE",
    "THIN_WORD",
    "STEP",
    "PRICE",
    "UNEVENNESS",
    "PEAK",
    "SECOND",
    "ASPECT",
)


def only(monkeypatch: pytest.MonkeyPatch, term: str) -> None:
    """Switch all cost terms off but one."""
    without(monkeypatch, *(name for name in ALL if name != term))


def test_a_lone_short_word_is_avoided(monkeypatch: pytest.MonkeyPatch) -> None:
    """The word "A" stands on no line of its own when only lone words count."""
    words = box_words([1.0, 9, 9, 9, 1.0], cap_height=1.8, leading=2.9)
    only(monkeypatch, "LONE_WORD")
    counts = lines_of(words)
    assert counts[0] > 1
    assert counts[-1] > 1


def test_a_short_line_in_the_middle_is_avoided() -> None:
    """Three words of which the middle one is short: it goes with the last, at some area's cost."""
    words = measure("Ahoy, the lock!", Lettering())
    assert [line.text for line in fit_words(words, slack=0).lines] == ["AHOY,", "THE", "LOCK!"]
    assert [line.text for line in fit_words(words).lines] == ["AHOY,", "THE LOCK!"]


def test_a_thin_word_is_avoided(monkeypatch: pytest.MonkeyPatch) -> None:
    """Four letters alone at the top give way to two words when only that counts."""
    words = box_words([4.0, 4.0, 12, 6, 6], cap_height=1.8, leading=2.9)
    only(monkeypatch, "THIN_WORD")
    assert lines_of(words, slack=0.6)[0] > 1


def test_stacks_rise_and_fall(monkeypatch: pytest.MonkeyPatch) -> None:
    """When only steps count, the chosen stack rises and then falls."""
    draw = np.random.default_rng(5)
    only(monkeypatch, "STEP")
    for _ in range(12):
        words = box_words(draw.uniform(2, 8, 14).tolist(), space=0.7)
        widths = [line.width_mm for line in fit_words(words, slack=0.3).lines]
        peak = int(np.argmax(widths))
        assert np.all(np.diff(widths[: peak + 1]) >= -1e-6)
        assert np.all(np.diff(widths[peak:]) <= 1e-6)


def test_without_that_cost_some_stacks_do_not(monkeypatch: pytest.MonkeyPatch) -> None:
    """The negative control: with steps free, some of the same texts go up and down."""
    draw = np.random.default_rng(5)
    without(monkeypatch, "STEP", "UNEVENNESS", "PEAK")
    ragged = 0
    for _ in range(12):
        words = box_words(draw.uniform(2, 8, 14).tolist(), space=0.7)
        widths = [line.width_mm for line in fit_words(words, slack=0.3).lines]
        peak = int(np.argmax(widths))
        ragged += bool(
            np.any(np.diff(widths[: peak + 1]) < 0) or np.any(np.diff(widths[peak:]) > 0)
        )
    assert ragged > 0


def test_a_dear_break_is_avoided(monkeypatch: pytest.MonkeyPatch) -> None:
    """When only prices count, no line ends where the text dislikes it."""
    prices = [0.5, 0.0, 0.5, 0.5, 0.0, 0.5, 0.0]
    words = box_words([5.0] * 7, penalties=prices, space=0.8)
    only(monkeypatch, "PRICE")
    ends = np.cumsum(lines_of(words)) - 1
    assert all(prices[end] == 0 for end in ends[:-1].tolist())


def test_even_air_is_preferred(monkeypatch: pytest.MonkeyPatch) -> None:
    """When only evenness counts, the two halves of a text of equal words share it evenly."""
    words = box_words([5.0] * 6, space=0.8)
    only(monkeypatch, "UNEVENNESS")
    counts = lines_of(words)
    assert max(counts) - min(counts) <= 1


def test_the_longest_line_stands_in_the_middle(monkeypatch: pytest.MonkeyPatch) -> None:
    """When only the peak's place counts, the longest line is in the middle third."""
    words = box_words([6.0, 2, 2, 6, 3, 3, 6, 2, 2, 3], space=0.7)
    only(monkeypatch, "PEAK")
    widths = [line.width_mm for line in fit_words(words, slack=0.3).lines]
    place = (int(np.argmax(widths)) + 0.5) / len(widths)
    assert 1 / 3 <= place <= 2 / 3


def test_two_lines_have_the_first_longer_or_equal() -> None:
    """Of three equal words on two lines, two stand on the first."""
    words = box_words([8.0, 8.0, 8.0], space=0.8, leading=2.9, cap_height=1.8)
    found = fit_words(words, aspect=(3.0, 3.0))
    assert [line.text.count(" ") + 1 for line in found.lines] == [2, 1]


def test_comfortable_aspects_are_preferred(monkeypatch: pytest.MonkeyPatch) -> None:
    """When only the aspect counts, it is a comfortable one; when it is free, it need not be."""
    words = box_words([9.0, 9.0, 9.0], space=0.8)
    only(monkeypatch, "ASPECT")
    assert 1.25 <= fit_words(words, slack=OPEN).outline.aspect <= 2.1


@pytest.mark.parametrize("name", FAMILIES)
def test_wider_than_tall_is_comfortable(name: str) -> None:
    """Every family has comfortable aspects inside its range that cost nothing, all over 1."""
    low, high = FAMILIES[name].aspect
    aspects = np.geomspace(low, high, 60)
    costs = looks.aspect_departure(aspects, name)
    assert costs.min() == 0
    assert aspects[costs == 0].min() > 1.2
    assert costs[0] > 0
    assert costs[-1] > 0


def test_costs_have_no_unit() -> None:
    """The same text in any size breaks alike: costs are ratios."""
    draw = np.random.default_rng(8)
    for _ in range(5):
        words = box_words(draw.uniform(2, 8, 12).tolist(), space=0.7)
        one = fit_words(words, air_mm=1.0)
        other = fit_words(words.scaled(2.0), air_mm=2.0)
        assert [line.text for line in one.lines] == [line.text for line in other.lines]


def test_a_kanji_counts_as_much_as_two_letters() -> None:
    """One kanji by itself on the last line is a lost short word, two are none (UAX #11: W, F)."""
    assert [looks.letters(text) for text in ("A", "門", "門番", "ﾓﾝ", "Ｇ9", "…！")] == [
        1,
        2,
        4,
        2,
        3,
        0,
    ]
    assert looks.lone_word([looks.letters("門"), looks.letters("門番")], [1, 1]).tolist() == [
        looks.LONE_WORD,
        looks.THIN_WORD * 3 / 4,
    ]


ALONE = {
    "ASPECT": ([7, 7, 9, 6, 8, 8, 3], [0, 1, 1, 5, 5, 0, 2], [1, 2, 2, 2], [2, 3, 2]),
    "LONE_WORD": ([7, 5, 2, 6, 2], [1, 5, 2, 3, 5], [2, 3], [1, 3, 1]),
    "PEAK": ([7, 5, 2, 6, 2], [1, 5, 2, 3, 5], [2, 3], [1, 2, 2]),
    "PRICE": ([8, 2, 3, 5, 6, 8], [2, 0, 1, 2, 2, 5], [2, 3, 1], [1, 4, 1]),
    "SECOND": ([6, 8, 5, 8, 2], [3, 2, 0, 3, 2], [1, 2, 2], [2, 3]),
    "STEP": ([6, 8, 5, 8, 2], [3, 2, 0, 3, 2], [1, 2, 2], [2, 3]),
    "THIN_WORD": ([5, 5, 6, 8, 9, 4, 4], [3, 3, 1, 2, 5, 4, 5], [2, 2, 1, 2], [1, 2, 2, 2]),
    "UNEVENNESS": ([7, 5, 2, 6, 2], [1, 5, 2, 3, 5], [2, 3], [1, 2, 2]),
}
"""Per term: widths of words in mm, prices of breaks in tenths, and how many words stand on each
line with all terms, and with that one switched off."""


@pytest.mark.parametrize("term", ALONE)
def test_each_term_alone_decides_between_two_stacks(
    term: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With all other terms on, switching one off changes the stack chosen within the slack."""
    widths, tenths, with_it, without_it = ALONE[term]
    prices = [price / 10 for price in tenths]
    words = box_words(widths, penalties=prices, space=0.8, leading=2.9, cap_height=1.8)
    assert [line.text.count(" ") + 1 for line in fit_words(words).lines] == with_it
    without(monkeypatch, term)
    assert [line.text.count(" ") + 1 for line in fit_words(words).lines] == without_it


@given(st.floats(-2, 2), st.floats(0.1, 10), st.sampled_from(["ellipse", "caption"]))
def test_one_at_a_time_terms_cost_the_same(length: float, aspect: float, name: str) -> None:
    """In plain floats as in arrays."""
    assert looks.step_of(length) == float(looks.step(length))
    assert looks.unevenness_of(length) == pytest.approx(float(looks.unevenness(length)), rel=1e-12)
    departure = float(looks.aspect_departure(aspect, name))
    assert looks.departure_of(aspect, name) == pytest.approx(departure, rel=1e-9, abs=1e-12)
    for letters, words in product(range(12), (1, 2)):
        assert looks.lone_word_of(letters, words) == float(looks.lone_word(letters, words))
        assert looks.short_line_of(letters, words) == float(looks.short_line(letters, words))
    for count in range(1, 9):
        places = [looks.peak_place_of(line, count) for line in range(count)]
        assert places == pytest.approx(looks.peak_place(range(count), count).tolist(), abs=1e-12)
