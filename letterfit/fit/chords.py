"""Chords of the room that an outline leaves inside its air.

The room left by air m is the set of all points p with p . u(t) <= h(t) - m for every direction t
(`shape-margin` leaves the same room). It is symmetric, so its half-width at the height y, which is
the least of (h(t) - m - |y| sin t) / cos t over t, falls with |y|: a band is as wide as at the edge
farther from the centre.
"""

import math
from collections.abc import Callable

import numpy as np

from letterfit.outline import Floats, Outline

_ACROSS = math.pi / 2 - 1e-12
"""As near to a right angle as a chord is looked at from."""

_QUARTER: Floats = np.minimum(np.linspace(0, math.pi / 2, 257), _ACROSS)

_CLOSER: tuple[Floats, ...] = tuple(
    np.linspace(-1, 1, 65) * (math.pi / 512) * share for share in (1, 1 / 32, 1 / 1024)
)
"""Turns from the best direction so far: the last ones are two ten-millionths of a radian apart, and
a length is right to the square of that."""


class Chords:
    """How wide and how high the room is that an outline leaves inside its air.

    Args:
        outline: The outline.
        air: mm.

    >>> from letterfit.outline import Ellipse
    >>> disc = Chords(Ellipse(half_width=12, half_height=12), 2.0)
    >>> round(disc.band(-6, 3), 9), round(disc.half_height_at(8), 9), disc.band(-11, 3)
    (8.0, 6.0, -inf)
    """

    def __init__(self, outline: Outline, air: float) -> None:
        self._outline, self._air = outline, air
        self.half_height = outline.half_height - air

    def band(self, top: float, height: float) -> float:
        """Half the width over a band, mm; minus infinity where the band sticks out."""
        return self._least(max(-top, top + height), np.abs)

    def half_height_at(self, x: float) -> float:
        """Half the upright chord at x, mm; minus infinity where there is none."""
        return self._least(x, lambda t: np.abs(math.pi / 2 - t))

    def _least(self, place: float, normal: Callable[[Floats], Floats]) -> float:
        """Half the chord at `place`: t turns from the chord's own direction to the other axis."""
        # Of two lengths that are nearly equal the difference may be less than 0 by rounding, which
        # the cosine of a direction across the chord would magnify.
        noise = 8 * math.ulp(abs(place)) - self._air

        def chord(t: Floats) -> Floats:
            result: Floats = (
                self._outline.support(normal(t)) - place * np.sin(t) + noise
            ) / np.cos(t)
            return result

        across = float(self._outline.support(normal(_QUARTER[-1:]))[0])
        if place > across - self._air:
            return -math.inf
        near = _QUARTER[int(chord(_QUARTER).argmin())]
        for step in _CLOSER:
            turn = np.minimum(near + step, _ACROSS)
            lengths = chord(turn)
            best = int(lengths.argmin())
            near = turn[best]
        return float(lengths[best])
