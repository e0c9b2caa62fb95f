"""Menus and panels that the tests of placing share, and shapely's view of a layout."""

import math

import numpy as np
from hypothesis import strategies as st
from shapely import Polygon

from letterfit.geometry import Rect
from letterfit.outline import CaptionBox, Ellipse, Outline, RoundedRect, Superellipse
from letterfit.place.model import PlacedOutline, Speaker
from letterfit.place.wedge import tail_polygon

ASPECTS = (2.6, 1.9, 1.4, 1.0)


def ellipses(area: float, aspects: tuple[float, ...] = ASPECTS) -> tuple[Outline, ...]:
    """A menu of ellipses of one area in mm2, wide to narrow."""
    heights = [math.sqrt(area / (math.pi * aspect)) for aspect in aspects]
    return tuple(
        Ellipse(half_width=b * aspect, half_height=b)
        for b, aspect in zip(heights, aspects, strict=True)
    )


def captions(area: float, aspects: tuple[float, ...] = (5.0, 3.0, 1.6)) -> tuple[Outline, ...]:
    """A menu of caption boxes of one area in mm2, wide to narrow."""
    heights = [math.sqrt(area / (4 * aspect)) for aspect in aspects]
    return tuple(
        CaptionBox(half_width=b * aspect, half_height=b)
        for b, aspect in zip(heights, aspects, strict=True)
    )


def _outline(kind: str, a: float, b: float) -> Outline:
    if kind == "ellipse":
        return Ellipse(half_width=a, half_height=b)
    if kind == "superellipse":
        return Superellipse(half_width=a, half_height=b, exponent=3)
    if kind == "rounded":
        return RoundedRect(half_width=a, half_height=b, radius=0.6 * min(a, b))
    return CaptionBox(half_width=a, half_height=b)


KINDS = ("ellipse", "superellipse", "rounded", "caption")

outlines = st.builds(_outline, st.sampled_from(KINDS), st.floats(3, 18), st.floats(2.5, 9))

panels = st.builds(
    Rect, st.floats(-20, 150), st.floats(-20, 200), st.floats(35, 170), st.floats(30, 120)
)


@st.composite
def voices(draw: st.DrawFn, count: int) -> tuple[Speaker | None, ...]:
    """One speaker or none for each balloon, some of them off the panel."""
    names = st.sampled_from(["WENNA", "PILOT", "KEEPER"])
    speaker = st.builds(lambda name, off: Speaker(name=name, off_panel=off), names, st.booleans())
    return tuple(draw(st.none() | speaker) for _ in range(count))


def outline_polygon(item: PlacedOutline, points: int = 20_000) -> Polygon:
    """A placed outline as shapely sees it: a fine polygon, inside by less than 1e-6 mm."""
    turn = np.linspace(0, 2 * math.pi, points, endpoint=False)
    return Polygon(item.outline.boundary(turn) + np.array([item.x_mm, item.y_mm]))


def wedge_polygon(item: PlacedOutline) -> Polygon:
    """A tail as shapely sees it."""
    assert item.tail is not None
    return Polygon([(p.x, p.y) for p in tail_polygon(item.tail)])
