"""The cost of looks of one stack, against the search for looks and against the terms alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit import looks
from letterfit.fit.aspects import cells
from letterfit.fit.handsome import handsome
from letterfit.fit.judge import looks_cost
from letterfit.fit.survey import Goal, survey
from letterfit.lettering.words import Words
from letterfit.outline import Ellipse
from tests.fit.texts import airs, names, texts
from tests.words import box_words


@settings(max_examples=25)
@given(texts(), names, airs, st.floats(0.02, 0.5))
def test_a_found_stack_is_judged_as_the_search_judged_it(
    words: Words, name: str, air: float, slack: float
) -> None:
    """The search's least cost is the cost of the stack it found, in the outline it searched."""
    grid = cells(name, 1.0, 2.6, pieces=len(words))
    found = survey(words, grid.shapes, goal=Goal(slack), air=air)
    pairs = np.flatnonzero(found.scales <= found.limits[found.which])[::3]
    limits = found.limits[found.which[pairs]]
    looking = handsome(words, found, pairs, limits=limits)
    for place, (pair, limit) in enumerate(zip(pairs.tolist(), limits.tolist(), strict=True)):
        outline = found.shapes.outlines[found.which[pair]].scaled(limit)
        cost = looks_cost(words, looking.stack(place), outline, air=air)
        departure = float(looks.aspect_departure(outline.aspect, name))
        assert cost - departure == pytest.approx(looking.costs[place], rel=1e-6, abs=1e-9)


def test_a_lone_short_word_outweighs_everything_else() -> None:
    """The same words cost more than LONE_WORD with two letters alone on the last line."""
    words = box_words([4.0, 4.0, 2.0])
    outline = Ellipse(half_width=9.0, half_height=6.0)
    lone = looks_cost(words, (0, 2, 3), outline, air=1.0)
    kept = looks_cost(words, (0, 1, 3), outline, air=1.0)
    assert lone - kept > looks.LONE_WORD / 2


def test_an_unusual_aspect_costs() -> None:
    """One line in a circle costs what the aspect departs, the rest being the same or less."""
    words = box_words([6.0])
    circle = looks_cost(words, (0, 1), Ellipse(half_width=5.0, half_height=5.0), air=1.0)
    assert circle >= float(looks.aspect_departure(1.0, "ellipse")) > 0
