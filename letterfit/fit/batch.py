"""The fast search: the best-looking stacks of many texts at once.

Texts whose pieces are plain runs (no forced line ends, lines centred) go through lanes together:
which numbers of lines can matter at all, the tightest stack of each lane, the best-looking one
within the slack of the tightest. What takes a processor longest in a search of one text is to begin
each of some hundred operations on small arrays; for twenty texts it takes hardly longer.

The tightest scales are lower bounds, right to some 0.1 %; the stacks that come out are measured
exactly before anything is said of them. What the fast search cannot answer is left to the thorough
one: `letterfit.fit.smallest`.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from letterfit.fit import looks
from letterfit.fit.aspects import LONG, Cells, fine_cells
from letterfit.fit.graph import Graph
from letterfit.fit.ink import Ink, Stack, begins_together
from letterfit.fit.lanes import LAST, Bools, open_lanes
from letterfit.fit.lines import Shapes
from letterfit.fit.profiles import COS, DIRECTIONS, DOWN, SIN, UP, Profiles
from letterfit.fit.scales import stack_areas
from letterfit.fit.smallest import SAME, Small, in_cell
from letterfit.fit.stacks import Best, best_looking
from letterfit.fit.survey import OVERSIZE
from letterfit.lettering.words import Words
from letterfit.outline import Floats
from letterfit.runs import starts

GUESS = (1.05, 0.63)
"""Scales up to 1.05 + 0.63 / sqrt(pieces) times the bound are looked at first: measured over play
speeches, that is all of a slack of 6 % for 97 of 100 shapes."""

BAND = 0.08
"""By what share of the least area at a cell's middle a stack may miss it and win in between."""

WIDER = 1.5
"""By how much a guess is widened that held no stack."""

ATTEMPTS = 4
"""How often a guess is widened before a text is left to the thorough search."""


@dataclass(frozen=True, slots=True)
class Reserve:
    """What is kept of a slack, for the sake of speed.

    Args:
        shy: By what share of the scale a chosen stack stays under its limit: lower bounds are that
            low, so that it keeps the slack for sure.
        enough: What share of the slack is enough, where the first guess leaves no more.
    """

    shy: float = 0.003
    enough: float = 0.5


NOTHING = Reserve(shy=0.0, enough=1.0)
"""The whole slack is used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A stack chosen for its looks in one shape.

    Args:
        stack: First piece of every line, and the number of pieces.
        shape: The number of its shape.
        cost: What its looks cost, its aspect apart.
        least: The scale that the tightest stack asks for of that shape, a lower bound; or that has
            the least area of all shapes.
        slack: The slack it was chosen with.
    """

    stack: Stack
    shape: int
    cost: float
    least: float
    slack: float


def is_plain(words: Words) -> bool:
    """Whether a text can go through the fast search."""
    return len(words) <= LONG and sum(words.cut.musts) == 1 and not begins_together(words)


def handsome_of_each(
    texts: Profiles,
    grids: Sequence[Cells],
    *,
    slack: float,
    each: bool,
    reserve: Reserve = Reserve(),
) -> list[list[Chosen]]:
    """Per text and shape the stack of least cost of looks within the slack of the tightest.

    Args:
        texts: Plain texts.
        grids: The shapes of each.
        slack: By what share the area may exceed that of the tightest.
        each: Whether the tightest is that of each shape, or of all shapes of a text.
        reserve: What is kept of the slack.

    Returns:
        Per text the stacks that were found, by shape; none where the search gave up.
    """
    shapes, offsets = _together(grids)
    shown: list[list[Chosen]] = [[] for _ in texts.words]
    for best, least in _search(texts, shapes, (grids, offsets), goal=(slack, each, reserve)):
        for text, shape, place in _best_of_each(best, len(shapes.outlines)):
            chosen = Chosen(
                stack=best.stack(place),
                shape=shape - offsets[text],
                cost=float(best.costs[place]),
                least=float(least[text, shape]),
                slack=slack,
            )
            shown[text].append(chosen)
    return shown


def _best_of_each(best: Best, shapes: int) -> list[tuple[int, int, int]]:
    """Text, shape and place of the best of all numbers of lines, in order, of so many shapes."""
    lanes = best.graph.lanes
    keys = lanes.text[best.lanes] * shapes + lanes.which[best.lanes]
    order = np.lexsort((best.lanes, best.costs, keys))
    first = order[starts(keys[order])]
    return [
        (*divmod(key, shapes), at)
        for key, at in zip(keys[first].tolist(), first.tolist(), strict=True)
    ]


