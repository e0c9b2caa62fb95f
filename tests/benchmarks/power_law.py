"""The power of a size that a cost grows with."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class PowerLaw:
    """A cost of `factor * size ** exponent`.

    Args:
        factor: The cost at size 1.
        exponent: 1 where twice the size costs twice as much.
    """

    factor: float
    exponent: float

    def at(self, size: float) -> float:
        """The cost at a size."""
        return float(self.factor * size**self.exponent)


def power_law(sizes: Sequence[float], costs: Sequence[float]) -> PowerLaw:
    """The power law nearest to what was measured: least squares of the logarithms.

    The slope of a line through (log size, log cost): the sum of products of both deviations over
    the sum of squares of the first (ordinary least squares).

    Args:
        sizes: At least two that differ, over 0.
        costs: One for each size, over 0.

    Raises:
        ValueError: When there are no two sizes, or not as many costs, or one is not over 0.

    >>> law = power_law([1, 10, 100], [3, 300, 30_000])
    >>> round(law.factor, 9), round(law.exponent, 9)
    (3.0, 2.0)
    """
    if len(sizes) != len(costs) or len(set(sizes)) < 2 or min(*sizes, *costs) <= 0:
        raise ValueError("a power law takes two sizes or more and a cost for each, all over 0")
    x, y = np.log(sizes), np.log(costs)
    across, up = x - x.mean(), y - y.mean()
    exponent = float(across @ up / (across @ across))
    return PowerLaw(float(np.exp(y.mean() - exponent * x.mean())), exponent)
