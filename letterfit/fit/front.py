"""The front: the shapes a text can take, from wide and shallow to narrow and tall."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from letterfit.fit.aspects import LONG, Cells, aspect_range, few_cells, shortened
from letterfit.fit.balloon import check_slack, check_words
from letterfit.fit.batch import is_plain
from letterfit.fit.fronts import Front, fast_fronts, trimmed, undominated
from letterfit.fit.ink import Ink
from letterfit.fit.judge import looks_cost
from letterfit.fit.model import FittedBalloon, Shape
from letterfit.fit.setting import Setter
from letterfit.fit.smallest import ROUNDING
from letterfit.fit.thorough_front import thorough_front
from letterfit.fit.turned import on_page, turned_outline, turned_room
from letterfit.lettering.words import Words
from letterfit.outline import Floats, Outline
from letterfit.separation import clearances

MOST_SHAPES = 8
"""Shapes in a front: enough to choose from, few enough to try them all."""


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


def set_shapes(
    texts: Sequence[Words], shapes: Sequence[Shape], *, air_mm: float
) -> tuple[FittedBalloon, ...]:
    """One shape of each of some texts set; many are set sooner than one after the other.

    Args:
        texts: The texts that `texts_shapes` was given.
        shapes: Of each one of its shapes.
        air_mm: The air that they were given, mm.
    """
    setters = [Setter(Ink.of(words), air=air_mm) for words in texts]
    outlines = [
        turned_outline(*pair) for pair in zip(texts, (s.outline for s in shapes), strict=True)
    ]
    points = [setter.points(shape.stack) for setter, shape in zip(setters, shapes, strict=True)]
    rooms = clearances(outlines, points)
    return tuple(
        on_page(words, setter.balloon(shape.stack, outline, room=room))
        for words, setter, shape, outline, room in zip(
            texts, setters, shapes, outlines, rooms, strict=True
        )
    )


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
        slack: By what share an area may exceed the least for its aspect, for the looks; three times
            as much to be rid of a lone short word.
        room: Width and height in mm of the place the balloon is for. Where it does not take all
            aspects, as many shapes again are spread over those about it takes.

    Returns:
        At most 8 shapes, the widest first, spread evenly in the logarithm of the aspect over the
        family's range; and 8 more at most, sorted in by width, for a room that wants them. Of
        neither eight is one as wide and as high as another or more. Each is at most 1 + slack times
        as large as the smallest balloon of its own aspect, and of about the least cost of looks
        (`letterfit.fit.looks`) among such stacks. Texts of more than 300 pieces have fewer shapes
        and less slack.

    Raises:
        OutlineError: As `fit_words`.
    """
    (shapes,) = texts_shapes([words], outline=outline, air_mm=air_mm, slack=slack, rooms=[room])
    return shapes


def texts_shapes(
    texts: Sequence[Words],
    *,
    outline: str = "ellipse",
    air_mm: float = 1.2,
    slack: float = 0.06,
    rooms: Sequence[tuple[float, float] | None] | None = None,
) -> tuple[tuple[Shape, ...], ...]:
    """The shapes of many texts, found together: for each what `words_shapes` gives, sooner.

    Args:
        texts: The measured texts.
        outline: The family's name.
        air_mm: The least distance from ink to outline.
        slack: As in `words_shapes`.
        rooms: The room of each, None where it has none.

    Raises:
        OutlineError: As `fit_words`, for any of them.
    """
    for words in texts:
        check_words(words, air_mm=air_mm)
    check_slack(slack)
    counts = [max(2, MOST_SHAPES * LONG // max(LONG, len(words))) for words in texts]
    grids = [few_cells(outline, *aspect_range(outline, None), count) for count in counts]
    fronts = _fronts(texts, grids, air=air_mm, slack=slack)
    given = [None] * len(texts) if rooms is None else list(rooms)
    turned = [turned_room(words, room) for words, room in zip(texts, given, strict=True)]
    closer: dict[int, Cells] = {}
    for k, (front, room) in enumerate(zip(fronts, turned, strict=True)):
        if room is not None and not all(_enters(shape.outline, room) for shape in front.shapes):
            own = shortened(slack, pieces=len(texts[k]))
            ends = _taken(grids[k], front.least, room=room, slack=own)
            cells = few_cells(outline, *ends, counts[k])
            if cells.ends() != grids[k].ends():
                closer[k] = cells
    more = _fronts([texts[k] for k in closer], list(closer.values()), air=air_mm, slack=slack)
    for k, front in zip(closer, more, strict=True):
        both = (*fronts[k].shapes, *front.shapes)
        fronts[k] = Front(tuple(sorted(both, key=lambda s: -s.outline.half_width)), front.least)
    return tuple(_on_page(words, front.shapes) for words, front in zip(texts, fronts, strict=True))


def _on_page(words: Words, shapes: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """The text's widest is the page's highest: vertical text has the front the other way round."""
    if not words.vertical:
        return shapes
    turned = [replace(s, outline=turned_outline(words, s.outline)) for s in shapes[::-1]]
    return tuple(sorted(turned, key=lambda shape: -shape.outline.half_width))


def _fronts(
    texts: Sequence[Words], grids: Sequence[Cells], *, air: float, slack: float
) -> list[Front]:
    """The front of each text over the cells of its grid."""
    plain = [k for k, words in enumerate(texts) if is_plain(words)]
    some = [texts[k] for k in plain], [grids[k] for k in plain]
    fast = dict(zip(plain, fast_fronts(*some, air=air, slack=slack), strict=True))
    return [
        fast.get(k) or _thorough(words, grid, air=air, slack=slack)
        for k, (words, grid) in enumerate(zip(texts, grids, strict=True))
    ]


def _thorough(words: Words, grid: Cells, *, air: float, slack: float) -> Front:
    own = shortened(slack, pieces=len(words))
    smalls, least = thorough_front(words, grid, air=air, slack=own)
    ink = Ink.of(words)
    shapes = []
    for small in smalls:
        outline = trimmed(grid.name, ink, small.stack, small.outline, air=air).scaled(1 + ROUNDING)
        looks = looks_cost(words, small.stack, outline, air=air)
        shapes.append(Shape(stack=small.stack, outline=outline, looks=looks))
    return Front(undominated(shapes), least)


def _enters(outline: Outline, room: tuple[float, float]) -> bool:
    return 2 * outline.half_width <= room[0] and 2 * outline.half_height <= room[1]


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