def fast_fits(texts: Profiles, grid: Cells, *, slack: float) -> list[Small | None]:
    """Per text the best-looking stack within the slack of the smallest outline, nearly.

    Args:
        texts: Plain texts.
        grid: The shapes, narrow cells.
        slack: By what share the area may exceed the least at the cells' middles.

    Returns:
        For each text the stack with the smallest outline round it in its cell; None where only the
        thorough search can tell: it found none, or none without a lone short word.
    """
    chosen = handsome_of_each(texts, [grid] * len(texts.words), slack=slack, each=False)
    departures = looks.aspect_departure(grid.aspects, grid.name)
    found = []
    for ink, own in zip(texts.inks, chosen, strict=True):
        ranked = sorted(own, key=lambda each: each.cost + departures[each.shape])
        found.append(_fit(ink, grid, ranked, air=texts.air, slack=slack))
    return found


def _fit(
    ink: Ink, grid: Cells, ranked: Sequence[Chosen], *, air: float, slack: float
) -> Small | None:
    """The first of some stacks that keeps the slack."""
    for each in ranked:
        if each.cost >= looks.LOST:
            return None
        small = in_cell(grid, ink, each.stack, cell=each.shape, air=air)
        if small.area <= each.least**2 * grid.shapes.areas[each.shape] * (1 + slack) * (1 + SAME):
            return small
    return None


def _together(grids: Sequence[Cells]) -> tuple[Shapes, list[int]]:
    """All shapes in one list, and where those of each text begin."""
    begins: dict[int, int] = {}
    parts: list[Shapes] = []
    count = 0
    for grid in grids:
        if id(grid) not in begins:
            begins[id(grid)] = count
            parts.append(grid.shapes)
            count += len(grid.shapes.outlines)
    return (parts[0] if len(parts) == 1 else Shapes.joined(parts)), [begins[id(g)] for g in grids]


def _search(
    texts: Profiles,
    shapes: Shapes,
    grids: tuple[Sequence[Cells], list[int]],
    *,
    goal: tuple[float, bool, Reserve],
) -> Iterator[tuple[Best, Floats]]:
    """The best-looking stacks of all lanes within the slack, and the least scales (texts, shapes).

    A text is done with as soon as no shape of it lacks a wider search: those that do go on alone.

    Yields:
        The texts that are done with, each once; none of one that has no stack.
    """
    slack, each, reserve = goal
    waiting = np.zeros((len(texts.words), len(shapes.outlines)), dtype=np.bool_)
    for k, (grid, begin) in enumerate(zip(*grids, strict=True)):
        waiting[k, begin : begin + len(grid.shapes.outlines)] = True
    bounds = least_bounds(texts, shapes)
    bounds[~waiting[:, None].repeat(bounds.shape[1], axis=1)] = math.inf
    limits = _limits(bounds.min(axis=1) * first_guess(texts)[:, None], shapes, each=each)
    for attempt in range(ATTEMPTS):
        limits[~waiting] = 0.0
        text, lines, which = (bounds <= limits[:, None]).nonzero()
        lanes = open_lanes(texts, shapes, lanes=(text, lines + 1, which), limit=limits[text, which])
        if lanes is None:
            limits *= WIDER
            continue
        graph = Graph.of(lanes)
        least = np.full(limits.shape, math.inf)
        np.minimum.at(least, (lanes.text, lanes.which), graph.scales)
        if not each:
            least = np.sqrt(_least_area(texts, graph, grids[0])[:, None] / shapes.areas)
        wanted = least * math.sqrt(1 + slack)
        lacking = waiting & ~(least * math.sqrt(1 + slack * reserve.enough) <= limits)
        lacks: Bools = np.logical_or.reduce(lacking, axis=1, keepdims=True)
        last = attempt == ATTEMPTS - 1
        found = waiting & ~(lacking if last else lacks)
        most = np.where(found, np.minimum(wanted, limits), 0.0)
        enough = np.maximum(most * (1 - reserve.shy), np.where(found, least, 0.0))
        best = _looked_at(graph, enough, most) if found.any() else None
        if best is not None:
            yield best, least
        waiting &= lacks
        if last or not waiting.any():
            return
        limits = np.where(lacking, np.where(np.isfinite(wanted), wanted, WIDER * limits), limits)


