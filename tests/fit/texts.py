"""Measured texts for the tests of the fit, and the slow, plain ways to the same answers."""

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import shapely
from hypothesis import strategies as st

from letterfit.families import FAMILIES, is_plain
from letterfit.fit.aspects import unit_outline
from letterfit.fit.model import FittedBalloon
from letterfit.fit.polish import smallest_outline
from letterfit.fit.stack import baselines
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline
from tests.words import box_words

NAMES = tuple(filter(is_plain, FAMILIES))
names = st.sampled_from(NAMES)
airs = st.sampled_from([0.0, 0.4, 1.2, 3.0])


@st.composite
def texts(draw: st.DrawFn, most: int = 7, least: int = 1) -> Words:
    """Texts of boxes of many widths, heights and depths, forced and priced breaks, both ways."""
    count = draw(st.integers(least, most))

    def each(low: float, high: float) -> list[float]:
        return draw(st.lists(st.floats(low, high), min_size=count, max_size=count))

    return box_words(
        each(0.8, 14),
        space=draw(st.floats(0.3, 1.5)),
        heights=each(1.2, 2.6) if draw(st.booleans()) else None,
        depths=each(0, 0.8) if draw(st.booleans()) else None,
        penalties=each(0, 1) if draw(st.booleans()) else None,
        overhang=draw(st.sampled_from([0.0, 0.2, -0.1])),
        forced=draw(st.lists(st.integers(0, count - 1), max_size=1)),
        rtl=draw(st.booleans()),
    )


def all_stacks(words: Words) -> Iterator[tuple[int, ...]]:
    """Every breaking of a text that keeps its forced breaks, by brute force."""
    count = len(words)
    for cuts in range(2 ** (count - 1)):
        stack = (0, *(i + 1 for i in range(count - 1) if cuts >> i & 1), count)
        if all(end in stack for end in (np.flatnonzero(words.forced) + 1).tolist()):
            yield stack


def corners(words: Words, stack: tuple[int, ...]) -> Floats:
    """All corners of a stack's ink about the outline's centre, by the model's own `line`."""
    rows = baselines(len(stack) - 1, leading_mm=words.leading_mm, cap_height_mm=words.cap_height_mm)
    parts = []
    for (first, end), baseline in zip(pairwise(stack), rows.tolist(), strict=True):
        line = words.line(first, end - 1)
        parts.append(line.corners() + np.array([-line.width_mm / 2, baseline]))
    return np.concatenate(parts)


def least_area(
    words: Words, stack: tuple[int, ...], name: str, *, air: float, aspect: tuple[float, float]
) -> float:
    """The least area of a stack's outline, its aspect searched over the whole range."""
    points = np.abs(corners(words, stack))
    return smallest_outline(points, name, aspects=aspect, air=air, tolerance=1e-9).area_mm2


def sampled_area(points: Floats, name: str, *, air: float, aspects: Floats) -> float:
    """The least area over given aspects, by 2,000 directions: no code of the fit's but families."""
    turn = np.linspace(0, math.pi / 2, 2001)
    ink = (np.abs(points) @ np.stack([np.cos(turn), np.sin(turn)])).max(axis=0) + air
    areas = []
    for aspect in aspects.tolist():
        unit = unit_outline(name, aspect)
        areas.append(unit.area_mm2 * float((ink / unit.support(turn)).max()) ** 2)
    return min(areas)


def polygon(outline: Outline, corners: int = 2000) -> shapely.Polygon:
    """The outline as a polygon with its corners on it."""
    turn = np.linspace(0, 2 * math.pi, corners + 1)[:-1]
    normals = np.arctan2(outline.half_width * np.sin(turn), outline.half_height * np.cos(turn))
    return shapely.Polygon(outline.boundary(normals))


def ink_polygons(words: Words, balloon: FittedBalloon) -> shapely.MultiPolygon:
    """The ink boxes of a balloon as shapely boxes, from its lines' own places."""
    boxes = []
    at = 0
    for line in balloon.lines:
        end = at + 1
        while words.slice_text(at, end - 1) != line.text:
            end += 1
        for left, top, right, bottom in words.line(at, end - 1).ink.tolist():
            x, y = line.x_mm, line.baseline_mm
            boxes.append(shapely.box(x + left, y + top, x + right, y + bottom))
        at = end
    return shapely.MultiPolygon(boxes)


def stack_of(words: Words, balloon: FittedBalloon) -> tuple[int, ...]:
    """The breaks of a balloon, read from its lines' texts."""
    stack = [0]
    for line in balloon.lines:
        end = stack[-1] + 1
        while words.slice_text(stack[-1], end - 1) != line.text:
            end += 1
        stack.append(end)
    return tuple(stack)
