"""What a balloon costs by itself, as rates: what only its panel, voice and outline decide."""

import numpy as np

from letterfit.outline import Floats
from letterfit.place.kernel import Ints
from letterfit.place.problem import Rates, Voices

COVER = 1.0
"""Price of the whole panel covered."""

HIGH = 0.25
"""Price of hanging at the floor, as against the ceiling: a row is better than a pile."""

LEAN = 0.12
"""Price of standing a panel's width from the speaker."""

LOOKS = 0.1
"""Price of an outline whose looks cost 1: a tenth of the panel's height of figure room."""

CORNER = 0.5
"""Price of an opening caption a panel's width from its corner."""


def rates_of(  # noqa: PLR0913 - all that a balloon is priced by
    voices: Voices, *, width: Floats, height: Floats, area: Floats, price: Floats, owner: Ints
) -> Rates:
    """The rates of all balloons and outlines.

    Args:
        voices: Who speaks each balloon.
        width: Shape (p,): the panels' widths, mm.
        height: Shape (p,): their heights, mm.
        area: Per outline's number, mm2.
        price: Per number, what its looks cost.
        owner: Per number but the blank's, which is the last: its panel.
    """
    outline = price * LOOKS
    outline[:-1] += area[:-1] * (COVER / (width * height))[owner]
    across = voices.share / width
    caption = np.where(voices.caption, CORNER * across, 0.0)
    corner = np.zeros_like(caption)
    corner[0] = caption[0]
    # A caption that does not open the panel is drawn to the nearer side, half as much.
    caption[0] = 0.0
    return Rates(
        outline=outline,
        down=HIGH * voices.share / height,
        away=np.where(voices.leans, LEAN * across, 0.0),
        side=np.where(voices.aside, LEAN * across, 0.0) + caption / 2,
        corner=corner,
    )
