"""Bisection: the least number that does, with few trials, asked for step by step or in one go."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.report.bisection import Trial, least_that, least_trials


@given(st.integers(-5, 70), st.integers(1, 30), st.integers(0, 60))
def test_bisection_finds_the_first_number(true_from: int, least: int, most: int) -> None:
    """The least number is that of trying them all, with few trials."""
    tried = []

    def holds(number: int) -> bool:
        tried.append(number)
        return number >= true_from

    expected = next((n for n in range(least, most + 1) if n >= true_from), None)
    assert least_that(holds, least=least, most=most) == expected
    assert len(tried) <= 2 + math.log2(max(most - least + 1, 1))


@given(st.integers(-5, 70), st.integers(-5, 70), st.integers(1, 30), st.integers(0, 60))
def test_a_guess_changes_the_trials_not_the_number(
    true_from: int, guessed: int, least: int, most: int
) -> None:
    """However wrong the guess, the number is the same; where it is right, two trials do."""
    tried = []

    def holds(number: int) -> bool:
        tried.append(number)
        return number >= true_from

    expected = next((n for n in range(least, most + 1) if n >= true_from), None)
    found = least_that(holds, least=least, most=most, guess=lambda n: n >= guessed)
    assert found == expected
    if guessed == true_from and expected is not None:
        assert len(tried) <= 2


@pytest.mark.parametrize("guessed", [True, False])
@given(true_from=st.integers(-5, 70), guessed_from=st.integers(-5, 70))
def test_asked_step_by_step_it_is_the_same_number(
    *, true_from: int, guessed_from: int, guessed: bool
) -> None:
    """A driver that answers each trial is told what the one call finds."""
    trials = least_trials(least=1, most=60, guessed=guessed)
    told = None
    try:
        trial = next(trials)
        while True:
            assert 1 <= trial.number <= 60
            assert guessed or not trial.guessed
            trial = trials.send(trial.number >= (guessed_from if trial.guessed else true_from))
    except StopIteration as done:
        told = done.value
    guess = (lambda n: n >= guessed_from) if guessed else None
    assert told == least_that(lambda n: n >= true_from, least=1, most=60, guess=guess)


def test_nothing_is_asked_where_there_is_no_number() -> None:
    """An empty range has no least number; a range of one is tried once."""
    assert list(least_trials(least=5, most=4)) == []
    assert next(least_trials(least=5, most=5)) == Trial(5)


@given(true_from=st.integers(-5, 70), least=st.integers(0, 10))
def test_near_the_first_number_few_trials_find_it(true_from: int, least: int) -> None:
    """In steps that double from the first it is the same number, in about twice its logarithm."""
    trials, tried, told = least_trials(least=least, most=60, near=True), 0, None
    try:
        trial = next(trials)
        while True:
            tried += 1
            trial = trials.send(trial.number >= true_from)
    except StopIteration as done:
        told = done.value
    assert told == least_that(lambda n: n >= true_from, least=least, most=60)
    if told is not None:
        assert tried <= 1 + 2 * (told - least + 1).bit_length()
