"""A figure height that no layout exceeds: proved from each balloon alone and from all areas.

Alone: an outline is symmetric about both axes, so it is out of a box's way the most when both stand
in opposite corners, the box on the floor, the outline under the top border. Whether the box's inner
corner then lies clear of the outline is monotone in the box's height; whichever outline of its menu
a balloon takes, the tallest of these heights bounds the figure.

By area: the box and the balloons are disjoint and lie in the panel.
"""

import math
from collections.abc import Sequence

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Floats, Outline
from letterfit.place.kernel import STEPS, profile
from letterfit.place.proofs import least_area
from letterfit.place.terms import Terms

HALVINGS = 30
"""Of the panel's height: below 1e-9 of it."""


def figure_bound(panel: Rect, menus: Sequence[Sequence[Outline]], *, terms: Terms) -> float:
    """A height in mm that the figure room of no legal layout exceeds.

    Args:
        panel: The panel.
        menus: The outlines of each balloon, all that were given.
        terms: What must hold.

    >>> from letterfit.outline import CaptionBox
    >>> from letterfit.place.terms import make_terms
    >>> menus = [[CaptionBox(half_width=28.5, half_height=5)]]
    >>> terms = make_terms(
    ...     Rect(0, 0, 60, 40), menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=())
    >>> round(figure_bound(Rect(0, 0, 60, 40), menus, terms=terms), 6)
    28.5
    """
    highest = min(panel.height, panel.width / terms.aspect)
    if not menus:
        return highest
    left = panel.area_mm2 - least_area(menus, terms=terms)
    by_area = math.sqrt(max(left, 0.0) / terms.aspect)
    alone = _alone(panel, [o for menu in menus for o in menu], terms=terms, highest=highest)
    ends = np.cumsum([len(menu) for menu in menus])
    least = min(float(own.max()) for own in np.split(alone, ends[:-1]))
    return min(highest, by_area, least)


def _alone(panel: Rect, outlines: Sequence[Outline], *, terms: Terms, highest: float) -> Floats:
    """The tallest box beside each outline alone, mm, from above."""
    a = np.array([o.half_width for o in outlines])
    b = np.array([o.half_height for o in outlines])
    over = np.array([x for own in terms.overhangs or () for x in own] or [0.0] * len(outlines))
    chord = np.array([profile(o).chord for o in outlines]).ravel()
    x = panel.width - terms.margin - a
    y = b + np.where(over > 0, -over, terms.margin)
    number = np.arange(len(outlines)) * (STEPS + 1)
    low, high = np.zeros(len(outlines)), np.full(len(outlines), highest)
    for turn in range(HALVINGS):
        middle = (low + high) / 2 if turn else high
        # Chords read on the way out from the middle are never too short: no box is held too low.
        deep = np.maximum(panel.height - middle - y, 0.0) / b
        step = np.minimum(np.ceil(deep * STEPS).astype(np.intp), STEPS)
        reach = np.where(deep < 1, chord[number + step], -np.inf)
        clear = x - reach >= middle * terms.aspect - 1e-9
        low, high = np.where(clear, middle, low), np.where(clear, high, middle)
    return high