def _least_area(texts: Profiles, graph: Graph, grids: Sequence[Cells]) -> Floats:
    """Per text the least area of an outline at any aspect of its grid, nearly.

    The stacks that are tightest at the middles of cells, for about the least area, are tried at
    aspects in between.
    """
    lanes = graph.lanes
    areas = graph.scales**2 * lanes.shapes.areas[lanes.which]
    least = np.full(len(texts.words), math.inf)
    np.minimum.at(least, lanes.text, areas)
    for text, grid in enumerate(grids):
        some = (lanes.text == text) & np.isfinite(areas)
        (near,) = (some & (areas <= least[text] * (1 + BAND))).nonzero()
        if len(near):
            fine = fine_cells(grid.name, *grid.ends(), len(grid.shapes.outlines))
            stacks = list(dict.fromkeys((text, graph.tightest(lane)) for lane in near.tolist()))
            least[text] = stack_areas(texts, stacks, fine.shapes).min()
    return least


def _looked_at(graph: Graph, limits: Floats, most: Floats) -> Best | None:
    """The best-looking stacks within limits per text and shape, judged at the largest scales."""
    lanes = graph.lanes
    own = (lanes.text, lanes.which)
    half = most[own] * lanes.shapes.half_widths[lanes.which]
    used = graph.in_use(limits[own])
    if not len(used.asked):
        return None
    return best_looking(used, room=lanes.room_at(most[own]), half_width=half)


def first_guess(texts: Profiles) -> Floats:
    """Up to which multiple of its bound a shape is looked at first, per text."""
    guess: Floats = GUESS[0] + GUESS[1] / np.sqrt(np.diff(texts.base))
    return guess


def _limits(scales: Floats, shapes: Shapes, *, each: bool) -> Floats:
    """Per text and shape the scale whose area is the least, of the shape or of all shapes."""
    if each:
        return scales
    areas = scales**2 * shapes.areas
    result: Floats = np.sqrt(areas.min(axis=1)[:, None] / shapes.areas)
    return result


def least_bounds(texts: Profiles, shapes: Shapes) -> Floats:
    """A scale that no stack of so many lines of a text stays under; (W, lines, S).

    For any directions t_k, one per line, the halves x_k of the lines' advances keep

        sum of x_k  <=  sum of (scale h(t_k) - e_k sin t_k - m) / cos t_k + bonus_k,

    e_k the outer edge of capitals, and add up to half the text's length but for the spaces at
    breaks. The directions are those in which a full outline of about the right size would touch.
    """
    pieces = np.diff(texts.base)
    length = texts.ends[texts.base[1:] - 1]
    half_leading, half_cap = texts.half_leading[:, None], texts.half_cap[:, None]
    text_area = OVERSIZE * 2 * length[:, None] * half_leading
    about = np.sqrt(text_area / shapes.areas) + texts.air / shapes.half_heights
    heights = about * shapes.half_heights
    tallest = heights.max(axis=1) / texts.half_leading
    most = int(np.minimum(tallest + 2, pieces).max())
    # The outermost lines of a stack of n + 1 are n half leadings off its middle, one each way; the
    # rest are a stack of n - 1.
    off = np.arange(most)
    edges = (off * half_leading + half_cap)[..., None]
    rise = np.minimum(edges / heights[:, None], 0.9)
    lean = shapes.half_widths / shapes.half_heights * rise / np.sqrt(1 - rise * rise)
    t = np.minimum((np.arctan(lean) / DIRECTIONS[1]).astype(np.int64), LAST - 1)
    weight = np.where(off > 0, 2, 1)[:, None] / COS[t]
    text = np.arange(len(pieces))[:, None, None]
    asked = weight * (edges * SIN[t] + texts.air) - texts.bonus[text, DOWN, t]
    asked[:, 1:] -= texts.bonus[text, UP, t[:, 1:]]
    h = weight / shapes.coarse[np.arange(len(shapes.outlines)), t]
    for total in (asked, h):
        for even in (0, 1):
            total[:, even::2] = total[:, even::2].cumsum(axis=1)
    half = (length[:, None] - off * texts.gaps[:, None]) / 2
    result: Floats = (half[..., None] + asked) / h
    low = texts.lowest[:, None] + off * half_leading + texts.air
    result = np.maximum(result, low[..., None] * shapes.coarse[:, LAST])
    result[off >= pieces[:, None]] = math.inf
    return result
