"""The tables over lanes against plain enumeration of every stack in their windows."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.fit import looks
from letterfit.fit.aspects import few_cells
from letterfit.fit.graph import Graph
from letterfit.fit.ink import Ink
from letterfit.fit.lanes import open_lanes
from letterfit.fit.profiles import Profiles
from letterfit.fit.scales import line_scales
from letterfit.fit.stacks import best_looking
from letterfit.lettering.words import Words
from letterfit.outline import Floats
from tests.fit.texts import airs, all_stacks, names, texts

plain = texts(least=2).filter(lambda words: words.forced.sum() == 1)


def graph_of(words: Words, name: str, *, air: float, over: float) -> Graph | None:
    """The lines of every number of lines in two shapes, at scales somewhat too large."""
    grid = few_cells(name, 1.0, 2.6, 2)
    ink = Ink.of(words)
    least = {
        (len(stack) - 1, which): over * float(line_scales(ink, shape, stack, air=air).max())
        for which, shape in enumerate(grid.shapes.outlines)
        for stack in all_stacks(words)
    }
    count, which = map(np.array, zip(*least, strict=True))
    lanes = open_lanes(
        Profiles.of([words], air=air),
        grid.shapes,
        lanes=(np.zeros_like(count), count, which),
        limit=np.array(list(least.values())),
    )
    return None if lanes is None else Graph.of(lanes)


def stacks_of(graph: Graph, lane: int) -> Iterator[tuple[int, ...]]:
    """The numbers of the lines of every stack of a lane, from the top."""

    def under(node: int) -> Iterator[tuple[int, ...]]:
        lines = np.flatnonzero(graph.over == node).tolist()
        if node < graph.bottom:
            yield ()
        for line in lines:
            for rest in under(int(graph.under[line])):
                yield (line, *rest)

    yield from under(int(graph.tops[lane]))


@settings(max_examples=30)
@given(plain, names, airs, st.floats(1.0, 1.2))
def test_scales_are_lower_bounds_and_the_least_of_all(
    words: Words, name: str, air: float, over: float
) -> None:
    """Per lane the least over all its stacks, and none asks for less than the bound says."""
    graph = graph_of(words, name, air=air, over=over)
    assert graph is not None
    ink = Ink.of(words)
    for lane, scale in enumerate(graph.scales.tolist()):
        shape = graph.lanes.shapes.outlines[graph.lanes.which[lane]]
        best = min((graph.asked[list(s)].max() for s in stacks_of(graph, lane)), default=np.inf)
        assert scale == pytest.approx(best)
        for lines in stacks_of(graph, lane):
            stack = (0, *graph.piece[graph.under[list(lines)]].tolist())
            exact = line_scales(ink, shape, stack, air=air).max()
            assert graph.asked[list(lines)].max() <= exact * (1 + 1e-9)


@settings(max_examples=30)
@given(plain, names, airs, st.floats(1.0, 1.2))
def test_no_stack_of_a_lane_looks_better(words: Words, name: str, air: float, over: float) -> None:
    """The cost is that of the stack given, and the least over all stacks within the limit."""
    whole = graph_of(words, name, air=air, over=over)
    assert whole is not None
    lanes = whole.lanes
    graph = whole.in_use(lanes.limit)
    half_width = lanes.limit * lanes.shapes.half_widths[lanes.which]
    best = best_looking(graph, room=lanes.room, half_width=half_width)
    assert best.lanes.tolist() == [k for k, s in enumerate(whole.scales) if s <= lanes.limit[k]]
    for place, lane in enumerate(best.lanes.tolist()):
        costs = {
            (0, *whole.piece[whole.under[list(lines)]].tolist()): _cost(
                words, whole, lines, room=lanes.room[lane], half_width=float(half_width[lane])
            )
            for lines in stacks_of(whole, lane)
            if whole.asked[list(lines)].max() <= lanes.limit[lane]
        }
        assert best.costs[place] == pytest.approx(min(costs.values()))
        assert costs[best.stack(place)] == pytest.approx(min(costs.values()))


def _cost(
    words: Words, graph: Graph, lines: tuple[int, ...], *, room: Floats, half_width: float
) -> float:
    """The cost of looks of one stack, term by term, over every place of its longest line."""
    count = len(lines)
    half = graph.half[list(lines)] / half_width
    gaps = room[:count][::-1] / half_width - half
    total = float(looks.unevenness(gaps).mean())
    for k, line in enumerate(lines):
        first, end = int(graph.piece[graph.over[line]]), int(graph.piece[graph.under[line]])
        total += float(looks.break_price(words.penalties[end - 1]))
        if count > 1:
            letters = sum(map(str.isalnum, words.slice_text(first, end - 1)))
            begun = 1 + int(words.word_counts[first + 1 : end].sum())
            lost = looks.lone_word if k in (0, count - 1) else looks.short_line
            total += float(lost(letters, begun))
    return total + min(_shape(half.tolist(), peak) for peak in range(count))


def _shape(half: list[float], peak: int) -> float:
    steps = [
        float(looks.step(upper - lower if k < peak else lower - upper))
        for k, (upper, lower) in enumerate(pairwise(half))
    ]
    return sum(steps) + float(looks.peak_place(peak, len(half)))
