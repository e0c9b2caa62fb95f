"""The bridge between two balloons of one speaker: a narrow neck that opens both.

It is drawn over both outlines: a patch that covers their lines where the neck meets them, then its
two sides, waisted, from outline to outline. A side sets off along the line of one outline and comes
in along the line of the other, so that no corner shows where they meet.
"""

import numpy as np

from letterfit.geometry import Point
from letterfit.outline import Floats, Outline
from letterfit.output.svg.curves import at, chain, line, nearest, path_data
from letterfit.place.model import Tail

END_MM = 4.2
"""Width of the neck where it meets the other balloon."""

DRAWN_IN = 0.22
"""How far a side's handles reach along the outlines, as a share of the neck's width: by three
quarters of it each side draws in at the middle."""

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
    sides = [
        _side(roots[0], ends[0], across),
        _side(roots[1], ends[1], -across),
    ]
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


def _side(root: Floats, end: Floats, inwards: Floats) -> Floats:
    """One side, drawn in towards the other."""
    reach = inwards * (DRAWN_IN * END_MM)
    return np.array([root, root + reach, end + reach, end])
