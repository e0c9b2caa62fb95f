"""Covered area: balloons and captions inside the panel, and what tails add outside them.

Outlines of a legal layout are disjoint, or joined: then what two share counts once. What hangs over
the panel's top is cut off. A tail adds the part of its wedge outside its own outline: the wedge
starts on the chord between its two roots, and what lies between chord and outline is covered
already.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from letterfit.geometry import Rect
from letterfit.place.clip import cap_area, lens_area
from letterfit.place.model import PlacedOutline, Tail
from letterfit.place.tail_body import gauge
from letterfit.place.wedge import wedge_area

NODES = (
    (0.033765242898424, 0.085662246189585),
    (0.169395306766868, 0.180380786524069),
    (0.380690406958402, 0.233956967286346),
    (0.619309593041598, 0.233956967286346),
    (0.830604693233132, 0.180380786524069),
    (0.966234757101576, 0.085662246189585),
)
"""Nodes and weights of Gauss and Legendre's rule from 0 to 1 (Abramowitz and Stegun, 25.4.29)."""


def covered_area(panel: Rect, placed: Sequence[PlacedOutline]) -> float:
    """The area in mm2 that outlines and their tails cover inside the panel.

    Args:
        panel: The panel.
        placed: Outlines in script order, inside the panel but for what hangs over its top; disjoint
            but for joined ones.

    Returns:
        The area of the outlines' union inside the panel, right to 1e-3 mm2 (joined clouds and
        bursts to 0.1), plus what tails add outside their outlines. Tails that cross something
        count in full.

    >>> from letterfit.outline import CaptionBox
    >>> box = CaptionBox(half_width=10, half_height=4)
    >>> covered_area(Rect(0, 0, 40, 30), [
    ...     PlacedOutline(index=0, choice=0, outline=box, x_mm=12, y_mm=6)])
    160.0
    """
    outlines = [item.outline.area_mm2 - cap_area(item, panel.y) for item in placed]
    shared = [lens_area(one, two, top=panel.y) for one, two in pairwise(placed) if two.joined]
    tails = [_tail_area(item, item.tail) for item in placed if item.tail is not None]
    return math.fsum((*outlines, *tails)) - math.fsum(shared)


def _tail_area(item: PlacedOutline, tail: Tail) -> float:
    """The area of the wedge less the segment of its own outline beyond the chord of its roots.

    A ray through a point m of the chord meets the line at m / g(m), g the gauge: the sector under
    the arc is |p x q| / 2 times the integral of 1 / g^2 along the chord from p to q, the triangle
    under the chord |p x q| / 2.
    """
    (px, py), (qx, qy) = ((p.x - item.x_mm, p.y - item.y_mm) for p in tail.root)
    mean = math.fsum(
        weight / gauge(item.outline, px + t * (qx - px), py + t * (qy - py)) ** 2
        for t, weight in NODES
    )
    segment = abs(px * qy - py * qx) / 2 * (mean - 1)
    return wedge_area(tail) - max(segment, 0.0)
