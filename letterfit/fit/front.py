"""The front: the shapes a text can take, from wide and shallow to narrow and tall."""

import math

import numpy as np

from letterfit.fit.aspects import LONG, Cells, aspect_range, few_cells, shortened, unit_outline
from letterfit.fit.balloon import check_slack, check_words
from letterfit.fit.bound import least_scale
from letterfit.fit.exact import least_stack
from letterfit.fit.flush import Blocks
from letterfit.fit.handsome import handsome
from letterfit.fit.ink import Ink, Stack, begins_together
from letterfit.fit.judge import looks_cost
from letterfit.fit.model import FittedBalloon, Shape
from letterfit.fit.setting import Setter
from letterfit.fit.smallest import SAME, Small
from letterfit.fit.survey import Goal, Survey, survey
from letterfit.fit.turned import on_page, turned_outline, turned_room
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline

MOST_SHAPES = 8
"""Shapes in a front: enough to choose from, few enough to try them all."""

ROUNDING = 1e-6
"""The survey's scales are in single precision."""

BOXES = {"caption"}
"""Families whose width and height can shrink apart."""


def words_front(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    room: tuple[float, float] | None = None,
) -> tuple[FittedBalloon, ...]:
    """The shapes a text can take in outlines of a family, every one set.

    Args, what holds of the result, and errors: as `words_shapes`.
    """
    shapes = words_shapes(words, outline=outline, air_mm=air_mm, slack=slack, room=room)
    setter = Setter(Ink.of(words), air=air_mm)
    return tuple(_set(setter, words, shape) for shape in shapes)


def set_shape(words: Words, shape: Shape, *, air_mm: float) -> FittedBalloon:
    """One shape of a text set.

    Args:
        words: The text that `words_shapes` was given.
        shape: One of its shapes.
        air_mm: The air that it was given, mm.
    """
    return _set(Setter(Ink.of(words), air=air_mm), words, shape)


def _set(setter: Setter, words: Words, shape: Shape) -> FittedBalloon:
    outline = turned_outline(words, shape.outline)
    return on_page(words, setter.balloon(shape.stack, outline))


