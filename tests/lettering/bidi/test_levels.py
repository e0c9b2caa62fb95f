"""Embedding levels and order: what holds of any text, and what the standard leaves open."""

import re
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering.bidi import levels as bidi
from letterfit.lettering.bidi.classes import PLAIN, bidi_letters
from letterfit.lettering.bidi.explicit import DEEPEST, REMOVED
from letterfit.lettering.bidi.levels import (
    Levels,
    balloon_levels,
    embedding_levels,
    line_levels,
    visual_order,
)

LATIN = string.ascii_letters + string.digits + string.punctuation + " ’“”—…éŁЖΩ¿"
MIXED = LATIN + "אבגדابج٠١٢٣۴()[]{}<>〈〉〈" + "\u0301\u05b7\u200b\u200d\u200e\u200f\u061c\t"
FORMATS = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
texts = st.text(MIXED + 3 * FORMATS, max_size=60)
bases = st.sampled_from([None, 0, 1])


def shown(text: str) -> list[int]:
    """The places of the characters that rule X9 leaves in."""
    return [k for k, letter in enumerate(bidi_letters(text)) if letter not in REMOVED]


@given(texts, bases)
def test_every_character_has_one_level_within_bounds(text: str, base: int | None) -> None:
    """A level each, none below the base, none above the deepest plus one (I1)."""
    found = embedding_levels(text, base=base)
    assert len(found.levels) == len(text)
    assert all(found.base <= level <= DEEPEST + 1 for level in found.levels)


@given(texts, bases)
def test_order_is_a_permutation(text: str, base: int | None) -> None:
    """Every character of a line is drawn exactly once."""
    line = line_levels(text, embedding_levels(text, base=base))
    assert sorted(visual_order(line)) == list(range(len(text)))


@given(texts, bases)
def test_asking_for_the_base_found_changes_nothing(text: str, base: int | None) -> None:
    """The base that P2 and P3 find, asked for, gives the same levels."""
    found = embedding_levels(text, base=base)
    assert embedding_levels(text, base=found.base) == found


@given(texts, bases)
def test_removed_characters_do_not_disturb_the_order(text: str, base: int | None) -> None:
    """What X9 removes stands somewhere, and the rest is ordered as if it did not (section 5.2)."""
    places = shown(text)
    line = line_levels(text, embedding_levels(text, base=base))
    alone = visual_order([line[k] for k in places])
    kept = set(places)
    assert [k for k in visual_order(line) if k in kept] == [places[k] for k in alone]


@given(st.text(MIXED.replace("\u200b", "").replace("\u200d", ""), max_size=60), bases)
def test_a_boundary_neutral_changes_no_level(text: str, base: int | None) -> None:
    """A zero-width space between any two characters leaves theirs as they were."""
    spread = "\u200b".join(text)
    plain, found = embedding_levels(text, base=base), embedding_levels(spread, base=base)
    assert found.base == plain.base
    assert found.levels[::2] == plain.levels


@given(st.text(LATIN + "\u0301\u200b\u2028\ufe0f\U0001f642", max_size=60))
def test_the_early_exit_equals_the_slow_way(text: str) -> None:
    """Text without right-to-left characters has level 0 everywhere, by the rules as by the exit."""
    assert PLAIN.fullmatch(text)
    slow = bidi._paragraph(text, bidi_letters(text), 0)
    assert embedding_levels(text) == embedding_levels(text, base=0) == Levels(0, slow)


@given(texts)
def test_isolating_a_text_shields_it(text: str) -> None:
    """Isolated in right-to-left text, a text keeps its order, two levels deeper (X5a to X5c)."""
    text = re.sub(f"[{FORMATS}]", "", text)
    inner = embedding_levels(text).levels
    outer = embedding_levels(f"א\u2068{text}\u2069א").levels[2:-2]
    assert [outer[k] for k in shown(text)] == [inner[k] + 2 for k in shown(text)]


@given(st.lists(st.integers(0, 6), max_size=40))
def test_order_is_the_reversals_of_l2(levels: list[int]) -> None:
    """From the highest level to the lowest odd one, every stretch at it or higher turns round."""
    order = list(range(len(levels)))
    for level in range(max(levels, default=0), 0, -1):
        start = 0
        while start < len(levels):
            end = start
            while end < len(levels) and levels[order[end]] >= level:
                end += 1
            order[start:end] = order[start:end][::-1]
            start = max(end, start + 1)
    lowest = min((level for level in levels if level % 2), default=0)
    if lowest <= 1:
        assert visual_order(levels) == tuple(order)


def test_levels_below_the_lowest_odd_one_reverse_nothing() -> None:
    """A line of even levels alone keeps its order (L2)."""
    assert visual_order([2, 2, 4, 2]) == (0, 1, 2, 3)
    assert visual_order([]) == ()


