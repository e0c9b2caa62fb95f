"""The least whole number that does, by bisection: asked for step by step, or found in one go."""

from collections.abc import Callable, Generator
from typing import NamedTuple


class Trial(NamedTuple):
    """A number to be tried.

    Args:
        number: The number.
        guessed: Whether a cheap guess at the answer is all that is asked for.
    """

    number: int
    guessed: bool = False


Trials = Generator[Trial, bool, int | None]
"""Yields numbers, is sent whether each does, and returns the least that does, or None."""


def least_trials(*, least: int, most: int, guessed: bool = False, near: bool = False) -> Trials:
    """Ask for one number after the other, and return the least that does.

    Args:
        least: The first number tried.
        most: The last.
        guessed: Whether there is a cheap guess that rises at about the same number: it is bisected
            first, and the true answer asked for only near that number, in steps that double.
        near: Whether the answer is likely near the first number: steps from there double.

    Returns:
        Where answers are False up to some number and True from there on, that number. Where they
        are not so steady, it still does, and one below it that was tried does not. None where none
        does.
    """
    if most < least:
        return None
    if near:
        return (yield from _from_below(least - 1, most))
    if not guessed:
        if (yield Trial(most)):
            return (yield from _bisected(least, most))
        return None
    guess = yield from _bisected(least, most, guessed=True)
    step = 1
    if (yield Trial(guess)):
        high = guess
        while high > least and (yield Trial(max(high - step, least))):
            high, step = max(high - step, least), 2 * step
        return (yield from _bisected(max(high - step + 1, least), high))
    return (yield from _from_below(guess, most))


def least_that(
    holds: Callable[[int], bool],
    *,
    least: int,
    most: int,
    guess: Callable[[int], bool] | None = None,
) -> int | None:
    """The least whole number for which a rising condition holds, by bisection.

    Args:
        holds: False up to some number, True from there on, as in `least_trials`.
        least: The first number tried.
        most: The last.
        guess: A cheap condition that rises at about the same number.

    >>> least_that(lambda n: n * n >= 50, least=1, most=20)
    8
    >>> least_that(lambda n: n * n >= 50, least=1, most=20, guess=lambda n: n >= 6)
    8
    >>> least_that(lambda n: False, least=1, most=20) is None
    True
    """
    trials = least_trials(least=least, most=most, guessed=guess is not None)
    try:
        trial = next(trials)
        while True:
            asked = guess if trial.guessed and guess is not None else holds
            trial = trials.send(asked(trial.number))
    except StopIteration as done:
        found: int | None = done.value
        return found


def _from_below(low: int, most: int) -> Trials:
    """The least number over `low` that does, by steps that double; None where none does."""
    step = 1
    while low < most:
        high = min(low + step, most)
        if (yield Trial(high)):
            return (yield from _bisected(low + 1, high))
        low, step = high, 2 * step
    return None


def _bisected(low: int, high: int, *, guessed: bool = False) -> Generator[Trial, bool, int]:
    """The least number from low to high that does, where high is known to."""
    while low < high:
        middle = (low + high) // 2
        if (yield Trial(middle, guessed)):
            high = middle
        else:
            low = middle + 1
    return high
