"""The bridge between two balloons of one speaker: a narrow neck that opens both.

It is drawn over both outlines: a patch that covers their lines where the neck meets them, then its
two sides, waisted, from outline to outline.
"""

import numpy as np

from letterfit.geometry import Point
from letterfit.outline import Floats, Outline
from letterfit.output.svg.curves import at, chain, line, nearest, path_data, quadratic
from letterfit.place.model import Tail

END_MM = 2.0
"""Width of the neck where it meets the other balloon."""

WAIST = 0.3
"""How far the sides draw in towards the axis at the middle: 0 straight, 1 all the way."""

OVERLAP_MM = 0.5
"""How far the patch reaches into each balloon: past the line of either."""


def bridge(tail: Tail, other: Outline, centre: Point) -> tuple[str, str]:
    """Path data of the patch and of the two sides.

    Args:
        tail: The tail that links, from its own balloon's roots to a tip on the other's outline.
        other: The outline that it links to.
        centre: That outline's centre on the page, mm.
    """
    roots = [np.array([p.x, p.y]) for p in tail.root]
    tip = np.array([tail.tip.x, tail.tip.y])
    middle = (roots[0] + roots[1]) / 2
    reach = max(float(np.hypot(*(tip - middle))), 1e-6)
    along = (tip - middle) / reach
    across = roots[1] - roots[0]
    across = across / max(float(np.hypot(*across)), 1e-6)
    body = chain(other.svg_path()) + np.array([centre.x, centre.y])
    ends = [_on(body, tip + across * side * END_MM / 2) for side in (-1, 1)]
    sides = [_side(root, end, middle, tip) for root, end in zip(roots, ends, strict=True)]
    inset = along * OVERLAP_MM
    ring = [
        line(roots[0] - inset, roots[0]),
        sides[0],
        line(ends[0], ends[0] + inset),
        line(ends[0] + inset, ends[1] + inset),
        line(ends[1] + inset, ends[1]),
        sides[1][::-1],
        line(roots[1], roots[1] - inset),
        line(roots[1] - inset, roots[0] - inset),
    ]
    drawn = "".join(path_data(side[None], closed=False) for side in sides)
    return path_data(np.array(ring)), drawn


def _on(body: Floats, point: Floats) -> Floats:
    return at(body, nearest(body, point))


def _side(root: Floats, end: Floats, start_axis: Floats, end_axis: Floats) -> Floats:
    """One side, drawn in towards the middle of the axis."""
    middle, axis = (root + end) / 2, (start_axis + end_axis) / 2
    return quadratic(root, middle + WAIST * (axis - middle) * 2, end)