def test_l1_falls_back_for_each_line_alone() -> None:
    """White space goes back to the base where a line ends, not where the text goes on."""
    text = "אב \u2067א \u2069 ab"
    levels = embedding_levels(text, base=0)
    assert levels.levels[5] == 1  # the space inside the isolate
    assert list(line_levels(text, levels)) == list(levels.levels)
    assert list(line_levels(text, levels, start=0, end=6))[2:] == [0, 0, 1, 0]
    assert list(line_levels(text, levels, start=0, end=3)) == [1, 1, 0]


def test_a_tab_and_the_spaces_before_it_fall_back() -> None:
    """Segment separators take the base's level, with white space before them (L1)."""
    text = "אב \t גד"
    levels = embedding_levels(text, base=0)
    assert list(line_levels(text, levels)) == [1, 1, 0, 0, 1, 1, 1]


def test_each_paragraph_is_resolved_by_itself() -> None:
    """After a paragraph separator nothing of the paragraph before counts (P1, X8)."""
    first, second = "\u202eab (\u2029", "1) א"
    both = embedding_levels(first + second, base=0).levels
    assert both == embedding_levels(first, base=0).levels + embedding_levels(second, base=0).levels


def test_a_text_of_formatting_alone_has_the_base() -> None:
    """With nothing to show, every level is the base."""
    assert embedding_levels("\u202a\u202b\u202c", base=1) == Levels(1, b"\1\1\1")


def test_leading_formatting_goes_with_what_follows() -> None:
    """A joiner before an Arabic letter shares its run, so that the letter joins."""
    assert list(embedding_levels("\u200dب a", base=0).levels) == [1, 1, 0, 0]


@pytest.mark.parametrize(
    ("text", "base"),
    [
        ("Wenna, בואי הנה!", 1),
        ("שער is the word for gate.", 0),
        ("אב ab", 1),
        ("ab אב", 0),
        ("OK!", 0),
        ("Lock Nine?! ١٢", 0),
        ("הגאות - 12:30", 1),
    ],
)
def test_a_balloon_reads_as_most_of_its_letters_do(text: str, base: int) -> None:
    """A foreign first word turns no balloon round; where letters are even, the first decides."""
    assert balloon_levels(text) == embedding_levels(text, base=base)


@given(texts)
def test_a_balloon_s_levels_are_those_of_one_of_the_two_bases(text: str) -> None:
    """The choice of the base is all that differs from the standard's default."""
    assert balloon_levels(text) in [embedding_levels(text, base=base) for base in (0, 1)]


HOSTILE = {
    "brackets nested beyond 63": "(" * 50_000 + "א" + ")" * 50_000,
    "brackets one after another": "א(a)" * 25_000,
    "brackets nested 60 deep": ("(" * 60 + "אa" + ")" * 60) * 800,
    "isolates nested": "\u2068" * 50_000 + "א" + "\u2069" * 50_000,
    "isolates never closed": "\u2067א" * 50_000,
    "isolates one after another": "\u2067a\u2069א" * 25_000,
    "embeddings": "\u202bא\u202aa" * 25_000,
    "marks": "א" + "\u0300" * 100_000,
    "signs": "א1" + "%" * 100_000 + "a",
    "neutrals": "א" + "!" * 100_000,
    "spaces and isolates": "א " + "\u2066" * 100_000 + "a",
    "paragraphs": "א\u2029" * 50_000,
    "lone surrogates": "א\ud800" * 50_000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_a_hostile_text_of_100_000_characters_is_taken(text: str) -> None:
    """Depth and overflow cost no more than length: a quadratic step would take minutes here."""
    found = embedding_levels(text)
    assert len(visual_order(line_levels(text, found))) == len(text)


def test_brackets_beyond_63_open_ones_pair_no_more() -> None:
    """The stack of BD16 holds 63; at the 64th the search ends, and the pairs found so far stay."""
    deep = "(" * 63 + "a" + ")" * 63
    assert set(embedding_levels("א" + deep + "א", base=1).levels[1:-1]) == {1, 2}
    fits = embedding_levels(f"אa{'(' * 62}b{')' * 62}", base=1).levels
    over = embedding_levels(f"אa{'(' * 64}b{')' * 64}", base=1).levels
    assert fits[2] == fits[-1] == 2
    assert over[-1] == 1


@settings(max_examples=30)
@given(st.integers(1, 140), st.sampled_from("\u202a\u202b\u2066\u2067"))
def test_depth_stops_at_125(depth: int, opener: str) -> None:
    """However many embeddings are opened, no level goes beyond what BD2 allows."""
    levels = embedding_levels("א" + opener * depth + "aא", base=0).levels
    assert max(levels) <= DEEPEST + 1
    assert (max(levels) >= DEEPEST - 1) == (depth >= 62)