def words_shapes(
    words: Words,
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    room: tuple[float, float] | None = None,
) -> tuple[Shape, ...]:
    """The shapes a text can take in outlines of a family: what the placing stage chooses from.

    Args:
        words: The measured text.
        outline: The family's name, a key of `letterfit.families.FAMILIES`.
        air_mm: The least distance from ink to outline.
        slack: By what share an area may exceed the least for its aspect, for the looks.
        room: Width and height in mm of the place the balloon is for. Where it does not take all
            aspects, as many shapes again are spread over those about it takes.

    Returns:
        At most 8 shapes, the widest first, spread evenly in the logarithm of the aspect over the
        family's range; and 8 more at most, sorted in by width, for a room that wants them. Of
        neither eight is one as wide and as high as another or more. Each is at most 1 + slack times
        as large as the smallest balloon of its own aspect, and of the least cost of looks
        (`letterfit.fit.looks`) among such stacks; where a lower bound let through one too large,
        the smallest itself. Texts of more than 300 pieces have fewer shapes and less slack.

    Raises:
        OutlineError: As `fit_words`.
    """
    check_words(words, air_mm=air_mm)
    check_slack(slack)
    count = max(2, MOST_SHAPES * LONG // max(LONG, len(words)))
    slack = shortened(slack, pieces=len(words))
    grid = few_cells(outline, *aspect_range(outline, None), count)
    room = turned_room(words, room)
    smalls, least = _surveyed(words, grid, air=air_mm, slack=slack)
    if room is not None and not all(_enters(small.outline, room) for small in smalls):
        closer = few_cells(outline, *_taken(grid, least, room=room, slack=slack), count)
        if closer.ends() != grid.ends():
            smalls += _surveyed(words, closer, air=air_mm, slack=slack)[0]
            smalls.sort(key=lambda small: -small.outline.half_width)
    # The text's widest is the page's highest: vertical text has the front the other way round.
    ranked = reversed(smalls) if words.vertical else smalls
    return tuple(_shape(words, small, air=air_mm) for small in ranked)


def _surveyed(words: Words, grid: Cells, *, air: float, slack: float) -> tuple[list[Small], Floats]:
    """The front over the cells of a grid, and the least scale of each cell."""
    if begins_together(words):
        blocks = Blocks.of(words, aspects=grid.ends())
        smalls, least = blocks.smalls(grid, air=air, slack=slack)
        return _undominated([_trimmed(grid.name, blocks.ink, s, air=air) for s in smalls]), least
    found = survey(words, grid.shapes, goal=Goal(slack, each=True), air=air)
    return _undominated(_best_of_each(words, grid, found, slack=slack)), found.least


def _enters(outline: Outline, room: tuple[float, float]) -> bool:
    return 2 * outline.half_width <= room[0] and 2 * outline.half_height <= room[1]


def _shape(words: Words, small: Small, *, air: float) -> Shape:
    outline = small.safe
    cost = looks_cost(words, small.stack, outline, air=air)
    return Shape(stack=small.stack, outline=turned_outline(words, outline), looks=cost)


def _taken(
    grid: Cells, least: Floats, *, room: tuple[float, float], slack: float
) -> tuple[float, float]:
    """The aspects that a room takes, from the cells it takes and a neighbour on either side."""
    scales = least * math.sqrt(1 + slack)
    narrow = np.flatnonzero(2 * scales * grid.shapes.half_widths <= room[0])
    flat = np.flatnonzero(2 * scales * grid.shapes.half_heights <= room[1])
    last = len(scales) - 1
    # With the aspect the width grows and the height falls: the room takes what lies between.
    first_taken = int(flat[0]) if len(flat) else last
    last_taken = int(narrow[-1]) if len(narrow) else 0
    ends = sorted((max(first_taken - 1, 0), min(last_taken + 1, last)))
    return float(grid.edges[ends[0]]), float(grid.edges[ends[1] + 1])


def _best_of_each(words: Words, grid: Cells, found: Survey, *, slack: float) -> list[Small]:
    """Per aspect the best-looking stack within the slack, in the smallest outline round it."""
    limits = (found.least * math.sqrt(1 + slack) * (1 + ROUNDING))[found.which]
    pairs = np.flatnonzero(found.scales <= limits)
    looking = handsome(words, found, pairs, limits=limits[pairs])
    best: dict[int, int] = {}
    for place in np.argsort(looking.costs, kind="stable").tolist():
        best.setdefault(int(found.which[pairs[place]]), place)
    return [
        _trimmed(
            grid.name,
            found.candidates.boxes,
            _within(words, found, looking.stack(place), cell=cell, slack=slack),
            air=found.candidates.air,
        )
        for cell, place in sorted(best.items())
    ]


def _within(words: Words, found: Survey, stack: Stack, *, cell: int, slack: float) -> Small:
    """The stack in its outline; or the smallest stack when that outline exceeds the slack."""
    lines, shape = found.candidates, found.shapes.outlines[cell]
    scale = least_scale(lines.boxes.points(stack), shape, air=lines.air).scale
    if scale > float(found.least[cell]) * math.sqrt(1 + slack):
        # The survey's scales are lower bounds: only the exact least can tell.
        tight = least_stack(words, shape, air=lines.air)
        if scale > tight.scale * math.sqrt(1 + slack):
            return Small(tight.stack, shape.scaled(tight.scale))
    return Small(stack, shape.scaled(scale))


def _trimmed(name: str, ink: Ink, small: Small, *, air: float) -> Small:
    """A box cut to its ink and air, within the family's aspects; other outlines as they are.

    A smaller stack for the new aspect would have been smaller for the old one: still within the
    slack.
    """
    if name not in BOXES:
        return small
    width, height = ink.points(small.stack).max(axis=0) + air
    low, high = aspect_range(name, None)
    aspect = min(max(float(width / height), low), high)
    outline = unit_outline(name, aspect).scaled(float(max(height, width / aspect)))
    return Small(small.stack, outline)


def _undominated(smalls: list[Small]) -> list[Small]:
    """The widest first, and only those that are less high than every less wide one."""
    ranked = sorted(smalls, key=lambda s: (-s.outline.half_width, s.outline.half_height))
    kept: list[Small] = []
    for small in ranked:
        width, height = small.outline.half_width, small.outline.half_height
        while kept and kept[-1].outline.half_height >= height * (1 - SAME):
            kept.pop()
        if not kept or width < kept[-1].outline.half_width * (1 - SAME):
            kept.append(small)
    return kept
