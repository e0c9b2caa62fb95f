"""The smallest balloon: brute force over every breaking agrees, for every family."""

import json
import math
import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from letterfit.families import FAMILIES
from letterfit.fit.aspects import aspect_range
from letterfit.fit.dressing import fit_words
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from tests.fit.brute_force import least_over_all
from tests.fit.texts import NAMES, airs, all_stacks, least_area, names, stack_of, texts
from tests.plays import speeches
from tests.words import box_words

IDENTITIES: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "data" / "geometry_identities.json").read_text()
)
EXACT = 1e-6


def random_words(count: int, seed: int) -> Words:
    """Words of the lengths that words have, with commas that go below the baseline."""
    draw = random.Random(seed)  # noqa: S311 - a fixed seed, no secret
    return box_words(
        [1.4 * draw.choice([1, 2, 2, 3, 3, 4, 4, 5, 6, 7, 9]) for _ in range(count)],
        space=0.7,
        depths=[draw.choice([0.0, 0.0, 0.0, 0.5]) for _ in range(count)],
        leading=2.9,
        cap_height=1.8,
    )


@settings(max_examples=25)
@given(texts(), names, airs, st.sampled_from([None, (0.5, 2.0), (1.4, 1.4)]))
def test_smallest_is_brute_force(
    words: Words, name: str, air: float, aspect: tuple[float, float] | None
) -> None:
    """Over every breaking and every aspect of the range, to a share of 1e-6 of the area."""
    found = fit_words(words, outline=name, air_mm=air, aspect=aspect, slack=0)
    span = aspect_range(name, aspect)
    best = min(least_area(words, s, name, air=air, aspect=span) for s in all_stacks(words))
    assert found.area_mm2 == pytest.approx(best, rel=EXACT)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("count", "seed"), [(9, 2), (11, 4), (14, 6), (14, 7)])
def test_smallest_of_longer_texts_is_brute_force(name: str, count: int, seed: int) -> None:
    """Up to fourteen words: all 8,192 breakings, each over all aspects, by scipy."""
    words = random_words(count, seed)
    found = fit_words(words, outline=name, slack=0)
    assert found.area_mm2 == pytest.approx(brute_force(words, name, air=1.2), rel=EXACT)


@pytest.mark.parametrize("name", NAMES)
def test_smallest_of_a_speech_is_brute_force(name: str) -> None:
    """Fourteen words of a play in the bundled typeface, each glyph's ink box its own."""
    said = (speech.text for speech in speeches("hamlet") if len(speech.text.split()) == 14)
    words = next(words for words in (measure(t, Lettering()) for t in said) if len(words) == 14)
    found = fit_words(words, outline=name, air_mm=0.9, slack=0)
    assert found.area_mm2 == pytest.approx(brute_force(words, name, air=0.9), rel=EXACT)


def brute_force(words: Words, name: str, *, air: float) -> float:
    """The least area over all breakings and all aspects of the family."""
    stacks = list(all_stacks(words))
    assert len(stacks) == 2 ** (len(words) - 1)
    return least_over_all(words, name, stacks=stacks, air=air, aspects=FAMILIES[name].aspect)


def test_brute_force_sees_a_smaller_balloon_than_one_stack_less() -> None:
    """Without the best breaking the least area is another: every one counts."""
    words = random_words(9, 2)
    best = stack_of(words, fit_words(words, slack=0))
    others = [stack for stack in all_stacks(words) if stack != best]
    least = least_over_all(words, "ellipse", stacks=others, air=1.2, aspects=(1.0, 2.6))
    assert least > brute_force(words, "ellipse", air=1.2) * (1 + EXACT)


@settings(max_examples=25)
@given(texts(most=6), names, st.floats(0.2, 5))
def test_scaling_text_and_air_scales_the_outline(words: Words, name: str, factor: float) -> None:
    """Text and air k times as large: the same breaks, the outline k times as large."""
    one = fit_words(words, outline=name, air_mm=1.0, slack=0)
    other = fit_words(words.scaled(factor), outline=name, air_mm=factor, slack=0)
    assert other.area_mm2 == pytest.approx(factor**2 * one.area_mm2, rel=1e-8)
    if stack_of(words, one) != stack_of(words, other):
        areas = [
            least_area(words, stack_of(words, f), name, air=1.0, aspect=_range(name))
            for f in (one, other)
        ]
        assert areas[0] == pytest.approx(areas[1], rel=1e-7)


def _range(name: str) -> tuple[float, float]:
    return FAMILIES[name].aspect


LINE_SHARES = {
    (case["n"], case["lines"]): case["fraction_of_shape"]
    for case in IDENTITIES["line_stack_max_area"]
}


@settings(max_examples=40)
@given(
    st.lists(st.floats(1, 12), min_size=1, max_size=9),
    st.sampled_from([("ellipse", 2), ("superellipse", 2.5)]),
)
def test_no_fit_fills_more_than_k_lines_can(widths: list[float], family: tuple[str, float]) -> None:
    """The share of an outline that k lines of equal height fill (geometry_identities.json)."""
    name, exponent = family
    words = box_words(widths, space=0.5, leading=2.0, cap_height=2.0)
    found = fit_words(words, outline=name, air_mm=0.0, aspect=(0.05, 20.0), slack=0)
    share = sum(line.width_mm for line in found.lines) * 2.0 / found.area_mm2
    bound = LINE_SHARES.get((exponent, len(found.lines)))
    if bound is not None:
        assert share <= bound * (1 + 1e-9)


@pytest.mark.parametrize("count", range(1, 11))
def test_the_best_lines_fill_the_greatest_share(count: int) -> None:
    """The bound is reached: lines as long as the chords of a disc, as high as scipy finds best."""

    def chords(height: float) -> list[float]:
        far = [max(abs(2 * k - count), abs(2 * k + 2 - count)) * height / 2 for k in range(count)]
        return [2 * math.sqrt(max(0.0, 1 - y * y)) for y in far]

    def unfilled(height: float) -> float:
        return -height * sum(chords(height)) / math.pi

    height = float(minimize_scalar(unfilled, bounds=(0.5 / count, 2 / count), method="bounded").x)
    words = box_words(
        [10 * chord for chord in chords(height)],
        leading=10 * height,
        cap_height=10 * height,
        heights=[10 * height] * count,
        forced=range(count),
    )
    found = fit_words(words, air_mm=0.0, aspect=(0.05, 20.0), slack=0)
    share = sum(line.width_mm for line in found.lines) * 10 * height / found.area_mm2
    assert share == pytest.approx(LINE_SHARES[2, count], rel=1e-6)


def test_long_texts_end_and_are_near() -> None:
    """A hundred words: at most 0.1 % over what polishing the survey's own stacks gives."""
    words = random_words(100, 5)
    exact = fit_words(words, slack=0).area_mm2
    handsome = fit_words(words).area_mm2
    assert exact <= handsome <= 1.06 * exact * 1.001
