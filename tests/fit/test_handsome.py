"""The exact search for looks against plain enumeration of every stack that fits."""

import math
from itertools import pairwise

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit import looks
from letterfit.fit.aspects import cells
from letterfit.fit.handsome import handsome
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.lettering.words import Words
from tests.fit.texts import airs, all_stacks, names, texts


def cost_of(words: Words, found: Survey, pair: int, stack: tuple[int, ...], limit: float) -> float:
    """The cost of looks of one stack, term by term, over every place of its longest line."""
    count = len(stack) - 1
    lines = found.candidates
    half_width = limit * found.shapes.outlines[found.which[pair]].half_width
    inverse = found.shapes.inverse[found.which[pair]]
    halves, total = [], 0.0
    for k, (first, end) in enumerate(pairwise(stack)):
        half = float(words.advances(len(words))[first, end - first - 1]) / 2
        halves.append(half / half_width)
        edge = abs(2 * k - count + 1) * words.leading_mm / 2 + words.cap_height_mm / 2
        t = np.linspace(0, math.pi / 2, 33)[:-1]
        room = ((limit / inverse[:-1] - lines.air - edge * np.sin(t)) / np.cos(t)).min() - half
        total += float(looks.unevenness(room / half_width)) / count
        total += float(looks.break_price(words.penalties[end - 1]))
        if count > 1:
            text = "".join(piece.text for piece in words.pieces[first:end])
            letters = sum(map(str.isalnum, text))
            begun = 1 + int(words.word_counts[first + 1 : end].sum())
            lost = looks.lone_word if k in (0, count - 1) else looks.short_line
            total += float(lost(letters, begun))
    return total + min(_shape(halves, peak) for peak in range(count))


def _shape(halves: list[float], peak: int) -> float:
    steps = [
        float(looks.step(upper - lower if k < peak else lower - upper))
        for k, (upper, lower) in enumerate(pairwise(halves))
    ]
    return sum(steps) + float(looks.peak_place(peak, len(halves)))


@settings(max_examples=25)
@given(texts(), names, airs, st.floats(0.02, 0.5))
def test_no_stack_that_fits_looks_better(words: Words, name: str, air: float, slack: float) -> None:
    """Per pair the cost found is the least over all stacks whose lines stay in the limit."""
    grid = cells(name, 1.0, 2.6, pieces=len(words))
    found = survey(words, grid.shapes, goal=Goal(slack), air=air)
    pairs = np.flatnonzero(found.scales <= found.limits[found.which])[::3]
    limits = found.limits[found.which[pairs]]
    looking = handsome(words, found, pairs, limits=limits)
    for place, (pair, limit) in enumerate(zip(pairs.tolist(), limits.tolist(), strict=True)):
        cost, stack = float(looking.costs[place]), looking.stack(place)
        count = int(found.counts[pair])
        fitting = [
            other
            for other in all_stacks(words)
            if len(other) - 1 == count and _fits(found, pair, other, limit)
        ]
        assert stack in fitting
        best = min(cost_of(words, found, pair, other, limit) for other in fitting)
        np.testing.assert_allclose(cost, best, rtol=1e-6, atol=1e-9)
        np.testing.assert_allclose(
            cost_of(words, found, pair, stack, limit), best, rtol=1e-6, atol=1e-9
        )


def _fits(found: Survey, pair: int, stack: tuple[int, ...], limit: float) -> bool:
    count = len(stack) - 1
    rows = found.rows_of_costs[pair, :count][::-1]
    return all(
        end - first <= found.costs.shape[1] and found.costs[row, end - first - 1, first] <= limit
        for row, (first, end) in zip(rows, pairwise(stack), strict=True)
    )
