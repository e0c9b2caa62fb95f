"""The fronts of many texts by the fast search; what is common to both ways to a front."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.fit.aspects import Cells, aspect_range, unit_outline
from letterfit.fit.batch import NOTHING, Chosen, handsome_of_each
from letterfit.fit.exact import Tight
from letterfit.fit.ink import Ink, Stack
from letterfit.fit.judge import looks_cost
from letterfit.fit.looks import LONE_SLACK, LOST, departure_of
from letterfit.fit.model import Shape
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import exact_scales
from letterfit.fit.smallest import ROUNDING, SAME
from letterfit.fit.thorough_front import within_slack
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

BOXES = {"caption"}
"""Families whose width and height can shrink apart."""


FEW = 6
"""Pieces under which a stack is judged anew in its own outline: elsewhere that changes little."""


@dataclass(frozen=True, slots=True)
class Front:
    """A front in a text's frame.

    Args:
        shapes: The shapes, the widest first.
        least: The least scale of each cell's shape.
    """

    shapes: tuple[Shape, ...]
    least: Floats


def fast_fronts(
    texts: Sequence[Words], grids: Sequence[Cells], *, air: float, slack: float
) -> list[Front | None]:
    """The front of each text, found together; None where the fast search gave up.

    Args:
        texts: Plain texts (`letterfit.fit.batch`).
        grids: The shapes of each.
        air: mm.
        slack: By what share an area may exceed the least of its own aspect.
    """
    if not texts:
        return []
    profiles = Profiles.of(texts, air=air)
    chosen = handsome_of_each(profiles, grids, slack=slack, each=True)
    _spare_lone_words(texts, grids, chosen, air=air, slack=slack)
    stacks = [(text, each.stack) for text, own in enumerate(chosen) for each in own]
    shapes = [
        grid.shapes.outlines[each.shape]
        for grid, own in zip(grids, chosen, strict=True)
        for each in own
    ]
    scales = iter(exact_scales(profiles, stacks, shapes).tolist())
    return [
        _front(ink, grid, [(each, next(scales)) for each in own], air=air)
        for ink, grid, own in zip(profiles.inks, grids, chosen, strict=True)
    ]


def _spare_lone_words(
    texts: Sequence[Words],
    grids: Sequence[Cells],
    chosen: list[list[Chosen]],
    *,
    air: float,
    slack: float,
) -> None:
    """Put stacks without a lost word in the place of those with one, if there are any."""
    for factor in (1.0, LONE_SLACK):
        lost = [k for k, own in enumerate(chosen) if any(each.cost >= LOST for each in own)]
        if not lost:
            return
        again = handsome_of_each(
            Profiles.of([texts[k] for k in lost], air=air),
            [grids[k] for k in lost],
            slack=slack * factor,
            each=True,
            reserve=NOTHING,
        )
        for k, own in zip(lost, again, strict=True):
            if len(own) == len(chosen[k]):
                chosen[k] = [
                    other if each.cost >= LOST > other.cost else each
                    for each, other in zip(chosen[k], own, strict=True)
                ]


def _front(ink: Ink, grid: Cells, found: list[tuple[Chosen, float]], *, air: float) -> Front | None:
    if len(found) < len(grid.shapes.outlines):
        return None
    shapes = []
    for each, scale in found:
        unit = grid.shapes.outlines[each.shape]
        tight = within_slack(
            ink, Tight(scale, each.stack), unit, least=each.least, slack=each.slack, air=air
        )
        outline = unit.scaled(tight.scale * (1 + ROUNDING))
        if grid.name in BOXES:
            outline = trimmed(grid.name, ink, tight.stack, outline, air=air).scaled(1 + ROUNDING)
        if grid.name in BOXES or len(ink.words) < FEW:
            looks = looks_cost(ink.words, tight.stack, outline, air=air)
        else:
            looks = each.cost + departure_of(outline.aspect, grid.name)
        shapes.append(Shape(stack=tight.stack, outline=outline, looks=looks))
    return Front(undominated(shapes), np.array([each.least for each, _ in found]))


def trimmed(name: str, ink: Ink, stack: Stack, outline: Outline, *, air: float) -> Outline:
    """A box cut to its ink and air, within the family's aspects; other outlines as they are.

    A smaller stack for the new aspect would have been smaller for the old one: still within the
    slack.
    """
    if name not in BOXES:
        return outline
    width, height = ink.points(stack).max(axis=0) + air
    low, high = aspect_range(name, None)
    aspect = min(max(float(width / height), low), high)
    return unit_outline(name, aspect).scaled(float(max(height, width / aspect)))


def undominated(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
    """The widest first, and only those that are less high than every less wide one."""
    ranked = sorted(shapes, key=lambda s: (-s.outline.half_width, s.outline.half_height))
    kept: list[Shape] = []
    for shape in ranked:
        width, height = shape.outline.half_width, shape.outline.half_height
        while kept and kept[-1].outline.half_height >= height * (1 - SAME):
            kept.pop()
        if not kept or width < kept[-1].outline.half_width * (1 - SAME):
            kept.append(shape)
    return tuple(kept)
