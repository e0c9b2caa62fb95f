"""The bridge between two balloons of one speaker, against shapely and on the drawn page."""

from xml.etree.ElementTree import Element

import numpy as np
import pytest
from scipy.ndimage import label
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Dot

from letterfit.geometry import Point, Rect
from letterfit.output.svg.balloon_shape import contour
from letterfit.output.svg.bridge import END_MM, bridge
from letterfit.output.svg.curves import chain, points_at
from letterfit.output.svg.page import to_svg
from letterfit.place.model import Tail
from tests.output import reports
from tests.output.svg import raster

UPPER, LOWER = Point(40.0, 34.0), Point(46.0, 54.0)
LINK = Tail(root=(Point(41.0, 41.486), Point(44.0, 41.263)), tip=Point(45.0, 46.515), to=1)


def polygon(data: str) -> Polygon:
    """Closed path data as a polygon."""
    curves = chain(data)
    return Polygon(points_at(curves, np.arange(48 * len(curves)) / 48))


def test_the_sides_run_from_outline_to_outline() -> None:
    """Each starts at a root and ends on the other outline, the neck's width from the other side."""
    _, sides = bridge(LINK, reports.ROUND, LOWER)
    starts = [chain(f"M{side}")[0, 0] for side in sides.split("M")[1:]]
    ends = [chain(f"M{side}")[-1, 3] for side in sides.split("M")[1:]]
    other = polygon(contour(reports.ROUND, LOWER)).exterior
    for root, start in zip(LINK.root, starts, strict=True):
        assert Dot(start).distance(Dot(root.x, root.y)) < 1e-3
    for end in ends:
        assert other.distance(Dot(end)) < 2e-3
    assert Dot(ends[0]).distance(Dot(ends[1])) == pytest.approx(END_MM, rel=0.1)


def test_the_neck_is_waisted() -> None:
    """Half way it is narrower than at either end."""
    _, sides = bridge(LINK, reports.ROUND, LOWER)
    left, right = (points_at(chain(f"M{s}"), np.array([0.0, 0.5, 0.999]))
                   for s in sides.split("M")[1:])  # fmt: skip
    widths = np.hypot(*(left - right).T)
    assert widths[1] < widths[0]
    assert widths[1] < widths[2]


def test_the_patch_covers_the_mouth_in_both_outlines() -> None:
    """It reaches into each balloon, so that no line is left across the neck."""
    patch, _ = bridge(LINK, reports.ROUND, LOWER)
    upper = polygon(contour(reports.ROUND, UPPER))
    lower = polygon(contour(reports.ROUND, LOWER))
    neck = polygon(patch).buffer(0)
    assert neck.intersection(upper).area > 0.5
    assert neck.intersection(lower).area > 0.5
    between = LineString([(42.5, 41.4), (45.0, 46.5)])
    assert neck.buffer(0.05).contains(between)


def test_two_linked_balloons_are_one_piece_on_the_page() -> None:
    """Drawn, the two bodies and the neck hang together; without the link they are two."""
    pair = [
        reports.balloon("1.1.1", "HOLD.", at=UPPER, tail=LINK),
        reports.balloon("1.1.2", "HOLD IT.", at=LOWER),
    ]
    linked = to_svg(reports.page(1, reports.panel("1.1", Rect(8, 16, 100, 60), *pair)))
    kept = ("outline", "bridge")
    root = raster.alone(linked, lambda e: bool(set(kept) & set(raster.classes(e))))
    assert pieces(root) == 1
    apart = raster.alone(linked, lambda e: "outline" in raster.classes(e))
    assert pieces(apart) == 2


def pieces(root: Element) -> int:
    """How many connected pieces a document draws."""
    _, count = label(raster.render(root, dpi=200) > 0.5)
    return int(count)
