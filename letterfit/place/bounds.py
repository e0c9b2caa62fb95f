"""A figure height that no layout exceeds: proved from each balloon alone and from all areas.

Alone: an outline is symmetric about both axes, so it is out of a box's way the most when both stand
in opposite corners, the box on the floor, the outline under the top border. From level to level of
the outline its chord tells how wide, and so how tall, a box beside it may be; whichever outline of
its menu a balloon takes, the tallest of these heights bounds the figure.

By area: the box and the balloons are disjoint and lie in the panel.
"""

import math
from collections.abc import Sequence
from itertools import islice

import numpy as np

from letterfit.geometry import Rect
from letterfit.outline import Outline
from letterfit.place.kernel import STEPS, profile
from letterfit.place.proofs import least_area
from letterfit.place.terms import Terms

_LEVELS = np.arange(STEPS + 1)[:, None] / STEPS


def figure_bounds(
    panels: Sequence[Rect],
    menus: Sequence[Sequence[Sequence[Outline]]],
    *,
    terms: Sequence[Terms],
) -> tuple[float, ...]:
    """A height in mm that the figure room of no legal layout exceeds, for each panel.

    Args:
        panels: The panels.
        menus: The outlines of each balloon of each panel, all that were given.
        terms: What must hold in each.

    >>> from letterfit.outline import CaptionBox
    >>> from letterfit.place.terms import make_terms
    >>> menus = [[CaptionBox(half_width=28.5, half_height=5)]]
    >>> terms = make_terms(
    ...     Rect(0, 0, 60, 40), menus, gap_mm=1.5, margin_mm=1.5, reading="ltr", keep_clear=())
    >>> [round(b, 6) for b in figure_bounds([Rect(0, 0, 60, 40)], [menus], terms=[terms])]
    [28.5]
    """
    alone = iter(_alone(panels, menus, terms=terms))
    bounds = []
    for panel, own, held in zip(panels, menus, terms, strict=True):
        left = panel.area_mm2 - least_area(own, terms=held)
        by_area = math.sqrt(max(left, 0.0) / held.aspect)
        tallest = [max(islice(alone, len(menu))) for menu in own]
        bounds.append(min(panel.height, panel.width / held.aspect, by_area, *tallest))
    return tuple(bounds)


def _alone(
    panels: Sequence[Rect],
    menus: Sequence[Sequence[Sequence[Outline]]],
    *,
    terms: Sequence[Terms],
) -> list[float]:
    """The tallest box beside each outline of each balloon of each panel alone, mm, from above."""
    outlines = [o for own in menus for menu in own for o in menu]
    if not outlines:
        return []
    count = [sum(map(len, own)) for own in menus]
    width = np.repeat([panel.width for panel in panels], count)
    height = np.repeat([panel.height for panel in panels], count)
    aspect = np.repeat([held.aspect for held in terms], count)
    top = np.repeat([held.margin.top for held in terms], count)
    # The wider of the two sides is free for the box: the balloon stands at the other one.
    side = np.repeat([min(held.margin.left, held.margin.right) for held in terms], count)
    over = np.array(
        [
            over
            for own, held in zip(menus, terms, strict=True)
            for menu in (held.overhangs or [[0.0] * len(menu) for menu in own])
            for over in menu
        ]
    )
    b = np.array([o.half_height for o in outlines])
    chord = np.array([profile(o).chord for o in outlines]).T
    x = width - side - np.array([o.half_width for o in outlines])
    y = b + np.where(over > 0, -over, top)
    # Row s: boxes whose tops lie from the outline's level s - 1 down to its level s. A chord read
    # at s, farther out than the box's corner, is never too long: no box is held too low.
    lowest = height - y - _LEVELS * b
    highest = np.concatenate([np.full((1, len(b)), np.inf), lowest[:-1]])
    beside = (x - chord + 1e-9) / aspect
    beside[beside < lowest] = 0.0
    # Boxes under the outline are in nobody's way.
    tallest = np.maximum(np.minimum(beside, highest).max(axis=0), lowest[-1])
    result: list[float] = np.minimum(tallest, np.minimum(height, width / aspect)).tolist()
    return result
