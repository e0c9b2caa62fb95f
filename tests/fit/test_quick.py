"""The best-looking stack in given rooms: by every breaking, and by the search for all at once."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit import looks
from letterfit.fit.aspects import unit_outline
from letterfit.fit.batch import is_plain
from letterfit.fit.capitals import Capitals
from letterfit.fit.ink import Stack
from letterfit.fit.judge import words_on
from letterfit.fit.quick import best_stack
from letterfit.fit.within import best_of_all
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.test_capitals import goes_in
from tests.fit.texts import NAMES, airs, all_stacks, names, texts
from tests.plays import play_names, speeches
from tests.words import box_words

plain = texts().filter(lambda words: words.forced.sum() == 1)
aspects = st.floats(0.8, 2.6)


def cost_in(words: Words, stack: Stack, room: list[float], *, half_width: float) -> float:
    """What the looks of a stack cost in rooms of given lengths, term by term."""
    lines = list(pairwise(stack))
    count = len(lines)
    half = np.array([words.width(first, end - 1) / 2 for first, end in lines]) / half_width
    chords = np.array([room[abs(2 * line + 1 - count)] for line in range(count)]) / half_width
    cost = float(looks.unevenness(chords - half).mean())
    cost += float(looks.break_price(words.penalties[np.array(stack[1:]) - 1]).sum())
    for line, run in enumerate(lines if count > 1 else []):
        term = looks.lone_word if line in (0, count - 1) else looks.short_line
        cost += float(term(*words_on(words, *run)))
    steps = []
    for longest in range(count):
        growth = np.diff(half)
        wrong = np.concatenate([-growth[:longest], growth[longest:]])
        steps.append(float(looks.step(wrong).sum() + looks.peak_place(longest, count)))
    return cost + min(steps)


@settings(max_examples=80)
@given(plain, names, airs, aspects, st.floats(3, 40))
def test_it_is_the_best_of_every_breaking(
    words: Words, name: str, air: float, aspect: float, size: float
) -> None:
    """None costs less, and none is found only where none goes in."""
    outline = unit_outline(name, aspect).scaled(size)
    capitals = Capitals.of(words, outline, air=air)
    room = capitals.room(1.0)
    going = [stack for stack in all_stacks(words) if goes_in(words, stack, room)]
    if not room:
        assert not going
        return
    found = best_stack(words, capitals, room=room, half_width=outline.half_width)
    assert (found is not None) == bool(going)
    if found is not None:
        half = outline.half_width
        least = min(cost_in(words, stack, room, half_width=half) for stack in going)
        assert cost_in(words, found, room, half_width=half) == pytest.approx(least, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    texts(most=60, least=8).filter(lambda words: words.forced.sum() == 1),
    names,
    airs,
    aspects,
)
def test_long_texts_agree_with_the_search_for_all_at_once(
    words: Words, name: str, air: float, aspect: float
) -> None:
    """Up to sixty words in every family: what keeps together looks as good as the best found."""
    outline = unit_outline(name, aspect).scaled(200.0)
    capitals = Capitals.of(words, outline, air=air)
    scale = capitals.together()
    assert scale is not None
    half, room = scale * outline.half_width, capitals.room(scale)
    found = best_stack(words, capitals, room=room, half_width=half)
    other = best_of_all(words, outline, scale=scale, air=air)
    assert found is not None
    assert other is not None
    costs = [cost_in(words, stack, room, half_width=half) for stack in (found, other)]
    assert costs[0] == pytest.approx(costs[1], abs=1e-9)


def test_dialogue_breaks_as_the_search_for_all_at_once_breaks_it() -> None:
    """Speeches of plays in every family: the same lines."""
    said = [speech for play in play_names()[:8] for speech in speeches(play, max_words=60)]
    for number, speech in enumerate(said[::97]):
        words = measure(speech.text, Lettering())
        outline = unit_outline(NAMES[number % len(NAMES)], 1.0 + number % 5 / 4).scaled(90.0)
        if not is_plain(words):
            continue
        capitals = Capitals.of(words, outline, air=1.2)
        scale = capitals.together()
        assert scale is not None
        room, half = capitals.room(scale), scale * outline.half_width
        found = best_stack(words, capitals, room=room, half_width=half)
        assert found == best_of_all(words, outline, scale=scale, air=1.2)


def test_a_word_of_two_pieces_is_not_left_alone() -> None:
    """A hyphened word is one word: it stands with the next where there is room, uncut where not."""
    words = box_words([1.0, 1.0, 6.0, 6.0], joiners=["", " ", " ", ""], space=1.0)
    capitals = Capitals.of(words, unit_outline("ellipse", 1.0).scaled(40.0), air=0.0)
    assert best_stack(words, capitals, room=[6.6] * 3, half_width=40.0) == (0, 3, 4)
    assert best_stack(words, capitals, room=[3.2] * 4, half_width=40.0) == (0, 2, 3, 4)


def test_of_equal_stacks_one_with_the_fewest_lines_is_taken() -> None:
    """One long line in a room that it fills, though two would fill theirs as well."""
    words = box_words([4.0, 4.0], space=0.0)
    capitals = Capitals.of(words, unit_outline("ellipse", 1.0).scaled(40.0), air=0.0)
    assert best_stack(words, capitals, room=[4.0, 2.0], half_width=4.0) == (0, 2)
